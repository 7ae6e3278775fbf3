#include "quantities/dimension_table.hpp"
#include "quantities/units.hpp"

#include <limits>

#include <catch2/catch.hpp>

using namespace crushwright;

TEST_CASE("values are shown in their display unit with four digits") {
  CHECK(show(43200, Dimension::force) == "43.2 kN");
  CHECK(show(0.2751, Dimension::length) == "275.1 mm");
  CHECK(show(196.133, Dimension::acceleration) == "20 g");
  CHECK(show(273.15 + 23.5, Dimension::temperature) == "23.5 °C");
  CHECK(show(0.4, Dimension::fraction) == "40 %");
  CHECK(show(-1234.5, Dimension::energy) == "-1.234 kJ");
  CHECK(show(1.23456, Dimension::number) == "1.235");
}

TEST_CASE("everyday magnitudes are never shown in scientific notation") {
  CHECK(show(0, Dimension::mass) == "0 kg");
  CHECK(show(1180, Dimension::mass) == "1180 kg");
  CHECK(show(123456, Dimension::mass) == "123456 kg");
  CHECK(show(9999.6, Dimension::mass) == "10000 kg");
  CHECK(show(0.00012345678, Dimension::mass) == "0.0001235 kg");
  CHECK(show(0.99996, Dimension::number) == "1");
}

TEST_CASE("magnitudes beyond everyday ones are shown with an exponent") {
  CHECK(show(1.5e12, Dimension::number) == "1.5e+12");
  CHECK(show(1.23456e-9, Dimension::number) == "1.235e-09");
  CHECK(show(std::numeric_limits<double>::infinity(), Dimension::force) == "inf kN");
}

TEST_CASE("every dimension's shown value is accepted and read back") {
  for (const DimensionRow& row : dimension_table()) {
    INFO(row.name);
    const double si_value = parse_value(row.example, row.dimension);
    CHECK(parse_value(show(si_value, row.dimension), row.dimension) == Approx(si_value).epsilon(5e-4));
  }
}

TEST_CASE("every accepted unit converts, and one SI unit is accepted by every dimension that has units") {
  for (const DimensionRow& row : dimension_table()) {
    for (const std::string& unit : accepted_units(row.dimension)) {
      INFO(row.name << " " << unit);
      CHECK(parse_value("1 " + unit, row.dimension) > 0);
    }
    if (row.si_unit != "1") {
      INFO(row.name);
      CHECK(parse_value("3 " + std::string(row.si_unit), row.dimension) == 3);
    }
  }
}

TEST_CASE("the display unit is the first accepted one") {
  CHECK(display_unit(Dimension::force) == "kN");
  CHECK(display_unit(Dimension::length) == "mm");
  CHECK(display_unit(Dimension::energy) == "kJ");
  CHECK(display_unit(Dimension::acceleration) == "g");
  CHECK(display_unit(Dimension::time) == "ms");
  CHECK(display_unit(Dimension::number).empty());
  CHECK(accepted_units(Dimension::number).empty());
  CHECK(in_display_unit(0.25, Dimension::number) == 0.25);
  CHECK(in_display_unit(300000, Dimension::force) == Approx(300).epsilon(1e-15));
  CHECK(si_unit(Dimension::force) == "N");
  CHECK(si_unit(Dimension::number) == "1");
}

TEST_CASE("standings, evidences and dimensions have the names that files use") {
  CHECK(name_of(Standing::read) == "read");
  CHECK(name_of(Standing::memory) == "memory");
  CHECK(name_of(Standing::derived) == "derived");
  CHECK(name_of(Standing::common_practice) == "common_practice");
  CHECK(name_of(Evidence::measured) == "measured");
  CHECK(name_of(Evidence::published) == "published");
  CHECK(name_of(Evidence::computed) == "computed");
  CHECK(name_of(Evidence::generic) == "generic");
  CHECK(name_of(Evidence::prior) == "prior");
  CHECK(name_of(Dimension::specific_energy) == "specific energy");
}
