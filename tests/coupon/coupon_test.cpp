#include "crushwright/coupon.hpp"
#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace crushwright;

namespace {

constexpr double unit_stress = 1.7e6;

/// σ = σ0 [1 + (ε/0.8)^8]. Areas are polynomials, so every quantity has a closed form.
struct EighthPower {
  static double stress(double strain) { return unit_stress * (1 + std::pow(strain / 0.8, 8)); }
  static double energy(double strain) {
    return unit_stress * (strain + std::pow(strain, 9) / (9 * std::pow(0.8, 8)));
  }
  static double mean(double from, double to) { return (energy(to) - energy(from)) / (to - from); }
  /// dη/dε = 0 reads u²/9 − 6u + 1 = 0 with u = (ε/0.8)^8.
  static double efficiency_strain() { return 0.8 * std::pow(27 - std::sqrt(720.0), 0.125); }
};

StressStrain sampled_eighth_power() {
  // Steps of 2e-6: the efficiency strain is as fine as the points, and is asked for to 1e-5.
  constexpr int steps = 375000;
  StressStrain curve;
  for (int i = 0; i <= steps; ++i) {
    const double strain = 0.75 * i / steps;
    curve.strain.push_back(strain);
    curve.stress.push_back(EighthPower::stress(strain));
  }
  return curve;
}

StressStrain flat_then_steep() {
  return {{0, 0.05, 0.5, 0.6}, {0, 1e6, 1e6, 3e6}};
}

StressStrain with_first_peak() {
  return {{0, 0.04, 0.08, 0.15, 0.3, 0.45, 0.6, 0.7}, {0, 1.5e6, 0.9e6, 1.1e6, 0.95e6, 1.2e6, 1.9e6, 5e6}};
}

StressStrain with_points_halved(const StressStrain& curve) {
  StressStrain finer;
  for (std::size_t i = 0; i < curve.strain.size(); ++i) {
    if (i > 0) {
      finer.strain.push_back((curve.strain[i - 1] + curve.strain[i]) / 2);
      finer.stress.push_back((curve.stress[i - 1] + curve.stress[i]) / 2);
    }
    finer.strain.push_back(curve.strain[i]);
    finer.stress.push_back(curve.stress[i]);
  }
  return finer;
}

} // namespace

TEST_CASE("a curve with an eighth-power densification gives its printed compression quantities") {
  // Definitions of ISO 13314 from memory; efficiency method of Li, Magkiriadis and Harrigan (2006), abstract read.
  const StressStrain curve = sampled_eighth_power();
  const CompressionQuantities wide = reduce_compression_test(curve);
  const CompressionQuantities narrow = reduce_compression_test(curve, 0.20, 0.30);
  CHECK(wide.efficiency_strain == Approx(0.639719).margin(1e-5));
  CHECK(wide.greatest_efficiency == Approx(0.558269).margin(1e-6));
  CHECK(wide.plateau_stress / unit_stress == Approx(1.000866).margin(1e-6));
  CHECK(narrow.plateau_stress / unit_stress == Approx(1.000127).margin(1e-6));
  REQUIRE(wide.plateau_end);
  CHECK(*wide.plateau_end == Approx(0.688547).margin(1e-6));
  CHECK(energy_to(curve, 0.50) / unit_stress == Approx(0.501294).margin(1e-6));
  CHECK(100 * energy_absorption_efficiency(curve, 0.50) == Approx(97.977).margin(1e-3));
}

TEST_CASE("the eighth-power quantities equal the closed forms of the integral and of its stationary point") {
  const StressStrain curve = sampled_eighth_power();
  const CompressionQuantities wide = reduce_compression_test(curve);
  const double end = EighthPower::efficiency_strain();
  CHECK(end == Approx(0.639719).margin(5e-7));
  CHECK(wide.efficiency_strain == Approx(end).margin(2.1e-6));
  CHECK(wide.greatest_efficiency == Approx(EighthPower::energy(end) / EighthPower::stress(end)).epsilon(1e-10));
  CHECK(wide.energy_to_efficiency_strain == Approx(EighthPower::energy(wide.efficiency_strain)).epsilon(1e-10));
  CHECK(wide.plateau_stress == Approx(EighthPower::mean(0.20, 0.40)).epsilon(1e-10));
  CHECK(reduce_compression_test(curve, 0.20, 0.30).plateau_stress ==
        Approx(EighthPower::mean(0.20, 0.30)).epsilon(1e-10));
  const double rise_to_end = 1.3 * EighthPower::mean(0.20, 0.40) / unit_stress - 1;
  CHECK(*wide.plateau_end == Approx(0.8 * std::pow(rise_to_end, 0.125)).epsilon(1e-9));
  CHECK(energy_absorption_efficiency(curve, 0.50) ==
        Approx(EighthPower::energy(0.50) / (0.50 * EighthPower::stress(0.50))).epsilon(1e-10));
  CHECK_FALSE(wide.first_maximum);
  CHECK_FALSE(wide.quasi_elastic_gradient);
}

