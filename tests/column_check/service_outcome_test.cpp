#include "column_check/service_beam.hpp"
#include "column_check/service_panel.hpp"
#include "column_check/service_samples.hpp"
#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace service_samples;

namespace {

constexpr double length = 0.5;

BeamColumn bare_bar() {
  return column_of(length, 8, [](double station) { return bare(station, 0.08, 0.1); });
}

BeamColumn filled_box() {
  return column_of(length, 8, [](double station) { return box(station, 0.08, 0.1, 0.0015); });
}

ServiceOutcome outcome_of(const BeamColumn& column, const ServiceLoad& load) {
  return service_outcome(column, load, nullptr, 0.012);
}

} // namespace

TEST_CASE("pull and two moments add at a corner of the root") {
  // N/A + M c/I + M c/I of a rectangle, handbook; shear beside it over its own strength.
  const ServiceOutcome outcome = outcome_of(bare_bar(), force_at(0, -4000, 60, -90));
  const double normal =
      4000 / (0.08 * 0.1) + 60 * length * 6 / (0.1 * 0.08 * 0.08) + 90 * length * 6 / (0.08 * 0.1 * 0.1);
  const double shear = std::hypot(60, 90) / (5.0 / 6 * 0.08 * 0.1);
  CHECK(outcome.lattice_use == Approx(std::hypot(normal / 4e6, shear / 2.5e6)).epsilon(1e-12));
  CHECK(outcome.use == outcome.lattice_use);
  CHECK(outcome.station == Approx(length));
  CHECK(outcome.skin_use == 0);
  CHECK(!outcome.nominal.skin);
  CHECK(outcome.load == "force");
  CHECK(outcome.structure == "cone");
}

TEST_CASE("in a pure pull skin and lattice carry the same strain, each with its own modulus") {
  const ServiceOutcome outcome = outcome_of(filled_box(), force_at(0, -20e3, 0, 0));
  const BeamSection section = box(0, 0.08, 0.1, 0.0015);
  const double strain = 20e3 / (70e9 * section.skin_area + 1.2e9 * section.lattice_area);
  CHECK(outcome.skin_use == Approx(70e9 * strain / 200e6).epsilon(1e-12));
  CHECK(outcome.lattice_use == Approx(1.2e9 * strain / 4e6).epsilon(1e-12));
  CHECK(outcome.deflection == Approx(strain * length).epsilon(1e-12));
}

TEST_CASE("shear and bending of a skin meet after von Mises") {
  const BeamColumn hollow = column_of(length, 8, [](double station) { return box(station, 0.1, 0.1, 0.001, false); });
  const BeamSection section = hollow.sections.front();
  const double bending = 3000 * length * 0.05 / section.skin_second_moment[about_vertical];
  const double shear = 3000 / (20 * 1.3 / (48 + 39 * 0.3) * section.skin_area);
  CHECK(outcome_of(hollow, force_at(0, 0, 3000, 0)).skin_use ==
        Approx(std::sqrt(bending * bending + 3 * shear * shear) / 200e6).epsilon(1e-12));
}

TEST_CASE("use and deflection grow with the factor, the nominal stress does not hold it") {
  ServiceLoad load = force_at(0.1, -8000, 400, 100);
  const ServiceOutcome plain = outcome_of(filled_box(), load);
  load.factor = value(1.5);
  const ServiceOutcome factored = outcome_of(filled_box(), load);
  CHECK(factored.use == Approx(1.5 * plain.use).epsilon(1e-12));
  CHECK(factored.deflection == Approx(1.5 * plain.deflection).epsilon(1e-12));
  CHECK(*factored.nominal.skin == Approx(*plain.nominal.skin).epsilon(1e-12));
  CHECK(*factored.nominal.lattice == Approx(*plain.nominal.lattice).epsilon(1e-12));
  CHECK(*plain.nominal.skin == Approx(plain.skin_use * 200e6).epsilon(1e-12));
}

TEST_CASE("the stress in the struts is the proof stress of their metal when the lattice begins to yield") {
  ServiceLoad load = force_at(0, -1000, 0, 0);
  const ServiceOutcome small = outcome_of(bare_bar(), load);
  load.force[0].value /= small.lattice_use;
  const ServiceOutcome at_yield = outcome_of(bare_bar(), load);
  CHECK(at_yield.lattice_use == Approx(1).epsilon(1e-12));
  CHECK(*at_yield.nominal.lattice == Approx(200e6).epsilon(1e-12));
  BeamColumn unknown = bare_bar();
  for (BeamSection& section : unknown.sections)
    section.lattice.metal_proof_stress = 0;
  CHECK(!outcome_of(unknown, load).nominal.lattice);
}

