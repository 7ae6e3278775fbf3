#include "crash_case/sample_case.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>

using namespace crushwright;
using namespace sample_case;

TEST_CASE("a misspelt block is shown with the nearest spelling") {
  CHECK(message(std::string(text) + "limit: {}\n") ==
        "boxes.yaml:34:1: unknown key `limit` at the top level\n"
        "   34 | limit: {}\n"
        "      | ^\n"
        "   Did you mean `limits`? Known keys: schema, title, description, vehicle, invented, service_temperature, "
        "structures, impacts, limits, scatter, size, compare, printing, service_loads, fatigue.\n"
        "   Correct the spelling or delete the line.");
}

TEST_CASE("sizing needs cell edges and a range") {
  CHECK(message(std::string(text) + "size: {smallest: 1 mm, largest: 2 mm}\n") ==
        "boxes.yaml:34:1: size.cell_edges: at least one is needed\n"
        "   34 | size: {smallest: 1 mm, largest: 2 mm}\n"
        "      | ^\n"
        "   Write for instance `cell_edges: [8 mm, 10 mm, 12 mm]`.");
  CHECK(message(std::string(text) + "size: {cell_edges: [8 mm], smallest: 2 mm, largest: 1 mm}\n") ==
        "boxes.yaml:34:53: size.largest: the largest size, 1 mm, is not above the smallest, 2 mm\n"
        "   34 | size: {cell_edges: [8 mm], smallest: 2 mm, largest: 1 mm}\n"
        "      |                                                     ^\n"
        "   Give a range to search in.");
}

TEST_CASE("a comparison needs cells, materials and densities") {
  CHECK(message(std::string(text) + "compare: {cells: [], materials: [x], relative_densities: [10 %]}\n") ==
        "boxes.yaml:34:11: compare.cells: at least one is needed\n"
        "   34 | compare: {cells: [], materials: [x], relative_dens...\n"
        "      |           ^\n"
        "   Write for instance `cells: [bcc, octet]`.");
  CHECK(message(std::string(text) + "compare: {cells: [bcc], materials: [x], relative_densities: [110 %]}\n") ==
        "boxes.yaml:34:62: compare.relative_densities[0] must be more than 0 % and less than 100 %, not 110 %\n"
        "   34 | compare: {cells: [bcc], materials: [x], relative_densities: [110 %]}\n"
        "      |                                                              ^\n"
        "   Correct the value or its unit.");
}

TEST_CASE("every case of the project is read") {
  int count = 0;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "cases")) {
    if (entry.path().extension() != ".yaml")
      continue;
    INFO(entry.path().filename().string());
    const CrashCase crash_case = read_case(entry.path());
    CHECK(crash_case.id == entry.path().stem().string());
    CHECK(crash_case.invented);
    CHECK_FALSE(crash_case.limits.empty());
    CHECK_FALSE(crash_case.impacts.empty());
    ++count;
  }
  CHECK(count >= 4);
}

TEST_CASE("every value of a case is kept with its path, its unit and its source") {
  const CrashCase crash_case =
      read(with("closing_speed: 9 m/s", "closing_speed: {value: 9 m/s, low: 8.9 m/s, source: rule, standing: read}"));
  const auto found = std::find_if(crash_case.all_quantities.begin(), crash_case.all_quantities.end(),
                                  [](const Quantity& each) { return each.path == "impacts.full.closing_speed"; });
  REQUIRE(found != crash_case.all_quantities.end());
  CHECK(found->value == Approx(9));
  CHECK(*found->low == Approx(8.9));
  CHECK(found->source.text == "rule");
  CHECK(found->dimension == Dimension::speed);
}

TEST_CASE("the name of a case is the stem of its file") {
  CHECK(read().id == "boxes");
}
