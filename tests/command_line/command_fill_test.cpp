#include "command_line/program_run.hpp"
#include "crushwright/surface.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstring>
#include <nlohmann/json.hpp>

using namespace crushwright;
using namespace program_run;
using nlohmann::json;

namespace {

/// A small invented box, so that each run takes a moment.
std::string box_case(const std::string& lattice = "cell: bcc, cell_edge: 10 mm, strut: 1.4 mm",
                     const std::string& more = "", const std::string& skin = "1 mm") {
  return "schema: 1\ntitle: An invented box\ninvented: true\nstructures:\n  box:\n    sections:\n      shape: "
         "rectangle\n"
         "      stations:\n        - {station: 0 mm, width: 60 mm, height: 60 mm}\n"
         "        - {station: 80 mm, width: 60 mm, height: 60 mm}\n"
         "    lattice: {material: AlSi10Mg-stress-relieved, " +
         lattice + "}\n" +
         (skin.empty() ? "" : "    skin: {material: AlSi10Mg-stress-relieved, thickness: " + skin + "}\n") +
         "impacts:\n  drop:\n    striker: {id: mass, mass: 20 kg}\n    struck: {id: rig, held: true}\n"
         "    closing_speed: 3 m/s\n" +
         more;
}

/// Volume inside the triangles of a binary STL file in millimetres [m^3]; the block of a sheet may fall into parts.
double stl_volume(const std::filesystem::path& file) {
  const std::string bytes = bytes_of(file);
  double volume = 0;
  for (std::size_t at = 84; at + 50 <= bytes.size(); at += 50) {
    float c[9];
    std::memcpy(c, bytes.data() + at + 12, sizeof c);
    volume += (double(c[0]) * (double(c[4]) * c[8] - double(c[5]) * c[7]) +
               double(c[1]) * (double(c[5]) * c[6] - double(c[3]) * c[8]) +
               double(c[2]) * (double(c[3]) * c[7] - double(c[4]) * c[6])) /
              6e9;
  }
  return volume;
}

const std::string printing =
    "printing:\n  build_direction: \"-x\"\n  machine: {build_volume: [250 mm, 250 mm, 300 mm], "
    "self_supporting_angle: 40 deg}\n";

} // namespace

TEST_CASE("a filled box leaves its page, its struts, its layers and its outer surface, and says what they weigh") {
  const TemporaryFolder folder("fill_box");
  folder.write("box.yaml", box_case());
  const Ended ended = run(folder, {"fill", "box.yaml"});
  INFO(ended.out << ended.err);
  REQUIRE(ended.code == 0);
  CHECK(ended.err.empty());
  CHECK(ended.out.find("lattice in its place") != std::string::npos);
  CHECK(ended.out.find("Page: box_fill/fill.html\n") != std::string::npos);
  for (const char* name : {"fill.html", "result.json", "geometry/box_lattice.3mf", "geometry/box_layers.vtu"})
    CHECK(std::filesystem::exists(folder.path() / "box_fill" / name));
  const SurfaceImport outer = import_surface(folder.path() / "box_fill/geometry/box_outer.stl", 0.001);
  CHECK(outer.volume == Approx(60e-3 * 60e-3 * 80e-3).epsilon(1e-6));
}

TEST_CASE("the document of fill adds up: real metal is the estimate and the parts of the difference") {
  const TemporaryFolder folder("fill_json");
  folder.write("box.yaml", box_case());
  const json document = json::parse(run(folder, {"fill", "box.yaml", "--json", "--no-pack"}).out);
  CHECK(document["command"] == "fill");
  const json& struts = document["structures"][0]["struts"];
  double parts = 0;
  for (const auto& [name, part] : struts["difference"].items())
    parts += part["value"].get<double>();
  CHECK(struts["metal_inside"]["value"].get<double>() ==
        Approx(struts["estimated"]["value"].get<double>() + parts).epsilon(1e-9));
  CHECK(document["structures"][0]["printing"].is_null());
  CHECK_FALSE(std::filesystem::exists(folder.path() / "box_fill"));
}

