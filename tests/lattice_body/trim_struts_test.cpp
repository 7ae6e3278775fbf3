#include "crushwright/errors.hpp"
#include "lattice_body/trim_samples.hpp"
#include "surface/surface_probe.hpp"

#include <catch2/catch.hpp>
#include <tbb/global_control.h>

#include <algorithm>
#include <cmath>

using namespace crushwright;
using namespace crushwright::trim_samples;

namespace {

bool same(const StrutBody& a, const StrutBody& b) {
  return a.nodes == b.nodes && a.struts.size() == b.struts.size() &&
         std::equal(a.struts.begin(), a.struts.end(), b.struts.begin(), [](const BodyStrut& s, const BodyStrut& t) {
           return s.from == t.from && s.to == t.to && s.from_radius == t.from_radius && s.to_radius == t.to_radius;
         });
}

/// Middles and lengths of all struts, sorted by place, to compare bodies whatever their order.
std::vector<std::array<double, 4>> fingerprint(const StrutBody& body) {
  std::vector<std::array<double, 4>> prints;
  for (const BodyStrut& strut : body.struts) {
    const Point m = between(body.nodes[std::size_t(strut.from)], body.nodes[std::size_t(strut.to)], 0.5);
    prints.push_back({std::round(m[0] * 1e8), std::round(m[1] * 1e8), std::round(m[2] * 1e8), span_of(body, strut)});
  }
  std::sort(prints.begin(), prints.end());
  return prints;
}

} // namespace

TEST_CASE("A box of whole cells holds the struts of those cells and of its far faces, none cut") {
  const double edge = 0.01;
  const TriangleMesh box = made_surfaces::box({0, 0, 0}, {0.03, 0.02, 0.02});
  const TrimmedLattice octet = trim_struts(shipped("octet"), placed(edge), constant(1e-3), box, {});
  // 12 octahedron struts a cell; a face of a cell carries 4 half diagonals: 3·2·2 cells, faces (4·2·2 + 3·3·2·2).
  CHECK(octet.body.struts.size() == 12 * 12 + 4 * (16 + 36));
  CHECK(octet.cut_struts == 0);
  CHECK(octet.whole_cells == 12);
  CHECK(octet.cut_cells == 2 * (6 + 6 + 4)); // those outside that share a face of four struts
  CHECK(octet.short_pieces.struts == 0);
  CHECK(octet.loose.struts == 0);
  CHECK(octet.fragments == 0);
  const TrimmedLattice cubes = trim_struts(shipped("simple_cubic"), placed(edge), constant(1e-3), box, {});
  CHECK(cubes.body.struts.size() == 3 * 9 + 2 * 12 + 2 * 12); // along x, y, z
  CHECK(cubes.body.nodes.size() == 4 * 3 * 3);
}

TEST_CASE("In a large body the strut length per volume is the cell's own") {
  // Faces in general directions cut the cells everywhere alike, so that nothing but scatter is left of where they
  // lie. Along 111 a face would lie in planes full of struts, and the length would jump by half a layer.
  PlacementChoice choice;
  choice.cell_edge = 2e-3;
  choice.length = 0.06;
  choice.crush_direction = "731";
  choice.turn = 0.37;
  choice.origin = Point{0.0123, 0.0045, -0.0011};
  const Point size{0.0607, 0.0513, 0.0451};
  const TriangleMesh box = made_surfaces::box({0, 0, 0}, size);
  for (const double inset : {0.0, 1.3e-3}) {
    CAPTURE(inset);
    const double volume = (size[0] - 2 * inset) * (size[1] - 2 * inset) * (size[2] - 2 * inset);
    for (const auto& [id, per_volume] : {std::pair<const char*, double>{"octet", 24 * std::sqrt(0.5)},
                                         {"bcc", 8 * std::sqrt(0.75)},
                                         {"simple_cubic", 3}}) {
      CAPTURE(id);
      TrimOptions options = everything(inset);
      options.skin = true; // so that small pieces on the surface are no fragments
      const auto trimmed = trim_struts(shipped(id), place_lattice(choice), constant(0.1e-3), box, options);
      const double expected = per_volume * volume / (choice.cell_edge * choice.cell_edge);
      CHECK(total_length(trimmed.body) == Approx(expected).epsilon(2e-4));
    }
  }
}