TEST_CASE("a flat plateau with straight sides reduces to what a hand calculation gives") {
  const CompressionQuantities q = reduce_compression_test(flat_then_steep());
  CHECK(q.plateau_stress == Approx(1e6).epsilon(1e-12));
  REQUIRE(q.plateau_end);
  CHECK(*q.plateau_end == Approx(0.515).epsilon(1e-12));
  CHECK(q.efficiency_strain == 0.5);
  CHECK(q.greatest_efficiency == Approx(0.475).epsilon(1e-12));
  CHECK(q.energy_to_efficiency_strain == Approx(0.475e6).epsilon(1e-12));
  REQUIRE(q.quasi_elastic_gradient);
  CHECK(*q.quasi_elastic_gradient == Approx(20e6).epsilon(1e-12));
  CHECK_FALSE(q.first_maximum);
  CHECK_FALSE(q.efficiency_still_rising);
  CHECK(energy_absorption_efficiency(flat_then_steep(), 0.5) == Approx(0.95).epsilon(1e-12));
}

TEST_CASE("points added on the straight lines of a curve change no quantity") {
  const CompressionQuantities coarse = reduce_compression_test(with_first_peak());
  const CompressionQuantities fine =
      reduce_compression_test(with_points_halved(with_points_halved(with_first_peak())));
  CHECK(fine.plateau_stress == Approx(coarse.plateau_stress).epsilon(1e-13));
  CHECK(fine.efficiency_strain == coarse.efficiency_strain);
  CHECK(fine.greatest_efficiency == Approx(coarse.greatest_efficiency).epsilon(1e-13));
  CHECK(*fine.plateau_end == Approx(*coarse.plateau_end).epsilon(1e-13));
  CHECK(*fine.first_maximum == *coarse.first_maximum);
  CHECK(*fine.quasi_elastic_gradient == Approx(*coarse.quasi_elastic_gradient).epsilon(1e-13));
}

TEST_CASE("no strain between the points of a curve has a greater efficiency than its points") {
  const StressStrain curve = with_first_peak();
  const CompressionQuantities q = reduce_compression_test(curve);
  for (int i = 0; i <= 5000; ++i) {
    const double strain = 0.20 + 0.5 * i / 5000;
    const double step = 1e-7;
    const double before = std::min(strain, 0.7 - step);
    const double stress = (energy_to(curve, before + step) - energy_to(curve, before)) / step;
    CHECK(energy_to(curve, strain) / stress <= q.greatest_efficiency * (1 + 1e-5));
  }
}

TEST_CASE("stresses scale the stresses and energies and leave the strains") {
  StressStrain curve = with_first_peak();
  const CompressionQuantities once = reduce_compression_test(curve);
  for (double& stress : curve.stress) {
    stress *= 4;
  }
  const CompressionQuantities scaled = reduce_compression_test(curve);
  CHECK(scaled.plateau_stress == 4 * once.plateau_stress);
  CHECK(*scaled.first_maximum == 4 * *once.first_maximum);
  CHECK(scaled.energy_to_efficiency_strain == 4 * once.energy_to_efficiency_strain);
  CHECK(*scaled.quasi_elastic_gradient == Approx(4 * *once.quasi_elastic_gradient).epsilon(1e-13));
  CHECK(scaled.efficiency_strain == once.efficiency_strain);
  CHECK(*scaled.plateau_end == Approx(*once.plateau_end).epsilon(1e-13));
}

TEST_CASE("the first maximum is the first peak, and noise below one percent is not a peak") {
  CHECK(*reduce_compression_test(with_first_peak()).first_maximum == 1.5e6);
  StressStrain noisy = flat_then_steep();
  noisy.strain = {0, 0.03, 0.035, 0.05, 0.5, 0.6};
  noisy.stress = {0, 0.6e6, 0.597e6, 1e6, 1e6, 3e6};
  CHECK_FALSE(reduce_compression_test(noisy).first_maximum);
  noisy.stress[2] = 0.593e6;
  REQUIRE(reduce_compression_test(noisy).first_maximum);
  CHECK(*reduce_compression_test(noisy).first_maximum == 0.6e6);
}

TEST_CASE("a valley behind the first peak is not taken for the efficiency strain") {
  const StressStrain curve{{0, 0.04, 0.1, 0.18, 0.5, 0.6}, {0, 2e6, 0.1e6, 1e6, 1e6, 4e6}};
  REQUIRE(energy_to(curve, 0.1) / 0.1e6 > 0.58);
  CHECK(reduce_compression_test(curve).efficiency_strain == 0.5);
}

TEST_CASE("a test that ends on its plateau says that the efficiency still rises and has no plateau end") {
  const CompressionQuantities q = reduce_compression_test({{0, 0.05, 0.45}, {0, 1e6, 1e6}});
  CHECK(q.efficiency_still_rising);
  CHECK(q.efficiency_strain == 0.45);
  CHECK_FALSE(q.plateau_end);
}

