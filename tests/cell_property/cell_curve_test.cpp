#include "crushwright/cell_curve.hpp"
#include "crushwright/coupon.hpp"
#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

using namespace crushwright;

namespace {

constexpr double plateau = 2.4e6;
constexpr double modulus = 300e6;

/// Inputs over the domain of printed lattices: efficiency 0.45 to 0.80, packing 0.66 to 0.98, ratio 0.63 to 0.94.
std::vector<CurveShapeInput> domain() {
  std::vector<CurveShapeInput> all;
  for (double efficiency = 0.45; efficiency < 0.801; efficiency += 0.025) {
    for (double packing = 0.66; packing < 0.981; packing += 0.02) {
      if (efficiency / packing < 0.63 || efficiency / packing > 0.94) {
        continue;
      }
      for (const double slope : {0.0, 0.25, 0.5, 1.0}) {
        for (const double rise : {0.0, 0.02, default_rise_strain, 0.15}) {
          all.push_back({efficiency, packing, rise, slope});
        }
      }
    }
  }
  return all;
}

double slope_after(const CurveShape& shape, std::size_t i) {
  return (shape.ratio[i + 1] - shape.ratio[i]) / (shape.strain[i + 1] - shape.strain[i]);
}

double ratio_of(const CurveShape& shape, double strain) {
  std::size_t i = 0;
  while (i + 2 < CurveShape::points && shape.strain[i + 1] < strain) {
    ++i;
  }
  return shape.ratio[i] + slope_after(shape, i) * (strain - shape.strain[i]);
}

CompressionQuantities reduced(const CurveShapeInput& input) {
  return reduce_compression_test(stress_strain(curve_shape(input), plateau, modulus, 1));
}

std::string message_of(const CurveShapeInput& input) {
  try {
    curve_shape(input);
  } catch (const OutOfDomain& error) {
    return error.what();
  }
  return "accepted";
}

} // namespace

TEST_CASE("a cell's curve reduced as a coupon gives back its plateau stress and its efficiency strain") {
  REQUIRE(domain().size() > 1000);
  for (const CurveShapeInput& input : domain()) {
    CAPTURE(input.efficiency_strain, input.packing_strain, input.rise_strain, input.plateau_slope);
    const CompressionQuantities q = reduced(input);
    CHECK(q.plateau_stress == Approx(plateau).epsilon(1e-12));
    CHECK(q.efficiency_strain == input.efficiency_strain);
    CHECK_FALSE(q.efficiency_still_rising);
  }
}

TEST_CASE("a cell's curve keeps its plateau stress and efficiency strain for other steepnesses of the branch") {
  for (const double steepness : {4.0, 5.5, 8.0, 12.0, 30.0}) {
    for (CurveShapeInput input : domain()) {
      input.steepness = steepness;
      CAPTURE(input.efficiency_strain, input.packing_strain, input.rise_strain, input.plateau_slope, steepness);
      const CompressionQuantities q = reduced(input);
      CHECK(q.plateau_stress == Approx(plateau).epsilon(1e-12));
      CHECK(q.efficiency_strain == input.efficiency_strain);
    }
  }
}

TEST_CASE("a cell's curve never falls and stiffens from the plateau to the end") {
  for (const CurveShapeInput& input : domain()) {
    CAPTURE(input.efficiency_strain, input.packing_strain, input.rise_strain, input.plateau_slope);
    const CurveShape shape = curve_shape(input);
    for (std::size_t i = 0; i + 1 < CurveShape::points; ++i) {
      CHECK(shape.strain[i + 1] > shape.strain[i]);
      CHECK(shape.ratio[i + 1] >= shape.ratio[i]);
      CHECK(std::isfinite(shape.ratio[i + 1]));
    }
    for (std::size_t i = 1; i + 2 < CurveShape::points; ++i) {
      CHECK(slope_after(shape, i + 1) >= slope_after(shape, i) - 1e-12);
    }
  }
}