TEST_CASE("the same case filled twice gives the same bytes, print file included") {
  const TemporaryFolder folder("fill_twice");
  folder.write("box.yaml", box_case());
  REQUIRE(run(folder, {"fill", "box.yaml", "--pack", "one"}).code == 0);
  REQUIRE(run(folder, {"fill", "box.yaml", "--pack", "two"}).code == 0);
  for (const char* name : {"fill.html", "result.json", "geometry/box_lattice.3mf", "geometry/box_layers.vtu"})
    CHECK(bytes_of(folder.path() / "one" / name) == bytes_of(folder.path() / "two" / name));
}

TEST_CASE("a sheet lattice is written as one closed surface, or as blocks that hold the same metal") {
  const TemporaryFolder folder("fill_sheet");
  folder.write("box.yaml", box_case("cell: gyroid_sheet, cell_edge: 30 mm, wall: 3 mm", "", ""));
  const Ended whole = run(folder, {"fill", "box.yaml", "--solid", "--spacing", "1.5 mm", "--pack", "whole"});
  INFO(whole.out << whole.err);
  REQUIRE(whole.code == 0);
  const double volume = stl_volume(folder.path() / "whole/geometry/box_solid.stl");
  const json document = json::parse(bytes_of(folder.path() / "whole/result.json"));
  const double sampled = document["structures"][0]["walls"]["metal"]["value"];
  CHECK(volume == Approx(sampled).epsilon(0.03));
  REQUIRE(run(folder, {"fill", "box.yaml", "--solid", "--spacing", "1.5 mm", "--block", "45 mm", "--pack", "blocks"})
              .code == 0);
  double sum = 0;
  int files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder.path() / "blocks/geometry"))
    if (entry.path().filename().string().find("_block_") != std::string::npos) {
      sum += stl_volume(entry.path());
      ++files;
    }
  CHECK(files > 1);
  CHECK(sum == Approx(volume).epsilon(0.01));
}

TEST_CASE("printing is judged where the case knows the machine, and the best direction is searched when asked for") {
  const TemporaryFolder folder("fill_print");
  folder.write("box.yaml", box_case("cell: bcc, cell_edge: 10 mm, strut: 1.4 mm", printing));
  const json document = json::parse(run(folder, {"fill", "box.yaml", "--json", "--no-pack", "--best-direction"}).out);
  const json& print = document["structures"][0]["printing"];
  // Struts of a BCC cell rise at 35.26 degrees from a cube's face; every one is flatter than 40.
  CHECK(print["unsupported_share"]["value"].get<double>() == Approx(1).epsilon(1e-6));
  CHECK(print["build_height"]["value"].get<double>() == Approx(80e-3).epsilon(1e-6));
  CHECK(print["fits"] == true);
  CHECK(document["structures"][0]["best_direction"]["unsupported_share"]["value"].get<double>() < 1);
}

TEST_CASE("options that cannot be followed are refused with what to do, and nothing is written") {
  const TemporaryFolder folder("fill_refused");
  folder.write("box.yaml", box_case());
  const Ended spacing = run(folder, {"fill", "box.yaml", "--spacing", "0.5 mm"});
  CHECK(spacing.code == 2);
  CHECK(spacing.err ==
        "crushwright fill: --spacing, --block and --between are of the closed surface that --solid writes\n"
        "   Add --solid, or leave them out.\n");
  const Ended length = run(folder, {"fill", "box.yaml", "--solid", "--spacing", "0 mm"});
  CHECK(length.err ==
        "crushwright fill: --spacing 0 mm: a length over 0 was expected\n   Write for instance \"0.3 mm\".\n");
  const Ended direction = run(folder, {"fill", "box.yaml", "--best-direction"});
  CHECK(direction.code == 2);
  CHECK(direction.err.find("--best-direction needs to know the machine") != std::string::npos);
  const Ended coarse = run(folder, {"fill", "box.yaml", "--solid", "--spacing", "3 mm"});
  CHECK(coarse.code == 2);
  CHECK(coarse.err.find("crushwright fill: --solid: ") == 0);
  const Ended fine = run(folder, {"fill", "box.yaml", "--solid", "--spacing", "0.01 mm"});
  CHECK(
      fine.err.find("triangles; 3e+07 can be held\n   Write a part of it with --between, or set --spacing coarser") !=
      std::string::npos);
  const Ended backward = run(folder, {"fill", "box.yaml", "--solid", "--between", "50 mm", "20 mm"});
  CHECK(backward.err == "crushwright fill: --between: the second station has to lie beyond the first\n"
                        "   Write for instance --between \"100 mm\" \"130 mm\".\n");
  CHECK_FALSE(std::filesystem::exists(folder.path() / "box_fill"));
}

