#include "crushwright/coupon.hpp"
#include "crushwright/coupon_series.hpp"

#include "coupon/conditioned_check.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace crushwright;
using conditioned_check::check_same;
using conditioned_check::says;
using made_record::flat_points;

namespace {

double eighth_power(double strain) {
  return 1.7e6 * (1 + std::pow(strain / 0.8, 8));
}

} // namespace

TEST_CASE("a clean record becomes its own curve: force over area, displacement over height") {
  const ConditionedTest test = conditioned(made_record::of(flat_points()));
  CHECK(test.specimen == "A1");
  CHECK(test.remarks.empty());
  CHECK(test.loops.empty());
  CHECK(test.toe_strain == Approx(0).margin(1e-12));
  REQUIRE(test.curve.strain.size() == 281);
  for (std::size_t i = 0; i < test.curve.strain.size(); ++i) {
    CHECK(test.curve.stress[i] == Approx(made_record::flat(test.curve.strain[i])).margin(1));
  }
}

TEST_CASE("the eighth-power curve comes through conditioning with its printed quantities") {
  // Definitions of ISO 13314 from memory; efficiency method of Li, Magkiriadis and Harrigan (2006), abstract read.
  TestRecord record;
  record.specimen = made_record::cube();
  record.file_name = "made.csv";
  constexpr int steps = 150000;
  for (int i = 0; i <= steps; ++i) {
    const double strain = 0.75 * i / steps;
    record.points.push_back(
        {strain * made_record::edge, eighth_power(strain) * made_record::area, 0, static_cast<std::size_t>(i) + 2});
  }
  const ConditionedTest test = conditioned(record);
  const CompressionQuantities wide = reduce_compression_test(test.curve);
  const CompressionQuantities narrow = reduce_compression_test(test.curve, 0.20, 0.30);
  CHECK(wide.efficiency_strain == Approx(0.639719).margin(1e-5));
  CHECK(wide.plateau_stress / 1.7e6 == Approx(1.000866).margin(1e-5));
  CHECK(narrow.plateau_stress / 1.7e6 == Approx(1.000127).margin(1e-5));
  REQUIRE(wide.plateau_end);
  CHECK(*wide.plateau_end == Approx(0.688547).margin(1e-5));
  CHECK(says(test, "line 2: the record shows no rise from zero load to the plateau"));
}

TEST_CASE("columns that run downwards are turned") {
  TestRecord record = made_record::of(flat_points());
  const StressStrain upward = conditioned(record).curve;
  for (RecordPoint& point : record.points) {
    point.load = -point.load;
  }
  ConditionedTest test = conditioned(record);
  check_same(test.curve, upward, 1e-12);
  CHECK(says(test, "the load was greatest downwards and is turned"));
  for (RecordPoint& point : record.points) {
    point.along = -point.along;
  }
  test = conditioned(record);
  check_same(test.curve, upward, 1e-12);
  CHECK(says(test, "the displacement ran downwards"));
}

TEST_CASE("a machine's compliance is taken off and leaves the specimen's own curve") {
  TestRecord record = made_record::of(flat_points());
  const StressStrain own = conditioned(record).curve;
  // The specimen is 500 MPa x 4 cm2 / 2 cm = 10 kN/mm stiff in its rise; the machine here three times that.
  const double compliance = 1 / 30e6;
  for (RecordPoint& point : record.points) {
    point.along += compliance * point.load;
  }
  record.specimen.machine_compliance = compliance;
  const ConditionedTest test = conditioned(record);
  check_same(test.curve, own, 1e-12);
  CHECK(test.compliance_strain == Approx(compliance * 30e6 * made_record::area / made_record::edge).epsilon(1e-9));
  CHECK(says(test, "machine and platens: up to 2 % strain taken off"));
  CHECK_FALSE(says(test, "of the rise"));
}

TEST_CASE("a compliance that makes up most of the rise is told, one that makes up all of it is refused") {
  TestRecord record = made_record::of(flat_points());
  record.specimen.machine_compliance = 0.6 / 10e6;
  CHECK(says(conditioned(record), "they made 60 % of the rise"));
  record.specimen.machine_compliance = 1.2 / 10e6;
  CHECK_THROWS_WITH(
      conditioned(record),
      "made.csv: specimen \"A1\": the stated machine compliance accounts for 120 % of the displacement in the "
      "steepest "
      "rise; less than 95 % is possible. Check its unit, or leave it out if the displacement was measured on the "
      "specimen");
}