TEST_CASE("the plateau has the slope that was asked for") {
  for (const double slope : {0.0, 0.3, 1.0}) {
    const CurveShape shape = curve_shape({0.75, 0.95, default_rise_strain, slope});
    CHECK(slope_after(shape, 1) == Approx(slope).margin(2e-3));
    // At the window's middle the branch has begun to add its own slope.
    const double about_middle = (ratio_of(shape, 0.32) - ratio_of(shape, 0.28)) / 0.04;
    CHECK(about_middle >= slope);
    CHECK(about_middle < slope + 0.02);
  }
}

TEST_CASE("a cell's curve goes towards locking at the packing strain") {
  for (const CurveShapeInput& input : domain()) {
    CAPTURE(input.efficiency_strain, input.packing_strain, input.rise_strain, input.plateau_slope);
    const CurveShape shape = curve_shape(input);
    CHECK(shape.strain.back() < input.packing_strain);
    CHECK(shape.strain.back() > 0.97 * input.packing_strain);
    CHECK(shape.ratio.back() > 2);
    CHECK(slope_after(shape, CurveShape::points - 2) > 20 / input.packing_strain);
  }
}

TEST_CASE("on a flat plateau the plateau ends 4 to 9 percent after the efficiency strain") {
  double least = 9;
  double most = 0;
  for (const CurveShapeInput& input : domain()) {
    if (input.plateau_slope > 0) {
      continue;
    }
    const CompressionQuantities q = reduced(input);
    REQUIRE(q.plateau_end);
    least = std::min(least, *q.plateau_end / input.efficiency_strain);
    most = std::max(most, *q.plateau_end / input.efficiency_strain);
  }
  CAPTURE(least, most);
  CHECK(least > 1.04);
  CHECK(most < 1.09);
}

TEST_CASE("with the usual rise the energy to 40 percent strain lies where published curves have it") {
  // Energy to 0.40 over 0.40 times plateau stress: 0.88 to 0.95 on published lattice curves; memory.
  for (double efficiency = 0.50; efficiency < 0.751; efficiency += 0.01) {
    for (const double ratio : {0.72, 0.80, 0.90}) {
      if (efficiency / ratio > 0.98) {
        continue;
      }
      for (const double slope : {0.0, 0.25}) {
        CAPTURE(efficiency, ratio, slope);
        const CurveShape shape = curve_shape({efficiency, efficiency / ratio, default_rise_strain, slope});
        const double fullness = energy_to(stress_strain(shape, plateau, modulus, 1), 0.40) / (0.40 * plateau);
        CHECK(fullness > 0.88);
        CHECK(fullness < 0.95);
      }
    }
  }
}

TEST_CASE("the energy of a cell's curve is the area under it") {
  const CurveShape shape = curve_shape({0.62, 0.80, default_rise_strain, 0.2});
  const StressStrain curve = stress_strain(shape, plateau, modulus, 1);
  constexpr int steps = 200000;
  const double end = 0.71;
  double area = 0;
  for (int i = 0; i < steps; ++i) {
    area += ratio_of(shape, end * (i + 0.5) / steps) * plateau * end / steps;
  }
  CHECK(energy_to(curve, end) == Approx(area).epsilon(1e-8));
}

