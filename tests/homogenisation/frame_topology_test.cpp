#include "homogenisation/frame_topology.hpp"

#include "crushwright/errors.hpp"
#include "unit_cell/catalogue_folder.hpp"
#include "unit_cell/sample_lattices.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using namespace crushwright::sample_lattices;

namespace {

double total_length(const FrameTopology& topology) {
  double sum = 0;
  for (const FrameMember& member : topology.members) {
    sum += member.span.norm();
  }
  return sum;
}

std::string message_of_frame(const std::vector<Strut>& struts) {
  try {
    frame_topology(struts);
  } catch (const OutOfDomain& error) {
    return error.what();
  }
  return "no error";
}

std::vector<Strut> moved(std::vector<Strut> struts, const Point& by) {
  for (Strut& strut : struts) {
    for (std::size_t axis = 0; axis < 3; ++axis) {
      strut.from[axis] += by[axis];
      strut.to[axis] += by[axis];
    }
  }
  return struts;
}

} // namespace

TEST_CASE("a lattice has the nodes and struts that its crystal has") {
  const auto counts = [](const std::vector<Strut>& struts) {
    const FrameTopology topology = frame_topology(struts);
    return std::pair(topology.nodes.size(), topology.members.size());
  };
  CHECK(counts(simple_cubic()) == std::pair<std::size_t, std::size_t>(1, 3));
  CHECK(counts(bcc()) == std::pair<std::size_t, std::size_t>(2, 8));
  CHECK(counts(octet()) == std::pair<std::size_t, std::size_t>(4, 24));
  CHECK(counts(diamond()) == std::pair<std::size_t, std::size_t>(8, 16));
  CHECK(counts(kelvin()) == std::pair<std::size_t, std::size_t>(12, 24));
}

TEST_CASE("folding keeps the length of the struts of every entry of the catalogue") {
  const Catalogue catalogue = own_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    if (cell.struts.empty()) {
      continue;
    }
    INFO(id);
    const FrameTopology topology = frame_topology(cell.struts);
    CHECK(total_length(topology) == Approx(length(cell.struts)).epsilon(1e-12));
    for (const Eigen::Vector3d& node : topology.nodes) {
      CHECK(node.minCoeff() >= 0);
      CHECK(node.maxCoeff() < 1);
    }
    for (const FrameMember& member : topology.members) {
      const Eigen::Vector3d span = topology.nodes[static_cast<std::size_t>(member.to)] + member.shift.cast<double>() -
                                   topology.nodes[static_cast<std::size_t>(member.from)];
      CHECK((span - member.span).norm() < 1e-12);
    }
  }
}

TEST_CASE("it does not matter which copy of a strut is drawn, or how often") {
  std::vector<Strut> struts = octet();
  const std::vector<Strut> copies = moved(octet(), {1, -2, 3});
  struts.insert(struts.end(), copies.begin(), copies.end());
  for (Strut strut : octet()) {
    std::swap(strut.from, strut.to);
    struts.push_back(strut);
  }
  const FrameTopology topology = frame_topology(struts);
  CHECK(topology.nodes.size() == 4);
  CHECK(topology.members.size() == 24);
}

TEST_CASE("diagonals of a face that cross are joined where they cross") {
  std::vector<Strut> struts = simple_cubic();
  struts.push_back({{0, 0, 0}, {1, 1, 0}});
  struts.push_back({{1, 0, 0}, {0, 1, 0}});
  const FrameTopology topology = frame_topology(struts);
  CHECK(topology.nodes.size() == 2);
  CHECK(topology.members.size() == 7);
  CHECK((topology.nodes[1] - Eigen::Vector3d(0.5, 0.5, 0)).norm() < 1e-12);
}

TEST_CASE("a strut that ends on another's side is joined there") {
  std::vector<Strut> struts = simple_cubic();
  struts.push_back({{0.4, 0, 0}, {0, 0.3, 0}});
  const FrameTopology topology = frame_topology(struts);
  CHECK(topology.nodes.size() == 3);
  CHECK(topology.members.size() == 6);
  CHECK(total_length(topology) == Approx(3.5));
}

TEST_CASE("struts of one line that overlap count once") {
  std::vector<Strut> struts = simple_cubic();
  struts.push_back({{0.2, 0, 0}, {0.7, 0, 0}});
  struts.push_back({{-0.5, 0, 0}, {1.5, 0, 0}});
  const FrameTopology topology = frame_topology(struts);
  CHECK(topology.nodes.size() == 1);
  CHECK(topology.members.size() == 3);
  CHECK(total_length(topology) == Approx(3));
}

