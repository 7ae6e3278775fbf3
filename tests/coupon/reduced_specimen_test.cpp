#include "crushwright/coupon.hpp"
#include "crushwright/coupon_series.hpp"
#include "crushwright/errors.hpp"

#include "coupon/made_record.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace crushwright;
using made_record::flat_points;

namespace {

/// As flat_points, unloaded at 10 % strain along 800 MPa to a tenth and back.
TestRecord with_loop() {
  std::vector<std::pair<double, double>> loop;
  for (int i = 1; i <= 20; ++i) {
    const double share = i <= 10 ? 1 - 0.09 * i : 0.1 + 0.09 * (i - 10);
    loop.emplace_back(0.10 - 10e6 * (1 - share) / 800e6, 10e6 * share);
  }
  return made_record::of(made_record::with_after(flat_points(), 0.10, loop));
}

const TestCondition& condition(const ReducedSpecimen& specimen, const std::string& what) {
  const auto found = std::find_if(specimen.conditions.begin(), specimen.conditions.end(),
                                  [&what](const TestCondition& one) { return one.what == what; });
  REQUIRE(found != specimen.conditions.end());
  return *found;
}

} // namespace

TEST_CASE("the offset stress lies where a line of the loop's gradient from 1 % strain meets the curve") {
  // 800 (eps - 0.01) = 10 MPa at 2.25 % strain, on the plateau; by the rise's own 500 MPa it is at 3 %, as high.
  const ReducedSpecimen by_loop = reduce_specimen(with_loop(), std::nullopt, 0.20, 0.40);
  REQUIRE(by_loop.elastic_gradient);
  CHECK(*by_loop.elastic_gradient == Approx(800e6).epsilon(1e-9));
  CHECK(by_loop.offset_by_unloading);
  CHECK(*by_loop.offset_stress == Approx(10e6).epsilon(1e-9));
  const ReducedSpecimen by_rise = reduce_specimen(made_record::of(flat_points()), std::nullopt, 0.20, 0.40);
  CHECK_FALSE(by_rise.elastic_gradient);
  CHECK_FALSE(by_rise.offset_by_unloading);
  CHECK(*by_rise.offset_stress == Approx(10e6).epsilon(1e-9));
}

TEST_CASE("the offset stress of a rounded rise is found between two readings") {
  // sigma = 10 MPa (1 - exp(-100 eps)): quasi-elastic line from 20 to 70 % of the plateau.
  std::vector<std::pair<double, double>> points;
  for (int i = 0; i <= 1200; ++i) {
    const double strain = i / 2000.0;
    points.emplace_back(strain, 10e6 * (1 - std::exp(-100 * strain)));
  }
  const ReducedSpecimen specimen = reduce_specimen(made_record::of(points), std::nullopt, 0.20, 0.40);
  REQUIRE(specimen.quantities.quasi_elastic_gradient);
  const double gradient = *specimen.quantities.quasi_elastic_gradient;
  CHECK(gradient == Approx(0.5 * 10e6 / (0.01 * std::log(0.8 / 0.3))).epsilon(1e-3));
  REQUIRE(specimen.offset_stress);
  double strain = 0.02; // the closed curve against the line, by iterating on the strain
  for (int i = 0; i < 100; ++i) {
    strain = 0.01 + 10e6 * (1 - std::exp(-100 * strain)) / gradient;
  }
  CHECK(*specimen.offset_stress == Approx(10e6 * (1 - std::exp(-100 * strain))).epsilon(1e-4));
}

