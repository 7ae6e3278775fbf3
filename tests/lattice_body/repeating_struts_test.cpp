#include "lattice_body/repeating_struts.hpp"

#include "crushwright/errors.hpp"
#include "lattice_body/node_overlap.hpp"
#include "lattice_body/trim_samples.hpp"
#include "unit_cell/cell_solid.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace crushwright;
using trim_samples::shipped;

namespace {

const std::vector<std::string> strut_cells{
    "bcc",   "bccz",          "cuboctahedron",        "diamond",      "fccz",          "kelvin",
    "octet", "fcc_all_faces", "rhombic_dodecahedron", "simple_cubic", "fcc_side_faces"};

} // namespace

TEST_CASE("Each strut of the repeating lattice is there once, whatever cells share it") {
  for (const std::string& id : strut_cells) {
    CAPTURE(id);
    const RepeatingStruts lattice = repeating_struts(shipped(id));
    double length = 0;
    for (const RepeatingStrut& strut : lattice.struts)
      length += lattice.length(strut);
    CHECK(length == Approx(CellSkeleton::of_cell(shipped(id)).strut_length()).epsilon(1e-12));
  }
}

TEST_CASE("Over the cells that share them the shares of a strut, and of a node, add up to one") {
  for (const std::string& id : strut_cells) {
    CAPTURE(id);
    const RepeatingStruts lattice = repeating_struts(shipped(id));
    std::vector<double> struts(lattice.struts.size()), nodes(lattice.nodes.size());
    for (const InClosedCell& in : lattice.closed_struts)
      struts[std::size_t(in.place)] += in.share;
    for (const InClosedCell& in : lattice.closed_nodes)
      nodes[std::size_t(in.place)] += in.share;
    for (double share : struts)
      CHECK(share == Approx(1));
    for (double share : nodes)
      CHECK(share == Approx(1));
  }
}

TEST_CASE("An octet cell owns 24 struts and 4 nodes, and holds 36 and 14 with what lies on its faces") {
  const RepeatingStruts lattice = repeating_struts(shipped("octet"));
  CHECK(lattice.struts.size() == 24);
  CHECK(lattice.nodes.size() == 4);
  CHECK(lattice.closed_struts.size() == 36); // 12 about the octahedron, 24 half diagonals of faces
  CHECK(lattice.closed_nodes.size() == 14);  // 8 corners, 6 middles of faces
}

TEST_CASE("Struts that cross are joined where they meet") {
  UnitCell cell = shipped("bcc");
  cell.struts = {{{0, 0, 0}, {1, 1, 1}}, {{1, 0, 0}, {0, 1, 1}}, {{0, 1, 0}, {1, 0, 1}}, {{0, 0, 1}, {1, 1, 0}}};
  const RepeatingStruts lattice = repeating_struts(cell);
  CHECK(lattice.struts.size() == 8);
  CHECK(lattice.nodes.size() == 2);
}

TEST_CASE("Three bars that cross at right angles have 8 times the root of 2 in common too often") {
  // 3 (16/3) - (16 - 8√2) r³, the volumes of two and of three crossing cylinders: closed forms of Archimedes' solid
  // and the tricylinder. Half bars count here, so all of it is at one node.
  using V = Eigen::Vector3d;
  CHECK(node_overlap({V(1, 0, 0), V(-1, 0, 0), V(0, 1, 0), V(0, -1, 0), V(0, 0, 1), V(0, 0, -1)}) ==
        Approx(8 * std::sqrt(2.0)).epsilon(1e-6));
  CHECK(node_overlap({V(1, 0, 0), V(-1, 0, 0), V(0, 1, 0), V(0, -1, 0)}) == Approx(16.0 / 3).epsilon(1e-6));
}

TEST_CASE("Only cells of struts are trimmed strut by strut") {
  CHECK_THROWS_WITH(repeating_struts(shipped("gyroid_sheet")),
                    "cell 'gyroid_sheet' is not of struts; only strut cells are trimmed strut by strut");
}
