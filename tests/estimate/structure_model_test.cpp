#include "quantities/message_of.hpp"
#include "sample_cases.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace crushwright;
using namespace sample_cases;

namespace {

std::vector<StructureModel> models_of(const std::string& structures, const std::string& more = "") {
  return structure_models(case_of(structures, drop(), "", more), catalogue());
}

bool warns(const StructureModel& model, const std::string& part) {
  return std::any_of(model.warnings.begin(), model.warnings.end(),
                     [&](const std::string& warning) { return warning.find(part) != std::string::npos; });
}

/// Volume between two parallel rectangles with linear sides: Simpson's rule is exact for a quadratic.
double frustum(double width_tip, double height_tip, double width_root, double height_root, double length) {
  const double middle = 0.25 * (width_tip + width_root) * (height_tip + height_root);
  return length / 6 * (width_tip * height_tip + 4 * middle + width_root * height_root);
}

/// A material without a strength factor at any temperature comes from the catalogue; the rise from 20 °C is the
/// case's.
StructureModel block_at(const std::string& temperature) {
  return models_of(block("block"), "service_temperature: " + temperature + "\n").front();
}

} // namespace

TEST_CASE("mass of a tapered body: lattice and skin are frusta, plates are area times thickness") {
  const std::string more = skin + "    end_plates: {material: AlSi10Mg-stress-relieved, tip_thickness: 2 mm, "
                                  "root_thickness: 6 mm}\n    fixed_mass: 0.18 kg\n    layers: 400\n";
  const StructureModel model = models_of(cone("cone", "1.7 mm", more)).front();
  const double density = 2670, t = 0.8e-3;
  const double outer = frustum(0.08, 0.10, 0.11, 0.14, 0.4);
  const double inner = frustum(0.08 - 2 * t, 0.10 - 2 * t, 0.11 - 2 * t, 0.14 - 2 * t, 0.4);
  const double solid_part = relative_density(catalogue().cell("kelvin"), 1.7 / 12);
  // 400 mid-point layers on a quadratic area: within 1/(12 N²) of its curvature, far below 1e-6.
  CHECK(model.mass.lattice == Approx(solid_part * inner * density).epsilon(1e-6));
  CHECK(model.mass.skin == Approx((outer - inner) * density).epsilon(1e-6));
  CHECK(model.mass.end_plates == Approx(density * (0.002 * 0.08 * 0.10 + 0.006 * 0.11 * 0.14)).epsilon(1e-12));
  CHECK(model.mass.fixed == 0.18);
  CHECK(model.mass.total ==
        Approx(model.mass.lattice + model.mass.skin + model.mass.end_plates + 0.18).epsilon(1e-15));
  CHECK_FALSE(model.mass.weighed);
}

TEST_CASE("a layer carries plateau stress times the area inside the skin") {
  const StructureModel model = models_of(cone("cone", "1.7 mm", skin)).front();
  const Layer& layer = model.layers[10];
  const double part = (layer.station + 0.5 * layer.height) / 0.4;
  const double inside = (0.08 + 0.03 * part - 1.6e-3) * (0.10 + 0.04 * part - 1.6e-3);
  CHECK(layer.lattice_area == Approx(inside).epsilon(1e-12));
  CHECK(layer.lattice_force == Approx(model.cells[1].properties.plateau_stress.value * inside).epsilon(1e-12));
}

TEST_CASE("a material that states no rate factor is taken faster for force checks, and says so") {
  std::string foil = block("block");
  foil.replace(foil.find("AlSi10Mg-stress-relieved"), 24, "AlSi10Mg-as-built");
  REQUIRE(catalogue().material("AlSi10Mg-as-built").rate_factor);
  CHECK_FALSE(warns(models_of(foil).front(), "rate factor"));
  const std::string id = "PA12-laser-sintered";
  REQUIRE_FALSE(catalogue().material(id).rate_factor);
  foil.replace(foil.find("AlSi10Mg-as-built"), 17, id);
  const StructureModel model = models_of(foil).front();
  CHECK(warns(model, "states no rate factor"));
  CHECK(model.rate_low == 1);
  CHECK(model.rate_high == 1.2);
}