TEST_CASE("pressure on a side bends towards the other side and stresses the panel, which the skin bears too") {
  const ServiceOutcome flow = outcome_of(filled_box(), pressure_on("left", 20e3));
  const BeamSection section = box(0, 0.08, 0.1, 0.0015);
  CHECK(flow.panel_use == Approx(panel_stress(section, 20e3, "left", 0.012) / 200e6).epsilon(1e-12));
  CHECK(flow.use == Approx(std::max(flow.skin_use + flow.panel_use, flow.lattice_use)));
  CHECK(*flow.nominal.skin == Approx((flow.skin_use + flow.panel_use) * 200e6).epsilon(1e-12));
  // Root moment w L^2 / 2 with w the pressure on the height.
  const double moment = 20e3 * 0.1 * length * length / 2;
  const double normal = 70e9 * moment * 0.04 / section.elastic_bending(about_vertical);
  const double shear = 70e9 / 2.6 * 20e3 * 0.1 * length / shear_stiffness(section, about_vertical);
  CHECK(flow.skin_use == Approx(std::sqrt(normal * normal + 3 * shear * shear) / 200e6).epsilon(1e-12));
  CHECK(outcome_of(filled_box(), pressure_on("right", 20e3)).use == Approx(flow.use).epsilon(1e-12));
  CHECK(outcome_of(filled_box(), pressure_on("left", -20e3)).use == Approx(flow.use).epsilon(1e-12)); // suction
  CHECK(outcome_of(filled_box(), pressure_on("upper", 20e3)).deflection < flow.deflection); // deeper that way
}

TEST_CASE("a kerb moves the carried mass at its station, the own mass and the tip's") {
  BeamColumn column = bare_bar();
  column.tip_mass = 0.6;
  ServiceLoad kerb = load_named("kerb");
  kerb.acceleration = {value(0), value(0), value(8 * 9.80665)};
  kerb.carried_mass = value(2.5);
  kerb.station = value(0.2);
  const double own = 400 * 0.08 * 0.1 * length, push = 8 * 9.80665;
  const double moment = push * (own * length / 2 + 0.6 * length + 2.5 * (length - 0.2));
  const double shear = push * (own + 0.6 + 2.5) / (5.0 / 6 * 0.08 * 0.1);
  CHECK(outcome_of(column, kerb).lattice_use ==
        Approx(std::hypot(moment * 6 / (0.08 * 0.1 * 0.1) / 4e6, shear / 2.5e6)).epsilon(1e-12));
}

TEST_CASE("the bolts at the root take the pull and the moment of a towing eye") {
  BoltPattern bolts;
  bolts.places = {{-0.05, -0.06}, {0.05, -0.06}, {0.05, 0.06}, {-0.05, 0.06}};
  bolts.proof_load = value(12e3);
  bolts.preload = value(0);
  ServiceLoad tow = force_at(0, -8000, 1000, 0);
  tow.factor = value(1.5);
  const ServiceOutcome outcome = service_outcome(bare_bar(), tow, &bolts, 0.012);
  const double pull = 8000.0 / 4 + 1000 * length / (2 * 0.1);
  CHECK(*outcome.nominal.bolt == Approx(pull).epsilon(1e-12));
  CHECK(outcome.root_use == Approx(1.5 * pull / 12e3).epsilon(1e-12));
  CHECK(outcome.station == Approx(length));
  CHECK(outcome_of(bare_bar(), tow).root_use == 0);
}

TEST_CASE("a narrow waist is found at its station, not at the root") {
  const BeamColumn waist = column_of(length, 10, [](double station) {
    return station > 0.2 && station < 0.25 ? bare(station, 0.04, 0.05) : bare(station, 0.08, 0.1);
  });
  const ServiceOutcome outcome = outcome_of(waist, force_at(0, -4000, 0, 0));
  CHECK(outcome.station == Approx(0.225));
  CHECK(outcome.lattice_use == Approx(4000 / (0.04 * 0.05) / 4e6).epsilon(1e-12));
}

TEST_CASE("a part without strength is refused") {
  BeamColumn column = filled_box();
  column.sections[3].lattice.shear_strength = 0;
  CHECK_THROWS_AS(outcome_of(column, force_at(0, -1, 0, 0)), OutOfDomain);
  ServiceLoad sideless = pressure_on("rear", 1e3);
  CHECK_THROWS_AS(outcome_of(filled_box(), sideless), OutOfDomain);
}
