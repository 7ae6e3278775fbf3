#include "surface/imported.hpp"

using namespace crushwright;
using namespace crushwright::imported;

TEST_CASE("lengths come out in metres, with the bounds of the body") {
  const SurfaceImport inches = import_bytes("box.off", off_text(box({1, 2, 3}, {5, 4, 6})), 0.0254);
  CHECK(inches.volume == Approx(24 * 0.0254 * 0.0254 * 0.0254));
  CHECK(inches.area == Approx(52 * 0.0254 * 0.0254));
  CHECK(inches.bounds.low[0] == Approx(0.0254));
  CHECK(inches.bounds.high[2] == Approx(0.1524));
  CHECK(inches.bounds.size()[1] == Approx(0.0508));
  CHECK_THROWS_WITH(import_surface("box.off", 0), "a unit of 0 m was stated for box.off; it must be above 0");
  CHECK_THROWS_AS(import_surface("box.off", -1), OutOfDomain);
}

TEST_CASE("a hole is refused with its rim and its place") {
  CHECK(message_of("cone.stl", stl_text(with_hole(cone_in_mm(), 7))) ==
        "cone.stl: the surface has a hole with a rim 138.5 long (3 edges) about (17.8799, 257.256, 56.3754); lengths "
        "in "
        "the file's own units" +
            close_it);
  CHECK(
      message_of("box.obj", obj_text(with_hole(notched_box_in_mm(), 7))) ==
      "box.obj: the surface has a hole with a rim 314.2 long (3 edges) about (200, 48.541, 118.541); lengths in the "
      "file's own units" +
          close_it);
  CHECK(message_of("knot.ply", ply_text(with_hole(knot_in_mm(), 7))) ==
        "knot.ply: the surface has a hole with a rim 40.56 long (3 edges) about (137.879, 14.241, -9.75827); lengths "
        "in the file's own units" +
            close_it);
  // Two: one triangle of the top of a cube, and both of its floor.
  TriangleMesh open = box({0, 0, 0}, {30, 30, 40});
  open.triangles.erase(open.triangles.begin() + 8, open.triangles.begin() + 11);
  CHECK(message_of("two.off", off_text(open)) ==
        "two.off: the surface has 2 holes with a rim 140 long (4 edges) about (0, 15, 20), with a rim 120 long (3 "
        "edges) about (30, 20, 15); lengths in the file's own units" +
            close_it);
}

TEST_CASE("a flipped face is turned, and the result says so") {
  for (const TriangleMesh& mesh : {cone_in_mm(), notched_box_in_mm(), knot_in_mm()})
    for (std::size_t triangle : {std::size_t{0}, std::size_t{7}}) {
      const SurfaceImport read = import_bytes("flipped.obj", obj_text(with_flipped_face(mesh, triangle)));
      CHECK(read.volume == Approx(volume_of(mesh) * 1e-9).epsilon(1e-12));
      CHECK(read.notes == Words{"1 face was turned to agree with the others."});
    }
}

TEST_CASE("a surface turned inside out is turned back, and the result says so") {
  for (const TriangleMesh& mesh : {cone_in_mm(), notched_box_in_mm(), knot_in_mm()}) {
    const SurfaceImport read = import_bytes("inward.off", off_text(inside_out(mesh)));
    CHECK(read.volume == Approx(volume_of(mesh) * 1e-9).epsilon(1e-12));
    CHECK(read.notes == Words{"The surface was turned inside out; all its faces were turned back."});
  }
}

TEST_CASE("a surface that crosses itself is refused with the place") {
  CHECK(message_of("cone.off", off_text(with_point_at(cone_in_mm(), 3, {523, 210, 0}))) ==
        "cone.off: the surface crosses itself in 5 pairs of triangles; the first near (183, 259.196, 36.4402)" +
            unite);
  CHECK(message_of("box.off", off_text(with_point_at(notched_box_in_mm(), 3, {150, 0, -20}))) ==
        "box.off: the surface crosses itself in 11 pairs of triangles; the first near (100, 40, 0)" + unite);
  CHECK(message_of("knot.off", off_text(with_point_at(knot_in_mm(), 3, {0, 0, 0}))) ==
        "knot.off: the surface crosses itself in 36 pairs of triangles; the first near (95.9225, 8.60631, -6.43088)" +
            unite);
}

