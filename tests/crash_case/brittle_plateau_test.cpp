#include "crash_case/sample_case.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;
using namespace sample_case;

namespace {

std::string with_lattice(const std::string& more) {
  return with("      strut: 1.4 mm\n", "      strut: 1.4 mm\n" + more);
}

} // namespace

TEST_CASE("what is left of the plateau of struts that break is read with its range and source") {
  CHECK_FALSE(read().structures.front().lattice->brittle_plateau.has_value());
  const CrashCase boxes = read(
      with_lattice("      brittle_plateau: {value: 0.7, low: 60 %, high: 0.8, source: coupons of this build}\n"));
  const LatticeInput& lattice = *boxes.structures.front().lattice;
  REQUIRE(lattice.brittle_plateau);
  CHECK(lattice.brittle_plateau->value == 0.7);
  CHECK(lattice.brittle_plateau->low_end() == 0.6);
  CHECK(lattice.brittle_plateau->source.text == "coupons of this build");
}

TEST_CASE("a brittle plateau above that of struts that fold, or next to nothing, is refused") {
  for (const char* value : {"1.2", "0.01", "-0.5"}) {
    CHECK_THAT(message(with_lattice(std::string("      brittle_plateau: ") + value + "\n")),
               Catch::Contains("boxes.yaml:19:") && Catch::Contains("brittle_plateau"));
  }
}