TEST_CASE("Behind a skin a lattice is cut as by the surface of the room itself") {
  // Steps by distance in the one case, crossings with triangles in the other. A box within a box is still a box.
  const double skin = 1.3e-3;
  TrimOptions behind = everything(skin), plain = everything();
  behind.skin = plain.skin = true;
  LatticePlacement placement = placed(4.3e-3, {0.0003, 0.0002, -0.0001});
  placement.axes = cell_axes("431", 0.2);
  for (const char* id : {"octet", "bcc", "kelvin"}) {
    CAPTURE(id);
    const auto stepped = trim_struts(shipped(id), placement, constant(0.1e-3),
                                     made_surfaces::box({0, 0, 0}, {0.03, 0.02, 0.025}), behind);
    const auto crossed =
        trim_struts(shipped(id), placement, constant(0.1e-3),
                    made_surfaces::box({skin, skin, skin}, {0.03 - skin, 0.02 - skin, 0.025 - skin}), plain);
    CHECK(stepped.whole_cells == crossed.whole_cells);
    CHECK(stepped.cut_cells == crossed.cut_cells);
    CHECK(total_length(stepped.body) == Approx(total_length(crossed.body)).epsilon(1e-5));
  }
}

TEST_CASE("Turning body and lattice together changes nothing") {
  const double c = std::cos(0.7), s = std::sin(0.7);
  const std::array<Point, 3> rows{{{c, -s, 0}, {s, c, 0}, {0, 0, 1}}};
  TriangleMesh body = made_surfaces::notched_box({{0.03, 0.012, 0.016}, {0.01, 0.012, 0.006}});
  LatticePlacement placement = placed(4.1e-3, {0.0003, 0.0002, -0.0001});
  const TrimOptions options = everything(0.9e-3);
  const auto straight = trim_struts(shipped("bccz"), placement, constant(0.5e-3), body, options);
  for (auto& point : body.points)
    point = turned(rows, point);
  placement.origin = turned(rows, placement.origin);
  for (auto& axis : placement.axes)
    axis = turned(rows, axis);
  const auto oblique = trim_struts(shipped("bccz"), placement, constant(0.5e-3), body, options);
  REQUIRE(oblique.body.nodes.size() == straight.body.nodes.size());
  REQUIRE(oblique.body.struts.size() == straight.body.struts.size());
  CHECK(oblique.whole_cells == straight.whole_cells);
  CHECK(total_length(oblique.body) == Approx(total_length(straight.body)).epsilon(1e-6));
  StrutBody moved = straight.body;
  for (auto& node : moved.nodes)
    node = turned(rows, node);
  // The same nodes up to the order in which the boxes about the two bodies were gone through.
  const auto sorted = [](const StrutBody& of) {
    std::vector<double> lengths;
    for (const BodyStrut& strut : of.struts)
      lengths.push_back(span_of(of, strut));
    std::sort(lengths.begin(), lengths.end());
    return lengths;
  };
  const auto a = sorted(moved), b = sorted(oblique.body);
  for (std::size_t i = 0; i < a.size(); ++i)
    CHECK(a[i] == Approx(b[i]).margin(2e-8));
}

TEST_CASE("Shifting the origin by whole cells changes nothing") {
  const TriangleMesh body = made_surfaces::sphere(0.012, 40);
  const double edge = 4e-3;
  const auto here = trim_struts(shipped("octet"), placed(edge, {0.001, 0, 0}), constant(0.4e-3), body, {});
  const auto there =
      trim_struts(shipped("octet"), placed(edge, {0.001 + 3 * edge, -edge, 2 * edge}), constant(0.4e-3), body, {});
  CHECK(here.whole_cells == there.whole_cells);
  const auto a = fingerprint(here.body), b = fingerprint(there.body);
  REQUIRE(a.size() == b.size());
  for (std::size_t i = 0; i < a.size(); ++i)
    CHECK(a[i][3] == Approx(b[i][3]).margin(1e-8));
}