TEST_CASE("a skin is warned of its fold peaks, and of a width outside what its law was found for") {
  const StructureModel thin = models_of(cone("cone", "1.7 mm", skin)).front();
  double greatest = 0;
  for (const Layer& layer : thin.layers)
    greatest = std::max(greatest, layer.skin_force);
  CHECK(warns(thin, fmt::format("up to {:.3f} kN more", 0.5e-3 * greatest)));
  CHECK(warns(thin, "is extrapolated")); // 90 mm and more over 0.8 mm
  const StructureModel thick =
      models_of(cone("cone", "1.7 mm", "    skin: {material: AlSi10Mg-stress-relieved, thickness: 2 mm}\n")).front();
  CHECK_FALSE(warns(thick, "is extrapolated"));
  CHECK_FALSE(warns(models_of(cone("cone")).front(), "folds"));
}

TEST_CASE("a mirrored structure is its original with the sign of y turned") {
  const std::string pair = cone("left", "1.7 mm", "    at: {y: 400 mm, z: 300 mm}\n    mirrored_as: right\n");
  const auto models = structure_models(case_of(pair, drop() + "    share: {left: 50 %, right: 50 %}\n"), catalogue());
  REQUIRE(models.size() == 2);
  CHECK(models[1].lateral == -models[0].lateral);
  CHECK(models[1].vertical == models[0].vertical);
  CHECK(models[1].curve.force == models[0].curve.force);
  CHECK(models[1].curve.crush == models[0].curve.crush);
  CHECK(models[1].mass.total == models[0].mass.total);
}

TEST_CASE("a body that weakens towards its attachment is an inversion, and the first layer is named") {
  const StructureModel model = models_of(cone("cone", "{tip: 2.2 mm, root: 1.2 mm}")).front();
  REQUIRE_FALSE(model.inversions.empty());
  CHECK(model.inversions.front().collapse_force < model.inversions.front().outer_collapse_force);
  CHECK(warns(model, "would crush before their neighbour towards the struck end"));
  CHECK(models_of(cone("cone", "{tip: 1.2 mm, root: 2.0 mm}")).front().inversions.empty());
}

TEST_CASE("a lattice that wears no strength factor is warned of from 100 °C, and more strongly from 175 °C") {
  CHECK(block_at("20 °C").warnings == block_at("99.9 °C").warnings);
  CHECK_FALSE(warns(block_at("99.9 °C"), "no strength factor"));
  CHECK(warns(block_at("100 °C"), "strength at room temperature is used"));
  CHECK(warns(block_at("174.9 °C"), "strength at room temperature is used"));
  CHECK(warns(block_at("175 °C"), "ageing"));
  CHECK_FALSE(warns(block_at("174.9 °C"), "ageing"));
}

TEST_CASE("a weighed part gives back the strut it was printed with") {
  const std::string plates =
      "    end_plates: {material: AlSi10Mg-stress-relieved, tip_thickness: 2 mm, root_thickness: 6 mm}\n";
  for (const double factor : {0.94, 1.0, 1.07}) {
    const std::string as_printed = fmt::format("{{tip: {:.17g} mm, root: {:.17g} mm}}", 1.6 * factor, 1.8 * factor);
    const StructureModel printed = models_of(cone("cone", as_printed, skin + plates)).front();
    const std::string weighed = fmt::format(
        "    as_built: {{weighed_mass: {:.17g} kg, measured_skin_thickness: 0.8 mm}}\n", printed.mass.total);
    const StructureModel model =
        models_of(cone("cone", "{tip: 1.6 mm, root: 1.8 mm}", skin + plates + weighed)).front();
    CHECK(model.cells.front().size == Approx(1.6e-3 * factor).epsilon(1e-9));
    CHECK(model.cells.back().size == Approx(1.8e-3 * factor).epsilon(1e-9));
    CHECK(model.mass.weighed);
    CHECK(model.mass.total == Approx(printed.mass.total).epsilon(1e-9));
    CHECK(model.curve.bottoming_force == Approx(printed.curve.bottoming_force).epsilon(1e-8));
  }
}

