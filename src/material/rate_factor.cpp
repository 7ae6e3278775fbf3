#include "crushwright/errors.hpp"
#include "crushwright/material.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {

double rate_factor(const RateLaw& law, double strain_rate) {
  if (!(strain_rate >= 0) || !std::isfinite(strain_rate))
    throw OutOfDomain(fmt::format("a strain rate is {} 1/s; it must be 0 or more", strain_rate));
  if (!(law.first > 0) || !(law.second > 0))
    throw OutOfDomain(
        fmt::format("the constants of a rate law are {} and {}; both must be above 0", law.first, law.second));
  if (strain_rate == 0)
    return 1;
  if (law.form == RateForm::cowper_symonds)
    return 1 + std::pow(strain_rate / law.first, 1 / law.second);
  return std::max(1.0, 1 + law.first * std::log(strain_rate / law.second));
}

} // namespace crushwright
