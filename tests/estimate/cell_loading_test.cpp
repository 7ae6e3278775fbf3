#include "crushwright/errors.hpp"
#include "estimate/rate_curve.hpp"
#include "estimate/trigger.hpp"
#include "quantities/message_of.hpp"
#include "sample_cases.hpp"
#include "unit_cell/catalogue_folder.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using namespace sample_cases;

namespace {

/// An invented metal in numbers for a pocket calculator.
std::string metal(const std::string& id, const std::string& more) {
  return "schema: 1\nid: " + id + "\nname: " + id + R"(
alloy: X
condition: invented
process: laser powder bed fusion
description: Invented for a test.
density: {value: 5000 kg/m^3, source: invented, standing: derived}
youngs_modulus: {value: 100 GPa, source: invented, standing: derived}
poissons_ratio: {value: 0.3, source: invented, standing: derived}
proof_stress: {value: 400 MPa, source: invented, standing: derived}
ultimate_stress: {value: 500 MPa, source: invented, standing: derived}
hardening_exponent: {value: 0.1, source: invented, standing: derived}
fracture_elongation: {value: 20 %, source: invented, standing: derived}
)" + more;
}

const std::string factors = "temperature_factors:\n  source: invented\n  points:\n"
                            "    - {temperature: 20 °C, factor: 1}\n    - {temperature: 220 °C, factor: 0.5}\n";

const Catalogue& with_metals() {
  static const TemporaryFolder folder("cell_loading");
  static const bool written = [] {
    const std::string steady = "rate_factor: {value: 1.05, low: 1, high: 1.1, source: invented, standing: derived}\n";
    folder.write("base_materials/softening.yaml", metal("softening", steady + factors));
    folder.write("base_materials/steady.yaml", metal("steady", steady));
    folder.write("base_materials/lively.yaml",
                 metal("lively", "rate_factor: {value: 1.2, low: 1.1, high: 1.3, source: invented, standing: "
                                 "derived}\n"));
    folder.write("base_materials/slow.yaml",
                 metal("slow", "rate_factor: {value: 1, source: invented, standing: derived}\n"));
    folder.write("base_materials/fast.yaml",
                 metal("fast", "rate_laws:\n  energy: {form: cowper_symonds, D: 6500 1/s, q: 4, source: invented, "
                               "standing: derived}\n"));
    return true;
  }();
  (void)written;
  static const Catalogue both({std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "lattices", folder.path()});
  return both;
}

StructureModel model_of(const std::string& structure, const std::string& more = "") {
  return structure_models(case_of(structure, drop(), "", more), with_metals()).front();
}

/// Prismatic box, 90 x 110 mm and 300 mm long, with a lattice of 10 mm cells or without one.
std::string box(const std::string& lattice_metal, const std::string& more, const std::string& cell = "kelvin") {
  std::string text = "  box:\n    sections:\n      shape: rectangle\n      stations:\n"
                     "        - {station: 0 mm, width: 90 mm, height: 110 mm}\n"
                     "        - {station: 300 mm, width: 90 mm, height: 110 mm}\n    layers: 60\n";
  if (!lattice_metal.empty())
    text += "    lattice: {cell: " + cell + ", material: " + lattice_metal + ", cell_edge: 10 mm, strut: 1.5 mm}\n";
  return text + more;
}

std::string skin_of(const std::string& skin_metal, const std::string& more = "") {
  return "    skin: {material: " + skin_metal + ", thickness: 2 mm" + more + "}\n";
}

bool warns(const StructureModel& model, const std::string& part) {
  return std::any_of(model.warnings.begin(), model.warnings.end(),
                     [&](const std::string& warning) { return warning.find(part) != std::string::npos; });
}

std::string failure(const std::string& structure) {
  return message_of([&] { model_of(structure); });
}

} // namespace

TEST_CASE("each layer has the strength of its own temperature") {
  const StructureModel cold = model_of(box("softening", skin_of("softening")));
  const StructureModel warm =
      model_of(box("softening", skin_of("softening") + "    temperature: {tip: 20 °C, root: 220 °C}\n"));
  for (std::size_t i = 0; i < cold.layers.size(); ++i) {
    const double factor = 1 - 0.5 * (cold.layers[i].station + 0.5 * cold.layers[i].height) / 0.3;
    CHECK(warm.layers[i].lattice_force == Approx(factor * cold.layers[i].lattice_force).epsilon(1e-9));
    CHECK(warm.layers[i].skin_force == Approx(factor * cold.layers[i].skin_force).epsilon(1e-9));
  }
  CHECK(warm.temperature_factor == Approx(0.75).epsilon(1e-9)); // of a prism, the mean of a straight line
  CHECK_FALSE(warm.inversions.empty());                         // hot at the root, it crushes from there
}

