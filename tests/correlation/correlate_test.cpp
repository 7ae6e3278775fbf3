#include "crushwright/correlation.hpp"
#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <numbers>

using namespace crushwright;
using Catch::Contains;

namespace {

SampledCurve curve(double from, double to, std::size_t samples, const std::function<double(double)>& y) {
  SampledCurve made;
  for (std::size_t i = 0; i < samples; ++i) {
    const double x = from + (to - from) * static_cast<double>(i) / static_cast<double>(samples - 1);
    made.x.push_back(x);
    made.y.push_back(y(x));
  }
  return made;
}

double crush_like(double x) {
  return 40e3 * (1 - std::exp(-x / 0.01)) + 60e3 * x;
}

double bump(double x) {
  return std::exp(-std::pow((x - 0.5) / 0.08, 2));
}

} // namespace

TEST_CASE("a curve correlates with itself without any error") {
  const SampledCurve measured = curve(0, 0.3, 500, crush_like);
  const Correlation same = correlate(measured, measured, {0.06, 0.12, std::nullopt, 1000});
  CHECK(same.energy_error == Approx(0).margin(1e-12));
  CHECK(same.peak_error == Approx(0).margin(1e-12));
  REQUIRE(same.plateau_error);
  CHECK(*same.plateau_error == Approx(0).margin(1e-12));
  CHECK(same.normalised_error == Approx(0).margin(1e-12));
  CHECK(same.cross_correlation == Approx(1).epsilon(1e-12));
  CHECK(same.shift == 0);
  CHECK(same.rating.overall == Approx(1).epsilon(1e-12));
  CHECK(same.rating.word == "excellent");
  CHECK(same.warnings.empty());
}

TEST_CASE("a prediction a tenth too strong errs by a tenth in every force, and is at its place") {
  const SampledCurve measured = curve(0, 1, 2001, bump);
  SampledCurve predicted = measured;
  for (double& y : predicted.y) {
    y *= 1.1;
  }
  const Correlation result = correlate(predicted, measured, {0.4, 0.6, std::nullopt, 1000});
  CHECK(result.energy_error == Approx(0.1).epsilon(1e-9));
  CHECK(result.peak_error == Approx(0.1).epsilon(1e-9));
  CHECK(*result.plateau_error == Approx(0.1).epsilon(1e-9));
  CHECK(result.normalised_error == Approx(0.1).epsilon(1e-9));
  CHECK(result.shift == 0);
  CHECK(result.rating.phase == 1);
  // Slopes miss by a tenth of themselves, over an allowance of 2.
  CHECK(result.rating.slope == Approx(0.95).epsilon(1e-6));
  // Unwarped, sizes would miss by a tenth over an allowance of a half; warping can only lessen that.
  CHECK(result.rating.magnitude >= 0.8 - 1e-9);
  CHECK(result.rating.magnitude < 1);
}

TEST_CASE("an offset prediction loses in the corridor as the parabola says") {
  // Reference of greatest size 1; 0.275 apart everywhere: ((0.5 - 0.275)/0.45)^2 = 0.25.
  const SampledCurve measured = curve(0, 1, 1001, [](double x) { return 1 - x; });
  const SampledCurve predicted = curve(0, 1, 1001, [](double x) { return 1.275 - x; });
  CHECK(correlate(predicted, measured).rating.corridor == Approx(0.25).epsilon(1e-9));
}

TEST_CASE("a peak that stands too far on is found with its distance, and costs phase alone") {
  const SampledCurve measured = curve(0, 1, 4001, bump);
  const SampledCurve predicted = curve(0, 1, 4001, [](double x) { return bump(x - 0.05); });
  const Correlation result = correlate(predicted, measured);
  CHECK(result.shift == Approx(0.05).epsilon(0.02));
  // 0.05 of the range over an allowance of a fifth.
  CHECK(result.rating.phase == Approx(0.75).epsilon(0.01));
  CHECK(result.rating.magnitude == Approx(1).margin(0.01));
  CHECK(result.rating.slope == Approx(1).margin(0.01));
  CHECK(result.cross_correlation == Approx(1).margin(1e-4));
  const Correlation mirrored = correlate(measured, predicted);
  CHECK(mirrored.shift == Approx(-0.05).epsilon(0.02));
}

