#include "crushwright/cell_curve.hpp"
#include "crushwright/coupon_series.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

TEST_CASE("the program's own curves give back plateau stress and efficiency strain through conditioning") {
  for (const double first_peak : {0.0, 1.4}) {
    for (const double efficiency_strain : {0.45, 0.55, 0.68}) {
      const CurveShape shape = curve_shape({efficiency_strain, efficiency_strain + 0.15, 0.06, 0.3, 6});
      const StressStrain own = stress_strain(shape, 12e6, 1.5e9, first_peak);
      TestRecord record;
      record.kind = RecordKind::stress_strain;
      record.file_name = "own";
      for (std::size_t i = 0; i < own.strain.size(); ++i) {
        record.points.push_back({own.strain[i], own.stress[i], 0, i + 1});
      }
      const ReducedSpecimen back = reduce_specimen(record, std::nullopt, 0.20, 0.40);
      CHECK(back.quantities.plateau_stress == Approx(12e6).epsilon(first_peak > 1 ? 1e-3 : 1e-6));
      CHECK(back.quantities.efficiency_strain == Approx(efficiency_strain).margin(1e-9));
      CHECK(back.test.toe_strain == Approx(0).margin(1e-9));
    }
  }
}
