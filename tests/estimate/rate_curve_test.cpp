#include "estimate/rate_curve.hpp"

#include "sample_cases.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <numeric>

using namespace crushwright;
using namespace sample_cases;

namespace {

constexpr double speed = 8, mass = 400;

// Constants as recalled (memory) for aluminium, after Jones; here they only have to be constants.
RateLaw energy_law() {
  return {RateForm::cowper_symonds, 6500, 4, {}};
}

RateLaw peak_law() {
  return {RateForm::cowper_symonds, 1300, 4, {}};
}

StructureModel without_law(const std::string& structure) {
  return structure_models(case_of(structure, drop()), catalogue()).front();
}

StructureModel with_laws(const std::string& structure) {
  StructureModel model = without_law(structure);
  model.lattice_rate = model.skin_rate = {energy_law(), peak_law(), 1, 1, 1};
  model.has_rate_law = true;
  return model;
}

CrushCurve fast(const StructureModel& model, RatePurpose purpose, double at = speed) {
  return curve_at_speed(model, at, mass, purpose);
}

} // namespace

TEST_CASE("without a rate law a curve is the same at every speed, point by point") {
  const StructureModel model = without_law(block("block"));
  REQUIRE_FALSE(model.has_rate_law);
  CHECK(fast(model, RatePurpose::peak).force == model.curve.force);
  CHECK(fast(model, RatePurpose::energy).crush == model.curve.crush);
}

TEST_CASE("as the speed falls to nothing the curve becomes the quasi-static one") {
  const StructureModel model = with_laws(cone("cone", "1.7 mm", skin));
  double before = 1;
  for (const double slow : {1.0, 1e-3, 1e-6, 1e-9}) {
    const CrushCurve curve = fast(model, RatePurpose::energy, slow);
    const double over = curve.force_at(0.05) / model.curve.force_at(0.05) - 1;
    CHECK(over >= 0);
    CHECK(over <= before);
    before = over;
  }
  CHECK(before < 3e-3); // (1e-9 / 0.012 / 6500)^(1/4)
  CHECK(fast(model, RatePurpose::energy, 0).force == model.curve.force);
}

TEST_CASE("the first row's factor is the law at closing speed over the row's height") {
  const StructureModel model = with_laws(block("block"));
  // A layer of 200 mm / 48 is lower than a cell of 8 mm.
  const double strain_rate = speed / 8e-3;
  CHECK(layer_rates(model, speed, mass).strain_rate.front() == Approx(strain_rate).epsilon(1e-14));
  for (const auto& [purpose, law] :
       {std::pair{RatePurpose::energy, energy_law()}, std::pair{RatePurpose::peak, peak_law()}}) {
    const CrushCurve curve = fast(model, purpose);
    const double small = 1e-9;
    CHECK(curve.force_at(small) / model.curve.force_at(small) ==
          Approx(1 + std::pow(strain_rate / law.first, 1 / law.second)).epsilon(1e-5));
  }
}

TEST_CASE("a layer higher than a cell crushes as a whole") {
  const StructureModel model = with_laws(block("block", "100 mm", "    layers: 10\n"));
  CHECK(layer_rates(model, speed, mass).strain_rate.front() == Approx(speed / 0.020).epsilon(1e-14));
}

TEST_CASE("the speed of a row is what the rows before it left: v² = v0² - 2 W / m along the faster curve itself") {
  for (const std::string& structure : {block("block"), cone("cone", "1.7 mm", skin)}) {
    const StructureModel model = with_laws(structure);
    const CrushCurve curve = fast(model, RatePurpose::energy);
    const std::vector<RowTurn> turns = row_turns(model, speed, mass, RatePurpose::energy);
    REQUIRE(turns.size() == model.layers.size());
    CHECK(turns.front().speed == speed);
    for (std::size_t k = 1; k < turns.size(); ++k) {
      CHECK(turns[k].crush > turns[k - 1].crush);
      const double left = speed * speed - 2 * curve.energy_at(turns[k].crush) / mass;
      // Force and factor are both straight between points, their product is not quite; and the last row before
      // the stop sees its factor fall away.
      if (left > 0.1 * speed * speed)
        CHECK(turns[k].speed == Approx(std::sqrt(left)).epsilon(2e-3));
    }
  }
}

TEST_CASE("with finer layers than a cell the energy at the stop no longer changes") {
  double before = 0;
  std::vector<double> changes;
  for (const int layers : {25, 50, 100, 200}) {
    StructureModel model = with_laws(block("block", "100 mm", fmt::format("    layers: {}\n", layers)));
    const double crush = fast(model, RatePurpose::energy).crush_at_energy(0.5 * mass * speed * speed);
    if (before > 0)
      changes.push_back(std::abs(crush / before - 1));
    before = crush;
  }
  CAPTURE(changes[0], changes[1], changes[2]);
  CHECK(changes[2] < 2e-3);
  CHECK(changes[2] < changes[0]);
}