TEST_CASE("a prediction of half the force errs by half, not by one: the measured curve is the reference") {
  const SampledCurve measured = curve(0, 1, 501, bump);
  SampledCurve half = measured;
  for (double& y : half.y) {
    y *= 0.5;
  }
  CHECK(correlate(half, measured).energy_error == Approx(-0.5));
  CHECK(correlate(measured, half).energy_error == Approx(1.0));
}

TEST_CASE("only what both curves cover is compared, and the rest is told") {
  const SampledCurve measured = curve(0, 0.4, 401, crush_like);
  const SampledCurve predicted = curve(-0.1, 0.3, 401, [](double x) { return crush_like(std::max(0.0, x)); });
  const Correlation result = correlate(predicted, measured);
  CHECK(result.from == 0);
  CHECK(result.to == Approx(0.3));
  REQUIRE(result.warnings.size() == 1);
  CHECK_THAT(result.warnings.front(), Contains("goes on from 0.3 to 0.4"));
}

TEST_CASE("both curves are smoothed alike: ripple of one wavelength goes, the energy stays") {
  const auto rippled = [](double x) { return 50 + 10 * std::sin(2 * std::numbers::pi * x / 0.05); };
  const SampledCurve measured = curve(0, 1, 4001, rippled);
  const SampledCurve flat = curve(0, 1, 4001, [](double) { return 50.0; });
  const Correlation raw = correlate(flat, measured);
  CHECK(raw.peak_error == Approx(50.0 / 60 - 1).epsilon(1e-3));
  CorrelationOptions options;
  options.filter_width = 0.05;
  options.samples = 4001;
  const Correlation smooth = correlate(flat, measured, options);
  // Away from the ends a window of one wavelength leaves the mean.
  CHECK(smooth.measured.y[2000] == Approx(50).epsilon(1e-4));
  CHECK(smooth.energy_error == Approx(raw.energy_error).margin(2e-3));
}

TEST_CASE("the answer does not hang on the grid") {
  const SampledCurve measured = curve(0, 0.3, 3001, crush_like);
  const SampledCurve predicted = curve(0, 0.3, 3001, [](double x) { return 1.05 * crush_like(0.97 * x); });
  CorrelationOptions coarse, fine;
  coarse.samples = 500;
  fine.samples = 2000;
  const Correlation a = correlate(predicted, measured, coarse), b = correlate(predicted, measured, fine);
  CHECK(a.energy_error == Approx(b.energy_error).margin(1e-4));
  CHECK(a.rating.corridor == Approx(b.rating.corridor).margin(5e-3));
  CHECK(a.rating.overall == Approx(b.rating.overall).margin(0.02));
}

TEST_CASE("a worse prediction is rated worse") {
  const SampledCurve measured = curve(0, 0.3, 1001, crush_like);
  double before = 1.1;
  for (const double factor : {1.02, 1.1, 1.25, 1.5}) {
    SampledCurve predicted = measured;
    for (double& y : predicted.y) {
      y *= factor;
    }
    const double overall = correlate(predicted, measured).rating.overall;
    CHECK(overall < before);
    before = overall;
  }
}

TEST_CASE("curves that share nothing, go back or hold no numbers are refused by name") {
  const SampledCurve measured = curve(0, 1, 50, bump);
  const SampledCurve beyond = curve(0.95, 2, 50, bump);
  CHECK_THROWS_WITH(correlate(beyond, measured), Contains("hardly anything in common"));
  SampledCurve back = measured;
  back.x[7] = back.x[6];
  CHECK_THROWS_WITH(correlate(back, measured), Contains("predicted curve goes back at point 8"));
  SampledCurve broken = measured;
  broken.y[3] = std::nan("");
  CHECK_THROWS_WITH(correlate(measured, broken), Contains("point 4 of the measured curve is not finite"));
  const SampledCurve nothing = curve(0, 1, 50, [](double) { return 0.0; });
  CHECK_THROWS_AS(correlate(measured, nothing), OutOfDomain);
}
