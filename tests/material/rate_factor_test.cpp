#include "crushwright/errors.hpp"
#include "material/base_material_reader.hpp"
#include "quantities/message_of.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <string>

using namespace crushwright;

namespace {

BaseMaterial material_with(const std::string& body) {
  return read_base_material(Mapping::read_text("schema: 1\nid: own-alloy\nname: Own alloy\nalloy: X\ncondition: as "
                                               "built\nprocess: laser powder bed fusion\n"
                                               "description: Invented for this test.\n" +
                                                   body,
                                               "own.yaml"));
}

RateLaw cowper_symonds(double d, double q) {
  return {RateForm::cowper_symonds, d, q, {}};
}

const std::string both =
    "rate_laws:\n"
    "  energy: {form: cowper_symonds, D: 6500 1/s, q: 4, source: own crush tests, standing: read}\n"
    "  peak: {form: johnson_cook, C: 0.014, reference_rate: 1e-3 1/s, source: own bars, standing: "
    "read}\n";

} // namespace

// Pairs as recalled (memory) from Jones, Structural Impact, table of Cowper-Symonds coefficients; the factors at
// 100 1/s follow from them by hand.
TEST_CASE("at 100 1/s the pairs in wide use give the factors worked out by hand") {
  CHECK(rate_factor(cowper_symonds(6500, 4), 100) == Approx(1.352).margin(5e-4)); // aluminium
  CHECK(rate_factor(cowper_symonds(40.4, 5), 100) == Approx(2.199).margin(5e-4)); // mild steel
  CHECK(rate_factor(cowper_symonds(100, 10), 100) == Approx(2.000).margin(5e-4)); // stainless steel 304
  CHECK(rate_factor(cowper_symonds(120, 9), 100) == Approx(1.980).margin(5e-4));  // titanium
  // 1 + 0.014 ln 100
  CHECK(rate_factor({RateForm::johnson_cook, 0.014, 1, {}}, 100) == Approx(1.064).margin(5e-4));
}

TEST_CASE("at D the strength of Cowper and Symonds has doubled, whatever q") {
  for (const double q : {1.0, 3.91, 5.0, 9.0})
    CHECK(rate_factor(cowper_symonds(1300, q), 1300) == Approx(2).epsilon(1e-14));
}

TEST_CASE("a metal that is hardly moved has its quasi-static strength") {
  CHECK(rate_factor(cowper_symonds(40.4, 5), 0) == 1);
  const RateLaw johnson_cook{RateForm::johnson_cook, 0.02, 1e-3, {}};
  CHECK(rate_factor(johnson_cook, 0) == 1);
  CHECK(rate_factor(johnson_cook, 1e-4) == 1);
  CHECK(rate_factor(johnson_cook, 1e-3) == 1);
  CHECK(rate_factor(johnson_cook, 1e-2) > 1);
}

TEST_CASE("strength never falls with the strain rate") {
  for (const RateLaw& law : {cowper_symonds(6500, 4), RateLaw{RateForm::johnson_cook, 0.014, 1e-3, {}}}) {
    double before = 1;
    for (double rate = 1e-6; rate < 1e6; rate *= 3) {
      CHECK(rate_factor(law, rate) >= before);
      before = rate_factor(law, rate);
    }
  }
}

TEST_CASE("a strain rate below 0 or a law without constants is refused with its value") {
  CHECK_THROWS_WITH(rate_factor(cowper_symonds(6500, 4), -1), "a strain rate is -1 1/s; it must be 0 or more");
  CHECK_THROWS_AS(rate_factor(cowper_symonds(6500, 4), std::numeric_limits<double>::quiet_NaN()), OutOfDomain);
  CHECK_THROWS_AS(rate_factor(cowper_symonds(0, 4), 1), OutOfDomain);
}

TEST_CASE("rate laws are read in SI with their sources") {
  const BaseMaterial material = material_with(both);
  REQUIRE(material.energy_rate_law);
  REQUIRE(material.peak_rate_law);
  CHECK(material.energy_rate_law->form == RateForm::cowper_symonds);
  CHECK(material.energy_rate_law->first == Approx(6500).epsilon(1e-14));
  CHECK(material.energy_rate_law->second == 4);
  CHECK(material.energy_rate_law->source.text == "own crush tests");
  CHECK(material.peak_rate_law->form == RateForm::johnson_cook);
  CHECK(material.peak_rate_law->first == 0.014);
  CHECK(material.peak_rate_law->second == Approx(1e-3).epsilon(1e-14));
  CHECK_FALSE(material.rate_factor);
}

TEST_CASE("one law may be stated alone") {
  const BaseMaterial material = material_with(both.substr(0, both.find("  peak")));
  CHECK(material.energy_rate_law);
  CHECK_FALSE(material.peak_rate_law);
}

TEST_CASE("a rate factor beside rate laws is refused at the laws") {
  const std::string message =
      message_of([] { material_with("rate_factor: {value: 1.1, source: own, standing: read}\n" + both); });
  INFO(message);
  CHECK(message.find("only one of the two can count") != std::string::npos);
  CHECK(message.find("own.yaml:9") != std::string::npos);
}

TEST_CASE("a rate law without a source, of another form's keys, or without a law is refused") {
  CHECK(message_of([] {
          material_with("rate_laws: {energy: {form: cowper_symonds, D: 6500 1/s, q: 4}}\n");
        }).find("source") != std::string::npos);
  CHECK(message_of([] {
          material_with(
              "rate_laws: {energy: {form: cowper_symonds, D: 6500 1/s, C: 4, source: a, standing: read}}\n");
        }).find("C") != std::string::npos);
  CHECK(message_of([] { material_with("rate_laws: {}\n"); }).find("rate_laws") != std::string::npos);
}