TEST_CASE("a list of stations holds between and beyond its points, and takes the place of the case's temperature") {
  const StructureModel cold = model_of(box("softening", ""));
  const StructureModel warm = model_of(box("softening", R"(    temperature:
      - {station: 100 mm, value: 20 °C}
      - {station: 200 mm, value: 120 °C}
)"),
                                       "service_temperature: 220 °C\n");
  const auto ratio = [&](std::size_t i) { return warm.layers[i].lattice_force / cold.layers[i].lattice_force; };
  CHECK(ratio(3) == Approx(1).epsilon(1e-12));
  CHECK(ratio(30) == Approx(1 - 0.25 * 0.525).epsilon(1e-9)); // middle of the layer at 152.5 mm
  CHECK(ratio(55) == Approx(0.75).epsilon(1e-12));
}

TEST_CASE("one temperature all along is the case's service temperature, to the last digit") {
  const StructureModel all = model_of(box("softening", skin_of("softening")), "service_temperature: 100 °C\n");
  const StructureModel ends =
      model_of(box("softening", skin_of("softening") + "    temperature: {tip: 100 °C, root: 100 °C}\n"));
  CHECK(all.temperature_factor == Approx(0.8).epsilon(1e-12));
  CHECK(ends.curve.force == all.curve.force);
}

TEST_CASE("the hottest layer of a metal without a factor there is what the warning names") {
  const std::string ends = "    temperature: {tip: 40 °C, root: 190 °C}\n";
  CHECK(warns(model_of(box("steady", ends)), "ageing"));
  CHECK(warns(model_of(box("steady", "    temperature: {tip: 40 °C, root: 120 °C}\n")),
              "strength at room temperature is used"));
  CHECK_FALSE(warns(model_of(box("softening", ends)), "no strength factor"));
  // Beyond the stated points there is no factor.
  CHECK(warns(model_of(box("softening", "    temperature: {tip: 40 °C, root: 300 °C}\n")), "softening at 29"));
}

TEST_CASE("a skin of another metal takes that metal's temperature factor, at its squash load too") {
  const std::string hot = "service_temperature: 220 °C\n";
  const StructureModel cold = model_of(box("steady", skin_of("softening")));
  const StructureModel warm = model_of(box("steady", skin_of("softening")), hot);
  CHECK(warm.layers[5].lattice_force == cold.layers[5].lattice_force);
  CHECK(warm.layers[5].skin_force == Approx(0.5 * cold.layers[5].skin_force).epsilon(1e-12));
  const StructureModel empty_cold = model_of(box("", skin_of("softening")));
  const StructureModel empty_warm = model_of(box("", skin_of("softening")), hot);
  CHECK(empty_cold.first_peak.ratio > 1.5);
  CHECK(empty_warm.first_peak.ratio == Approx(empty_cold.first_peak.ratio).epsilon(1e-12));
  CHECK(warns(warm, "steady at"));
}

TEST_CASE("rate intervals of lattice and skin weigh with their forces") {
  const StructureModel model = model_of(box("steady", skin_of("lively")));
  const double share = model.lattice_share;
  REQUIRE(share > 0.1);
  REQUIRE(share < 0.9);
  CHECK(model.rate_low == Approx(share * 1.0 + (1 - share) * 1.1).epsilon(1e-12));
  CHECK(model.rate_nominal == Approx(share * 1.05 + (1 - share) * 1.2).epsilon(1e-12));
  CHECK(model.rate_high == Approx(share * 1.1 + (1 - share) * 1.3).epsilon(1e-12));
  CHECK_FALSE(model.has_rate_law);
  CHECK(model_of(box("steady", skin_of("steady"))).rate_nominal == 1.05);
  CHECK(model_of(box("", skin_of("lively"))).rate_high == 1.3);
}

TEST_CASE("a metal that states a rate law takes no factor beside it, and the page warns of laws from yield") {
  const StructureModel model = model_of(box("fast", skin_of("fast")));
  CHECK(model.has_rate_law);
  CHECK(model.rate_low == 1);
  CHECK(model.rate_high == 1);
  CHECK(warns(model, "Constants found from the yield point overstate"));
  REQUIRE(model.lattice_rate.peak); // falls back to the energy law
  CHECK(model.lattice_rate.peak->first == Approx(6500).epsilon(1e-12));
  const CrushCurve curve = curve_at_speed(model, 10, 500, RatePurpose::energy);
  CHECK(curve.force_at(1e-9) / model.curve.force_at(1e-9) ==
        Approx(1 + std::pow(10 / 0.010 / 6500, 0.25)).epsilon(1e-5));
}

