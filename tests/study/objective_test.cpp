#include "crushwright/study.hpp"
#include "estimate/sample_cases.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace crushwright;
using namespace sample_cases;

namespace {

/// The honeycomb block with two cell edges; `objective` may be empty.
CrashCase block_to_size(const std::string& objective, const std::string& printing) {
  return case_of(block("block"), drop(), "  stroke: {quantity: stroke_used, at_most: 100 %}\n",
                 "size: {" + objective + "cell_edges: [6 mm, 9 mm], smallest: 0.30 mm, largest: 0.9 mm}\n" +
                     printing);
}

/// Invented: the contour is slow, so that many thin walls are dear beside few thick ones of the same metal.
const std::string slow_contour = "printing:\n"
                                 "  build_direction: \"-x\"\n"
                                 "  machine: {self_supporting_angle: 45 deg}\n"
                                 "  rates: {layer_thickness: 50 um, recoat_time: 9 s, volume_rate: 400 cm^3/h,\n"
                                 "          contour_rate: 200 cm^2/h, currency: crowns, cost_per_hour: 50}\n";

} // namespace

TEST_CASE("a design's build time and cost stand beside its mass where rates are stated") {
  const SizingResult plain = size_case(block_to_size("", ""), catalogue());
  CHECK_FALSE(plain.best.build_time.has_value());
  const SizingResult rated = size_case(block_to_size("", slow_contour), catalogue());
  REQUIRE(rated.best.build_time.has_value());
  CHECK(*rated.best.build_cost == Approx(*rated.best.build_time / 3600 * 50).epsilon(1e-9));
  // The block changes no answer by itself.
  CHECK(rated.best.mass == plain.best.mass);
  CHECK(rated.best.cell_edge == plain.best.cell_edge);
}

TEST_CASE("the least build cost is sought where it is asked for, and nothing of the range costs less") {
  const SizingResult cheapest = size_case(block_to_size("objective: build_cost, ", slow_contour), catalogue());
  REQUIRE(cheapest.found);
  // A size is put up to the next whole micrometre, which costs a few parts in ten thousand.
  for (const Candidate& tried : cheapest.scanned)
    if (tried.feasible)
      CHECK(*tried.build_cost >= *cheapest.best.build_cost * (1 - 1e-3));
  const SizingResult lightest = size_case(block_to_size("", slow_contour), catalogue());
  // Thick walls of few cells have less surface than thin ones of the same cells, and the contour is what costs here.
  CHECK(*cheapest.best.build_cost < *lightest.best.build_cost);
  CHECK(cheapest.best.mass > 1.5 * lightest.best.mass);
  CHECK(cheapest.binding.rfind("Least build cost of the sizes that pass; least margin ", 0) == 0);
}

TEST_CASE("the shortest build is no longer than that of the lightest design") {
  const SizingResult shortest = size_case(block_to_size("objective: build_time, ", slow_contour), catalogue());
  const SizingResult lightest = size_case(block_to_size("", slow_contour), catalogue());
  CHECK(*shortest.best.build_time <= *lightest.best.build_time);
}
