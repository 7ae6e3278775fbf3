#include "crushwright/errors.hpp"
#include "material/base_material_reader.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

using namespace crushwright;

namespace {

const std::string head = "schema: 1\n"
                         "id: own-alloy\n"
                         "name: Own alloy\n"
                         "alloy: X\n"
                         "condition: as built\n"
                         "process: laser powder bed fusion\n"
                         "description: Invented for this test.\n";

BaseMaterial read(const std::string& body) {
  return read_base_material(Mapping::read_text(head + body, "own.yaml"));
}

std::string message_of(const std::string& body) {
  try {
    read(body);
  } catch (const InputError& error) {
    return error.what();
  }
  return "";
}

} // namespace

TEST_CASE("a base material is read in SI with its sources") {
  const BaseMaterial material = read("density: {value: 2.67 g/cm^3, source: weighed, standing: derived}\n"
                                     "proof_stress:\n"
                                     "  value: 230 MPa\n"
                                     "  low: 154 MPa\n"
                                     "  high: 245 MPa\n"
                                     "  source: coupons\n"
                                     "  standing: read\n"
                                     "temperature_factors:\n"
                                     "  source: invented\n"
                                     "  points:\n"
                                     "    - {temperature: 20 °C, factor: 1}\n"
                                     "    - {temperature: 120 °C, factor: 0.9}\n");
  CHECK(material.id == "own-alloy");
  CHECK(material.density->value == Approx(2670).epsilon(1e-12));
  CHECK(material.proof_stress->value == Approx(230e6).epsilon(1e-12));
  CHECK(material.proof_stress->low_end() == Approx(154e6).epsilon(1e-12));
  CHECK(material.proof_stress->source.text == "coupons");
  CHECK(material.proof_stress->source.standing == Standing::read);
  REQUIRE(material.temperature_factors.size() == 2);
  CHECK(material.temperature_factors[1].temperature == Approx(393.15).epsilon(1e-12));
  CHECK_FALSE(material.ultimate_stress.has_value());
}

TEST_CASE("what a base material lacks is named with what cannot be done") {
  const std::vector<std::string> missing =
      missing_properties(read("density: {value: 2670 kg/m^3, standing: memory}\n"));
  CHECK(missing ==
        std::vector<std::string>{
            "no Young's modulus: neither stiffness nor the elastic rise can be given",
            "no Poisson's ratio: bounds on the stiffness cannot be checked",
            "no proof stress: laws on the proof stress or the flow stress cannot be used",
            "no ultimate stress: the flow stress falls back to the proof stress",
            "no hardening exponent and no uniform elongation: the flow stress falls back to the proof stress",
            "no fracture elongation: it cannot be said whether struts fold or break",
            "no rate factor: strength is taken as the same at impact speed",
            "no strength factors: hot service cannot be judged"});
}

TEST_CASE("a catalogue property without source and standing is refused") {
  CHECK(message_of("density: 2670 kg/m^3\n") ==
        "own.yaml:8:10: density: 'density' of a catalogue entry has neither source nor standing\n"
        "    8 | density: 2670 kg/m^3\n"
        "      |          ^\n"
        "   Write it in the long form {value, source, standing}, or leave the property out.");
}

TEST_CASE("an ultimate stress below the proof stress is refused") {
  CHECK(message_of("proof_stress: {value: 300 MPa, standing: memory}\n"
                   "ultimate_stress: {value: 200 MPa, standing: memory}\n") ==
        "own.yaml:9:1: ultimate_stress: the ultimate stress, 200 MPa, is below the proof stress, 300 MPa\n"
        "    9 | ultimate_stress: {value: 200 MPa, standi...\n"
        "      | ^\n"
        "   Check both values: no metal or polymer coupon fails below its proof stress.");
}

TEST_CASE("strength factors must rise in temperature") {
  CHECK(message_of("temperature_factors:\n"
                   "  source: invented\n"
                   "  points:\n"
                   "    - {temperature: 120 °C, factor: 0.9}\n"
                   "    - {temperature: 20 °C, factor: 1}\n") ==
        "own.yaml:12:21: temperature_factors.points[1].temperature: the temperatures of the strength factors do not "
        "rise\n"
        "   12 |     - {temperature: 20 °C, factor: 1}\n"
        "      |                     ^\n"
        "   List the points from the lowest temperature to the highest, each once.");
}

TEST_CASE("the base material shown in the catalogue format page can be read") {
  std::ifstream page(std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "docs/catalogue_format.md");
  const std::string text{std::istreambuf_iterator<char>(page), std::istreambuf_iterator<char>()};
  const std::string fence = "```yaml\n";
  const std::size_t begin = text.find(fence);
  REQUIRE(begin != std::string::npos);
  const std::size_t end = text.find("```", begin + fence.size());
  const std::string example = text.substr(begin + fence.size(), end - begin - fence.size());
  const BaseMaterial material = read_base_material(Mapping::read_text(example, "example.yaml"));
  CHECK(material.id == "own-alloy");
  CHECK(material.proof_stress->value == Approx(205e6).epsilon(1e-12));
}
