#pragma once
#include "crushwright/coupon_series.hpp"

#include "coupon/made_record.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>

namespace conditioned_check {

using crushwright::ConditionedTest;
using crushwright::StressStrain;

inline bool says(const ConditionedTest& test, const std::string& part) {
  return std::any_of(test.remarks.begin(), test.remarks.end(),
                     [&part](const std::string& remark) { return remark.find(part) != std::string::npos; });
}

inline void check_same(const StressStrain& a, const StressStrain& b, double strain_margin) {
  REQUIRE(a.strain.size() == b.strain.size());
  for (std::size_t i = 0; i < a.strain.size(); ++i) {
    CHECK(a.strain[i] == Approx(b.strain[i]).margin(strain_margin));
    CHECK(a.stress[i] == Approx(b.stress[i]).margin(1e-3));
  }
}

} // namespace conditioned_check
