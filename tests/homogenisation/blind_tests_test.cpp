// Published compression tests against what was predicted for them before they were opened:
// tests/reference_values/blind_tests.yaml, told in docs/verification.md.
#include "crushwright/catalogue.hpp"
#include "crushwright/homogenisation.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <set>
#include <yaml-cpp/yaml.h>

using namespace crushwright;

namespace {

struct BlindTest {
  std::string id, cell, direction, quantity;
  double relative_density, flow, predicted, measured;
  bool formal;
};

std::vector<BlindTest> blind_tests(const char* round = "tests") {
  std::vector<BlindTest> tests;
  const YAML::Node file = YAML::LoadFile(CRUSHWRIGHT_SOURCE_DIR "/tests/reference_values/blind_tests.yaml");
  for (const YAML::Node& row : file[round]) {
    tests.push_back({row["id"].as<std::string>(), row["cell"].as<std::string>(), row["direction"].as<std::string>(),
                     row["quantity"].as<std::string>(), row["relative_density"].as<double>(),
                     row["flow"].as<double>(), row["predicted"].as<double>(), row["measured"].as<double>(),
                     row["formal"].as<std::string>() == "yes"});
  }
  return tests;
}

double miss(const BlindTest& test) {
  return test.predicted / test.measured - 1;
}

std::string same_direction(const UnitCell& cell, std::string direction) {
  if (cell.symmetry == "cubic") {
    std::sort(direction.begin(), direction.end(), std::greater<>());
  }
  return direction;
}

/// The law of the entry that the prediction was read from: computed where there is one, else published (honeycombs).
const PowerLaw& law_for(const UnitCell& cell, const BlindTest& test) {
  const auto& laws = test.quantity == "E over Es" ? cell.elastic_modulus : cell.plateau_stress;
  const PowerLaw* nearest = nullptr;
  double least = 1e9;
  for (const Evidence kind : {Evidence::computed, Evidence::published}) {
    for (const PowerLaw& law : laws) {
      const Range& range = law.origin.fitted_relative_density;
      const double outside = std::max({0.0, range.low - test.relative_density, test.relative_density - range.high});
      if (law.origin.evidence == kind && law.origin.direction == same_direction(cell, test.direction) &&
          outside < least) {
        nearest = &law;
        least = outside;
      }
    }
    if (nearest != nullptr) {
      return *nearest;
    }
  }
  throw std::runtime_error("no law for " + test.id);
}

/// Under the densities that laws are fitted to, the cell was computed at its own density.
double predicted_now(const UnitCell& cell, const BlindTest& test) {
  if (test.relative_density < 0.01 && cell.cell_class == CellClass::strut) {
    const FrameCollapse collapse =
        frame_collapse(cell, size_ratio(cell, test.relative_density), direction_vector(test.direction), 0.5);
    return test.flow * std::min(collapse.mean_path_stress, collapse.lower);
  }
  const PowerLaw& law = law_for(cell, test);
  return test.flow * law.coefficient * std::pow(test.relative_density, law.exponent);
}

} // namespace

TEST_CASE("the catalogue still predicts what was written down before the published tests were opened") {
  const Catalogue catalogue({std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "lattices"});
  for (const char* round : {"tests", "second_round"}) {
    for (const BlindTest& test : blind_tests(round)) {
      INFO(test.id);
      // Predictions were rounded to three digits.
      CHECK(predicted_now(catalogue.cell(test.cell), test) == Approx(test.predicted).epsilon(0.006));
    }
  }
}

TEST_CASE("formal blind tests are met within 35 % but for the two that are named, and half of them within 25 %") {
  std::set<std::string> missed;
  std::vector<double> misses;
  for (const BlindTest& test : blind_tests()) {
    if (test.formal) {
      misses.push_back(std::abs(miss(test)));
      if (misses.back() > 0.35) {
        missed.insert(test.id);
      }
    }
  }
  REQUIRE(misses.size() == 11);
  std::sort(misses.begin(), misses.end());
  CHECK(misses[5] < 0.25);
  // Electron-beam struts of 0.4 mm at a density under 0.01: rough, a quarter lighter than drawn, and the carrying
  // section is thinner than the weighed one; bending feels its cube. Not explained by this program, so not corrected.
  CHECK(missed == std::set<std::string>{"B1", "B2"});
}

TEST_CASE(
    "the second round is missed throughout and always on the strong side, as the warning of every estimate says") {
  // Why, as far as the papers tell, stands in docs/verification.md; nothing was changed to come nearer. Whoever mends
  // the cause has to rewrite this test, the page, and the range that warn_of_evidence prints.
  double lowest_of_metal = 1;
  int formal = 0;
  for (const BlindTest& test : blind_tests("second_round")) {
    if (test.formal) {
      INFO(test.id);
      ++formal;
      CHECK(miss(test) > 0.35);
      if (test.cell.find("sheet") == std::string::npos) {
        lowest_of_metal = std::min(lowest_of_metal, test.measured / test.predicted);
      }
    }
  }
  CHECK(formal == 9);
  CHECK(lowest_of_metal == Approx(0.34).margin(0.005));
}

TEST_CASE("the median of either sheet cell is met within 25 %") {
  for (const char* cell : {"diamond_sheet", "gyroid_sheet"}) {
    std::vector<double> misses;
    for (const BlindTest& test : blind_tests()) {
      if (test.formal && test.cell == cell) {
        misses.push_back(std::abs(miss(test)));
      }
    }
    REQUIRE(misses.size() == 3);
    std::sort(misses.begin(), misses.end());
    INFO(cell);
    CHECK(misses[1] < 0.25);
    CHECK(misses[2] < 0.35);
  }
}

TEST_CASE("folding laws of foil honeycombs lie well under bought cores, and the entry says so") {
  for (const BlindTest& test : blind_tests()) {
    if (test.cell == "honeycomb_doubled_wall") {
      INFO(test.id);
      CHECK(miss(test) < -0.35);
      CHECK(miss(test) > -0.65);
    }
  }
  const Catalogue catalogue({std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "lattices"});
  const PowerLaw& law = catalogue.cell("honeycomb_doubled_wall").plateau_stress.front();
  CHECK(law.origin.source.text.find("[ciepielewski2022honeycomb]") != std::string::npos);
}
