#include "command_line/program_run.hpp"
#include "crushwright/surface.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using namespace program_run;

namespace {

const std::vector<std::string> octet = {"cell", "octet", "--relative-density", "0.15"};

std::vector<std::string> with(std::vector<std::string> words, const std::vector<std::string>& more) {
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("a cell's mesh file reads back as one closed body of its relative density") {
  const TemporaryFolder folder("cell_mesh");
  for (const char* file : {"octet.stl", "octet.ply"}) {
    const Ended ended = run(folder, with(octet, {"--cell-edge", "10 mm", "--mesh", file}));
    INFO(ended.out << ended.err);
    REQUIRE(ended.code == 0);
    CHECK(ended.err.empty());
    CHECK(has(ended.out, std::string("Mesh: ") + file + ", "));
    CHECK(has(ended.out, "one cell of 10 x 10 x 10 mm with a corner at the origin"));
    CHECK(has(ended.out, "(an eighth of the thinnest part; --spacing sets another)"));
    CHECK(has(ended.out, "the catalogue's 15.000 %"));
    const SurfaceImport read = import_surface(folder.path() / file, 1e-3);
    CHECK(read.warnings.empty());
    CHECK(read.volume == Approx(1e-6 * 0.15).epsilon(0.01));
    for (std::size_t axis = 0; axis < 3; ++axis) {
      CHECK(std::abs(read.bounds.low[axis]) < 1e-9);
      CHECK(read.bounds.high[axis] == Approx(0.010).epsilon(1e-6));
    }
  }
  CHECK(!std::filesystem::exists(folder.path() / "octet_pack")); // without a metal only that
}

TEST_CASE("a finer spacing comes nearer to the catalogue's density") {
  const TemporaryFolder folder("cell_mesh_spacing");
  double miss[2] = {};
  const char* spacings[2] = {"0.25 mm", "0.125 mm"};
  for (int i = 0; i < 2; ++i) {
    const Ended ended = run(folder, {"cell", "primitive_sheet", "--relative-density", "0.2", "--cell-edge", "10 mm",
                                     "--mesh", "cell.stl", "--spacing", spacings[i]});
    INFO(ended.out << ended.err);
    REQUIRE(ended.code == 0);
    CHECK(has(ended.out, i == 0 ? "grid spacing 0.25 mm (as asked for)" : "grid spacing 0.125 mm (as asked for)"));
    miss[i] = std::abs(import_surface(folder.path() / "cell.stl", 1e-3).volume / 0.2e-6 - 1);
  }
  CHECK(miss[0] < 2e-3);
  CHECK(miss[1] < std::max(0.5 * miss[0], 2e-4));
}

TEST_CASE("a mesh that cannot be made leaves the file that was there, and says what to do") {
  const TemporaryFolder folder("cell_mesh_refused");
  folder.write("old.stl", "kept");
  const auto message = [&](const std::vector<std::string>& words) {
    const Ended ended = run(folder, words);
    CHECK(ended.code == 2);
    CHECK(ended.out.empty());
    CHECK(bytes_of(folder.path() / "old.stl") == "kept");
    return ended.err;
  };
  CHECK(message(with(octet, {"--mesh", "old.stl"})) ==
        "crushwright cell: --mesh: the file is in mm, and no --cell-edge is given\n"
        "   Add it, for instance --cell-edge \"10 mm\".\n");
  CHECK(message(with(octet, {"--cell-edge", "10 mm", "--mesh", "old.obj"})) ==
        "crushwright cell: --mesh old.obj: expected a file that ends in .stl or .ply\n"
        "   Both are written binary, in mm; STL in single precision.\n");
  CHECK(message(with(octet, {"--cell-edge", "10 mm", "--spacing", "1 mm"})) ==
        "crushwright cell: no --material is given\n"
        "   Write for instance: crushwright cell octet --relative-density 0.15 --material AlSi10Mg-T6.\n"
        "   With --write both may be left out; the file then gets its densities, and its laws where --laws is "
        "given.\n");
  CHECK(has(message(with(octet, {"--cell-edge", "10 mm", "--mesh", "old.stl", "--spacing", "1 mm"})),
            "Octet truss: a grid spacing of 1 mm could lose the strut diameter of "));
  CHECK(has(message(with(octet, {"--cell-edge", "10 mm", "--mesh", "old.stl", "--spacing", "1 um"})),
            "triangles, more than the 2e+07 that are allowed: take a spacing of "));
  CHECK(has(message({"cell", "metal_foam_closed", "--relative-density", "0.1", "--cell-edge", "10 mm", "--mesh",
                     "old.stl"}),
            "has no strut or wall to be sized"));
}

TEST_CASE("the metal's surface stands in a cell's report and document") {
  const TemporaryFolder folder("cell_area");
  const std::vector<std::string> asked =
      with(octet, {"--material", "AlSi10Mg-T6", "--no-pack", "--cell-edge", "10 mm"});
  const Ended shown = run(folder, asked);
  INFO(shown.out << shown.err);
  REQUIRE(shown.code == 0);
  CHECK(has(shown.out, "mm² per cm³ of lattice\n"));
  CHECK(has(run(folder, with(asked, {"--json"})).out, "\"metal_area\""));
}