TEST_CASE("in a verdict a metal with a rate law stops the mass sooner, at a higher force, on every side") {
  const auto judged = [](const std::string& metal_name) {
    return estimate(case_of(box(metal_name, ""), drop()), with_metals());
  };
  const Estimate slow = judged("slow"), fast = judged("fast");
  for (std::size_t side = 0; side < 3; ++side) {
    CHECK(outcome(fast, side).peak_crush < 0.95 * outcome(slow, side).peak_crush);
    CHECK(outcome(fast, side).peak_force > 1.05 * outcome(slow, side).peak_force);
  }
}

TEST_CASE("a trigger weakens the rows that it reaches and no other") {
  const StructureModel plain = model_of(box("steady", skin_of("steady")));
  const StructureModel model =
      model_of(box("steady", skin_of("steady") + "    trigger: {rows: 2, size_factor: 0.85, skin_factor: 0.7}\n"));
  const UnitCell& kelvin = with_metals().cell("kelvin");
  for (std::size_t i = 0; i < plain.layers.size(); ++i) {
    const bool weakened = i < 4; // two rows of 10 mm in layers of 5 mm
    const double thickness = weakened ? 1.4e-3 : 2e-3;
    CHECK(model.layers[i].size == Approx(weakened ? 0.85 * 1.5e-3 : 1.5e-3).epsilon(1e-12));
    CHECK(model.layers[i].relative_density ==
          Approx(relative_density(kelvin, (weakened ? 0.85 : 1) * 0.15)).epsilon(1e-12));
    // Square tube law: the wall to 5/3, and b of the thinner wall's own middle.
    const double side = (0.4 - 4 * thickness) / 4, drawn = (0.4 - 4 * 2e-3) / 4;
    CHECK(model.layers[i].skin_force / plain.layers[i].skin_force ==
          Approx(std::cbrt(side / drawn) * std::pow(thickness / 2e-3, 5.0 / 3)).epsilon(1e-9));
  }
  CHECK(model.smallest_wall == Approx(0.85 * 1.5e-3).epsilon(1e-12));
  CHECK(model.trigger_length == Approx(0.020).epsilon(1e-12));
  CHECK(model.inversions.empty());
}

TEST_CASE("the mass that a trigger saves is that of its rows") {
  const StructureModel model =
      model_of(box("steady", skin_of("steady") + "    trigger: {rows: 2, skin_factor: 0.5}\n"));
  REQUIRE(model.trigger_effect);
  // The skin's inner half goes, and the lattice grows into its room.
  const double inner = 0.086 * 0.106, middle = 0.088 * 0.108;
  const double density = relative_density(with_metals().cell("kelvin"), 0.15);
  CHECK(model.trigger_effect->mass_change == Approx(-5000 * 0.020 * (middle - inner) * (1 - density)).epsilon(1e-9));
}

TEST_CASE("a trigger lowers the first peak by what its rows are weaker, and the rows behind it start afresh") {
  const StructureModel plain = model_of(box("", skin_of("steady", ", first_peak_ratio: 2")));
  const StructureModel model = model_of(
      box("", skin_of("steady", ", first_peak_ratio: 2") + "    trigger: {length: 20 mm, skin_factor: 0.5}\n"));
  REQUIRE(model.trigger_effect);
  const TriggerEffect& effect = *model.trigger_effect;
  const double weaker = model.layers.front().skin_force / plain.layers.front().skin_force;
  CHECK(effect.first_peak_with == Approx(weaker * effect.peak_without).epsilon(1e-9));
  CHECK(plain.later_peaks.empty());
  REQUIRE(model.later_peaks.size() == 1);
  CHECK(model.later_peaks.front().ratio == Approx(2).epsilon(1e-9));
  CHECK(effect.peak_with == Approx(effect.peak_without).epsilon(1e-9));
  // It stands where the trigger's rows have packed, not at the start.
  CHECK(model.curve.peak_force_up_to(0.5 * 0.020) < 1.2 * effect.first_peak_with);
  CHECK(model.curve.peak_force_up_to(0.040) == Approx(effect.peak_with).epsilon(1e-2));
  CHECK(effect.energy_cost > 0);
  CHECK(effect.plateau_with < effect.plateau_without);
  CHECK(effect.mass_change == Approx(-5000 * 0.020 * (0.088 * 0.108 - 0.086 * 0.106)).margin(0.02));
}

