#include "crushwright/errors.hpp"
#include "crushwright/test_record.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

using namespace crushwright;

namespace {

/// A folder of its own for one test, removed with it.
class Folder {
public:
  Folder() : path_(std::filesystem::temp_directory_path() / "crushwright_test_series") {
    std::filesystem::remove_all(path_);
    std::filesystem::create_directories(path_);
    write("A.csv", "Displacement [mm],Force [kN]\n0.5,1\n1,2.5\n");
    write("all.csv", "Specimen;Stroke;Load\nS1;0;0,5\nS1;1;2\nS2;0;3\nS2;1;4\n");
  }
  ~Folder() { std::filesystem::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  void write(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name, std::ios::binary) << text;
  }
  TestSeries read(const std::string& text) const {
    write("series.yaml", text);
    return read_test_series(path_ / "series.yaml");
  }
  std::string refusal(const std::string& text) const {
    try {
      read(text);
    } catch (const InputError& error) {
      std::string message = error.what();
      const std::string folder = path_.generic_string() + "/";
      for (std::size_t at = message.find(folder); at != std::string::npos; at = message.find(folder))
        message.erase(at, folder.size());
      return message;
    }
    return "(read)";
  }

private:
  std::filesystem::path path_;
};

const std::string head = "schema: 1\ntitle: Invented blocks\ntest: lattice_compression\n";

std::string one(const std::string& facts) {
  return head + "specimens:\n  - file: A.csv\n" + facts;
}

} // namespace

TEST_CASE("a series reads facts of all and of one, and keeps the bytes of every file once") {
  const Folder folder;
  const std::string text = head + "cell: octet\ndirection: 100\nmaterial: own\nprocess: laser\nsource: invented\n"
                                  "standing: read\nplateau: [20 %, 0.3]\n"
                                  "common:\n  width: 20 mm\n  depth: 10 mm\n  height: 25 mm\n  speed: 3 mm/min\n"
                                  "  machine_stiffness: 100 kN/mm\n  temperature: 23 \u00b0C\n  cells_across: 5\n"
                                  "  units: {displacement: mm, force: kN}\n"
                                  "specimens:\n  - {file: all.csv, specimen: S2, mass: 4 g, relative_density: 12 %}\n"
                                  "  - {file: all.csv, specimen: S1, id: first, area: 300 mm^2}\n"
                                  "  - {file: A.csv, diameter: 20 mm}\n";
  const TestSeries series = folder.read(text);
  CHECK(series.title == "Invented blocks");
  CHECK(series.kind == TestKind::lattice_compression);
  CHECK(series.cell == "octet");
  CHECK(series.direction == "100");
  CHECK(series.source == Source{"invented", Standing::read});
  CHECK(series.plateau_window == std::vector<double>{0.2, 0.3});
  REQUIRE(series.records.size() == 3);
  const SpecimenFacts& second = series.records[0].specimen;
  CHECK(second.id == "all-S2");
  CHECK(second.area.value() == Approx(200e-6).epsilon(1e-15));
  CHECK(second.height.value() == 0.025);
  CHECK(second.mass.value() == Approx(0.004).epsilon(1e-15));
  CHECK(second.relative_density.value() == 0.12);
  CHECK(second.speed.value() == Approx(0.05e-3).epsilon(1e-14));
  CHECK(second.machine_compliance.value() == Approx(1e-8).epsilon(1e-15));
  CHECK(second.temperature.value() == Approx(296.15).epsilon(1e-15));
  CHECK(series.records[0].points[0].load == 3000);
  CHECK(series.records[0].file_name == "all.csv");
  const SpecimenFacts& first = series.records[1].specimen;
  CHECK(first.id == "first");
  CHECK(first.area.value() == Approx(300e-6).epsilon(1e-15));
  CHECK_FALSE(first.width.has_value()); // an own area drops the common sizes
  CHECK_FALSE(first.mass.has_value());
  const SpecimenFacts& third = series.records[2].specimen;
  CHECK(third.id == "A");
  CHECK(third.area.value() == Approx(314.15926535897933e-6).epsilon(1e-14));
  REQUIRE(series.files.size() == 3);
  CHECK(series.files[0] == std::pair<std::string, std::string>("series.yaml", text));
  CHECK(series.files[1].first == "all.csv");
  CHECK(series.files[2] ==
        std::pair<std::string, std::string>("A.csv", "Displacement [mm],Force [kN]\n0.5,1\n1,2.5\n"));
}

TEST_CASE("a file listed alone gives all its specimens") {
  const Folder folder;
  const TestSeries series =
      folder.read("schema: 1\ntitle: Bars\ntest: metal_tension\nspecimens:\n  - file: all.csv\n    id: batch\n"
                  "    units: {displacement: mm, force: N}\n    columns: {force: Load, displacement: \"#2\"}\n");
  REQUIRE(series.records.size() == 2);
  CHECK(series.records[0].specimen.id == "batch-S1");
  CHECK(series.records[1].specimen.id == "batch-S2");
  CHECK(series.plateau_window.empty());
}