TEST_CASE("No kept point of a strut's axis lies outside the inset surface") {
  const TriangleMesh cone = made_surfaces::tapered_cone({}, 30, 6);
  const SurfaceProbe probe(cone);
  const double inset = 2e-3, size = 2e-3;
  PlacementChoice choice;
  choice.cell_edge = 20e-3;
  choice.length = 0.52;
  choice.middle = {0.22, 0};
  choice.crush_direction = "110";
  for (const LooseEnds ends : {LooseEnds::keep, LooseEnds::tie}) {
    TrimOptions options = everything(inset);
    options.loose_ends = ends;
    const auto trimmed = trim_struts(shipped("octet"), place_lattice(choice), constant(size), cone, options);
    CHECK(trimmed.cut_struts > 1000);
    double highest = -1;
    for (const BodyStrut& strut : trimmed.body.struts)
      for (int i = 0; i <= 8; ++i)
        highest =
            std::max(highest, probe.signed_distance(between(trimmed.body.nodes[std::size_t(strut.from)],
                                                            trimmed.body.nodes[std::size_t(strut.to)], i / 8.0)));
    // A tenth of the radius may bulge out between the ends; here, on a body that is convex but for its bow, none
    // does.
    CHECK(highest + inset < 0.1 * 0.5 * size);
    for (std::size_t node = 0; node < trimmed.body.nodes.size(); ++node)
      if (trimmed.places[node] != NodePlace::inside)
        CHECK(probe.signed_distance(trimmed.body.nodes[node]) == Approx(-inset).margin(4e-6 * choice.cell_edge));
  }
}

TEST_CASE("A cell whose struts are all there is whole, also where the skin is just beyond its faces") {
  const double edge = 5e-3;
  const auto trimmed =
      trim_struts(shipped("octet"), placed(edge), constant(0.5e-3),
                  made_surfaces::box({-0.002, -0.002, -0.002}, {0.017, 0.017, 0.017}), everything(1e-3));
  CHECK(trimmed.whole_cells == 27);
  CHECK(trimmed.cut_cells == 125 - 27);
}

TEST_CASE("Without a skin cut ends are loose, with one they are held") {
  const TriangleMesh ball = made_surfaces::sphere(0.02, 40);
  TrimOptions options;
  options.inset = 1e-3;
  const auto free = trim_struts(shipped("bcc"), placed(6e-3), constant(0.8e-3), ball, options);
  options.skin = true;
  const auto held = trim_struts(shipped("bcc"), placed(6e-3), constant(0.8e-3), ball, options);
  CHECK(held.loose.struts == 0);
  CHECK(held.cut_struts > 0);
  CHECK(free.loose.struts > 0);
  CHECK(free.cut_struts == 0);
  CHECK(held.body.struts.size() > free.body.struts.size());
  std::vector<int> count(free.body.nodes.size());
  for (const BodyStrut& strut : free.body.struts) {
    ++count[std::size_t(strut.from)];
    ++count[std::size_t(strut.to)];
  }
  CHECK(*std::min_element(count.begin(), count.end()) >= 2);
}

TEST_CASE("Tied, no cut end stays loose where others are near") {
  TrimOptions options;
  options.inset = 1e-3;
  options.loose_ends = LooseEnds::tie;
  const auto tied =
      trim_struts(shipped("bcc"), placed(6e-3), constant(0.8e-3), made_surfaces::sphere(0.02, 40), options);
  CHECK(tied.ties.struts > 0);
  CHECK(tied.loose.struts == 0);
  std::vector<int> count(tied.body.nodes.size());
  for (const BodyStrut& strut : tied.body.struts) {
    ++count[std::size_t(strut.from)];
    ++count[std::size_t(strut.to)];
  }
  CHECK(*std::min_element(count.begin(), count.end()) >= 2);
}

