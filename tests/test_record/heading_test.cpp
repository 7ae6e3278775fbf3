#include "test_record/heading.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

void check(const std::string& cell, ColumnRole role, const std::string& unit, const std::string& label = "") {
  CAPTURE(cell);
  const Heading heading = read_heading(cell);
  CHECK(name_of(heading.role) == name_of(role));
  CHECK(heading.unit == unit);
  CHECK(heading.label == label);
}

} // namespace

TEST_CASE("a heading is taken apart into quantity, unit and label") {
  check("Force [kN]", ColumnRole::force, "kN");
  check("load(N)", ColumnRole::force, "N");
  check("F / kN", ColumnRole::force, "kN");
  check("Force A (kN)", ColumnRole::force, "kN", "A");
  check("Force (A)", ColumnRole::force, "", "A");
  check("force_kN", ColumnRole::force, "kN");
  check("Force 2", ColumnRole::force, "", "2");
  check("Force_N_raw", ColumnRole::force, "", "N raw");
  check("Crosshead displacement, mm", ColumnRole::displacement, "mm", "Crosshead");
  check("Load-line displacement [mm]", ColumnRole::displacement, "mm", "line");
  check("Deformation [%]", ColumnRole::strain, "%");
  check("Deformation [mm]", ColumnRole::displacement, "mm");
  check("Strain", ColumnRole::strain, "");
  check("Engineering stress N/mm^2", ColumnRole::stress, "N/mm^2", "Engineering");
  check("t/s", ColumnRole::time, "s");
  check("Test time [min]", ColumnRole::time, "min", "Test");
  check("Specimen no.", ColumnRole::specimen, "", "no");
  check("Specimen width [mm]", ColumnRole::other, "mm");
  check("Specimen displacement [mm]", ColumnRole::displacement, "mm");
}

TEST_CASE("rates, peaks and true values are other quantities") {
  for (const char* cell : {"Strain rate [1/s]", "Max force [kN]", "True stress [MPa]", "Yield stress [MPa]",
                           "Temperature [\u00b0C]", "Crosshead speed [mm/s]", "", "[kN]"}) {
    CAPTURE(cell);
    CHECK(read_heading(cell).role == ColumnRole::other);
  }
}

TEST_CASE("a unit in the wrong case or of another system is seen as a unit and is not accepted") {
  for (const char* cell : {"Force_KN", "Force (lbf)", "Force [mn]", "Stress psi", "Stress, mpa", "Force/kip"}) {
    CAPTURE(cell);
    const Heading heading = read_heading(cell);
    CHECK_FALSE(heading.unit.empty());
    CHECK_FALSE(is_unit_of(heading.unit, heading.role));
  }
}

TEST_CASE("strain is a bare fraction under -, and a hundredth under %") {
  CHECK(column_value(0.25, "-", ColumnRole::strain).value() == 0.25);
  CHECK(column_value(25, "%", ColumnRole::strain).value() == 0.25);
  CHECK_FALSE(column_value(25, "mm", ColumnRole::strain).has_value());
}
