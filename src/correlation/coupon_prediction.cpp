#include "crushwright/coupon_prediction.hpp"

#include "correlation/common_grid.hpp"

#include <algorithm>

namespace crushwright {

namespace {

StressStrain curve_of(const CellProperties& properties) {
  CellNumbers numbers;
  numbers.plateau_stress = properties.plateau_stress.value;
  numbers.elastic_modulus = properties.elastic_modulus.value;
  numbers.first_peak_ratio = properties.first_peak_ratio.value;
  numbers.efficiency_strain = properties.efficiency_strain.value;
  numbers.packing_strain = properties.locking_strain.value;
  return stress_strain(curve_shape(curve_input(numbers, numbers.efficiency_strain)), numbers.plateau_stress,
                       numbers.elastic_modulus, numbers.first_peak_ratio);
}

/// The curve up to a strain inside it, its end cut exactly there.
SampledCurve up_to(const StressStrain& curve, double strain) {
  const SampledCurve whole{curve.strain, curve.stress};
  SampledCurve cut;
  for (std::size_t i = 0; i < whole.x.size() && whole.x[i] < strain; ++i) {
    cut.x.push_back(whole.x[i]);
    cut.y.push_back(whole.y[i]);
  }
  const double end = std::min(strain, whole.x.back());
  if (cut.x.empty() || cut.x.back() < end) {
    cut.x.push_back(end);
    cut.y.push_back(value_at(whole, end));
  }
  return cut;
}

} // namespace

SpecimenPrediction predicted_specimen(const ReducedSpecimen& specimen, const CellProperties& properties,
                                      double plateau_from, double plateau_to) {
  SpecimenPrediction result;
  result.specimen = specimen.facts.id;
  result.relative_density = properties.relative_density;
  if (!properties.plateau_stress.all.empty()) {
    result.law = properties.plateau_stress.all.front().law;
    result.evidence = properties.plateau_stress.all.front().evidence;
  }
  CorrelationOptions options;
  options.plateau_from = plateau_from;
  options.plateau_to = plateau_to;
  result.correlation = correlate({curve_of(properties).strain, curve_of(properties).stress},
                                 up_to(specimen.test.curve, specimen.quantities.efficiency_strain), options);
  return result;
}

} // namespace crushwright
