#include "sample_cases.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;
using namespace sample_cases;

namespace {

Estimate of_template(const std::string& name) {
  return estimate(shipped_case("templates/" + name), catalogue());
}

/// What a template's impact has to give.
struct Asked {
  const char* name;
  double energy;       ///< effective [J]
  double common_speed; ///< speed change of the struck body when both go on together [m/s]; 0 when one is held
};

} // namespace

TEST_CASE("the templates ask for the energies of the tests that they follow") {
  // FMVSS 301: mass from memory, speed read; UN R153: memory; RCAR rear structural test and student rule F.8.7: read.
  // Energies of 1/2 m1 m2 / (m1 + m2) v^2 and speed changes m1 v / (m1 + m2) are derived; so are those of UN R32 and
  // UN R42, whose masses and speeds are from memory.
  const Asked asked =
      GENERATE(Asked{"fmvss_301_style", 176.66e3, 38.16 / 3.6}, Asked{"un_r153_style", 61.21e3, 21.15 / 3.6},
               Asked{"rcar_rear_structural_style", 6.076e3, 7.5 / 3.6}, Asked{"student_attenuator_style", 7350, 0},
               Asked{"un_r32_style", 29.99e3, 14.81 / 3.6}, Asked{"un_r42_style", 463.0, 2 / 3.6});
  INFO(asked.name);
  const Estimate result = of_template(asked.name);
  REQUIRE(result.deciding.impacts.size() == 1);
  const ImpactOutcome& impact = result.deciding.impacts.front();
  CHECK(impact.available_energy == Approx(asked.energy).epsilon(2e-4));
  CHECK(impact.motion.ledger.input == Approx(asked.energy).epsilon(2e-4));
  CHECK(std::abs(impact.motion.ledger.residual) < 1e-6 * asked.energy);
  // Both bodies go on together at standstill; the rebound adds the rest.
  const double change = impact.sides.at(1).struck_speed_change;
  CHECK(change >= asked.common_speed * (1 - 5e-4));
  CHECK(change <= 2 * (asked.common_speed > 0 ? asked.common_speed : 7.0));
}

TEST_CASE("every template runs as it is: something is struck, nothing fails, and the edition is asked for") {
  const std::string name = GENERATE("fmvss_301_style", "un_r153_style", "rcar_rear_structural_style",
                                    "student_attenuator_style", "un_r32_style", "un_r42_style");
  INFO(name);
  const Estimate result = of_template(name);
  CHECK_FALSE(result.deciding.impacts.front().motion.columns.empty());
  for (const Check& check : result.deciding.verdict.checks) {
    INFO(check.limit.id << ": " << check.note);
    CHECK(check.word != Word::fail);
    CHECK(check.combined.nominal);
  }
  const auto asks = [](const std::string& warning) {
    return warning.find("the edition") != std::string::npos && warning.find("not stated") != std::string::npos;
  };
  CHECK(std::any_of(result.warnings.begin(), result.warnings.end(), asks));
  const auto recalls = [](const std::string& warning) { return warning.find("from memory") != std::string::npos; };
  CHECK(std::any_of(result.warnings.begin(), result.warnings.end(), recalls) == (name != "student_attenuator_style"));
}
