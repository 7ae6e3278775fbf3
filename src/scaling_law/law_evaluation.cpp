#include "crushwright/errors.hpp"
#include "crushwright/scaling_law.hpp"

#include <cmath>
#include <fmt/format.h>

namespace crushwright {

namespace {

void require_relative_density(const LawOrigin& origin, double relative_density) {
  if (!(relative_density > 0 && relative_density < 1)) {
    throw OutOfDomain(fmt::format("law '{}': the relative density is {:g} and must lie between 0 and 1", origin.id,
                                  relative_density));
  }
}

} // namespace

Flagged evaluate(const PowerLaw& law, double relative_density) {
  require_relative_density(law.origin, relative_density);
  return {law.coefficient * std::pow(relative_density, law.exponent),
          law.origin.fitted_relative_density.contains(relative_density)};
}

Flagged evaluate(const DensificationLaw& law, double relative_density) {
  require_relative_density(law.origin, relative_density);
  const double strain = law.intercept - law.slope * relative_density;
  if (!(strain > 0 && strain < 1)) {
    throw OutOfDomain(
        fmt::format("law '{}': at relative density {:g} the densification strain is {:g}, outside 0 to 1",
                    law.origin.id, relative_density, strain));
  }
  return {strain, law.origin.fitted_relative_density.contains(relative_density)};
}

} // namespace crushwright
