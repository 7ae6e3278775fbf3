// Closed forms of statics and of plastic sections (derived); the samples are made up.
#include "column_check/column_samples.hpp"
#include "column_check/crush_stage.hpp"
#include "column_check/stability.hpp"
#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>

using namespace column_samples;

namespace {

constexpr double degree = std::numbers::pi / 180;

BoltPattern four_bolts(double half_width, double half_height) {
  BoltPattern bolts;
  for (const double y : {-half_width, half_width})
    for (const double z : {-half_height, half_height})
      bolts.places.push_back({y, z});
  bolts.proof_load = value(20e3);
  bolts.preload = value(0);
  return bolts;
}

} // namespace

TEST_CASE("a force along the axis bends nothing, and leaves the root what the taper keeps back") {
  const Sample cone = taper(0.3, 0.07, 0.1);
  const ColumnUnderForce state = column_under_force(cone.column, cone.layers, cone.loading(0), nullptr);
  CHECK(state.section.bending == 0);
  CHECK(state.section.shear == 0);
  CHECK(state.section.use == state.section.axial);
  CHECK(state.section.use < 1);
  CHECK(state.bolt_use == 0);
  CHECK_FALSE(state.bolts_stated);
  CHECK(state.tilting_force == std::numeric_limits<double>::infinity());
}

TEST_CASE("the root carries the force, its lever and what the deflection adds") {
  const Sample cone = taper(0.3, 0.07, 0.1);
  const StandingColumn standing = standing_column(cone.column, cone.layers);
  const double at = 6e6 * 0.08 * 0.08; // crushes the first third, about
  const CrushStage stage = crush_stage(standing, cone.layers, at, 1);
  CHECK(stage.levers.back() == Approx(0.3 - stage.crush));
  CHECK(stage.force == Approx(at));
  const double slope = std::tan(20 * degree), lever = 0.3 - stage.crush;
  std::vector<double> heights(48, 0.3 / 48);
  const double critical = buckling_force(cone.column, heights, stage.first, about_vertical);
  const double n = at / (6e6 * 0.1 * 0.1);
  const double m = at * slope * lever / (1 - at / critical) / (6e6 * 0.1 * 0.1 * 0.1 / 4);
  const double v = at * slope / (2.5e6 * 0.1 * 0.1);
  const SectionUse worst = worst_section(standing, stage, {slope, {0, 0}, 1});
  const SectionUse root = section_use(standing.strengths.back(),
                                      {at, {m * standing.strengths.back().moment[0], 0}, {at * slope, 0}}, 0.3);
  CHECK(root.use == Approx(std::hypot(n + m, v)));
  CHECK(worst.station == Approx(0.3));
  CHECK(worst.use == Approx(root.use));
}

TEST_CASE("what has collapsed no longer bends, and what stands begins behind it") {
  const Sample cone = taper(0.3, 0.07, 0.1);
  const StandingColumn standing = standing_column(cone.column, cone.layers);
  const CrushStage before = crush_stage(standing, cone.layers, first_collapse(cone.layers), 1);
  CHECK(before.first == 0);
  CHECK(before.debris == 0);
  const CrushStage all = crush_stage(standing, cone.layers, 3 * 6e6 * 0.1 * 0.1, 1);
  CHECK_FALSE(all.stands);
  CHECK(worst_section(standing, all, {0.5, {0, 0}, 1}).use == 0);
  std::size_t last = 0;
  for (const CrushStage& stage : crush_stages(standing, cone.layers, cone.loading(0))) {
    CHECK(stage.first >= last);
    last = stage.first;
  }
  CHECK(last > 5);
}

TEST_CASE("a force beside the middle bends as force times offset, and by both axes together") {
  const Sample cone = taper(0.3, 0.07, 0.1);
  const StandingColumn standing = standing_column(cone.column, cone.layers);
  CrushStage stage = crush_stage(standing, cone.layers, first_collapse(cone.layers), 1);
  stage.buckling = {1e30, 1e30};
  const SectionUse one = worst_section(standing, stage, {0, {0.004, 0}, 1});
  const SectionUse both = worst_section(standing, stage, {0, {0.004, -0.004}, 1});
  CHECK(both.bending == Approx(2 * one.bending));
  const double side = 0.07 + 0.03 * one.station / 0.3;
  CHECK(one.bending == Approx(stage.force * 0.004 / (6e6 * side * side * side / 4)));
}

TEST_CASE("a mirrored column is used alike") {
  Sample cone = taper(0.3, 0.07, 0.1);
  for (BeamSection& section : cone.column.sections)
    section.centroid = {0.02 * section.station / 0.3, 0.01};
  ColumnLoading loading = cone.loading(5);
  loading.eccentricity = 0.003;
  const BoltPattern bolts = four_bolts(0.06, 0.05);
  const ColumnUnderForce one = column_under_force(cone.column, cone.layers, loading, &bolts);
  for (BeamSection& section : cone.column.sections)
    section.centroid[0] *= -1;
  loading.eccentricity *= -1;
  const ColumnUnderForce other = column_under_force(cone.column, cone.layers, loading, &bolts);
  CHECK(one.section.use == Approx(other.section.use).epsilon(1e-12));
  CHECK(one.bolt_use == Approx(other.bolt_use).epsilon(1e-12));
  CHECK(one.stability_reserve == Approx(other.stability_reserve).epsilon(1e-12));
}