TEST_CASE("a cell's curve follows an eighth-power curve of the same efficiency strain up to its plateau end") {
  // σ0 [1 + (ε/0.8)^8]; packing where x^6/(1 − x) has the logarithmic slope 8 at the efficiency strain: x = 2/3.
  const double efficiency = 0.8 * std::pow(27 - std::sqrt(720.0), 0.125);
  const auto eighth_power = [](double strain) { return 1 + std::pow(strain / 0.8, 8); };
  const CurveShape shape = curve_shape({efficiency, 1.5 * efficiency, 0});
  const double level = 1.000866;
  double worst_before = 0;
  double worst_after = 0;
  for (double strain = 0; strain <= 0.688547; strain += 1e-3) {
    const double off = std::abs(level * ratio_of(shape, strain) / eighth_power(strain) - 1);
    (strain <= efficiency ? worst_before : worst_after) =
        std::max(strain <= efficiency ? worst_before : worst_after, off);
  }
  CAPTURE(worst_before, worst_after);
  CHECK(worst_before < 0.006);
  CHECK(worst_after < 0.01);
  const CompressionQuantities q = reduce_compression_test(stress_strain(shape, level, 1, 1));
  CHECK(q.energy_to_efficiency_strain ==
        Approx(efficiency + std::pow(efficiency, 9) / (9 * std::pow(0.8, 8))).epsilon(1e-3));
  CHECK(*q.plateau_end == Approx(0.688547).epsilon(0.004));
}

TEST_CASE("a plateau shorter than 40 percent strain is normalised over its second half, without a jump") {
  for (const double efficiency : {0.15, 0.20, 0.249, 0.251, 0.30, 0.35, 0.399}) {
    for (const double ratio : {0.3, 0.63, 0.80, 0.94}) {
      if (efficiency / ratio > 0.98) {
        continue;
      }
      CAPTURE(efficiency, ratio);
      const CurveShape shape = curve_shape({efficiency, efficiency / ratio, default_rise_strain});
      const CompressionQuantities q =
          reduce_compression_test(stress_strain(shape, plateau, modulus, 1), efficiency / 2, efficiency);
      CHECK(q.plateau_stress == Approx(plateau).epsilon(1e-12));
      CHECK(q.efficiency_strain == efficiency);
      CHECK(shape.ratio[1] > 0.8);
    }
  }
  const CurveShape below = curve_shape({0.40 - 1e-9, 0.55, default_rise_strain});
  const CurveShape above = curve_shape({0.40 + 1e-9, 0.55, default_rise_strain});
  for (std::size_t i = 0; i < CurveShape::points; ++i) {
    CHECK(below.ratio[i] == Approx(above.ratio[i]).margin(1e-6));
  }
}

TEST_CASE("the shown curve goes up the elastic slope to its first peak and back onto the plateau") {
  const CurveShape shape = curve_shape({0.60, 0.80, default_rise_strain});
  const StressStrain curve = stress_strain(shape, plateau, modulus, 1.25);
  CHECK(curve.stress[1] == Approx(1.25 * plateau));
  CHECK(curve.stress[1] / curve.strain[1] == Approx(modulus).epsilon(1e-12));
  CHECK(curve.strain[2] == default_rise_strain);
  CHECK(curve.stress[2] == Approx(shape.ratio[1] * plateau).epsilon(1e-12));
  CHECK(*reduce_compression_test(curve).first_maximum == Approx(1.25 * plateau));
  CHECK(curve.stress.back() == Approx(shape.ratio.back() * plateau));
}

TEST_CASE("a first peak of up to 1.3 on the usual rise and a mild slope moves neither plateau stress nor efficiency "
          "strain") {
  for (const CurveShapeInput& input : domain()) {
    for (const double ratio : {1.1, 1.3}) {
      for (const double stiffness : {30.0, 100.0, 1000.0}) {
        CAPTURE(input.efficiency_strain, input.packing_strain, input.rise_strain, input.plateau_slope, ratio);
        const CurveShape shape = curve_shape(input);
        const CompressionQuantities q =
            reduce_compression_test(stress_strain(shape, plateau, stiffness * plateau, ratio));
        CHECK(q.plateau_stress == Approx(plateau).epsilon(1e-12));
        if (input.rise_strain <= default_rise_strain && input.plateau_slope <= 0.25) {
          CHECK(q.efficiency_strain == input.efficiency_strain);
        } else {
          // On a long rise or a low start the peak adds more energy; then up to two points earlier.
          CHECK(q.efficiency_strain <= input.efficiency_strain);
          CHECK(q.efficiency_strain >= shape.strain[CurveShape::efficiency_point - 2]);
        }
      }
    }
  }
}

