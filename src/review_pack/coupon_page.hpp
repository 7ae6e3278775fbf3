#pragma once
#include "result_file/coupon_document.hpp"

#include <string>

namespace crushwright {

/// The page of a series of tests: what was measured and may be claimed, curves, laws, conditions, what was handled on
/// the way, cautions; one self-contained HTML document that reads nothing from the network.
/// @throws NotFinite when a number to be drawn is NaN or infinite.
std::string coupon_page(const CouponResult& result, const std::string& program_version);

} // namespace crushwright
