#pragma once
#include "result_file/coupon_document.hpp"

#include <string>

namespace crushwright {

/// What `coupon` prints.
std::string coupon_text(const CouponResult& result);

} // namespace crushwright
