#include "result_file/rows_json.hpp"

#include "result_file/result_document.hpp"
#include "review_pack/sample_estimate.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

Json document(const Estimate& estimate) {
  return Json::parse(result_document(hand_made::crash_case(), estimate, {"0.1.0", "0123"}));
}

const Json quantity(double value, const char* unit) {
  return Json{{"value", value}, {"unit", unit}};
}

} // namespace

TEST_CASE("a structure that uses no trigger, temperature or rate law has no such key") {
  const Json json = document(hand_made::estimate());
  for (const char* key : {"later_peaks", "trigger", "heat", "rate_laws", "fracture_factor"}) {
    INFO(key);
    CHECK_FALSE(json["structures"][0].contains(key));
  }
  CHECK_FALSE(json["impacts"][0].contains("layer_rates"));
}

TEST_CASE("a row that starts afresh is written with its place, its moment and its peak") {
  Estimate estimate = hand_made::estimate();
  estimate.structures[0].later_peaks = {{52e3, 1.4, 0.006}};
  estimate.structures[0].row_starts = {{0.02, 0.015}};
  const Json peaks = document(estimate)["structures"][0]["later_peaks"];
  REQUIRE(peaks.size() == 1);
  CHECK(peaks[0]["station"] == quantity(0.02, "m"));
  CHECK(peaks[0]["crush"] == quantity(0.015, "m"));
  CHECK(peaks[0]["start_force"] == quantity(52e3, "N"));
  CHECK(peaks[0]["ratio"] == quantity(1.4, "1"));
  CHECK(peaks[0]["fall_crush"] == quantity(0.006, "m"));
}

TEST_CASE("a trigger is written with what it costs and what it lowers") {
  Estimate estimate = hand_made::estimate();
  estimate.structures[0].trigger_length = 0.02;
  estimate.structures[0].trigger_effect = TriggerEffect{90e3, 72e3, 41e3, 60e3, 58e3, 350, -0.04};
  const Json trigger = document(estimate)["structures"][0]["trigger"];
  CHECK(trigger["length"] == quantity(0.02, "m"));
  CHECK(trigger["peak_without"] == quantity(90e3, "N"));
  CHECK(trigger["peak_with"] == quantity(72e3, "N"));
  CHECK(trigger["first_peak_with"] == quantity(41e3, "N"));
  CHECK(trigger["plateau_without"] == quantity(60e3, "N"));
  CHECK(trigger["plateau_with"] == quantity(58e3, "N"));
  CHECK(trigger["energy_cost"] == quantity(350.0, "J"));
  CHECK(trigger["mass_change"] == quantity(-0.04, "kg"));
}

TEST_CASE("rate laws are written with the constants of their form; a metal without is null") {
  Estimate estimate = hand_made::estimate();
  StructureModel& structure = estimate.structures[0];
  structure.has_rate_law = true;
  structure.lattice_rate.energy = RateLaw{RateForm::cowper_symonds, 6500, 4, {"invented", Standing::memory}};
  structure.lattice_rate.peak = RateLaw{RateForm::johnson_cook, 0.014, 1e-3, {}};
  const Json laws = document(estimate)["structures"][0]["rate_laws"];
  CHECK(laws["skin"].is_null());
  const Json& energy = laws["lattice"]["energy"];
  CHECK(energy["form"] == "cowper_symonds");
  CHECK(energy["D"] == quantity(6500.0, "1/s"));
  CHECK(energy["q"] == quantity(4.0, "1"));
  CHECK(energy["source"]["standing"] == "memory");
  const Json& peak = laws["lattice"]["peak"];
  CHECK(peak["form"] == "johnson_cook");
  CHECK(peak["C"] == quantity(0.014, "1"));
  CHECK(peak["reference_rate"] == quantity(1e-3, "1/s"));
}

TEST_CASE("temperatures and strain rates are series along the layers, with their units") {
  Estimate estimate = hand_made::estimate();
  estimate.structures[0].heat = LayerHeat{{293.15, 333.15}, {1, 0.9}};
  estimate.structures[0].fracture_low = 0.75;
  estimate.deciding.impacts[0].layer_rates = {{"left", {900, 0}, {1.6, 1}, {1.7, 1}}};
  const Json json = document(estimate);
  CHECK(json["structures"][0]["heat"]["temperature"]["unit"] == "K");
  CHECK(json["structures"][0]["heat"]["factor"]["values"] == Json{1.0, 0.9});
  CHECK(json["structures"][0]["fracture_factor"] == quantity(0.75, "1"));
  const Json& rates = json["impacts"][0]["layer_rates"][0];
  CHECK(rates["structure"] == "left");
  CHECK(rates["strain_rate"] == Json{{"unit", "1/s"}, {"values", {900.0, 0.0}}});
  CHECK(rates["energy_factor"]["values"] == Json{1.6, 1.0});
  CHECK(rates["peak_factor"]["values"] == Json{1.7, 1.0});
}