TEST_CASE("a size that no structure has is a warning that names the likely units, and nothing is changed") {
  const MeshFolder folder("unit");
  const auto warnings = [&](const TriangleMesh& mesh, double unit) {
    const SurfaceImport read = import_surface(folder.write("body.ply", ply_text(mesh)), unit);
    CHECK(read.volume == Approx(volume_of(mesh) * unit * unit * unit));
    return read.warnings;
  };
  const std::string name = (folder.path() / "body.ply").string();
  CHECK(warnings(cone_in_mm(), 1) ==
        Words{name + ": the largest side is 520 m with the stated unit, m; a structure of over 10 m is unlikely. It "
                     "would be 520 mm with mm, 5.2 m with cm. Check the unit that the file was exported in."});
  CHECK(warnings(tapered_cone({}, 20, 4), mm) ==
        Words{name +
              ": the largest side is 0.52 mm with the stated unit, mm; a structure of under 5 mm is unlikely. "
              "It would be 5.2 mm with cm, 13.2 mm with in, 158 mm with ft, 520 mm with m. Check the unit that "
              "the file was exported in."});
  CHECK(warnings(notched_box_in_mm(), 1)[0].find("It would be 300 mm with mm, 3 m with cm, 7.62 m with in.") !=
        std::string::npos);
  CHECK(warnings(scaled(knot({}, 120, 12), 1e9), 0.5) ==
        Words{name + ": the largest side is 1.48e+08 m with the stated unit, 0.5 m; a structure of over 10 m is "
                     "unlikely. No usual unit makes it plausible. Check the unit that the file was exported in."});
  CHECK(warnings(cone_in_mm(), 0.0254).size() == 1);
  CHECK(warnings(cone_in_mm(), mm).empty());
}

TEST_CASE("two bodies apart are refused") {
  const auto expected = [](const std::string& name, const std::string& place) {
    return name + ": the surface holds 2 bodies that are apart; the second largest lies about " + place +
           " and encloses 12.5 % of the largest one's volume\n"
           "   Export each body to a file of its own, or unite them; delete a fragment that is left over.";
  };
  const auto twice = [](const TriangleMesh& mesh) { return together(mesh, moved(scaled(mesh, 0.5), {0, 400, 0})); };
  CHECK(message_of("cone.obj", obj_text(twice(cone_in_mm()))) == expected("cone.obj", "(130, 511.25, 0)"));
  CHECK(message_of("box.stl", stl_text(twice(notched_box_in_mm()))) == expected("box.stl", "(75, 430, 40)"));
  CHECK(message_of("knot.off", off_text(twice(knot_in_mm()))) == expected("knot.off", "(6.79873, 400, 0)"));
}

TEST_CASE("a shell inside the body is a cavity when it faces inward, and refused when it faces outward") {
  const TriangleMesh outside = box({0, 0, 0}, {30, 30, 30}), inside = box({10, 10, 10}, {20, 20, 20});
  const SurfaceImport hollow = import_bytes("hollow.off", off_text(together(outside, inside_out(inside))));
  CHECK(hollow.shells == 2);
  CHECK(hollow.volume == Approx(26000e-9));
  CHECK(hollow.area == Approx(6000e-6));
  const std::string cavity =
      "1 closed cavity lies inside, the largest about (15, 15, 15); 3.7 % of the body's outer volume was taken off.";
  CHECK(hollow.notes == Words{cavity});
  const SurfaceImport inward =
      import_bytes("inward.off", off_text(inside_out(together(outside, inside_out(inside)))));
  CHECK(inward.volume == Approx(26000e-9));
  CHECK(inward.notes == Words{"The surface was turned inside out; all its faces were turned back.", cavity});
  CHECK(
      message_of("solid.off", off_text(together(outside, inside))) ==
      "solid.off: a closed shell about (15, 15, 15) lies inside the body and faces outward as the body does: a body "
      "within a body, or a cavity whose faces are turned round\n"
      "   Delete it where the body is solid there; turn its faces round where there is a cavity.");
  // Loose in the cavity: a body apart.
  CHECK(
      message_of("loose.off",
                 off_text(together(together(outside, inside_out(inside)), box({14, 14, 14}, {16, 16, 16})))) ==
      "loose.off: the surface holds 2 bodies that are apart; the second largest lies about (15, 15, 15) and encloses "
      "0.02963 % of the largest one's volume\n"
      "   Export each body to a file of its own, or unite them; delete a fragment that is left over.");
}

