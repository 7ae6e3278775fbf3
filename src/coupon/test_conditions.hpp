#pragma once
#include "crushwright/coupon_series.hpp"

namespace crushwright {

/// What ISO 13314 asks of specimen and test, each beside what was found; docs/method/coupon.md.
std::vector<TestCondition> test_conditions(const SpecimenFacts& facts, std::optional<double> relative_density);

} // namespace crushwright