TEST_CASE("of rows that are equal but for rounding the one at the struck end goes first") {
  const std::vector<RowTurn> turns = row_turns(with_laws(block("block")), speed, mass, RatePurpose::energy);
  for (std::size_t k = 0; k < turns.size(); ++k)
    CHECK(turns[k].layer == k);
}

TEST_CASE("along a uniform body the gain falls and is gone once the mass stands still") {
  const StructureModel model = with_laws(block("block"));
  const double stop = fast(model, RatePurpose::energy).crush_at_energy(0.5 * mass * speed * speed);
  REQUIRE(stop < 0.9 * model.curve.bottoming_crush);
  const CrushCurve curve = fast(model, RatePurpose::energy);
  double before = 2;
  for (double part = 0.01; part < 1; part += 0.01) {
    const double crush = part * model.curve.bottoming_crush;
    const double factor = curve.force_at(crush) / model.curve.force_at(crush);
    CHECK(factor <= before * (1 + 1e-9));
    before = factor;
  }
  CHECK(before == Approx(1).epsilon(1e-12));
}

TEST_CASE("weaker rows take their turn first, wherever they lie") {
  const StructureModel model = with_laws(cone("cone", "{tip: 2.2 mm, root: 1.2 mm}"));
  const std::vector<double> rates = layer_rates(model, speed, mass).strain_rate;
  const auto weakest = std::min_element(model.layers.begin(), model.layers.end(), [](const Layer& a, const Layer& b) {
    return a.collapse_force() < b.collapse_force();
  });
  const auto at = static_cast<std::size_t>(std::distance(model.layers.begin(), weakest));
  REQUIRE(at > 0);
  CHECK(*std::max_element(rates.begin(), rates.end()) == rates[at]);
}

TEST_CASE("a curve for force checks lies nowhere below that for energy checks, whichever law is the larger") {
  StructureModel model = with_laws(cone("cone", "1.7 mm", skin));
  for (int swap = 0; swap < 2; ++swap) {
    const CrushCurve energy = fast(model, RatePurpose::energy), peak = fast(model, RatePurpose::peak);
    for (double crush = 0; crush < model.curve.bottoming_crush; crush += 1e-3) {
      CHECK(peak.force_at(crush) >= energy.force_at(crush) * (1 - 1e-12));
      CHECK(energy.force_at(crush) >= model.curve.force_at(crush) * (1 - 1e-12));
    }
    std::swap(model.lattice_rate.energy, model.lattice_rate.peak);
  }
}

TEST_CASE("lattice and skin gain by their own metals' laws, weighed with their forces") {
  StructureModel model = with_laws(cone("cone", "1.7 mm", skin));
  model.skin_rate = {}; // the skin's metal does not care
  const Layer& first = model.layers.front();
  const double lattice = 1 + std::pow(speed / model.row_heights.front() / 6500, 0.25);
  const double expected = (first.lattice_force * lattice + first.skin_force) / first.collapse_force();
  const CrushCurve curve = fast(model, RatePurpose::energy);
  CHECK(curve.force_at(1e-9) / model.curve.force_at(1e-9) == Approx(expected).epsilon(1e-5));
}

TEST_CASE("an empty skin crushes by whole folds") {
  const std::string structure = R"(  tube:
    sections:
      shape: rectangle
      stations:
        - {station: 0 mm, width: 60 mm, height: 60 mm}
        - {station: 300 mm, width: 60 mm, height: 60 mm}
    skin: {material: AlSi10Mg-stress-relieved, thickness: 2 mm}
)";
  const StructureModel model = with_laws(structure);
  // Twice 0.983 b^(2/3) h^(1/3), Wierzbicki and Abramowicz (memory): b = 58 mm, h = 2 mm.
  CHECK(model.row_heights.front() == Approx(2 * 0.983 * std::pow(58e-3, 2.0 / 3) * std::cbrt(2e-3)).epsilon(1e-9));
}

TEST_CASE("energy of the faster curve is the area under it and its points rise") {
  const CrushCurve curve = fast(with_laws(cone("cone", "1.7 mm", skin)), RatePurpose::peak);
  double area = 0;
  for (std::size_t k = 1; k < curve.crush.size(); ++k) {
    REQUIRE(curve.crush[k] > curve.crush[k - 1]);
    area += 0.5 * (curve.force[k] + curve.force[k - 1]) * (curve.crush[k] - curve.crush[k - 1]);
  }
  CHECK(curve.energy.back() == Approx(area).epsilon(1e-12));
  CHECK(curve.bottoming_force == Approx(curve.force_at(curve.bottoming_crush)).epsilon(1e-14));
}

TEST_CASE("nothing that moves into a structure leaves its curve as it is") {
  const StructureModel model = with_laws(block("block"));
  CHECK(curve_at_speed(model, speed, 0, RatePurpose::peak).force == model.curve.force);
}