TEST_CASE("needless faces are dropped, and the result says so") {
  TriangleMesh mesh = cone_in_mm();
  mesh.triangles.push_back(mesh.triangles[2]);
  mesh.triangles.push_back({1, 1, 2});
  const SurfaceImport read = import_bytes("needless.off", off_text(mesh));
  CHECK(read.volume == Approx(volume_of(cone_in_mm()) * 1e-9));
  CHECK(read.notes == Words{"1 face that stood in the file twice was dropped.", "1 face without area was dropped."});

  // A box whose top has a corner in the middle of an edge of its front, bridged by a face on a line.
  TriangleMesh bridged = box({0, 0, 0}, {20, 20, 20});
  bridged.points.push_back({20, 10, 20}); // between corners 6 and 7
  std::size_t split = 0;
  for (auto& triangle : bridged.triangles)
    if (triangle == std::array<std::int32_t, 3>{4, 6, 7}) { // the face x = 20
      triangle = {4, 6, 8};
      ++split;
    }
  REQUIRE(split == 1);
  bridged.triangles.push_back({4, 8, 7});
  bridged.triangles.push_back({8, 6, 7});
  const SurfaceImport mended = import_bytes("bridged.off", off_text(bridged));
  CHECK(mended.volume == Approx(8000e-9));
  CHECK(mended.area == Approx(2400e-6));
  CHECK(mended.mesh.triangles.size() == 14);
  CHECK(mended.notes == Words{"1 face without area was dropped."});
}

TEST_CASE("gaps of rounding are joined where that closes the surface") {
  // Each triangle with corners of its own, moved apart by up to 1e-5 mm.
  const TriangleMesh mesh = cone_in_mm();
  TriangleMesh apart;
  for (const auto& triangle : mesh.triangles) {
    const auto first = static_cast<std::int32_t>(apart.points.size());
    for (std::int32_t corner : triangle) {
      Place place = mesh.points[std::size_t(corner)];
      place[apart.points.size() % 3] += 1e-5 * static_cast<double>(apart.points.size() % 7) / 7;
      apart.points.push_back(place);
    }
    apart.triangles.push_back({first, first + 1, first + 2});
  }
  const SurfaceImport read = import_bytes("apart.ply", ply_text(apart));
  CHECK(read.volume == Approx(volume_of(mesh) * 1e-9).epsilon(1e-6));
  CHECK(read.mesh.triangles.size() == mesh.triangles.size());
  REQUIRE(read.notes.size() == 1);
  CHECK(read.notes[0] ==
        "1566 points of open edges, each within 0.000575 of another in the file's units, were joined "
        "to it; that closed the surface.");
  // With a real hole besides, only the hole is told.
  CHECK(
      message_of("apart.ply", ply_text(with_hole(apart, 7))) ==
      "apart.ply: the surface has a hole with a rim 138.5 long (3 edges) about (17.8799, 257.256, 56.3754); lengths "
      "in the file's own units" +
          close_it);
}

TEST_CASE("an edge with more than two faces is refused") {
  const TriangleMesh cube = box({0, 0, 0}, {30, 30, 30});
  CHECK(message_of("touching.stl", stl_text(together(cube, moved(cube, {30, 30, 0})))) ==
        "touching.stl: the surface has 1 edges with more than two triangles; the first near (30, 30, 15)" + unite);
}

TEST_CASE("bodies that overlap are refused as one that crosses itself") {
  const TriangleMesh cube = box({0, 0, 0}, {30, 30, 30});
  CHECK(message_of("overlap.stl", stl_text(together(cube, moved(cube, {13, 14, 15})))) ==
        "overlap.stl: the surface crosses itself in 14 pairs of triangles; the first near (10, 10, 30)" + unite);
}