TEST_CASE("a side that is stronger throughout is used alike, under more force") {
  const Sample cone = taper(0.3, 0.07, 0.1);
  ColumnLoading loading = cone.loading(4);
  const ColumnUnderForce nominal = column_under_force(cone.column, cone.layers, loading, nullptr);
  const CrushCurve stronger = scaled(cone.curve, 1.2, 1);
  loading.curve = &stronger;
  loading.force_factor = 1.2;
  const ColumnUnderForce strong = column_under_force(cone.column, cone.layers, loading, nullptr);
  CHECK(strong.force == Approx(1.2 * nominal.force));
  CHECK(strong.section.axial == Approx(nominal.section.axial));
  CHECK(strong.section.use >= nominal.section.use); // only the elastic amplification grows
  CHECK(strong.section.use == Approx(nominal.section.use).epsilon(0.02));
}

TEST_CASE("a first peak loads what stands before anything is crushed") {
  const Sample cone = taper(0.3, 0.07, 0.1);
  const CrushCurve peaked = crush_curve(cone.layers, {1.8, 0.02});
  ColumnLoading loading = cone.loading(3, 0.1);
  const ColumnUnderForce without = column_under_force(cone.column, cone.layers, loading, nullptr);
  loading.curve = &peaked;
  const ColumnUnderForce with = column_under_force(cone.column, cone.layers, loading, nullptr);
  CHECK(with.force == Approx(peaked.peak_force_up_to(loading.peak_crush)));
  CHECK(with.section.use > 1.4 * without.section.use);
}

TEST_CASE("more layers change the use by little, and ever less") {
  const auto use = [](std::size_t count) {
    const Sample cone = taper(0.3, 0.07, 0.1, count);
    return column_under_force(cone.column, cone.layers, cone.loading(8), nullptr).section.use;
  };
  const double fine = use(384);
  CHECK(use(48) == Approx(fine).epsilon(0.02));
  CHECK(use(96) == Approx(fine).epsilon(0.01));
}

TEST_CASE("bolts are pulled only by what bending takes beyond the compression") {
  const Sample cone = taper(0.3, 0.07, 0.1);
  const BoltPattern bolts = four_bolts(0.06, 0.05);
  CHECK(column_under_force(cone.column, cone.layers, cone.loading(0), &bolts).bolt_use == 0);
  const StandingColumn standing = standing_column(cone.column, cone.layers);
  CrushStage stage = crush_stage(standing, cone.layers, first_collapse(cone.layers), 1);
  stage.buckling = {1e30, 1e30};
  const double slope = std::tan(15 * degree);
  // Rigid plates: pull of one of four = M / (4 y) - F / 4, the lever the whole length less the crush.
  const double pull = stage.force * slope * stage.levers.back() / (4 * 0.06) - stage.force / 4;
  REQUIRE(pull > 0);
  CHECK(bolt_use(standing, stage, {slope, {0, 0}, 1}, bolts) == Approx(pull / 20e3));
}

TEST_CASE("the crushed front turns over only where the force leaves the section") {
  const Sample cone = taper(0.3, 0.07, 0.1);
  const StandingColumn standing = standing_column(cone.column, cone.layers);
  const CrushStage stage = crush_stage(standing, cone.layers, 6e6 * 0.08 * 0.08, 1);
  REQUIRE(stage.debris > 0);
  const double edge = standing.column->sections[stage.first].half_depth[0];
  const double slope = edge / stage.debris;
  CHECK(critical_forces(standing, stage, {0.99 * slope, {0, 0}, 1}).tilting ==
        std::numeric_limits<double>::infinity());
  const double tilting = critical_forces(standing, stage, {1.01 * slope, {0, 0}, 1}).tilting;
  // The slope of the curve there, over the section's inertia: a square's radius of gyration is its side over √12.
  const double ahead = 1e-5;
  const double tangent = (cone.curve.force_at(stage.crush + ahead) - cone.curve.force_at(stage.crush)) / ahead;
  CHECK(tilting == Approx(tangent * edge * edge / 3 / stage.debris).epsilon(0.02));
}

TEST_CASE("a column check refuses what it cannot judge") {
  const Sample cone = taper(0.3, 0.07, 0.1);
  BeamColumn short_of_one = cone.column;
  short_of_one.sections.pop_back();
  CHECK_THROWS_AS(column_under_force(short_of_one, cone.layers, cone.loading(5), nullptr), OutOfDomain);
  CHECK_THROWS_AS(column_under_force(cone.column, cone.layers, cone.loading(90), nullptr), OutOfDomain);
  CHECK_THROWS_AS(column_under_force(cone.column, cone.layers, cone.loading(-1), nullptr), OutOfDomain);
  CHECK_THROWS_AS(column_under_force(cone.column, cone.layers, ColumnLoading{}, nullptr), OutOfDomain);
}
