#include "cell_property/gathered_laws.hpp"
#include "cell_property/strain_limit.hpp"
#include "crushwright/cell_property.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {

namespace {

/// ρ̄ in both bases; the nominal one is worked out once per layer and only when a law needs it.
class LayerDensity {
public:
  LayerDensity(const UnitCell& cell, double true_relative_density) : cell_(cell), true_(true_relative_density) {}
  double in(DensityBasis basis) {
    if (basis != DensityBasis::nominal) {
      return true_;
    }
    if (nominal_ <= 0) {
      nominal_ = in_basis(cell_, true_, DensityBasis::nominal);
    }
    return nominal_;
  }

private:
  const UnitCell& cell_;
  double true_;
  double nominal_ = 0;
};

double power(double base, double exponent) {
  return exponent == 1 ? base : exponent == 2 ? base * base : exponent == 0 ? 1 : std::pow(base, exponent);
}

double factor(const PowerLaw& law, LayerDensity& density) {
  return law.coefficient * power(density.in(law.origin.density_basis), law.exponent);
}

double strain(const DensificationLaw& law, LayerDensity& density) {
  return law.intercept - law.slope * density.in(law.origin.density_basis);
}

} // namespace

ChosenLaws choose_laws(const UnitCell& cell, const BaseMaterial& material, const std::string& direction,
                       double relative_density, std::optional<Evidence> asked) {
  const GatheredLaws gathered = gather_laws({cell, material, direction, relative_density, asked});
  ChosenLaws chosen;
  chosen.elastic_modulus = gathered.elastic_modulus.front().law;
  chosen.plateau_stress = gathered.plateau_stress.front().law;
  chosen.plateau_basis_stress = *basis_stress(material, chosen.plateau_stress.stress_basis);
  if (!gathered.first_peak_ratio.empty()) {
    chosen.first_peak_ratio = gathered.first_peak_ratio.front().law;
  }
  chosen.locking_strain = gathered.locking_strain.front().law;
  chosen.efficiency_strain = gathered.efficiency_strain.front().law;
  if (!gathered.plateau_end.empty()) {
    chosen.plateau_end = gathered.plateau_end.front().law;
  }
  return chosen;
}

CellNumbers cell_numbers(const UnitCell& cell, const BaseMaterial& material, const ChosenLaws& laws,
                         double relative_density) {
  if (!(relative_density > 0 && relative_density < 1)) {
    throw OutOfDomain(
        fmt::format("{}: the relative density is {:g} and must lie between 0 and 1", cell.name, relative_density));
  }
  LayerDensity density(cell, relative_density);
  CellNumbers numbers;
  numbers.plateau_stress = laws.plateau_basis_stress * factor(laws.plateau_stress, density);
  numbers.elastic_modulus = material.youngs_modulus->value * factor(laws.elastic_modulus, density);
  if (laws.first_peak_ratio) {
    numbers.first_peak_ratio = std::max(1.0, factor(*laws.first_peak_ratio, density));
  }
  numbers.packing_strain = strain(laws.locking_strain, density);
  if (!(numbers.packing_strain > 0)) {
    throw OutOfDomain(fmt::format("{}: at relative density {:g} law '{}' leaves no strain before it locks", cell.name,
                                  relative_density, laws.locking_strain.origin.id));
  }
  numbers.efficiency_strain =
      std::min(strain(laws.efficiency_strain, density), greatest_efficiency_strain(numbers.packing_strain));
  return numbers;
}

} // namespace crushwright