TEST_CASE("without a first peak the shown curve is the shape times the plateau stress") {
  const CurveShape shape = curve_shape({0.60, 0.80, default_rise_strain});
  const StressStrain curve = stress_strain(shape, plateau, 0, 1);
  REQUIRE(curve.strain.size() == CurveShape::points);
  for (std::size_t i = 0; i < CurveShape::points; ++i) {
    CHECK(curve.strain[i] == shape.strain[i]);
    CHECK(curve.stress[i] == shape.ratio[i] * plateau);
  }
}

TEST_CASE("an input outside its range is refused with its value") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(message_of({0.6, 0.8, 0.06}) == "accepted");
  CHECK(message_of({0.05, 0.8, 0.01}) == "efficiency strain is 0.05; it must be above 0.05");
  CHECK(message_of({nan, 0.8, 0.01}) == "efficiency strain is nan; it must be above 0.05");
  CHECK(message_of({0.8, 0.8, 0.06}) == "packing strain is 0.8; it must be above the efficiency strain 0.8");
  CHECK(message_of({0.8, 1.0, 0.06}) == "packing strain is 1; it must be below 1");
  CHECK(message_of({0.8, nan, 0.06}) == "packing strain is nan; it must be below 1");
  CHECK(message_of({0.6, 0.8, -0.01}) == "rise strain is -0.01; it must be at least 0");
  CHECK(message_of({0.6, 0.8, 0.2}) == "rise strain is 0.2; it must be below the start of the plateau window, 0.2");
  CHECK(message_of({0.3, 0.8, 0.15}) ==
        "rise strain is 0.15; it must be below the start of the plateau window, 0.15");
  CHECK(message_of({0.6, 0.8, nan}) == "rise strain is nan; it must be at least 0");
  CHECK(message_of({0.6, 0.8, 0.06, -0.1}) == "plateau slope is -0.1; it must be finite and at least 0");
  CHECK(message_of({0.6, 0.8, 0.06, std::numeric_limits<double>::infinity()}) ==
        "plateau slope is inf; it must be finite and at least 0");
  CHECK(message_of({0.6, 0.8, 0.06, 5}) ==
        "plateau slope 5 leaves -0.2104 times the plateau stress where the plateau begins; it must stay above 0");
  CHECK(message_of({0.6, 0.8, 0.06, 0, 1.5}) == "steepness is 1.5; it must be at least 2");
  CHECK(message_of({0.6, 0.8, 0.06, 0, 31}) == "steepness is 31; it must be at most 30");
  CHECK(message_of({0.3, 0.6, 0.06, 0, 2}) ==
        "no densification branch of steepness 2 that packs at strain 0.6 has its greatest efficiency at strain 0.3 "
        "(plateau slope 0); raise the steepness or lower the packing strain");
}

TEST_CASE("a shown curve needs a plateau stress, and with a first peak a modulus that reaches it in time") {
  const CurveShape shape = curve_shape({0.60, 0.80, default_rise_strain});
  CHECK_THROWS_WITH(stress_strain(shape, 0, modulus, 1), "plateau stress is 0 Pa; it must be finite and above 0");
  CHECK_THROWS_WITH(stress_strain(shape, 1e6, -3, 1.2), "elastic modulus is -3 Pa; it must be finite and above 0");
  CHECK_THROWS_WITH(stress_strain(shape, 1e6, modulus, -1),
                    "first peak ratio is -1; it must be finite and at least 0");
  CHECK_THROWS_WITH(
      stress_strain(shape, 1e6, 5e6, 1.2),
      "elastic modulus 5000000 Pa puts the first peak at strain 0.24; with plateau stress 1000000 Pa and "
      "first peak ratio 1.2 it must be at least 9000000 Pa");
}