TEST_CASE("Two bodies in one surface leave the smaller one's lattice as a fragment") {
  const TriangleMesh two = made_surfaces::together(made_surfaces::box({0, 0, 0}, {0.03, 0.03, 0.03}),
                                                   made_surfaces::box({0.05, 0, 0}, {0.06, 0.01, 0.01}));
  const auto trimmed = trim_struts(shipped("octet"), placed(0.01), constant(1e-3), two, {});
  CHECK(trimmed.fragments == 1);
  CHECK(trimmed.in_fragments.struts == 36);
  CHECK(trimmed.in_fragments.length == Approx(36 * 0.01 * std::sqrt(0.5)));
  CHECK(trimmed.whole_cells == 27);
}

TEST_CASE("Radii are half the size at each end, so that struts that meet have one size") {
  const SizeAt size = graded_size(0.8e-3, 1.6e-3, 0.04);
  const auto trimmed =
      trim_struts(shipped("octet"), placed(0.01), size, made_surfaces::box({0, 0, 0}, {0.04, 0.02, 0.02}), {});
  for (const BodyStrut& strut : trimmed.body.struts) {
    CHECK(strut.from_radius == 0.5 * size(trimmed.body.nodes[std::size_t(strut.from)]));
    CHECK(strut.to_radius == 0.5 * size(trimmed.body.nodes[std::size_t(strut.to)]));
  }
}

TEST_CASE("The trimmed lattice does not depend on the number of threads") {
  const TriangleMesh cone = made_surfaces::tapered_cone({}, 20, 4);
  PlacementChoice choice;
  choice.cell_edge = 15e-3;
  choice.length = 0.52;
  choice.middle = {0.22, 0};
  TrimOptions options;
  options.inset = 2e-3;
  options.skin = true;
  const auto many = trim_struts(shipped("octet"), place_lattice(choice), constant(1.5e-3), cone, options);
  const tbb::global_control one(tbb::global_control::max_allowed_parallelism, 1);
  const auto single = trim_struts(shipped("octet"), place_lattice(choice), constant(1.5e-3), cone, options);
  CHECK(same(many.body, single.body));
  CHECK(many.places == single.places);
}

TEST_CASE("What cannot be trimmed is refused in words") {
  const TriangleMesh box = made_surfaces::box({0, 0, 0}, {0.03, 0.02, 0.02});
  const UnitCell& octet = shipped("octet");
  TrimOptions options;
  options.inset = -1e-3;
  CHECK_THROWS_WITH(trim_struts(octet, placed(0.01), constant(1e-3), box, options),
                    "the inset is -0.001 m; expected 0 or more");
  options.inset = 0.011;
  CHECK_THROWS_WITH(trim_struts(octet, placed(0.01), constant(1e-3), box, options),
                    "nothing of the lattice is left in the body: cells of 0.01 m, struts cut 0.011 m inside its "
                    "surface, 0 struts dropped as fragments and 0 as loose ends. Take smaller cells, a thinner skin, "
                    "or keep or tie loose ends");
  CHECK_THROWS_WITH(trim_struts(octet, placed(0.01), constant(0), box, {}),
                    Catch::Contains("the strut diameter at (") && Catch::Contains("is 0 m; expected more than 0"));
  CHECK_THROWS_WITH(trim_struts(octet, placed(1e-6), constant(1e-7), box, {}),
                    Catch::Contains("check the units of the surface"));
  options = {};
  options.tip_plate = true;
  CHECK_THROWS_WITH(trim_struts(octet, placed(0.01), constant(1e-3), box, options),
                    "an end plate holds what ends on it, but no stations were given: state first_station and "
                    "last_station");
  options.first_station = 0.2;
  options.last_station = 0.3;
  CHECK_THROWS_WITH(trim_struts(octet, placed(0.01), constant(1e-3), box, options),
                    "the stations between which the lattice is to lie miss the body");
  CHECK_THROWS_AS(trim_struts(octet, placed(0.01), constant(1e-3), {}, {}), OutOfDomain);
  LatticePlacement skewed = placed(0.01);
  skewed.axes[1] = {0.1, 1, 0};
  CHECK_THROWS_AS(trim_struts(octet, skewed, constant(1e-3), box, {}), OutOfDomain);
}
