#pragma once
#include "crushwright/coupon_series.hpp"
#include "crushwright/metal_test.hpp"
#include "result_file/measured_entry.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// What a catalogue entry says of the tests behind it.
struct TestNote {
  std::string id;      ///< of the laws: "coupons-<series>"
  std::string process; ///< spelt as the base material's
  std::vector<TestedFile> files;
};

/// The laws of a report that a case can use, of evidence `measured`. What cannot become one is said in `remarks`: a
/// refused law, a gradient of first loading (no modulus), a densification line above 1 at no density.
MeasuredLawLists catalogue_laws(const CouponReport& report, const TestNote& note, std::vector<std::string>& remarks);

/// The properties of a report that replace a base material's own: proof stress, ultimate stress, elongations and
/// hardening; Young's modulus only where no test of the series doubts it.
std::vector<MeasuredProperty> catalogue_properties(const MetalReport& report, const TestNote& note,
                                                   std::vector<std::string>& remarks);

} // namespace crushwright