TEST_CASE("facts that contradict each other are refused at their line") {
  const Folder folder;
  CHECK(folder.refusal(one("    area: 410 mm^2\n    width: 20 mm\n    depth: 20 mm\n")) ==
        "series.yaml:6:11: specimens[0].area: the area is 410 mm^2, but width times depth gives 400 mm^2; they must "
        "agree within 0.5 %\n"
        "    6 |     area: 410 mm^2\n"
        "      |           ^\n"
        "   Correct the one that is wrong, or delete the area. The area is that of the outline, across the load, not "
        "of "
        "the metal in it.");
  CHECK(folder.refusal(one("    area: 400 mm^2\n    width: 20.02 mm\n    depth: 20 mm\n")) == "(read)");
  CHECK_THAT(folder.refusal(one("    width: 20 mm\n")), Catch::Contains("a box needs a width and a depth"));
  CHECK_THAT(folder.refusal(one("    width: 20 mm\n    depth: 20 mm\n    diameter: 20 mm\n")),
             Catch::Contains("a specimen is either round or a box"));
  CHECK_THAT(
      folder.refusal(one("    area: 400 mm^2\n    height: 20 mm\n    mass: 4 kg\n")),
      Catch::StartsWith("series.yaml:8:11: specimens[0].mass: 4 kg in 400 mm^2 times 20 mm is 500000 kg/m^3, more "
                        "than any metal weighs"));
  CHECK_THAT(folder.refusal(one("    height: 20 mm\n    speed: 2 mm/min\n    strain_rate: 0.1 1/s\n")),
             Catch::Contains("specimens[0].strain_rate: the strain rate is"));
  CHECK(folder.refusal(one("    height: 20 mm\n    speed: 2 mm/min\n    strain_rate: 0.0017 1/s\n")) == "(read)");
  CHECK_THAT(folder.refusal(one("    height: {value: 20 mm, low: 19 mm}\n")), Catch::Contains("carries a spread"));
  CHECK_THAT(folder.refusal(one("    relative_density: 1.2\n")), Catch::Contains("relative_density"));
  CHECK_THAT(folder.refusal(one("    height: 20 m\n")), Catch::Contains("height"));
}

TEST_CASE("what belongs to a lattice is refused in a test of the metal") {
  const Folder folder;
  const std::string bar = "schema: 1\ntitle: Bars\ntest: metal_tension\n";
  const std::string file = "specimens:\n  - file: A.csv\n";
  CHECK_THAT(folder.refusal(bar + "cell: octet\n" + file),
             Catch::StartsWith("series.yaml:4:7: cell: this belongs to a lattice"));
  CHECK_THAT(folder.refusal(bar + "plateau: [0.2, 0.4]\n" + file),
             Catch::Contains("plateau: this belongs to a lattice"));
  CHECK_THAT(folder.refusal(bar + file + "    cells_across: 5\n"),
             Catch::Contains("cells_across: this is a fact of a lattice"));
}

TEST_CASE("a description that cannot be followed is refused at its line") {
  const Folder folder;
  CHECK_THAT(folder.refusal(head), Catch::Contains("specimens: there is no specimen"));
  CHECK_THAT(folder.refusal(head + "plateau: [0.4, 0.2]\nspecimens:\n  - file: A.csv\n"),
             Catch::Contains("plateau: two rising strains"));
  CHECK_THAT(folder.refusal(head + "specimens:\n  - file: B.csv\n"),
             Catch::StartsWith("B.csv: there is no such file"));
  CHECK_THAT(folder.refusal(one("    hight: 20 mm\n")), Catch::Contains("Did you mean `height`?"));
  CHECK_THAT(folder.refusal(head + "common: {mass: 4 g}\nspecimens:\n  - file: A.csv\n"),
             Catch::Contains("unknown key `mass`"));
  CHECK_THAT(
      folder.refusal(one("  - file: A.csv\n")),
      Catch::StartsWith("series.yaml:6:11: specimens[1].file: the specimen is called `A`, as is specimens[0]"));
  CHECK_THAT(folder.refusal(one("    specimen: Z\n")), Catch::Contains("the file holds no specimen `Z`"));
  CHECK_THAT(folder.refusal(one("    columns: {displacement: Displacement, stress: Force}\n")),
             Catch::Contains("`stress` does not go with `displacement`"));
  CHECK_THAT(folder.refusal(one("    columns: {force: Force, stress: Force}\n")),
             Catch::Contains("`force` and `stress` are both given"));
  CHECK_THAT(folder.refusal(one("    columns: {stress: Force}\n")),
             Catch::Contains("the column read as `Force [kN]` holds a force"));
  CHECK_THAT(folder.refusal(one("    units: {force: N}\n")),
             Catch::StartsWith("A.csv:1: the unit of `Force [kN]` is stated"));
  CHECK_THAT(folder.refusal(one("    separator: semicolon\n")), Catch::StartsWith("A.csv:"));
  CHECK_THAT(folder.refusal(
                 head + "specimens:\n  - file: all.csv\n    mass: 3 g\n    units: {displacement: mm, force: N}\n"),
             Catch::Contains("specimens[0].mass: the file holds 2 specimens"));
}