TEST_CASE("a plateau that ends inside the window ends where the stress came up") {
  const CompressionQuantities q = reduce_compression_test({{0, 0.01, 0.35, 0.40, 0.5}, {0, 1e6, 1e6, 2e6, 4e6}});
  CHECK(q.plateau_stress == Approx(1.125e6).epsilon(1e-12));
  REQUIRE(q.plateau_end);
  CHECK(*q.plateau_end == Approx(0.35 + 0.05 * 0.4625).epsilon(1e-12));
}

TEST_CASE("the quasi-elastic gradient joins 20 and 70 percent of the plateau, whatever lies between") {
  const StressStrain toe{{0, 0.01, 0.02, 0.04, 0.5}, {0, 0.1e6, 0.5e6, 1e6, 1e6}};
  // 0.2e6 at 0.0125, 0.7e6 at 0.028.
  CHECK(*reduce_compression_test(toe).quasi_elastic_gradient == Approx(0.5e6 / 0.0155).epsilon(1e-12));
  const StressStrain starts_at_half{{0, 0.05, 0.5}, {0.5e6, 1e6, 1e6}};
  CHECK(*reduce_compression_test(starts_at_half).quasi_elastic_gradient == Approx(10e6).epsilon(1e-12));
}

TEST_CASE("energy adds up along the curve and a late start is joined to the origin") {
  const StressStrain curve{{0.02, 0.3, 0.5}, {1e6, 1e6, 2e6}};
  CHECK(energy_to(curve, 0) == 0);
  CHECK(energy_to(curve, 0.01) == Approx(0.5 * 0.01 * 0.5e6).epsilon(1e-12));
  CHECK(energy_to(curve, 0.02) == Approx(0.01e6).epsilon(1e-12));
  CHECK(energy_to(curve, 0.4) == Approx(0.01e6 + 0.28e6 + 0.125e6).epsilon(1e-12));
  CHECK(energy_to(curve, 0.5) == Approx(0.01e6 + 0.28e6 + 0.3e6).epsilon(1e-12));
}

TEST_CASE("the energy absorption efficiency remembers the greatest stress so far") {
  const StressStrain curve{{0, 0.1, 0.2, 0.5}, {0, 2e6, 1e6, 1e6}};
  CHECK(energy_absorption_efficiency(curve, 0.5) == Approx((0.1e6 + 0.15e6 + 0.3e6) / (2e6 * 0.5)).epsilon(1e-12));
}

TEST_CASE("a curve that cannot be reduced says which value is wrong and what to do") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_WITH(
      reduce_compression_test({{0, 0.2, 0.2, 0.5}, {0, 1, 1, 1}}),
      "strain does not rise at point 3 of the curve: 0.2 after 0.2; cut unloading and repeated readings");
  CHECK_THROWS_WITH(reduce_compression_test({{0, 0.2, 0.5}, {0, nan, 1}}),
                    "point 2 of the curve is not a number (strain 0.2, stress nan Pa)");
  CHECK_THROWS_WITH(reduce_compression_test({{0, 0.35}, {1, 1}}),
                    "strain 0.4 is outside the curve, which goes from 0 to 0.35");
  CHECK_THROWS_WITH(reduce_compression_test({{0, 0.35}, {1}}),
                    "the curve has 2 strains and 1 stresses; give one stress for each strain");
  CHECK_THROWS_WITH(reduce_compression_test({{0.1}, {1}}), "the curve has 1 points; at least 2 are needed");
  CHECK_THROWS_WITH(reduce_compression_test({{-0.01, 0.5}, {0, 1}}),
                    "the curve starts at strain -0.01; shift it so that crushing starts at 0");
  CHECK_THROWS_WITH(reduce_compression_test({{0, 0.5}, {-2, -2}}),
                    "mean stress between strain 0.2 and 0.4 is -2 Pa; compression is positive here");
  CHECK_THROWS_WITH(reduce_compression_test({{0, 0.1, 0.5, 0.55}, {0, 1, 1, 0}}),
                    "stress at strain 0.55 is 0 Pa; from strain 0.2 on it must be positive, so cut the end of the "
                    "record or correct its zero");
  CHECK_THROWS_WITH(reduce_compression_test(flat_then_steep(), 0.4, 0.3),
                    "the plateau goes from strain 0.4 to 0.3; it must start at 0 or above and end later");
  CHECK_THROWS_WITH(energy_to(flat_then_steep(), 0.61), "strain 0.61 is outside the curve, which goes from 0 to 0.6");
  CHECK_THROWS_AS(energy_to(flat_then_steep(), nan), OutOfDomain);
  CHECK_THROWS_WITH(
      energy_absorption_efficiency(flat_then_steep(), 0),
      "the energy absorption efficiency needs a strain above 0 and a positive stress up to it; strain is "
      "0, greatest stress 0 Pa");
}
