#include "crushwright/catalogue.hpp"
#include "crushwright/component_test.hpp"
#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;
using Catch::Contains;

namespace {

const std::string source = CRUSHWRIGHT_SOURCE_DIR;

const Estimate& demo() {
  static const Estimate made =
      estimate(read_case(source + "/cases/twin_rear_cones.yaml"), Catalogue({source + "/lattices"}));
  return made;
}

/// A press that follows one of the predicted curves up to 300 mm, its force times a factor.
TestRecord press(const CrushCurve& curve, double factor) {
  TestRecord record;
  record.file_name = "press.csv";
  record.specimen.id = "press";
  for (std::size_t i = 0; i <= 600; ++i) {
    const double crush = 0.3 * static_cast<double>(i) / 600;
    record.points.push_back({crush, factor * curve.force_at(crush), 0, i + 2});
  }
  return record;
}

} // namespace

TEST_CASE("a component that crushes as predicted shows no error and lies between the sides") {
  const CrushCurve& nominal = demo().deciding.curves.front().nominal;
  const ComponentComparison same = compared_component(demo(), "left_cone", press(nominal, 1), std::nullopt);
  CHECK(same.correlation.energy_error == Approx(0).margin(1e-3));
  CHECK(same.correlation.rating.overall > 0.99);
  CHECK(same.share_inside > 0.98);
}

TEST_CASE("a component on the weak side lies at its edge, one far under it lies below all along") {
  const StructureCurves& curves = demo().deciding.curves.front();
  const ComponentComparison weak = compared_component(demo(), "left_cone", press(curves.weak, 0.97), std::nullopt);
  CHECK(weak.share_below > 0.95);
  CHECK(weak.correlation.energy_error > 0.1);
  const ComponentComparison strong =
      compared_component(demo(), "left_cone", press(curves.strong, 1.05), std::nullopt);
  CHECK(strong.share_above > 0.95);
  CHECK(strong.correlation.energy_error < -0.1);
}

TEST_CASE("all curves are smoothed alike, so a smoothed weak side stays the weak side") {
  const StructureCurves& curves = demo().deciding.curves.front();
  const ComponentComparison smooth = compared_component(demo(), "left_cone", press(curves.weak, 1), 0.02);
  for (std::size_t i = 0; i < smooth.weak.y.size(); ++i) {
    CHECK(smooth.weak.y[i] == Approx(smooth.correlation.measured.y[i]).margin(300));
  }
}

TEST_CASE("a press that lets go in between loses those readings and says where") {
  TestRecord record = press(demo().deciding.curves.front().nominal, 1);
  const RecordPoint back{record.points[100].along - 0.004, 1e3, 0, 9999};
  record.points.insert(record.points.begin() + 101, back);
  const ComponentComparison result = compared_component(demo(), "left_cone", record, std::nullopt);
  REQUIRE(result.remarks.size() == 1);
  CHECK_THAT(result.remarks.front(), Contains("line 9999: here and after it 1 readings"));
  CHECK(result.correlation.energy_error == Approx(0).margin(1e-3));
}

TEST_CASE("a structure that is not there, or stresses in place of forces, are refused") {
  const CrushCurve& nominal = demo().deciding.curves.front().nominal;
  CHECK_THROWS_WITH(compared_component(demo(), "middle_cone", press(nominal, 1), std::nullopt),
                    Contains("no structure 'middle_cone'") && Contains("left_cone, right_cone"));
  TestRecord stresses = press(nominal, 1);
  stresses.kind = RecordKind::stress_strain;
  CHECK_THROWS_WITH(compared_component(demo(), "left_cone", stresses, std::nullopt),
                    Contains("holds stress and strain"));
}