TEST_CASE("a gentle trigger leads the crush into the rows behind it, which then take no peak of their own") {
  const StructureModel model = model_of(
      box("", skin_of("steady", ", first_peak_ratio: 2") + "    trigger: {length: 20 mm, skin_factor: 0.96}\n"));
  CHECK(model.later_peaks.empty());
  REQUIRE(model.trigger_effect);
  CHECK(model.trigger_effect->peak_with < model.trigger_effect->peak_without);
}

TEST_CASE("a cell that starts at its plateau takes no peak with or without a trigger") {
  const StructureModel model = model_of(block("block", "100 mm", "    trigger: {rows: 3, size_factor: 0.8}\n"));
  CHECK(model.first_peak.ratio == 1);
  CHECK(model.later_peaks.empty());
}

TEST_CASE("a body with a step in section starts afresh behind the step") {
  const std::string stepped = R"(  body:
    sections:
      shape: rectangle
      stations:
        - {station: 0 mm, width: 60 mm, height: 60 mm}
        - {station: 100 mm, width: 60 mm, height: 60 mm}
        - {station: 101 mm, width: 120 mm, height: 120 mm}
        - {station: 300 mm, width: 120 mm, height: 120 mm}
    lattice: {cell: octet, material: steady, cell_edge: 10 mm, strut: 1.2 mm}
    layers: 60
)";
  const StructureModel model = model_of(stepped);
  REQUIRE(model.first_peak.ratio > 1);
  REQUIRE(model.later_peaks.size() == 1);
  CHECK(model.later_peaks.front().start_force / model.layers.front().start_force() == Approx(4).epsilon(1e-9));
  CHECK(model.later_peaks.front().ratio == Approx(model.first_peak.ratio).epsilon(1e-9));
}

TEST_CASE("a weighed part with a trigger gives back the strut it was printed with") {
  const std::string trigger = "    trigger: {rows: 2, size_factor: 0.85, skin_factor: 0.7}\n";
  const StructureModel printed = model_of(box("steady", skin_of("steady") + trigger));
  const std::string weighed =
      fmt::format("    as_built: {{weighed_mass: {:.17g} kg, measured_skin_thickness: 2 mm}}\n", printed.mass.total);
  const StructureModel model = model_of(box("steady", skin_of("steady") + trigger + weighed));
  CHECK(model.layers.back().size == Approx(1.5e-3).epsilon(1e-9));
}

TEST_CASE("a trigger that cannot be is refused with what to do") {
  const std::string with_skin = skin_of("steady");
  CHECK(failure(box("steady", "    trigger: {size_factor: 0.8}\n")).find("nothing says how far") !=
        std::string::npos);
  CHECK(failure(box("steady", "    trigger: {rows: 2, length: 20 mm, size_factor: 0.8}\n")).find("twice") !=
        std::string::npos);
  CHECK(failure(box("steady", "    trigger: {rows: 2}\n")).find("weakens nothing") != std::string::npos);
  CHECK(failure(box("steady", "    trigger: {rows: 2, skin_factor: 0.8}\n")).find("no skin") != std::string::npos);
  CHECK(failure(box("", with_skin + "    trigger: {rows: 2, skin_factor: 0.8}\n")).find("no cells") !=
        std::string::npos);
  CHECK(failure(box("", with_skin + "    trigger: {length: 20 mm, size_factor: 0.8}\n")).find("no lattice") !=
        std::string::npos);
  CHECK(failure(box("steady", "    trigger: {rows: 30, size_factor: 0.8}\n")).find("whole structure") !=
        std::string::npos);
  CHECK(failure(box("steady", "    trigger: {rows: 2, size_factor: 1.2}\n")).find("size_factor") !=
        std::string::npos);
  CHECK(failure(box("steady", "    trigger: {length: 2 mm, size_factor: 0.8}\n")).find("raise `layers`") !=
        std::string::npos);
  CHECK(failure(box("steady", "    trigger: {rows: 2, size_factor: 0.05}\n")).find("strut") != std::string::npos);
}

TEST_CASE("temperatures whose stations do not rise or lie outside the structure are refused") {
  CHECK(failure(box("steady", "    temperature:\n      - {station: 50 mm, value: 20 °C}\n"
                              "      - {station: 50 mm, value: 30 °C}\n"))
            .find("do not rise") != std::string::npos);
  CHECK(failure(box("steady", "    temperature:\n      - {station: 400 mm, value: 20 °C}\n")).find("station") !=
        std::string::npos);
  CHECK(failure(box("steady", "    temperature: {tip: 20 °C}\n")).find("root") != std::string::npos);
}
