#include "review_pack/value_scale.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace crushwright;

TEST_CASE("lightness agrees with published values of sRGB colours") {
  // White and black by definition of L*; the primaries from the luminances of the standard's matrix, 0.2126, 0.7152
  // and 0.0722 of white [IEC 61966-2-1, memory]: L* = 116 Y^(1/3) - 16 [ISO/CIE 11664-4, memory].
  CHECK(lightness({255, 255, 255}) == Approx(100).margin(0.01));
  CHECK(lightness({0, 0, 0}) == Approx(0).margin(1e-9));
  CHECK(lightness({255, 0, 0}) == Approx(116 * std::cbrt(0.2126) - 16).margin(0.01));
  CHECK(lightness({0, 255, 0}) == Approx(116 * std::cbrt(0.7152) - 16).margin(0.01));
  CHECK(lightness({0, 0, 255}) == Approx(116 * std::cbrt(0.0722) - 16).margin(0.01));
}

TEST_CASE("equal steps of a scale are equal steps of lightness, light to dark") {
  for (const Hue hue : {Hue::blue, Hue::rust}) {
    const double lightest = lightness(scale_colour(hue, 0)), darkest = lightness(scale_colour(hue, 1));
    CHECK(lightest - darkest > 60);
    for (int i = 1; i <= 16; ++i) {
      const double step = lightness(scale_colour(hue, (i - 1) / 16.0)) - lightness(scale_colour(hue, i / 16.0));
      // Rounding to 8 bits moves a lightness by up to 0.2.
      CHECK(step == Approx((lightest - darkest) / 16).margin(0.4));
    }
  }
}

TEST_CASE("a scale of densities has round bounds about its values, at most eight steps, darker for denser") {
  const ValueScale scale = density_scale(0.083, 0.241);
  CHECK(scale.bounds.front() == Approx(0.075));
  CHECK(scale.bounds.back() == Approx(0.25));
  REQUIRE(scale.colours.size() <= 8);
  REQUIRE(scale.bounds.size() == scale.colours.size() + 1);
  CHECK(scale.labels.front() == "7.5 %");
  CHECK(scale.step_of(0.083) == 0);
  CHECK(scale.step_of(0.241) == scale.colours.size() - 1);
  CHECK(scale.step_of(0.9) == scale.colours.size() - 1);
  for (std::size_t i = 1; i < scale.colours.size(); ++i) {
    CHECK(lightness(scale.colours[i]) < lightness(scale.colours[i - 1]));
  }
}

TEST_CASE("one density has one step and says its value") {
  const ValueScale scale = density_scale(0.15, 0.15);
  REQUIRE(scale.colours.size() == 1);
  CHECK(scale.labels == std::vector<std::string>{"15 %"});
  CHECK(scale.step_of(0.15) == 0);
}

TEST_CASE("what crushes first is darkest, and every rank has its step") {
  const ValueScale scale = order_scale(20);
  CHECK(scale.quantity == "crush order of the layers, 1 first to 20 last");
  CHECK(scale.labels.front() == "1 to 3");
  CHECK(scale.labels.back() == "19 to 20");
  CHECK(scale.step_of(1) == 0);
  CHECK(scale.step_of(3) == 0);
  CHECK(scale.step_of(4) == 1);
  CHECK(scale.step_of(20) == scale.colours.size() - 1);
  CHECK(lightness(scale.colours.front()) < lightness(scale.colours.back()));
  CHECK(order_scale(1).labels == std::vector<std::string>{"1"});
}