TEST_CASE("the measured skin, not the drawn one, is taken off the weighed mass") {
  const std::string thick =
      "    skin: {material: AlSi10Mg-stress-relieved, thickness: 1.1 mm, first_peak_ratio: 1.2}\n";
  const StructureModel printed = models_of(cone("cone", "{tip: 1.6 mm, root: 1.8 mm}", thick)).front();
  const std::string weighed = fmt::format(
      "    as_built: {{weighed_mass: {:.17g} kg, measured_skin_thickness: 1.1 mm}}\n", printed.mass.total);
  const StructureModel model = models_of(cone("cone", "{tip: 1.6 mm, root: 1.8 mm}", skin + weighed)).front();
  CHECK(model.skin_thickness == 1.1e-3);
  CHECK(model.cells.front().size == Approx(1.6e-3).epsilon(1e-9));
}

TEST_CASE("without a measured skin a weighed mass gives a range of struts that holds the drawn one") {
  const StructureModel drawn = models_of(cone("cone", "1.7 mm", skin)).front();
  const std::string weighed = fmt::format("    as_built: {{weighed_mass: {:.17g} kg}}\n", drawn.mass.total);
  const StructureModel model = models_of(cone("cone", "1.7 mm", skin + weighed)).front();
  REQUIRE(model.as_built_notes.size() == 1);
  const std::string& note = model.as_built_notes.front();
  INFO(note);
  CHECK(note.find("The skin was not measured: the range takes it within ± 10 % of the drawing.") !=
        std::string::npos);
  CHECK(note.find("if no powder is trapped and the metal is at its stated density") != std::string::npos);
  CHECK(note.find(" to ") != std::string::npos);
  CHECK(note.find("±") == note.rfind("±"));
  CHECK(model.cells.front().size == Approx(1.7e-3).epsilon(1e-9));
  const StructureModel bare = models_of(cone("cone", "1.7 mm")).front();
  const std::string bare_weighed =
      fmt::format("    as_built: {{weighed_mass: {{value: {0:.6f} kg, low: {1:.6f} kg, high: {2:.6f} kg}}}}\n",
                  bare.mass.total, 0.98 * bare.mass.total, 1.02 * bare.mass.total);
  const StructureModel known = models_of(cone("cone", "1.7 mm", bare_weighed)).front();
  CHECK(known.as_built_notes.front().find("strut diameter of 1.7 mm ± ") != std::string::npos);
}

TEST_CASE("measuring the skin alone leaves the process offset on the strut") {
  const std::string offset = cone("cone", "1.6 mm, process_offset: 0.1 mm", skin);
  const std::string measured = offset + "    as_built: {measured_skin_thickness: 0.8 mm}\n";
  CHECK(models_of(measured).front().cells.front().size == Approx(1.7e-3).epsilon(1e-12));
  CHECK(models_of(measured).front().mass.lattice == Approx(models_of(offset).front().mass.lattice).epsilon(1e-12));
}

TEST_CASE("a measured strut is used as it is, in the proportion of the drawn grading") {
  const std::string measured =
      cone("cone", "{tip: 1.6 mm, root: 1.8 mm}", "    as_built: {measured_size: 1.87 mm}\n");
  const StructureModel model = models_of(measured).front();
  CHECK(model.cells.front().size == Approx(1.6e-3 * 1.1).epsilon(1e-12));
  CHECK(model.cells.back().size == Approx(1.8e-3 * 1.1).epsilon(1e-12));
}

TEST_CASE("a mass that no strut explains is refused at its line") {
  const std::string light = cone("cone", "1.7 mm", skin + "    as_built: {weighed_mass: 0.2 kg}\n");
  const std::string message = message_of([&] { models_of(light); });
  CHECK(message.find("as_built: {weighed_mass: 0.2 kg}") != std::string::npos);
  INFO(message);
  CHECK(message.find("is less than skin and plates alone") != std::string::npos);
  const std::string heavy = cone("cone", "1.7 mm", skin + "    as_built: {weighed_mass: 20 kg}\n");
  CHECK(message_of([&] { models_of(heavy); }).find("which no size of kelvin between") != std::string::npos);
}

