// Palmgren (1924) and Miner (1945): the sum of n / N (memory). All strengths here are made up.
#include "column_check/service_samples.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace service_samples;

namespace {

FatigueStrength strength(const std::string& of, double amplitude, double mean_limit = 300e6) {
  FatigueStrength made_up;
  made_up.of = of;
  made_up.amplitude = value(amplitude);
  made_up.cycles = value(1e7);
  made_up.slope = value(5);
  made_up.mean_stress_limit = value(mean_limit);
  return made_up;
}

struct Spectrum {
  std::vector<ServiceLoad> loads;
  std::vector<ServiceOutcome> outcomes;

  void add(const std::string& id, double skin, double cycles, bool alternating, const std::string& of = "cone") {
    ServiceLoad load = load_named(id);
    load.structure = of;
    load.cycles = cycles;
    load.alternating = alternating;
    loads.push_back(load);
    ServiceOutcome outcome;
    outcome.load = id;
    outcome.structure = of;
    outcome.nominal.skin = skin;
    outcomes.push_back(outcome);
  }
  FatigueOutcome judged(const std::vector<FatigueStrength>& strengths) const {
    return fatigue_outcome(outcomes, loads, strengths, "cone");
  }
};

} // namespace

TEST_CASE("one load of n cycles at an amplitude whose life is N takes n / N of the life") {
  Spectrum spectrum;
  spectrum.add("kerb", 100e6, 20000, true);
  const FatigueOutcome fatigue = spectrum.judged({strength("skin", 50e6)});
  CHECK(*fatigue.skin == Approx(20000 / (1e7 / 32)).epsilon(1e-12));
  CHECK(!fatigue.lattice);
  CHECK(!fatigue.root);
  CHECK(fatigue.missing.empty());
}

TEST_CASE("damage of several loads is their sum, in whatever order") {
  Spectrum spectrum, turned;
  spectrum.add("kerb", 100e6, 20000, true);
  spectrum.add("flow", 80e6, 1e6, false);
  spectrum.add("tow", 140e6, 0, false); // not in the spectrum
  turned.add("flow", 80e6, 1e6, false);
  turned.add("kerb", 100e6, 20000, true);
  // Pulsating 80 MPa: amplitude and mean 40, so 40 / (1 - 40/300) fully reversed.
  const double flow = 1e6 / 1e7 * std::pow(40 / (1 - 40.0 / 300) / 50, 5);
  CHECK(*spectrum.judged({strength("skin", 50e6)}).skin == Approx(0.064 + flow).epsilon(1e-12));
  CHECK(*turned.judged({strength("skin", 50e6)}).skin == Approx(0.064 + flow).epsilon(1e-12));
}

TEST_CASE("damage without mean stress grows with the load to the power of the slope") {
  const auto damage = [](double stress) {
    Spectrum spectrum;
    spectrum.add("kerb", stress, 1000, true);
    return *spectrum.judged({strength("skin", 50e6)}).skin;
  };
  CHECK(damage(60e6) / damage(30e6) == Approx(32).epsilon(1e-12));
  CHECK(damage(90e6) / damage(30e6) == Approx(243).epsilon(1e-12));
}

TEST_CASE("what has no strength stays open and is named; what is not there is not") {
  Spectrum spectrum;
  spectrum.add("flow", 80e6, 1e6, false);
  spectrum.outcomes.front().nominal.bolt = 2000;
  const FatigueOutcome open = spectrum.judged({});
  CHECK(!open.skin);
  CHECK(open.missing == "skin: its fatigue strength is not stated; root: its fatigue strength is not stated");
  const FatigueOutcome mean = spectrum.judged({strength("skin", 50e6, 0), strength("root", 5000, 40e3)});
  CHECK(mean.missing == "skin: load flow comes and goes, and no limit for the mean stress is stated");
  CHECK(*mean.root == Approx(0.1 * std::pow(1000 / (1 - 1000.0 / 40e3) / 5000, 5)).epsilon(1e-12));
}

TEST_CASE("a lattice whose metal is not known stays open") {
  Spectrum spectrum;
  spectrum.add("kerb", 100e6, 20000, true);
  spectrum.outcomes.front().lattice_use = 0.4;
  const FatigueOutcome fatigue = spectrum.judged({strength("skin", 50e6), strength("lattice", 30e6)});
  CHECK(fatigue.skin);
  CHECK(!fatigue.lattice);
  CHECK(fatigue.missing == "lattice: the proof stress of its metal is not known");
}

TEST_CASE("loads of another structure do no damage here") {
  Spectrum spectrum;
  spectrum.add("kerb", 100e6, 20000, true);
  spectrum.add("kerb", 500e6, 20000, true, "other");
  CHECK(*spectrum.judged({strength("skin", 50e6)}).skin == Approx(0.064).epsilon(1e-12));
}

TEST_CASE("from load to damage: a pulsating tip force on a bare bar, by hand") {
  // 80 x 100 mm, 0.5 m: M c / I of 90 N is 0.3375 MPa, over 4 MPa first yield and 200 MPa proof stress 16.9 MPa in
  // the struts; shear raises it a little.
  const BeamColumn bar = column_of(0.5, 8, [](double station) { return bare(station, 0.08, 0.1); });
  ServiceLoad jolt = force_at(0, 0, 0, 90);
  jolt.cycles = 1e6;
  const ServiceOutcome outcome = service_outcome(bar, jolt, nullptr, 0.012);
  const double normal = 90 * 0.5 * 6 / (0.08 * 0.01), shear = 90 / (5.0 / 6 * 0.008);
  const double half = 0.5 * 200 * std::hypot(normal / 4e6, shear / 2.5e6); // [MPa]
  const FatigueOutcome fatigue = fatigue_outcome({outcome}, {jolt}, {strength("lattice", 30e6)}, "cone");
  CHECK(*fatigue.lattice == Approx(0.1 * std::pow(half / (1 - half / 300) / 30, 5)).epsilon(1e-10));
  CHECK(fatigue.missing.empty());
}
