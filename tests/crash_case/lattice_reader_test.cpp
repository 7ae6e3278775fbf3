#include "crash_case/sample_case.hpp"

#include <catch2/catch.hpp>
#include <numbers>

using namespace crushwright;
using namespace sample_case;

namespace {

std::string with_lattice(const std::string& more) {
  return with("      strut: 1.4 mm\n", "      strut: 1.4 mm\n" + more);
}

const LatticeInput& lattice_of(const CrashCase& read) {
  return *read.structures.front().lattice;
}

} // namespace

TEST_CASE("without a placement the lattice lies where the program puts it, and free struts are dropped") {
  const CrashCase boxes = read();
  CHECK_FALSE(lattice_of(boxes).origin.has_value());
  CHECK(lattice_of(boxes).turn == 0);
  CHECK(lattice_of(boxes).loose_ends == LooseEnds::drop);
  CHECK_FALSE(lattice_of(boxes).size_factor.has_value());
}

TEST_CASE("placement, loose ends and size factor are read") {
  const CrashCase boxes = read(with_lattice("      placement: {origin: [0 mm, 5 mm, -3 mm], turn: 45 deg}\n"
                                            "      loose_ends: tie\n"
                                            "      size_factor: {station: [0 mm, 400 mm], z: [-60 mm, 60 mm], "
                                            "values: [1, 1.1, 0.9, 1]}\n"));
  const LatticeInput& lattice = lattice_of(boxes);
  CHECK(*lattice.origin == std::array<double, 3>{0, 5e-3, -3e-3});
  CHECK(lattice.turn == Approx(std::numbers::pi / 4));
  CHECK(lattice.loose_ends == LooseEnds::tie);
  REQUIRE(lattice.size_factor);
  // Station runs fastest: the far end of the lower side is 1.1, the near end of the upper side 0.9.
  CHECK(factor_at(*lattice.size_factor, {0.4, 0.02, -0.06}) == Approx(1.1));
  CHECK(factor_at(*lattice.size_factor, {0.0, -0.02, 0.06}) == Approx(0.9));
  CHECK(factor_at(*lattice.size_factor, {0.2, 0, 0}) == Approx(1.0));
}

TEST_CASE("a size factor with too few values says how many points its grid has") {
  const std::string told =
      message(with_lattice("      size_factor: {station: [0 mm, 400 mm], z: [-60 mm, 60 mm], values: [1, 1.1]}\n"));
  CHECK(told.find("boxes.yaml:19:") == 0);
  CHECK(told.find("List the places rising, and one factor for each point of the grid, station fastest, then y, then "
                  "z.") != std::string::npos);
}

TEST_CASE("an origin of two lengths is refused") {
  CHECK(message(with_lattice("      placement: {origin: [0 mm, 5 mm]}\n")) ==
        "boxes.yaml:19:19: structures.left.lattice.placement.origin: three lengths, [station, y, z], were expected; "
        "there are 2\n"
        "   19 |       placement: {origin: [0 mm, 5 mm]}\n"
        "      |                   ^\n"
        "   Write it for instance as `origin: [0 mm, 0 mm, 0 mm]`, a corner of one cell.");
}
