#include "command_line/program_run.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>

using namespace crushwright;
using namespace program_run;
using nlohmann::json;

namespace {

/// A user's own cell: struts along the edges and the diagonals of two faces, nothing computed, nothing published.
const std::string own_cell = "schema: 1\nid: braced\nname: Braced cell\ndescription: Invented for this test.\n"
                             "class: strut\nbehaviour: stretching\nsymmetry: tetragonal\n"
                             "struts: # one of each\n"
                             "  - [0, 0, 0, 1, 0, 0]\n  - [0, 0, 0, 0, 1, 0]\n  - [0, 0, 0, 0, 0, 1]\n"
                             "  - [0, 0, 0, 1, 0, 1]\n  - [1, 0, 0, 0, 0, 1]\n"
                             "  - [0, 0, 0, 0, 1, 1]\n  - [0, 1, 0, 0, 0, 1]\n"
                             "size_name: strut diameter\nedge_name: cell edge\n";

/// A case with another cell in its lattice, crushed along z.
std::string block_with(const std::string& cell, const std::string& more = "") {
  std::string text = bytes_of(source / "cases/student_attenuator.yaml");
  for (const auto& [key, value] :
       {std::pair<std::string, std::string>{"cell", cell}, {"crush_direction", "\"001\"" + more}}) {
    const std::size_t at = text.find("\n      " + key + ": ");
    if (at == std::string::npos)
      throw std::logic_error("cases/student_attenuator.yaml has no " + key + " in its lattice");
    text.replace(at, text.find('\n', at + 1) - at, "\n      " + key + ": " + value);
  }
  return text;
}

const std::vector<std::string> octet = {"cell", "octet", "--relative-density", "0.15", "--material", "AlSi10Mg-T6"};

std::vector<std::string> with(std::vector<std::string> words, const std::vector<std::string>& more) {
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

std::size_t widest(const std::string& text) {
  std::istringstream lines(text);
  std::size_t found = 0;
  for (std::string line; std::getline(lines, line);)
    found = std::max(found, static_cast<std::size_t>(std::count_if(line.begin(), line.end(), [](char letter) {
                       return (static_cast<unsigned char>(letter) & 0xC0U) != 0x80U;
                     })));
  return found;
}

} // namespace

TEST_CASE("a cell of struts is computed, shown and packed") {
  const TemporaryFolder folder("cell_octet");
  const Ended ended = run(folder, with(octet, {"--cell-edge", "10 mm", "--drawing", "octet.svg"}));
  INFO(ended.out << ended.err);
  REQUIRE(ended.code == 0);
  CHECK(ended.err.empty());
  CHECK(widest(ended.out) <= 100);
  for (const char* part :
       {"Octet truss in AlSi10Mg, T6, crushed along 100\n", "relative density 15.00 % true", "strut diameter 1.",
        "Stiffness, as a frame of beams with stiff nodes", "Zener ratio", "universal anisotropy", "stiffest along",
        "collapse, safe", "collapse, unsafe", "first yield", "Followed to 50 % strain",
        "Evidence; a case would use the first of each", "> used", "pin-jointed-collapse", "frame-here",
        "Page: octet_pack/cell.html\n", "Drawing: octet.svg\n"})
    CHECK(ended.out.find(part) != std::string::npos);
  CHECK(std::filesystem::exists(folder.path() / "octet_pack/cell.html"));
  CHECK(bytes_of(folder.path() / "octet.svg").find("<svg") != std::string::npos);
  const Ended document = run(folder, with(octet, {"--cell-edge", "10 mm", "--no-pack", "--json"}));
  CHECK(document.out == bytes_of(folder.path() / "octet_pack/result.json"));
}

TEST_CASE("every member of the cell's document is described, and its stiffness is cubic") {
  const TemporaryFolder folder("cell_json");
  const Ended ended = run(folder, with(octet, {"--no-pack", "--json"}));
  INFO(ended.err);
  REQUIRE(ended.code == 0);
  const json document = json::parse(ended.out);
  const std::string page = bytes_of(source / "docs/result_format.md");
  for (const auto& [key, value] : document.items()) {
    INFO(key);
    CHECK(page.find("`" + key + "`") != std::string::npos);
  }
  CHECK(document.at("schema") == 1);
  CHECK(document.at("command") == "cell");
  CHECK(document.at("cell_edge").is_null());
  CHECK(document.at("solid").is_null());
  const json& rows = document.at("frame").at("stiffness").at("matrix").at("rows");
  CHECK(rows.at(0).at(0).get<double>() == Approx(rows.at(2).at(2).get<double>()).epsilon(1e-9));
  CHECK(rows.at(3).at(3).get<double>() == Approx(rows.at(5).at(5).get<double>()).epsilon(1e-9));
  const json& collapse = document.at("frame").at("collapses").at(0);
  const double lower = collapse.at("lower").at("value"), upper = collapse.at("upper").at("value");
  CHECK(lower <= upper);
  CHECK(upper < 1.01 * lower);
}

TEST_CASE("a user's cell goes from its struts to an estimate by the documented commands") {
  const TemporaryFolder folder("cell_own");
  folder.write("own/unit_cells/braced.yaml", own_cell);
  folder.write("case.yaml", block_with("braced"));
  const std::vector<std::string> estimate = {"estimate", "case.yaml", "--no-pack", "--catalogue", "own"};
  const Ended refused = run(folder, estimate);
  CHECK(refused.code == 2);
  CHECK(refused.err.find("crushwright cell own/unit_cells/braced.yaml --write") != std::string::npos);

  const std::vector<std::string> show = {"cell",
                                         "own/unit_cells/braced.yaml",
                                         "--relative-density",
                                         "12 %",
                                         "--material",
                                         "AlSi10Mg-T6",
                                         "--direction",
                                         "001",
                                         "--no-pack"};
  const Ended shown = run(folder, show);
  INFO(shown.out << shown.err);
  REQUIRE(shown.code == 0);
  CHECK(
      shown.out.find("own/unit_cells/braced.yaml lacks its density, computed here; `estimate` needs it in the file: "
                     "add --write.\n") != std::string::npos);
  CHECK(bytes_of(folder.path() / "own/unit_cells/braced.yaml") == own_cell);

  const Ended written = run(folder, {"cell", "own/unit_cells/braced.yaml", "--laws", "0.05", "0.25", "--write"});
  INFO(written.out << written.err);
  REQUIRE(written.code == 0);
  const std::string text = bytes_of(folder.path() / "own/unit_cells/braced.yaml");
  CHECK(text.substr(0, own_cell.size()) == own_cell);
  CHECK(text.find("id: frame-collapse-001") != std::string::npos);
  const Ended estimated = run(folder, estimate);
  INFO(estimated.out << estimated.err);
  CHECK((estimated.code == 0 || estimated.code == 1));
  // Writing the same again changes nothing.
  const Ended again = run(folder, {"cell", "own/unit_cells/braced.yaml", "--laws", "0.05", "0.25", "--write"});
  CHECK(again.code == 0);
  CHECK(again.out.find("holds all this already") != std::string::npos);
  CHECK(bytes_of(folder.path() / "own/unit_cells/braced.yaml") == text);
  // The case may insist on a kind of evidence.
  folder.write("asked.yaml", block_with("braced", "\n      evidence: computed"));
  CHECK(run(folder, {"estimate", "asked.yaml", "--no-pack", "--catalogue", "own"}).code < 2);
  folder.write("measured.yaml", block_with("braced", "\n      evidence: measured"));
  const Ended none = run(folder, {"estimate", "measured.yaml", "--no-pack", "--catalogue", "own"});
  CHECK(none.code == 2);
  CHECK(
      none.err.find("Braced cell: no measured law for the plateau stress when crushed along 001. Evidence that there "
                    "is: computed, generic.") != std::string::npos);
}

TEST_CASE("an estimate on generic evidence names the command that computes the cell") {
  const TemporaryFolder folder("cell_generic");
  folder.write("own/unit_cells/braced.yaml", own_cell);
  CHECK(run(folder, {"cell", "braced", "--catalogue", "own", "--write"}).code == 0);
  folder.write("case.yaml", block_with("braced"));
  const Ended ended = run(folder, {"estimate", "case.yaml", "--no-pack", "--json", "--catalogue", "own"});
  REQUIRE(ended.code < 2);
  CHECK(ended.out.find(
            "The elastic modulus and plateau stress of Braced cell can be computed instead: `crushwright cell "
            "braced --relative-density") != std::string::npos);
}

TEST_CASE("what cannot be computed or written is refused with what to do") {
  const TemporaryFolder folder("cell_refused");
  const auto message = [&](const std::vector<std::string>& words) {
    const Ended ended = run(folder, words);
    CHECK(ended.code == 2);
    CHECK(ended.out.empty());
    return ended.err;
  };
  CHECK(message({"cell"}) == "crushwright cell: no cell is given\n"
                             "   Name one, for instance octet, or a cell's YAML file.\n"
                             "   `crushwright cell --help` shows the options and an example.\n");
  CHECK(message({"cell", "octet", "--material", "AlSi10Mg-T6"}) ==
        "crushwright cell: no --relative-density is given\n"
        "   Write for instance: crushwright cell octet --relative-density 0.15 --material AlSi10Mg-T6.\n"
        "   With --write both may be left out; the file then gets its densities, and its laws where --laws is "
        "given.\n");
  CHECK(message({"cell", "octet", "--relative-density", "1.5", "--material", "AlSi10Mg-T6"}) ==
        "crushwright cell: --relative-density 1.5: a relative density lies between 0 and 1\n"
        "   Write for instance 0.15, or \"15 %\".\n");
  CHECK(message({"cell", "octett", "--relative-density", "0.1", "--material", "AlSi10Mg-T6"})
            .rfind("octett: the catalogue has no such cell\n   Did you mean `octet`? Known: ", 0) == 0);
  CHECK(message({"cell", "octet", "--write"})
            .rfind("crushwright cell: --write: octet comes with the program and is not changed\n   Copy ", 0) == 0);
  CHECK(message(with(octet, {"--direction", "axial"})) ==
        "crushwright cell: direction 'axial': write three digits in cell axes, for instance 100 along an edge\n"
        "   Change the options.\n");
  CHECK(message(with(octet, {"--solid", "--grid", "30"}))
            .find("the grid is a multiple of 4 from 16 on, and 30 is not") != std::string::npos);
  CHECK(message({"cell", "octet", "--relative-density", "0.7", "--material", "AlSi10Mg-T6"})
            .find("Octet truss: no strut diameter gives the relative density 0.7") != std::string::npos);
}

TEST_CASE("a file that cannot be completed is left as it was") {
  const TemporaryFolder folder("cell_whole");
  std::string faulty = own_cell;
  faulty.replace(faulty.find("[0, 0, 0, 0, 1, 1]"), 18, "[0, 0, 0, 0, 1, 2]");
  folder.write("braced.yaml", faulty);
  const Ended ended = run(folder, {"cell", "braced.yaml", "--laws", "0.05", "0.25", "--write"});
  CHECK(ended.code == 2);
  CHECK(ended.err.find("strut 6 leaves the unit cube") != std::string::npos);
  CHECK(bytes_of(folder.path() / "braced.yaml") == faulty);
}

TEST_CASE("a foam has no geometry: its evidence is shown alone") {
  const TemporaryFolder folder("cell_foam");
  const Ended ended = run(folder, {"cell", "metal_foam_closed", "--relative-density", "0.09", "--material",
                                   "aluminium-foam-wall", "--no-pack"});
  INFO(ended.out << ended.err);
  REQUIRE(ended.code == 0);
  CHECK(ended.out.find("Stiffness, as a frame") == std::string::npos);
  CHECK(ended.out.find("Evidence") != std::string::npos);
  CHECK(ended.out.find("-here") == std::string::npos);
}
