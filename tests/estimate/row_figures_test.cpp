#include "estimate/rate_curve.hpp"
#include "sample_cases.hpp"
#include "unit_cell/catalogue_folder.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using namespace sample_cases;

namespace {

/// An invented metal whose strength halves by 220 °C and which states laws for energy and for peak.
const char* const metal = R"(schema: 1
id: lively
name: Lively metal
alloy: X
condition: invented
process: laser powder bed fusion
description: Invented for a test.
density: {value: 5000 kg/m^3, source: invented, standing: derived}
youngs_modulus: {value: 100 GPa, source: invented, standing: derived}
poissons_ratio: {value: 0.3, source: invented, standing: derived}
proof_stress: {value: 400 MPa, source: invented, standing: derived}
fracture_elongation: {value: 20 %, source: invented, standing: derived}
rate_laws:
  energy: {form: cowper_symonds, D: 6500 1/s, q: 4, source: invented, standing: derived}
  peak: {form: johnson_cook, C: 0.05, reference_rate: 1e-3 1/s, source: invented, standing: derived}
temperature_factors:
  source: invented
  points:
    - {temperature: 20 °C, factor: 1}
    - {temperature: 220 °C, factor: 0.5}
)";

const Catalogue& with_metal() {
  static const TemporaryFolder folder("row_figures");
  static const bool written = [] {
    folder.write("base_materials/lively.yaml", metal);
    return true;
  }();
  (void)written;
  static const Catalogue both({std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "lattices", folder.path()});
  return both;
}

std::string box(const std::string& more, const std::string& cell = "kelvin", const std::string& stations = R"(
        - {station: 0 mm, width: 90 mm, height: 110 mm}
        - {station: 300 mm, width: 90 mm, height: 110 mm})") {
  return "  box:\n    sections:\n      shape: rectangle\n      stations:" + stations +
         "\n    layers: 60\n    lattice: {cell: " + cell + ", material: lively, cell_edge: 10 mm, strut: 1.2 mm}\n" +
         more;
}

StructureModel model_of(const std::string& structure) {
  return structure_models(case_of(structure, drop()), with_metal()).front();
}

const char* const stepped = R"(
        - {station: 0 mm, width: 60 mm, height: 60 mm}
        - {station: 100 mm, width: 60 mm, height: 60 mm}
        - {station: 101 mm, width: 120 mm, height: 120 mm}
        - {station: 300 mm, width: 120 mm, height: 120 mm})";

} // namespace

TEST_CASE("the row behind a step starts afresh at the step, when the series first carries its start force") {
  const StructureModel model = model_of(box("", "octet", stepped));
  REQUIRE(model.later_peaks.size() == 1);
  REQUIRE(model.row_starts.size() == 1);
  const RowStart& start = model.row_starts.front();
  CHECK(start.station == Approx(0.100).epsilon(1e-12));
  const CrushCurve series = crush_curve(model.layers);
  CHECK(series.force_at(start.crush) == Approx(model.later_peaks.front().start_force).epsilon(1e-6));
  CHECK(series.force_at(0.98 * start.crush) < model.later_peaks.front().start_force);
  // Twenty layers in front are past their efficiency strain and short of all their height.
  CHECK(start.crush > 0.100 * model.layers.front().efficiency_strain);
  CHECK(start.crush < 0.100);
}

TEST_CASE("a body without a late start has no row starts, a mirror has its original's") {
  CHECK(model_of(box("")).row_starts.empty());
  const std::string pair = "  box:\n    at: {y: 300 mm, z: 400 mm}\n    mirrored_as: other\n" +
                           box("", "octet", stepped).substr(std::string("  box:\n").size());
  const std::vector<StructureModel> both = structure_models(
      case_of(pair, "  hit:\n    striker: {id: mass, mass: 300 kg}\n    struck: {id: rig, held: true}\n"
                    "    closing_speed: 7 m/s\n    share: {box: 50 %, other: 50 %}\n"),
      with_metal());
  REQUIRE(both.size() == 2);
  CHECK(both[1].row_starts.size() == both[0].row_starts.size());
}

TEST_CASE("temperature and factor of each layer are those of the straight line at its middle") {
  CHECK_FALSE(model_of(box("")).heat);
  const StructureModel model = model_of(box("    temperature: {tip: 20 °C, root: 220 °C}\n"));
  REQUIRE(model.heat);
  REQUIRE(model.heat->factor.size() == model.layers.size());
  for (std::size_t i = 0; i < model.layers.size(); ++i) {
    const double part = (model.layers[i].station + 0.5 * model.layers[i].height) / 0.3;
    CHECK(model.heat->temperature[i] == Approx(293.15 + 200 * part).epsilon(1e-12));
    CHECK(model.heat->factor[i] == Approx(1 - 0.5 * part).epsilon(1e-12));
  }
}

TEST_CASE("an impact tells each layer's strain rate and its factors by both laws") {
  const Estimate result = estimate(case_of(box(""), drop("300 kg", "9 m/s")), with_metal());
  const ImpactOutcome& impact = result.deciding.impacts.front();
  REQUIRE(impact.layer_rates.size() == 1);
  const LayerRates& rates = impact.layer_rates.front();
  CHECK(rates.structure == "box");
  // A prism crushes from the struck end: the first row meets 9 m/s over a cell of 10 mm.
  CHECK(rates.strain_rate.front() == Approx(900).epsilon(1e-12));
  CHECK(rates.strain_rate.back() == 0); // the mass stands before the front gets there
  CHECK(rates.energy_factor.back() == 1);
  for (std::size_t i = 0; i < rates.strain_rate.size(); ++i) {
    const double rate = rates.strain_rate[i];
    const double energy = 1 + std::pow(rate / 6500, 0.25);
    const double peak = rate > 1e-3 ? 1 + 0.05 * std::log(rate / 1e-3) : 1;
    CHECK(rates.energy_factor[i] == Approx(energy).epsilon(1e-12));
    CHECK(rates.peak_factor[i] == Approx(std::max(energy, peak)).epsilon(1e-12));
  }
}

TEST_CASE("without a rate law an impact tells no strain rates") {
  CHECK(estimate_of(cone("cone"), drop()).deciding.impacts.front().layer_rates.empty());
}

TEST_CASE("a structure that the face misses meets no strain rate") {
  const auto at = [](const std::string& id, const char* y) {
    return "  " + id + ":\n    at: {y: " + y + ", z: 400 mm}\n" + box("").substr(std::string("  box:\n").size());
  };
  const Estimate result = estimate(case_of(at("left", "400 mm") + at("right", "-400 mm"), R"(  hit:
    striker: {id: trolley, mass: 300 kg}
    struck: {id: car, mass: 1200 kg}
    closing_speed: 8 m/s
    face: {shape: flat, width: 400 mm, height: 600 mm, lower_edge: 100 mm, lateral: 400 mm}
)"),
                                   with_metal());
  const std::vector<LayerRates>& rates = result.deciding.impacts.front().layer_rates;
  REQUIRE(rates.size() == 1);
  CHECK(rates.front().structure == "left");
}
