#include "estimate/quick_judgement.hpp"
#include "sample_cases.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

using namespace crushwright;
using namespace sample_cases;

namespace {

const std::string plated = skin + "    end_plates: {material: AlSi10Mg-stress-relieved, tip_thickness: 2 mm, "
                                  "root_thickness: 5 mm}\n";

std::string towed(const std::string& force) {
  return "service_loads:\n  towing: {of: cone, force: {x: " + force + "}, station: 0 mm, factor: 1.5}\n";
}

const std::string service_limit = "  service: {quantity: service_use, at_most: 100 %}\n";

} // namespace

TEST_CASE("the layers weigh what lattice and skin weigh, and the tip what its plate weighs") {
  const StructureModel model = estimate_of(cone("cone", "{tip: 1.6 mm, root: 1.8 mm}", plated), drop()).structures[0];
  const double layers = std::accumulate(model.layer_masses.begin(), model.layer_masses.end(), 0.0);
  CHECK(layers == Approx(model.mass.lattice + model.mass.skin).epsilon(1e-12));
  CHECK(model.tip_mass ==
        Approx(0.08 * 0.1 * 0.002 * 2670).epsilon(1e-9)); // the tip's rectangle, density of the entry
}

TEST_CASE("the beam has a section at every layer and at the root") {
  const StructureModel model = estimate_of(cone("cone", "{tip: 1.6 mm, root: 1.8 mm}", plated), drop()).structures[0];
  REQUIRE(model.column.sections.size() == model.layers.size() + 1);
  CHECK(model.column.sections.back().station == Approx(0.4));
  const BeamSection& root = model.column.sections.back();
  // Outer rectangle 110 x 140 mm, skin 0.8 mm.
  CHECK(root.lattice_area + root.skin_area == Approx(0.110 * 0.140).epsilon(1e-9));
  CHECK(root.skin_second_moment[about_vertical] ==
        Approx((0.140 * std::pow(0.110, 3) - 0.1384 * std::pow(0.1084, 3)) / 12).epsilon(1e-6));
  CHECK(root.lattice.collapse_stress == Approx(model.layers.back().lattice_force / model.layers.back().lattice_area));
}

TEST_CASE("a mirrored structure is as stiff as its original") {
  const Estimate result = estimate_of(
      cone("cone", "{tip: 1.6 mm, root: 1.8 mm}", skin + "    at: {y: 400 mm, z: 400 mm}\n    mirrored_as: twin\n"),
      R"(  drop:
    striker: {id: mass, mass: 300 kg}
    struck: {id: rig, held: true}
    closing_speed: 7 m/s
    share: {cone: 50 %, twin: 50 %}
)");
  CHECK(result.structures[0].bending_frequency == result.structures[1].bending_frequency);
  CHECK(result.structures[1].column.structure == "twin");
}

TEST_CASE("a search builds no beam unless a limit looks at it") {
  const std::string structures = cone("cone", "{tip: 1.6 mm, root: 1.8 mm}", skin);
  const auto sections = [&](const std::string& limits) {
    return bare_structure_models(case_of(structures, drop(), limits), catalogue()).front().column.sections.size();
  };
  CHECK(sections("  stroke: {quantity: stroke_used, at_most: 100 %}\n") == 0);
  CHECK(sections("  stability: {quantity: stability_reserve, at_least: 50 %}\n") > 0);
}

TEST_CASE("a service load within the elastic range passes its limit and a hundred times as much fails it") {
  const std::string structures = cone("cone", "{tip: 1.6 mm, root: 1.8 mm}", skin);
  const Estimate small = estimate_of(structures, drop(), service_limit, towed("-2 kN"));
  const Estimate large = estimate_of(structures, drop(), service_limit, towed("-200 kN"));
  CHECK(check_named(small.deciding, "service").word == Word::pass);
  CHECK(check_named(large.deciding, "service").word == Word::fail);
  CHECK(*check_named(large.deciding, "service").combined.nominal ==
        Approx(100 * *check_named(small.deciding, "service").combined.nominal).epsilon(1e-9));
}

TEST_CASE("fatigue without a stated strength stays open and names what is missing") {
  const Estimate result = estimate_of(
      cone("cone", "{tip: 1.6 mm, root: 1.8 mm}", skin), drop(), "  life: {quantity: fatigue_damage, at_most: 1}\n",
      "service_loads:\n  kerb: {of: cone, acceleration: {z: 8 g}, carried_mass: 1 kg, station: 0 mm, "
      "factor: 1, cycles: 1e4}\n");
  const Check& life = check_named(result.deciding, "life");
  CHECK(life.word == Word::open);
  CHECK(life.note.find("cone: skin: its fatigue strength is not stated") != std::string::npos);
}

TEST_CASE("a limit on service loads that cannot be had names the load that is missing, not a lattice") {
  const std::string limits = service_limit + "  life: {of: second, quantity: fatigue_damage, at_most: 1}\n";
  const CrashCase crash_case =
      case_of(block("first") + block("second"), drop() + "    share: {first: 50 %, second: 50 %}\n", limits,
              "service_loads:\n"
              "  kerb: {of: structures, acceleration: {z: 8 g}, factor: 1}\n"
              "  road: {of: first, acceleration: {z: 2 g}, factor: 1, cycles: 1e6}\n");
  std::vector<StructureModel> models = structure_models(crash_case, catalogue());
  const auto note = [&](const std::string& limit) {
    return check_named(judge_case(crash_case, models, crash_case.scatter_sets[crash_case.deciding_set]), limit).note;
  };
  // The strengths of `first` are not stated either, but the limit does not look at it.
  CHECK(note("life") == "no service load on second carries `cycles`");
  CHECK(note("service").empty());
  for (StructureModel& model : models)
    model.service.clear();
  CHECK(note("service") == "no service load acts on any structure");
  models.back().column.sections.clear();
  CHECK(note("life") == "second was modelled without the beam that column checks need");
}

TEST_CASE("an oblique force uses more of the section than a straight one") {
  const auto use = [&](const std::string& angle) {
    const Estimate result =
        estimate_of(cone("cone", "{tip: 1.6 mm, root: 1.8 mm}", skin), drop() + "    force_angle: " + angle + "\n");
    return result.deciding.impacts.front().column_states.front().section.use;
  };
  CHECK(use("10 deg") > use("5 deg"));
  CHECK(use("5 deg") > use("0 deg"));
}