TEST_CASE("a body with a trigger is not filled at full strength, but still estimated with its pack") {
  const TemporaryFolder folder("fill_trigger");
  std::string text = box_case();
  const std::size_t at = text.find("impacts:");
  folder.write("box.yaml", text.insert(at, "    trigger: {rows: 2, size_factor: 80 %}\n"));
  const Ended filled = run(folder, {"fill", "box.yaml"});
  CHECK(filled.code == 2);
  CHECK(filled.out.empty());
  CHECK(filled.err.find("structures.box.trigger: a filled body would have its first rows at full strength: a trigger "
                        "is not drawn") != std::string::npos);
  CHECK(filled.err.find("For the body to print delete the block") != std::string::npos);
  CHECK_FALSE(std::filesystem::exists(folder.path() / "box_fill"));
  const Ended estimated = run(folder, {"estimate", "box.yaml"});
  INFO(estimated.err);
  CHECK(estimated.code != 2);
  CHECK(std::filesystem::exists(folder.path() / "box_pack/review.html"));
}

TEST_CASE("a part between two stations is one closed solid of lattice and skin that ends there") {
  const TemporaryFolder folder("fill_part");
  folder.write("box.yaml", box_case("cell: octet, cell_edge: 20 mm, strut: 3 mm", "", "2 mm"));
  const Ended ended =
      run(folder, {"fill", "box.yaml", "--solid", "--spacing", "1 mm", "--between", "20 mm", "40 mm"});
  INFO(ended.out << ended.err);
  REQUIRE(ended.code == 0);
  const std::filesystem::path file = folder.path() / "box_fill/geometry/box_solid.stl";
  const std::string bytes = bytes_of(file);
  float low = 1e9F, high = -1e9F;
  for (std::size_t at = 84; at + 50 <= bytes.size(); at += 50)
    for (std::size_t corner = 1; corner <= 3; ++corner) {
      float station = 0;
      std::memcpy(&station, bytes.data() + at + 12 * corner, sizeof station);
      low = std::min(low, station);
      high = std::max(high, station);
    }
  CHECK(low == Approx(20).margin(1e-3));
  CHECK(high == Approx(40).margin(1e-3));
  // The skin alone, a square tube of 60 mm with walls of 2 mm, and the lattice's density in what it leaves.
  const double tube = (60e-3 * 60e-3 - 56e-3 * 56e-3) * 20e-3, room = 56e-3 * 56e-3 * 20e-3;
  CHECK(stl_volume(file) > tube + 0.12 * room);
  CHECK(stl_volume(file) < tube + 0.30 * room);
}

TEST_CASE("a body read from a surface is filled, its layers too") {
  const TemporaryFolder folder("fill_surface");
  const Ended ended = run(folder, {"fill", (source / "cases/outlet_flanks.yaml").string(), "--pack", "flank"});
  INFO(ended.out << ended.err);
  REQUIRE(ended.code == 0);
  for (const char* name : {"left_flank_lattice.3mf", "left_flank_layers.vtu", "left_flank_outer.stl"})
    CHECK(std::filesystem::exists(folder.path() / "flank/geometry" / name));
  const json document = json::parse(bytes_of(folder.path() / "flank/result.json"));
  const double real = document["structures"][0]["lattice_mass"]["value"];
  CHECK(real == Approx(document["structures"][0]["estimated_mass"]["value"].get<double>()).epsilon(0.02));
}

TEST_CASE("the estimate's pack draws body, lattice and cut") {
  const TemporaryFolder folder("fill_pack");
  folder.write("box.yaml", box_case());
  run(folder, {"estimate", "box.yaml"});
  const std::string page = bytes_of(folder.path() / "box_pack/review.html");
  CHECK(page.find("<h2>Body and lattice</h2>") != std::string::npos);
  CHECK(page.find("Cut along the vertical plane") != std::string::npos);
}