TEST_CASE("halving the layers' height quarters the error in energy: the demo's cone under its first peak") {
  CrashCase crash_case = shipped_case("twin_rear_cones");
  const auto curve_with = [&](int layers) {
    for (StructureInput& structure : crash_case.structures)
      structure.layer_count = layers;
    return crush_curve(structure_models(crash_case, catalogue()).front().layers);
  };
  // Layers start one by one, so that the error at one crush swings about its trend; its mean square over the stroke
  // shows the trend.
  const CrushCurve limit = curve_with(1536);
  const auto error_of = [&](const CrushCurve& curve) {
    double sum = 0;
    for (int i = 0; i < 60; ++i) {
      const double crush = 0.10 + 0.20 * i / 59;
      sum += std::pow(curve.energy_at(crush) / limit.energy_at(crush) - 1, 2);
    }
    return std::sqrt(sum / 60);
  };
  const double coarsest = error_of(curve_with(12));
  CHECK(coarsest < 2e-3);
  double before = coarsest;
  for (const int layers : {24, 48, 96, 192}) {
    const double error = error_of(curve_with(layers));
    UNSCOPED_INFO(layers << " layers: error " << error);
    CHECK(before / error == Approx(4).margin(1.2));
    before = error;
  }
  // The swing changes its phase with the number of layers: a factor of 1.7 between the ends is 0.2 in the order.
  CHECK(std::log2(coarsest / before) / 4 == Approx(2).margin(0.2));
}

namespace {

StructureModel cone_with_factor(const std::string& factor) {
  const std::string strut = "1.7 mm" + (factor.empty() ? "" : ", size_factor: " + factor);
  return models_of(cone("cone", strut)).front();
}

} // namespace

TEST_CASE("a size factor of 1 changes nothing, and one along the axis is a graded strut") {
  const StructureModel plain = cone_with_factor("");
  const StructureModel one = cone_with_factor("{station: [0 mm, 400 mm], y: [-60 mm, 60 mm], values: [1, 1, 1, 1]}");
  const StructureModel along = cone_with_factor("{station: [0 mm, 400 mm], values: [1, 1.05]}");
  const StructureModel graded = models_of(cone("cone", "{tip: 1.7 mm, root: 1.785 mm}")).front();
  for (std::size_t i = 0; i < plain.layers.size(); ++i) {
    CHECK(one.layers[i].lattice_force == Approx(plain.layers[i].lattice_force).epsilon(1e-9));
    CHECK(along.layers[i].relative_density == Approx(graded.layers[i].relative_density).epsilon(1e-9));
    CHECK(along.layers[i].lattice_force == Approx(graded.layers[i].lattice_force).epsilon(1e-9));
  }
}

TEST_CASE("a section of thin and thick struts carries the mean of what both would") {
  // The factor is 0.95 over most of one half and 1.05 over the other, so the means are those of two lattices.
  const StructureModel both = cone_with_factor(
      "{station: [0 mm], y: [-1000 mm, -0.01 mm, 0.01 mm, 1000 mm], values: [0.95, 0.95, 1.05, 1.05]}");
  const StructureModel thin = models_of(cone("cone", "1.615 mm")).front();
  const StructureModel thick = models_of(cone("cone", "1.785 mm")).front();
  for (std::size_t i = 0; i < both.layers.size(); ++i) {
    CHECK(both.layers[i].lattice_force ==
          Approx(0.5 * (thin.layers[i].lattice_force + thick.layers[i].lattice_force)).epsilon(1e-6));
    CHECK(both.layers[i].relative_density ==
          Approx(0.5 * (thin.layers[i].relative_density + thick.layers[i].relative_density)).epsilon(1e-6));
    CHECK(both.layers[i].size == Approx(1.615e-3));
  }
  CHECK(both.smallest_wall == Approx(1.615e-3));
}