TEST_CASE("relative density is the stated one, else weighed, and a contradiction is told") {
  TestRecord record = made_record::of(flat_points());
  record.specimen.mass = 0.00324; // 8 cm3 of 2700 kg/m3 weigh 21.6 g: 0.15
  ReducedSpecimen specimen = reduce_specimen(record, 2700.0, 0.20, 0.40);
  REQUIRE(specimen.relative_density);
  CHECK(*specimen.relative_density == Approx(0.15).epsilon(1e-12));
  CHECK_FALSE(reduce_specimen(record, std::nullopt, 0.20, 0.40).relative_density);
  record.specimen.relative_density = 0.17;
  specimen = reduce_specimen(record, 2700.0, 0.20, 0.40);
  CHECK(*specimen.relative_density == 0.17);
  CHECK(std::count(specimen.warnings.begin(), specimen.warnings.end(),
                   "relative density is stated as 0.17, but mass and size give 0.15; the stated one is used") == 1);
}

TEST_CASE("specific energy is the energy to the efficiency strain over the mass") {
  TestRecord record = made_record::of(flat_points());
  record.specimen.mass = 0.00324;
  ReducedSpecimen specimen = reduce_specimen(record, 2700.0, 0.20, 0.40);
  // 10 MPa x (0.60 - 0.01) over 405 kg/m3.
  REQUIRE(specimen.specific_energy);
  CHECK(specimen.quantities.efficiency_strain == Approx(0.60).margin(1e-9));
  CHECK(*specimen.specific_energy == Approx(10e6 * 0.59 / 405).epsilon(1e-9));
  record.specimen.mass.reset();
  CHECK_FALSE(reduce_specimen(record, 2700.0, 0.20, 0.40).specific_energy);
  record.specimen.relative_density = 0.15;
  CHECK(*reduce_specimen(record, 2700.0, 0.20, 0.40).specific_energy == Approx(10e6 * 0.59 / 405).epsilon(1e-9));
}

TEST_CASE("the conditions of ISO 13314 stand beside what was found, and what is not stated says so") {
  // ISO 13314:2011, memory; porosity from its scope, read.
  TestRecord record = made_record::of(flat_points());
  ReducedSpecimen specimen = reduce_specimen(record, std::nullopt, 0.20, 0.40);
  CHECK(condition(specimen, "height over width").holds == true);
  CHECK(condition(specimen, "height over width").found == "1");
  CHECK(condition(specimen, "shortest edge").found == "20 mm");
  for (const char* what : {"porosity", "cells along the shortest edge", "strain rate", "temperature"}) {
    CHECK(condition(specimen, what).found == "not stated");
    CHECK_FALSE(condition(specimen, what).holds);
  }
  record.specimen.cells_across = 5;
  record.specimen.speed = 1e-3 / 60; // 1 mm/min over 20 mm
  record.specimen.relative_density = 0.2;
  record.specimen.temperature = 293.15;
  specimen = reduce_specimen(record, std::nullopt, 0.20, 0.40);
  CHECK(condition(specimen, "cells along the shortest edge").holds == false);
  CHECK(condition(specimen, "strain rate").holds == false);
  CHECK(condition(specimen, "strain rate").found == "0.000833 1/s");
  CHECK(condition(specimen, "porosity").holds == true);
  CHECK(condition(specimen, "temperature").found == "20 °C");
  CHECK(std::count(specimen.warnings.begin(), specimen.warnings.end(),
                   "cells along the shortest edge is 5; ISO 13314 asks for 10 or more (memory)") == 1);
  record.specimen.speed = 0.020e-3; // exactly 1e-3 1/s
  CHECK(condition(reduce_specimen(record, std::nullopt, 0.20, 0.40), "strain rate").holds == true);
}

TEST_CASE("a test that ends inside the plateau window says which window it would need") {
  CHECK_THROWS_WITH(
      reduce_specimen(made_record::of(flat_points(4, 0.35)), std::nullopt, 0.20, 0.40),
      "made.csv: specimen \"A1\": the test ends at 35 % strain, before the plateau window from 20 to 40 % "
      "does; state a narrower window for the series, or leave the specimen out");
  CHECK(reduce_specimen(made_record::of(flat_points(4, 0.35)), std::nullopt, 0.20, 0.30).quantities.plateau_stress ==
        Approx(10e6).epsilon(1e-9));
}