TEST_CASE("a toe is taken off by the straight line through the steepest rise") {
  // Seating in series with the specimen: 1.5 % strain that is used up within a twentieth of the plateau.
  std::vector<std::pair<double, double>> points;
  for (int i = 0; i <= 1400; ++i) {
    const double own = i / 2000.0;
    points.emplace_back(own + 0.015 * (1 - std::exp(-made_record::flat(own) / 0.5e6)), made_record::flat(own));
  }
  const ConditionedTest test = conditioned(made_record::of(points));
  CHECK(test.toe_strain == Approx(0.015).margin(1e-4));
  const CompressionQuantities reduced = reduce_compression_test(test.curve);
  CHECK(*reduced.quasi_elastic_gradient == Approx(500e6).epsilon(0.01));
  CHECK(reduced.efficiency_strain == Approx(0.60).margin(1e-3));
  CHECK(test.curve.strain.front() == 0);
  CHECK(test.curve.stress.front() == 0);
  CHECK(says(test, "toe of 1.5 % strain taken off"));
}

TEST_CASE("a long toe is warned of, and more than a fifth of the height is refused") {
  const auto with_toe = [](double toe) {
    std::vector<std::pair<double, double>> points;
    for (int i = 0; i <= 1400; ++i) {
      const double own = i / 2000.0;
      points.emplace_back(own + toe * (1 - std::exp(-made_record::flat(own) / 0.2e6)), made_record::flat(own));
    }
    return made_record::of(points);
  };
  CHECK(says(conditioned(with_toe(0.07)), "more than 5 %, look at the faces of the specimen"));
  CHECK_THROWS_WITH(conditioned(with_toe(0.25)), Catch::Contains("strain after contact; that is no toe"));
}

TEST_CASE("the load's zero and the way before contact are read from the quiet stretch") {
  std::mt19937 random(7);
  std::normal_distribution<double> noise(0, 0.01e6);
  std::vector<std::pair<double, double>> points;
  for (int i = 0; i < 40; ++i) {
    points.emplace_back(0.0005 * i, 0.25e6 + noise(random));
  }
  for (const auto& [strain, stress] : flat_points(20)) {
    points.emplace_back(0.02 + strain, stress + 0.25e6 + noise(random));
  }
  const ConditionedTest test = conditioned(made_record::of(points));
  const CompressionQuantities reduced = reduce_compression_test(test.curve);
  CHECK(reduced.plateau_stress == Approx(10e6).epsilon(1e-3));
  CHECK(reduced.efficiency_strain == Approx(0.60).margin(0.002));
  CHECK(test.toe_strain < 5e-4);
  CHECK(says(test, "the load before contact is 0.2"));
  CHECK(says(test, "% strain of way before contact taken off"));
}

TEST_CASE("a preload that is held is not taken for a zero that is off") {
  std::vector<std::pair<double, double>> points(20, {0.0, 1e6});
  for (const auto& [strain, stress] : flat_points(20)) {
    if (stress >= 1e6) {
      points.emplace_back(strain - 0.002, stress);
    }
  }
  const ConditionedTest test = conditioned(made_record::of(points));
  CHECK(reduce_compression_test(test.curve).plateau_stress == Approx(10e6).epsilon(1e-9));
  CHECK(test.curve.strain.back() == Approx(0.70).margin(1e-9));
  CHECK(says(test,
             "load and displacement both stand still, at 1 MPa; a held preload and a zero that is off look alike"));
  CHECK(says(test, "the record starts under load; 0.2 % strain added in front"));
}

TEST_CASE("a long approach before contact is taken off whole") {
  std::vector<std::pair<double, double>> points;
  for (int i = 0; i < 60; ++i) {
    points.emplace_back(0.01 * i, 0.0);
  }
  for (const auto& [strain, stress] : flat_points()) {
    points.emplace_back(0.60 + strain, stress);
  }
  const ConditionedTest test = conditioned(made_record::of(points));
  CHECK(test.curve.strain.back() == Approx(0.70).margin(1e-9));
  CHECK(test.toe_strain < 1e-9);
  CHECK(reduce_compression_test(test.curve).plateau_stress == Approx(10e6).epsilon(1e-9));
  CHECK(says(test, "60 % strain of way before contact taken off"));
}

