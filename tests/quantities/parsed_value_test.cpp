#include "quantities/message_of.hpp"
#include "quantities/units.hpp"

#include <cmath>

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

/// Two roundings lie between a decimal text and its SI value.
void check_exact(std::string_view text, Dimension dimension, double si_value) {
  INFO(text);
  CHECK(parse_value(text, dimension) == Approx(si_value).epsilon(1e-15).margin(0));
}

std::string refusal(std::string_view text, Dimension dimension) {
  return message_of([&] { parse_value(text, dimension); });
}

} // namespace

TEST_CASE("standard gravity is 9.80665 m/s^2 exactly") {
  // 3rd General Conference on Weights and Measures, 1901; exact by definition.
  check_exact("1 g", Dimension::acceleration, 9.80665);
  check_exact("20 g", Dimension::acceleration, 196.133);
  check_exact("40 m/s^2", Dimension::acceleration, 40);
}

TEST_CASE("a lone g is standard gravity for an acceleration and gram for a mass") {
  check_exact("5 g", Dimension::acceleration, 49.03325);
  check_exact("5 g", Dimension::mass, 0.005);
}

TEST_CASE("an hour is 3600 s, so 36 km/h is 10 m/s") {
  check_exact("36 km/h", Dimension::speed, 10);
  check_exact("35 km/h", Dimension::speed, 35000.0 / 3600.0);
  check_exact("60 mm/min", Dimension::speed, 0.001);
  check_exact("1 h", Dimension::time, 3600);
}

TEST_CASE("zero degrees Celsius is 273.15 K exactly") {
  check_exact("0 °C", Dimension::temperature, 273.15);
  check_exact("100 degC", Dimension::temperature, 373.15);
  check_exact("300 K", Dimension::temperature, 300);
  check_exact("-273.15 °C", Dimension::temperature, 0);
}

TEST_CASE("half a turn is pi radians") {
  const double pi = std::acos(-1.0);
  check_exact("180 °", Dimension::angle, pi);
  check_exact("90 deg", Dimension::angle, pi / 2);
  check_exact("0.5 rad", Dimension::angle, 0.5);
}

TEST_CASE("SI prefixes are powers of ten in every dimension") {
  // Prefixes and powers of the SI brochure, 9th edition; powers of ten of coherent units, written out by hand.
  check_exact("1 um", Dimension::length, 1e-6);
  check_exact("1 µm", Dimension::length, 1e-6);
  check_exact("1.2 mm", Dimension::length, 1.2e-3);
  check_exact("7 cm", Dimension::length, 0.07);
  check_exact("3 mm^2", Dimension::area, 3e-6);
  check_exact("3 cm²", Dimension::area, 3e-4);
  check_exact("3 mm2", Dimension::area, 3e-6);
  check_exact("3 mm^3", Dimension::volume, 3e-9);
  check_exact("3 cm^3", Dimension::volume, 3e-6);
  check_exact("3 l", Dimension::volume, 3e-3);
  check_exact("2 t", Dimension::mass, 2000);
  check_exact("8 ms", Dimension::time, 8e-3);
  check_exact("8 us", Dimension::time, 8e-6);
  check_exact("2 min", Dimension::time, 120);
  check_exact("80 kN", Dimension::force, 8e4);
  check_exact("1 MN", Dimension::force, 1e6);
  check_exact("275 MPa", Dimension::stress, 2.75e8);
  check_exact("70 GPa", Dimension::stress, 7e10);
  check_exact("5 kPa", Dimension::stress, 5e3);
  check_exact("275 N/mm^2", Dimension::stress, 2.75e8);
  check_exact("12 kJ", Dimension::energy, 1.2e4);
  check_exact("1 MJ", Dimension::energy, 1e6);
  check_exact("2.67 g/cm^3", Dimension::density, 2670);
  check_exact("2670 kg/m^3", Dimension::density, 2670);
  check_exact("15 kJ/kg", Dimension::specific_energy, 1.5e4);
  check_exact("15 J/g", Dimension::specific_energy, 1.5e4);
  check_exact("4 kN/mm", Dimension::stiffness, 4e6);
  check_exact("4 N/mm", Dimension::stiffness, 4e3);
  check_exact("4 kN/m", Dimension::stiffness, 4e3);
  check_exact("100 1/s", Dimension::strain_rate, 100);
  check_exact("2 1/ms", Dimension::strain_rate, 2000);
}

TEST_CASE("a fraction is bare or in per cent") {
  check_exact("0.4", Dimension::fraction, 0.4);
  check_exact("40 %", Dimension::fraction, 0.4);
}

TEST_CASE("signs, points and exponents are read") {
  check_exact("-3 mm", Dimension::length, -0.003);
  check_exact("+3 mm", Dimension::length, 0.003);
  check_exact(".5 mm", Dimension::length, 0.0005);
  check_exact("1.5e-3 m", Dimension::length, 0.0015);
  check_exact("1.5E+2", Dimension::number, 150);
}

