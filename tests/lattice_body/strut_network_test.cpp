#include "lattice_body/strut_network.hpp"

#include "lattice_body/tied_ends.hpp"
#include "lattice_body/trim_samples.hpp"

#include <catch2/catch.hpp>

#include <vector>

using namespace crushwright;

namespace {

using Pair = std::array<std::int32_t, 2>;

StrutNetwork network_of(std::vector<std::array<double, 3>> nodes, const std::vector<Pair>& struts) {
  StrutNetwork network;
  network.places.assign(nodes.size(), NodePlace::inside);
  network.body.nodes = std::move(nodes);
  for (const auto& [from, to] : struts) {
    network.body.struts.push_back({from, to, 0.5e-3, 0.5e-3});
    network.origins.push_back(network.origins.size());
    network.cut.push_back(0);
  }
  return network;
}

/// A triangle with a tail of two struts.
StrutNetwork triangle_with_tail() {
  return network_of({{0, 0, 0}, {0.01, 0, 0}, {0, 0.01, 0}, {0.02, 0, 0}, {0.03, 0, 0}},
                    {{0, 1}, {1, 2}, {2, 0}, {1, 3}, {3, 4}});
}

} // namespace

TEST_CASE("A chain that ends free is dropped to its root, and nothing else") {
  StrutNetwork network = triangle_with_tail();
  const StrutTally gone = drop_loose_ends(network, {});
  CHECK(gone.struts == 2);
  CHECK(gone.length == Approx(0.02));
  CHECK(network.body.struts.size() == 3);
  CHECK(network.body.nodes.size() == 3);
}

TEST_CASE("What ends on the skin does not end free") {
  StrutNetwork network = triangle_with_tail();
  network.places[4] = NodePlace::at_surface;
  Holders skin;
  skin.skin = true;
  CHECK(loose_ends(network, skin).empty());
  CHECK(drop_loose_ends(network, skin).struts == 0);
  CHECK(loose_ends(network, {}) == std::vector<std::int32_t>{4});
}

TEST_CASE("Parts that do not hang together with the longest are dropped and counted") {
  StrutNetwork network = network_of(
      {{0, 0, 0}, {0.01, 0, 0}, {0.05, 0, 0}, {0.08, 0, 0}, {0.09, 0, 0}, {0.095, 0, 0}}, {{0, 1}, {2, 3}, {4, 5}});
  std::int64_t parts = 0;
  const StrutTally gone = drop_fragments(network, {}, parts);
  CHECK(parts == 2);
  CHECK(gone.struts == 2);
  CHECK(gone.length == Approx(0.015));
  REQUIRE(network.body.struts.size() == 1);
  CHECK(network.body.nodes.front()[0] == 0.05);
}

TEST_CASE("A part on the same skin or plate hangs together with the rest") {
  for (const NodePlace place : {NodePlace::at_surface, NodePlace::at_tip, NodePlace::at_root}) {
    StrutNetwork network = network_of({{0, 0, 0}, {0.01, 0, 0}, {0.05, 0, 0}, {0.08, 0, 0}}, {{0, 1}, {2, 3}});
    network.places[0] = network.places[3] = place;
    std::int64_t parts = 0;
    Holders all{true, true, true};
    StrutNetwork held = network;
    CHECK(drop_fragments(held, all, parts).struts == 0);
    CHECK(parts == 0);
    CHECK(drop_fragments(network, {}, parts).struts == 1);
    CHECK(parts == 1);
  }
}

TEST_CASE("A cut piece shorter than its radius goes, and its node then counts as on the skin") {
  StrutNetwork network = network_of({{0, 0, 0}, {0.01, 0, 0}, {0.0104, 0, 0}}, {{0, 1}, {1, 2}});
  network.places[2] = NodePlace::at_surface;
  network.cut[1] = 1;
  const StrutTally gone = drop_short_pieces(network, 1);
  CHECK(gone.struts == 1);
  CHECK(gone.length == Approx(0.0004));
  REQUIRE(network.body.nodes.size() == 2);
  CHECK(network.places[1] == NodePlace::at_surface);
  // An uncut strut stays, however short.
  StrutNetwork whole = network_of({{0, 0, 0}, {0.0001, 0, 0}}, {{0, 1}});
  CHECK(drop_short_pieces(whole, 1).struts == 0);
}

TEST_CASE("A loose end is tied to the nearest node in sight that is not its own neighbour") {
  const SurfaceProbe box(made_surfaces::box({-0.1, -0.1, -0.1}, {0.1, 0.1, 0.1}));
  const InnerRegion region(box, {}, 1e-8);
  // The tail of two struts comes round beside node 2.
  StrutNetwork network = network_of({{0, 0, 0}, {0.01, 0, 0}, {0, 0.01, 0}, {0.02, 0, 0}, {0.011, 0.012, 0}},
                                    {{0, 1}, {1, 2}, {2, 0}, {1, 3}, {3, 4}});
  StrutNetwork tied = network;
  const StrutTally ties = tie_loose_ends(tied, {}, region, 0.02);
  CHECK(ties.struts == 1);
  REQUIRE(tied.body.struts.size() == 6);
  // Node 1 is 12.0 mm off, node 2 11.2 mm, and node 3 is its own neighbour.
  CHECK(tied.body.struts.back().from == 4);
  CHECK(tied.body.struts.back().to == 2);
  CHECK(tied.body.struts.back().from_radius == 0.5e-3);
  CHECK(loose_ends(tied, {}).empty());
  CHECK(tie_loose_ends(network, {}, region, 0.005).struts == 0);
}

TEST_CASE("A tie does not pass through the open") {
  const SurfaceProbe block(trim_samples::slotted_block(0.01, 0.04));
  const InnerRegion region(block, {}, 1e-8);
  // Loose ends on both sides of the slot, 11 mm apart, see one another only across it.
  StrutNetwork network = network_of(
      {{0.0095, 0.02, 0.028}, {0.002, 0.02, 0.028}, {0.0205, 0.02, 0.028}, {0.028, 0.02, 0.028}}, {{0, 1}, {2, 3}});
  CHECK(tie_loose_ends(network, {}, region, 0.012).struts == 0);
}
