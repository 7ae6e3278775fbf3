#pragma once
#include "review_pack/page.hpp"

#include <string>

namespace crushwright {

/// Rate laws of the structures' metals, and strain rates and gains by impact; HTML, empty where no metal states a
/// law.
std::string rate_part(const Estimate& estimate);

} // namespace crushwright
