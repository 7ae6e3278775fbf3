#include "crushwright/catalogue.hpp"
#include "crushwright/coupon_prediction.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

CellProperties kelvin(double relative_density) {
  const Catalogue catalogue({std::string(CRUSHWRIGHT_SOURCE_DIR) + "/lattices"});
  return cell_properties(catalogue.cell("kelvin"), catalogue.material("AlSi10Mg-stress-relieved"), "100",
                         relative_density);
}

/// A specimen that is the program's own curve, its stresses times a factor.
ReducedSpecimen own_specimen(const CellProperties& properties, double factor) {
  CellNumbers numbers{properties.plateau_stress.value, properties.elastic_modulus.value,
                      properties.first_peak_ratio.value, properties.efficiency_strain.value,
                      properties.locking_strain.value};
  TestRecord record;
  record.kind = RecordKind::stress_strain;
  record.file_name = "own.csv";
  record.specimen.id = "own";
  record.specimen.area = 1e-3;
  record.specimen.height = 0.05;
  record.specimen.relative_density = properties.relative_density;
  const StressStrain curve = stress_strain(curve_shape(curve_input(numbers, numbers.efficiency_strain)),
                                           numbers.plateau_stress, numbers.elastic_modulus, numbers.first_peak_ratio);
  std::size_t line = 2;
  for (std::size_t i = 0; i + 1 < curve.strain.size(); ++i) {
    for (int k = 0; k < 20; ++k) {
      const double share = k / 20.0;
      record.points.push_back({curve.strain[i] + share * (curve.strain[i + 1] - curve.strain[i]),
                               factor * (curve.stress[i] + share * (curve.stress[i + 1] - curve.stress[i])), 0,
                               line++});
    }
  }
  return reduce_specimen(record, std::nullopt, 0.2, 0.4);
}

} // namespace

TEST_CASE("a specimen that is the program's own curve is predicted without error") {
  const CellProperties properties = kelvin(0.1);
  const SpecimenPrediction same = predicted_specimen(own_specimen(properties, 1), properties, 0.2, 0.4);
  CHECK(same.law == properties.plateau_stress.all.front().law);
  REQUIRE(same.correlation.plateau_error);
  CHECK(*same.correlation.plateau_error == Approx(0).margin(1e-3));
  CHECK(same.correlation.energy_error == Approx(0).margin(2e-3));
  CHECK(same.correlation.rating.overall > 0.97);
}

TEST_CASE("a specimen a quarter weaker than the law shows a prediction a third too high") {
  const CellProperties properties = kelvin(0.1);
  const SpecimenPrediction weak = predicted_specimen(own_specimen(properties, 0.75), properties, 0.2, 0.4);
  CHECK(*weak.correlation.plateau_error == Approx(1 / 0.75 - 1).epsilon(5e-3));
  CHECK(weak.correlation.energy_error == Approx(1 / 0.75 - 1).epsilon(0.01));
  CHECK(weak.correlation.rating.overall < 0.9);
}
