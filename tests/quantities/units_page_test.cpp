#include "quantities/dimension_table.hpp"

#include <fstream>

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

/// The line of docs/units.md that belongs to a dimension; empty when it has none.
std::string line_of_page(std::string_view dimension) {
  std::ifstream page(std::string(CRUSHWRIGHT_SOURCE_DIR) + "/docs/units.md");
  const std::string begin = "| " + std::string(dimension) + " |";
  std::string line;
  while (std::getline(page, line)) {
    if (line.compare(0, begin.size(), begin) == 0) {
      return line;
    }
  }
  return "";
}

bool names(const std::string& line, const std::string& unit) {
  return line.find(" " + unit + ",") != std::string::npos || line.find(" " + unit + " |") != std::string::npos;
}

} // namespace

TEST_CASE("the page of units names every accepted unit and the SI unit of each dimension") {
  // The Greek mu of um looks the same as the micro sign, so the page shows one of them.
  const std::string greek_mu = "\u03bc";
  for (const DimensionRow& row : dimension_table()) {
    const std::string line = line_of_page(row.name);
    for (const UnitSpelling& spelling : row.spellings) {
      INFO(row.name << ": " << spelling.written);
      CHECK((spelling.written.find(greek_mu) == 0 || names(line, spelling.written)));
      CHECK(names(line, std::string(row.si_unit)));
    }
  }
}
