#include "crushwright/material.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

TEST_CASE("the strength factor is linear between the stated temperatures") {
  BaseMaterial material;
  material.temperature_factors = {{293.15, 1.0}, {373.15, 0.9}, {473.15, 0.6}};
  CHECK(*strength_factor(material, 293.15) == 1.0);
  CHECK(*strength_factor(material, 333.15) == Approx(0.95).epsilon(1e-12));
  CHECK(*strength_factor(material, 373.15) == Approx(0.9).epsilon(1e-12));
  CHECK(*strength_factor(material, 423.15) == Approx(0.75).epsilon(1e-12));
  CHECK(*strength_factor(material, 473.15) == Approx(0.6).epsilon(1e-12));
}

TEST_CASE("no strength factor is made up outside the stated temperatures") {
  BaseMaterial material;
  CHECK_FALSE(strength_factor(material, 293.15).has_value());
  material.temperature_factors = {{293.15, 1.0}, {373.15, 0.9}};
  CHECK_FALSE(strength_factor(material, 293.0).has_value());
  CHECK_FALSE(strength_factor(material, 373.2).has_value());
}