TEST_CASE("a strut written in two halves is one strut") {
  std::vector<Strut> halves;
  for (const Strut& strut : bcc()) {
    Point middle{};
    for (std::size_t axis = 0; axis < 3; ++axis) {
      middle[axis] = 0.4 * strut.from[axis] + 0.6 * strut.to[axis];
    }
    halves.push_back({strut.from, middle});
    halves.push_back({middle, strut.to});
  }
  const FrameTopology topology = frame_topology(halves);
  CHECK(topology.nodes.size() == 2);
  CHECK(topology.members.size() == 8);
  CHECK(topology.members[0].span.norm() == Approx(std::sqrt(0.75)));
}

TEST_CASE("thirds written with three digits still meet") {
  const std::vector<Strut> struts{{{0, 0, 0}, {0.333, 0, 0}},
                                  {{0.3334, 0, 0}, {0.667, 0.333, 0}},
                                  {{0.6667, 0.3334, 0}, {1, 0, 0}},
                                  {{0, 0, 0}, {0, 1, 0}},
                                  {{0, 0, 0}, {0, 0, 1}}};
  const FrameTopology topology = frame_topology(struts);
  CHECK(topology.nodes.size() == 3);
  CHECK(topology.members.size() == 5);
}

TEST_CASE("struts that do not hang together are refused, and the loose ones named") {
  std::vector<Strut> struts = simple_cubic();
  struts.push_back({{0.4, 0.5, 0.5}, {0.6, 0.5, 0.5}});
  CHECK(
      message_of_frame(struts) ==
      "the struts do not hang together: those at (0.4, 0.5, 0.5) touch none of those that hang on (0, 0, 0). Struts "
      "meet when their centre lines come closer than 0.001 cell edges.");
}

TEST_CASE("a frame that does not reach the next cell is refused, and the direction named") {
  CHECK(message_of_frame({{{0, 0, 0}, {1, 0, 0}}, {{0, 0, 0}, {0, 1, 0}}, {{0, 0, 0}, {0, 0, 0.9}}}) ==
        "the struts do not reach their own copy in the next cell along [0 0 1]: nothing carries load in that "
        "direction. Add struts that meet the opposite face where others leave it.");
  // A sheet of struts that contains [1 1 0] and [0 0 1] reaches nothing across [1 -1 0].
  const std::string message = message_of_frame({{{0, 0, 0}, {1, 1, 0}}, {{0, 0, 0}, {0, 0, 1}}});
  CHECK((message.find("[1 -1 0]") != std::string::npos || message.find("[-1 1 0]") != std::string::npos));
}

TEST_CASE("two frames that run through each other without touching are refused") {
  // Simple cubic struts along (0 1 1), (1 0 1), (1 1 0) join every second copy only: det = 2.
  const std::string message = message_of_frame({{{0, 0, 0}, {0.1, 1, 1}},
                                                {{0.1, 0, 0}, {0, 0, 0}},
                                                {{0, 0, 0}, {1, 0.1, 1}},
                                                {{0, 0.1, 0}, {0, 0, 0}},
                                                {{0, 0, 0}, {1, 1, 0.1}},
                                                {{0, 0, 0.1}, {0, 0, 0}}});
  CHECK(message == "the struts form 2 frames that run through each other without touching: join them, or give the "
                   "cell of one of them.");
}

TEST_CASE("a cell without struts, or with a strut without length, is refused") {
  CHECK(message_of_frame({}) == "a frame needs struts: the cell has none.");
  CHECK(message_of_frame({{{0, 0, 0}, {1, 0, 0}}, {{0, 0, 0}, {0, 0, 0}}}) ==
        "strut 2 has no length: its ends must lie more than 0.001 cell edges apart.");
}

TEST_CASE("round bars at right angles leave each other half a diameter from the node") {
  for (const NodeReach& reach : node_reaches(frame_topology(simple_cubic()), 0.2)) {
    CHECK(reach.from == Approx(0.1));
    CHECK(reach.to == Approx(0.1));
  }
}

TEST_CASE("the sharpest angle at a node decides how far it reaches") {
  // BCC: neighbours at arccos(1/3), 1/tan(θ/2) = √2; octet: at 60 degrees, √3; diamond: arccos(-1/3), 1/√2.
  CHECK(node_reaches(frame_topology(bcc()), 0.1)[0].from == Approx(0.05 * std::sqrt(2.0)));
  CHECK(node_reaches(frame_topology(octet()), 0.1)[0].to == Approx(0.05 * std::sqrt(3.0)));
  CHECK(node_reaches(frame_topology(diamond()), 0.1)[0].from == Approx(0.05 / std::sqrt(2.0)));
}

TEST_CASE("a node never swallows more than 0.45 of a strut from either end") {
  for (const NodeReach& reach : node_reaches(frame_topology(octet()), 0.6)) {
    CHECK(reach.from == Approx(0.45 * std::sqrt(0.5)));
    CHECK(reach.to == Approx(0.45 * std::sqrt(0.5)));
  }
}