TEST_CASE("a linear rise from the origin is not taken for a drifting zero, however densely it is read") {
  const ConditionedTest test = conditioned(made_record::of(flat_points(1000)));
  CHECK_FALSE(says(test, "zero"));
  CHECK(reduce_compression_test(test.curve).plateau_stress == Approx(10e6).epsilon(1e-9));
}

TEST_CASE("a record that starts under load gets the strain of its preload back") {
  auto points = flat_points();
  points.erase(points.begin(), points.begin() + 2);
  for (auto& [strain, stress] : points) {
    strain -= 0.005;
  }
  const ConditionedTest test = conditioned(made_record::of(points));
  CHECK(test.curve.strain[1] == Approx(0.005).margin(1e-9));
  CHECK(test.curve.strain.back() == Approx(0.70).margin(1e-9));
  CHECK(says(test, "line 2: the record starts under load; 0.5 % strain added in front"));
}

TEST_CASE("stress and strain in the file need no size; force and displacement do") {
  TestRecord record = made_record::of(flat_points());
  const StressStrain by_force = conditioned(record).curve;
  TestRecord ready = record;
  ready.kind = RecordKind::stress_strain;
  for (RecordPoint& point : ready.points) {
    point.along /= made_record::edge;
    point.load /= made_record::area;
  }
  ready.specimen = SpecimenFacts{};
  check_same(conditioned(ready).curve, by_force, 1e-12);
  record.specimen.height.reset();
  CHECK_THROWS_WITH(conditioned(record),
                    "made.csv: specimen \"A1\": the height is not stated, so displacement cannot "
                    "become strain; state it with the specimen");
  record.specimen.height = 0.02;
  record.specimen.width.reset();
  CHECK_THROWS_WITH(conditioned(record),
                    "made.csv: specimen \"A1\": the cross-section is not stated, so force cannot "
                    "become stress; state it with the specimen");
  record.specimen.diameter = std::sqrt(4 * made_record::area / 3.14159265358979323846);
  check_same(conditioned(record).curve, by_force, 1e-12);
}

TEST_CASE("a record with hardly a point is refused") {
  CHECK_THROWS_WITH(conditioned(made_record::of({{0, 0}, {0.1, 1e6}, {0.5, 1e6}})),
                    "made.csv: specimen \"A1\": 3 points; a test needs at least 10");
  std::vector<std::pair<double, double>> standing{{0, 0}, {0.02, 10e6}, {0.5, 10e6}};
  standing.insert(standing.end(), 20, {0.5, 10e6});
  CHECK_THROWS_WITH(
      conditioned(made_record::of(standing)),
      "made.csv: specimen \"A1\": 3 points are left once loops, repeated readings and ends are out; a test "
      "needs at least 10");
  CHECK_THROWS_WITH(conditioned(made_record::of(std::vector<std::pair<double, double>>(20, {0.1, 0.0}))),
                    "made.csv: specimen \"A1\": the load is zero throughout");
}

TEST_CASE("a tension test is conditioned alike: stretching positive, the break cut") {
  // 70 GPa to 200 MPa, linear hardening to 260 MPa at 8 %, then broken. Invented.
  TestRecord record;
  record.kind = RecordKind::stress_strain;
  record.file_name = "bar.csv";
  for (int i = 0; i <= 800; ++i) {
    const double strain = 0.0001 * i;
    const double stress = strain < 200.0 / 70000 ? 70e9 * strain : 200e6 + 60e6 * (strain - 200.0 / 70000) / 0.0771;
    record.points.push_back({strain, stress, 0, static_cast<std::size_t>(i) + 2});
  }
  for (std::size_t i = 0; i < 5; ++i) {
    record.points.push_back({0.0801 + 0.0001 * static_cast<double>(i), 0, 0, 803 + i});
  }
  const ConditionedTest test = conditioned(record);
  CHECK(test.curve.strain.back() == Approx(0.08).margin(1e-9));
  CHECK(test.curve.stress[10] == Approx(70e6).epsilon(1e-9));
  CHECK(says(test, "the load falls away for good at strain 0.08"));
}