TEST_CASE("a missing unit is refused with the units of the dimension") {
  CHECK(refusal("35", Dimension::speed) ==
        "`35` has no unit; a speed was expected, for instance 35 km/h. Put one space and a unit behind the number. "
        "Units of a speed: km/h, m/s, mm/s, mm/min.");
}

TEST_CASE("a unit of another dimension is named") {
  CHECK(refusal("275 MPa", Dimension::length) ==
        "275 MPa is a stress; a length was expected, for instance 275 mm. Units of a length: mm, cm, m, um.");
  CHECK(refusal("20 g", Dimension::length) ==
        "20 g is a mass or an acceleration; a length was expected, for instance "
        "275 mm. Units of a length: mm, cm, m, um.");
  CHECK(
      refusal("5 kg", Dimension::fraction) ==
      "5 kg is a mass; a fraction was expected, for instance 40 %. A fraction is bare (0.4) or in per cent (40 %).");
  CHECK(refusal("5 mm", Dimension::number) ==
        "5 mm is a length; a bare number was expected. Write a number without a unit, for instance 1.5.");
}

TEST_CASE("an unknown unit is refused with the nearest accepted one") {
  CHECK(refusal("5 mpa", Dimension::stress) ==
        "`mpa` is not an accepted unit; a stress was expected, for instance 275 MPa. Did you mean `MPa`? Units of a "
        "stress: MPa, GPa, kPa, Pa, N/mm^2.");
  CHECK(refusal("5 furlong", Dimension::length) == "`furlong` is not an accepted unit; a length was expected, for "
                                                   "instance 275 mm. Units of a length: mm, cm, m, um.");
  CHECK(refusal("5 x", Dimension::number) ==
        "`5 x` has more than a number; a bare number was expected. Write a number "
        "without a unit, for instance 1.5.");
}

TEST_CASE("spacing other than one space between number and unit is refused") {
  CHECK(refusal("35km/h", Dimension::speed) == "`35km/h` lacks the space between number and unit. Write 35 km/h.");
  CHECK(refusal("40%", Dimension::fraction) == "`40%` lacks the space between number and unit. Write 40 %.");
  CHECK(refusal("35  km/h", Dimension::speed) ==
        "`35  km/h` needs exactly one space between number and unit. Write 35 km/h.");
  CHECK(refusal("35\tkm/h", Dimension::speed) ==
        "`35 km/h` needs exactly one space between number and unit. Write 35 km/h.");
  CHECK(refusal("1 180 kg", Dimension::mass) == "`1 180 kg` has a space inside its number. Write 1180 kg.");
}

TEST_CASE("a comma in a number is refused, whichever it was meant to be") {
  CHECK(refusal("1,5 mm", Dimension::length) == "`1,5 mm` has a comma in its number. Write 1.5 mm.");
  CHECK(refusal("1,180 kg", Dimension::mass) == "`1,180 kg` has a comma in its number. Write 1.180 kg if the comma "
                                                "stands before decimals, 1180 kg if it parts thousands.");
  CHECK(refusal("1,180.5 kg", Dimension::mass) == "`1,180.5 kg` has a comma in its number. Write the digits without "
                                                  "commas and a point before the decimals.");
}

TEST_CASE("numbers that are not finite are refused") {
  const std::string advice = "Give a finite value, or delete the line where the value is optional.";
  CHECK(refusal("nan mm", Dimension::length) == "`nan mm` is not a finite number. " + advice);
  CHECK(refusal(".nan", Dimension::number) == "`.nan` is not a finite number. " + advice);
  CHECK(refusal("-.inf", Dimension::number) == "`-.inf` is not a finite number. " + advice);
  CHECK(refusal("Infinity m", Dimension::length) == "`Infinity m` is not a finite number. " + advice);
  CHECK(refusal("1e999 mm", Dimension::length) ==
        "`1e999 mm` is too large or too small for a number of double precision. Check the exponent.");
  CHECK(refusal("1e308 t", Dimension::mass) ==
        "`1e308 t` is too large for a number of double precision. Check the exponent.");
}

TEST_CASE("texts that are no decimal number are refused") {
  CHECK(refusal("0x10 mm", Dimension::length) == "`0x10 mm` is written in hexadecimal. Write it in decimal.");
  CHECK(
      refusal("abc", Dimension::length) ==
      "`abc` does not begin with a number; a length was expected. Write a number, one space and a unit, for instance "
      "275 mm. Units of a length: mm, cm, m, um.");
  CHECK(refusal("", Dimension::force) == "there is no value; a force was expected. Write a number, one space and a "
                                         "unit, for instance 80 kN. Units of a force: kN, N, MN.");
  CHECK(refusal("1-2 mm", Dimension::length) ==
        "`1-2 mm` is not a number with a unit; a length was expected. Write a number, one space and a unit, for "
        "instance 275 mm. Units of a length: mm, cm, m, um.");
  CHECK(refusal("−5 mm", Dimension::length) ==
        "`−5 mm` begins with a typographic minus sign. Write the plain one: -5 mm.");
}

TEST_CASE("no temperature is below absolute zero") {
  CHECK(refusal("-300 °C", Dimension::temperature) ==
        "`-300 °C` is below absolute zero. Check the sign and the unit.");
}
