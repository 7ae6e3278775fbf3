#include "printability/strut_support.hpp"

#include "printability/sample_subjects.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace crushwright;
using namespace sample_subjects;

namespace {

LatticeSupport support(const std::string& id, const Vector& direction, double angle = 45 * degree) {
  const CellBars bars = cell_bars(cell(id).struts);
  return strut_support(bars.bars, std::vector<char>(bars.nodes, 0), scaled(direction, 1 / norm(direction)), angle);
}

/// A post with a beam of three fields on top of it; only the ends of the beam stand on posts.
StrutBody bridge(double field, double height) {
  StrutBody body;
  body.nodes = {{0, 0, 0},        {0, 0, height}, {field, 0, height}, {2 * field, 0, height}, {3 * field, 0, height},
                {3 * field, 0, 0}};
  for (std::int32_t i = 0; i < 5; ++i)
    body.struts.push_back({i, i + 1, 1e-3, 1e-3});
  return body;
}

StrutBody turned(StrutBody body, const std::array<Vector, 3>& rows) {
  for (auto& node : body.nodes)
    node = {dot(rows[0], node), dot(rows[1], node), dot(rows[2], node)};
  return body;
}

} // namespace

TEST_CASE("struts along the build direction are all self-supporting") {
  const LatticeSupport columns = strut_support({{0, 0, {0, 0, 1}}}, {0}, {0, 0, 1}, 45 * degree);
  CHECK(columns.share() == 0);
  CHECK(columns.longest_span == 0);
  CHECK(columns.nodes_without_base == 0);
}

TEST_CASE("struts across the build direction all hang over, at any self-supporting angle") {
  CHECK(strut_support({{0, 0, {1, 0, 0}}}, {0}, {0, 0, 1}, 1 * degree).share() == 1);
}

TEST_CASE("of a simple cubic cell two thirds of the struts lie flat and span one cell edge between posts") {
  const LatticeSupport cubic = support("simple_cubic", {0, 0, 1});
  CHECK(cubic.share() == Approx(2.0 / 3).margin(1e-12));
  CHECK(cubic.longest_span == Approx(1).margin(1e-12));
  CHECK(cubic.nodes_without_base == 0);
}

TEST_CASE("BCC struts stand at 35.26 degrees from the platform when a cell edge is upright") {
  // Common geometry: the body diagonal rises 1 over a run of √2, atan(1/√2) = 35.264 degrees.
  const double stand = std::atan(1 / std::sqrt(2.0));
  CHECK(stand / degree == Approx(35.264).margin(5e-4));
  CHECK(support("bcc", {0, 0, 1}).share() == 1);
  CHECK(support("bcc", {0, 0, 1}, stand).share() == 0);
  CHECK(support("bcc", {0, 0, 1}, stand + 0.01 * degree).share() == 1);
}

TEST_CASE("with a body diagonal upright three of four BCC struts hang over") {
  // One strut in four stands upright, the others at asin(1/3) = 19.5 degrees.
  CHECK(support("bcc", {1, 1, 1}).share() == Approx(0.75).margin(1e-12));
}

TEST_CASE("one third of the strut length of an octet lies flat when a cell edge is upright") {
  // Face diagonals: a third of them lie in the planes across the edge, the rest stand at 45 degrees.
  for (const Vector& direction : {Vector{0, 0, 1}, Vector{1, 0, 0}, Vector{0, -1, 0}}) {
    const LatticeSupport octet = support("octet", direction);
    CHECK(octet.share() == Approx(1.0 / 3).margin(1e-12));
    CHECK(octet.longest_span == Approx(std::sqrt(0.5)).margin(1e-12));
  }
}

TEST_CASE("struts that stand at just the self-supporting angle need no support") {
  CHECK(support("octet", {0, 0, 1}, 45 * degree).share() == Approx(1.0 / 3).margin(1e-12));
  CHECK(support("octet", {0, 0, 1}, 45.001 * degree).share() == Approx(1).margin(1e-12));
}

TEST_CASE("a cell hangs over by the same share upside down") {
  for (const char* id : {"bcc", "kelvin", "octet", "diamond", "rhombic_dodecahedron"})
    for (const Vector& up : {Vector{0, 0, 1}, Vector{1, 2, 3}, Vector{3, -1, 2}})
      CHECK(support(id, up).share() == Approx(support(id, scaled(up, -1)).share()).margin(1e-12));
}

