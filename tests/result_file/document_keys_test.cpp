#include "result_file/json_text.hpp"
#include "result_file/result_document.hpp"
#include "unit_cell/catalogue_folder.hpp"

#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>
#include <set>

using namespace crushwright;

namespace {

const std::filesystem::path source = CRUSHWRIGHT_SOURCE_DIR;

/// What the shipped cases leave out: a metal with rate laws that softens and breaks, a trigger, temperatures, a
/// weighed part that is printed in pieces, a statistic with a time and windows.
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
ultimate_stress: {value: 500 MPa, source: invented, standing: derived}
hardening_exponent: {value: 0.1, source: invented, standing: derived}
fracture_elongation: {value: 4 %, source: invented, standing: derived}
rate_laws:
  energy: {form: cowper_symonds, D: 6500 1/s, q: 4, source: invented, standing: derived}
  peak: {form: johnson_cook, C: 0.02, reference_rate: 1e-3 1/s, source: invented, standing: derived}
temperature_factors:
  source: invented
  points:
    - {temperature: 20 °C, factor: 1}
    - {temperature: 220 °C, factor: 0.5}
)";

const char* const case_text = R"(schema: 1
title: a case of a test
invented: true
structures:
  box:
    sections:
      shape: rectangle
      stations:
        - {station: 0 mm, width: 90 mm, height: 110 mm}
        - {station: 300 mm, width: 90 mm, height: 110 mm}
    lattice: {cell: octet, material: lively, cell_edge: 10 mm, strut: 1.5 mm}
    skin: {material: lively, thickness: 1.2 mm}
    trigger: {rows: 2, size_factor: 0.8, skin_factor: 0.7}
    temperature: {tip: 20 °C, root: 60 °C}
    layers: 60
impacts:
  drop:
    striker: {id: mass, mass: {value: 900 kg, low: 880 kg, high: 920 kg}}
    struck: {id: rig, held: true}
    closing_speed: 9 m/s
limits:
  held: {impact: drop, of: mass, quantity: acceleration, statistic: cumulative_time, time: 3 ms, filter: class_180, at_most: 60 g}
  early: {impact: drop, of: box, quantity: force, statistic: mean_over_distance, first_crush: 40 mm, at_most: 200 kN}
printing:
  build_direction: "-x"
  machine: {build_volume: [280 mm, 280 mm, 200 mm]}
  end_plates: separate
  joint: {flange_thickness: 4 mm, bolts: 8, bolt_mass: 14 g, bolt_capacity: 9 kN}
)";

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  REQUIRE(stream);
  return {std::istreambuf_iterator<char>(stream), {}};
}

void gather_keys(const Json& node, std::set<std::string>& keys) {
  for (const auto& member : node.items()) {
    if (node.is_object()) {
      keys.insert(member.key());
    }
    if (member.value().is_structured()) {
      gather_keys(member.value(), keys);
    }
  }
}

Json document_of(const CrashCase& crash_case, const Catalogue& catalogue) {
  return Json::parse(result_document(crash_case, estimate(crash_case, catalogue), {"0.1.0", "0123"}));
}

Json rich_document() {
  const TemporaryFolder folder("document_keys_test");
  folder.write("base_materials/lively.yaml", metal);
  return document_of(read_case_text(case_text, "test.yaml"), Catalogue({source / "lattices", folder.path()}));
}

void require_all_named(const Json& document) {
  const std::string page = bytes_of(source / "docs/result_format.md");
  std::set<std::string> keys;
  gather_keys(document, keys);
  CHECK(keys.size() > 100);
  for (const std::string& key : keys) {
    INFO(key);
    CHECK(page.find("`" + key + "`") != std::string::npos);
  }
}

} // namespace

TEST_CASE("every key of the shipped cases' results is named on the page of the result file") {
  const std::string name =
      GENERATE("offset_trolley", "twin_rear_cones", "outlet_flanks", "student_attenuator", "single_seater_rear");
  INFO(name);
  require_all_named(document_of(read_case(source / "cases" / (name + ".yaml")), Catalogue({source / "lattices"})));
}

TEST_CASE("so is every key that a rate law, a trigger, temperatures and a part in pieces bring") {
  const Json document = rich_document();
  const Json& structure = document.at("structures").at(0);
  for (const char* used : {"later_peaks", "trigger", "heat", "rate_laws", "fracture_factor", "printing"}) {
    INFO(used);
    CHECK(structure.contains(used));
  }
  CHECK(document.at("impacts").at(0).contains("layer_rates"));
  CHECK(structure.at("printing").at("joints").size() == 1);
  require_all_named(document);
}

TEST_CASE("the shipped case of an impact on a car holds every part that its loading brings") {
  const Json document =
      document_of(read_case(source / "cases/offset_trolley.yaml"), Catalogue({source / "lattices"}));
  std::set<std::string> keys;
  gather_keys(document, keys);
  for (const char* part : {"face", "contacts", "elements", "yaw", "column_checks", "after_hit", "resolved", "notes",
                           "column", "absorbed_elsewhere", "released"}) {
    INFO(part);
    CHECK(keys.count(part) == 1);
  }
}
