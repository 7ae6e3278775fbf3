#pragma once
#include "command_line/command_coupon.hpp"
#include "crushwright/test_record.hpp"

#include <string>

namespace crushwright {

/// The series that the user means, and a short name for it.
struct SeriesInput {
  TestSeries series;
  std::string name; ///< of the description, or of the only data file, or "coupons"
};

/// @throws InputError for options that do not go together, and for everything in the files.
SeriesInput series_input(const CouponOptions& options);

} // namespace crushwright