TEST_CASE("no share passes 1, and a larger self-supporting angle never lowers it") {
  std::mt19937 numbers(7);
  std::normal_distribution<double> normal;
  for (const char* id : {"bcc", "bccz", "cuboctahedron", "diamond", "fccz", "kelvin", "octet", "simple_cubic"})
    for (int i = 0; i < 20; ++i) {
      const Vector up{normal(numbers), normal(numbers), normal(numbers)};
      double before = 0;
      for (const double angle : {5.0, 25.0, 45.0, 65.0, 85.0}) {
        const double share = support(id, up, angle * degree).share();
        CHECK(share <= 1 + 1e-12);
        CHECK(share >= before);
        before = share;
      }
    }
}

TEST_CASE("a beam spans from post to post across its nodes that nothing carries") {
  const LatticeSupport spans = support_of(bridge(0.01, 0.02), {0, 0, 1}, 45 * degree);
  CHECK(spans.whole == Approx(0.07).margin(1e-12));
  CHECK(spans.unsupported == Approx(0.03).margin(1e-12));
  CHECK(spans.longest_span == Approx(0.03).margin(1e-12));
  CHECK(spans.nodes_without_base == 2);
}

TEST_CASE("a node that grows out of a skin carries its struts") {
  const LatticeSupport held = support_of(bridge(0.01, 0.02), {0, 0, 1}, 45 * degree, {0, 0, 1, 0, 0, 0});
  CHECK(held.longest_span == Approx(0.02).margin(1e-12));
  CHECK(held.nodes_without_base == 1);
}

TEST_CASE("a beam that lies on the platform spans nothing more than each field") {
  const LatticeSupport lying = support_of(bridge(0.01, 0.02), {0, 0, -1}, 45 * degree);
  CHECK(lying.longest_span == Approx(0.01).margin(1e-12));
  CHECK(lying.nodes_without_base == 0);
}

TEST_CASE("the lower end of a strut in the air is carried by nothing") {
  StrutBody hanging = bridge(0.01, 0.02);
  hanging.nodes.push_back({0.01, 0, 0.01});
  hanging.struts.push_back({2, 6, 1e-3, 1e-3});                               // stands upright, but from the air
  CHECK(support_of(hanging, {0, 0, 1}, 45 * degree).nodes_without_base == 2); // its lower end and node 3
}

TEST_CASE("turning a body and the build direction together changes nothing") {
  const double c = std::cos(0.7), s = std::sin(0.7);
  const std::array<Vector, 3> rows{{{c, -s, 0}, {0.6 * s, 0.6 * c, -0.8}, {0.8 * s, 0.8 * c, 0.6}}};
  const Vector up = scaled({1, 2, 3}, 1 / std::sqrt(14.0));
  const Vector turned_up{dot(rows[0], up), dot(rows[1], up), dot(rows[2], up)};
  const LatticeSupport before = support_of(bridge(0.01, 0.02), up, 40 * degree);
  const LatticeSupport after = support_of(turned(bridge(0.01, 0.02), rows), turned_up, 40 * degree);
  CHECK(after.whole == Approx(before.whole).margin(1e-12));
  CHECK(after.unsupported == Approx(before.unsupported).margin(1e-12));
  CHECK(after.longest_span == Approx(before.longest_span).margin(1e-12));
  CHECK(after.nodes_without_base == before.nodes_without_base);
}

TEST_CASE("many cells of a lattice hang over by the share of one") {
  StrutBody block;
  std::map<std::array<long long, 3>, std::int32_t> places;
  const auto place = [&](const std::array<double, 3>& point, const std::array<int, 3>& at) {
    std::array<double, 3> node{};
    std::array<long long, 3> key{};
    for (std::size_t i = 0; i < 3; ++i) {
      node[i] = 0.01 * (point[i] + at[i]);
      key[i] = std::llround(node[i] * 1e9);
    }
    const auto [known, is_new] = places.emplace(key, static_cast<std::int32_t>(block.nodes.size()));
    if (is_new)
      block.nodes.push_back(node);
    return known->second;
  };
  const CellBars one = cell_bars(cell("kelvin").struts);
  for (int x = 0; x < 3; ++x)
    for (int y = 0; y < 3; ++y)
      for (int z = 0; z < 3; ++z)
        for (const Strut& strut : cell("kelvin").struts)
          block.struts.push_back({place(strut.from, {x, y, z}), place(strut.to, {x, y, z}), 5e-4, 5e-4});
  const Vector up{0, 0, 1};
  CHECK(support_of(block, up, 45 * degree).whole > 0);
  // Struts on the block's faces are there twice where two cells share them, alike for all directions of a face.
  const LatticeSupport cell_share = strut_support(one.bars, std::vector<char>(one.nodes, 0), up, 45 * degree);
  CHECK(cell_share.share() > 0);
  CHECK(support_of(block, up, 45 * degree).share() == Approx(cell_share.share()).margin(0.02));
}
