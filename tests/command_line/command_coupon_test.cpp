#include "command_line/program_run.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

using namespace crushwright;
using namespace program_run;
using Catch::Contains;
using nlohmann::json;

namespace {

const std::string series = (source / "cases/coupons/kelvin_plates.yaml").string();
const std::string demo = (source / "cases/twin_rear_cones.yaml").string();

std::string data_file() {
  std::string text = "Displacement [mm],Force [kN]\n";
  for (int i = 0; i <= 60; ++i) {
    const double strain = 0.012 * i;
    const double rise = strain < 0.02 ? strain / 0.02 : 1;
    text += std::to_string(20 * strain) + "," + std::to_string(2.0 * rise * (1 + 0.2 * strain)) + "\n";
  }
  return text;
}

} // namespace

TEST_CASE("a described series is reduced, summarised, fitted, compared and packed") {
  const TemporaryFolder folder("coupon_series");
  const Ended ended = run(folder, {"coupon", series});
  INFO(ended.out << ended.err);
  REQUIRE(ended.code == 0);
  CHECK(ended.err.empty());
  for (const char* part :
       {"Kelvin blocks of three densities, crushed\n", "kelvin along 100, AlSi10Mg-stress-relieved",
        "Specimens (plateau: mean from 20 to 40 % strain)", "claim at least", "plateau stress: C = ",
        "Predicted without these tests, over measured", "Page: kelvin_plates_coupons/coupons.html\n"})
    CHECK_THAT(ended.out, Contains(part));
  const std::string page = bytes_of(folder.path() / "kelvin_plates_coupons/coupons.html");
  for (const char* part : {"What may be claimed", "Laws over relative density", "Conditions of the standard",
                           "Predicted against measured", "Handled on the way"})
    CHECK_THAT(page, Contains(part));
}

TEST_CASE("the exponent that the example was made with lies inside the interval that its tests give") {
  const TemporaryFolder folder("coupon_json");
  const Ended ended = run(folder, {"coupon", series, "--json", "--no-pack"});
  REQUIRE(ended.code == 0);
  const json document = json::parse(ended.out);
  const json& law = document["lattice_tests"]["laws"][0];
  // Made with sigma = 3.05 MPa (rho/0.085)^1.92, scatter 3 % (the files say that they are invented).
  CHECK(law["property"] == "plateau stress");
  CHECK(law["exponent"]["low"].get<double>() < 1.92);
  CHECK(law["exponent"]["high"].get<double>() > 1.92);
  CHECK(document["lattice_tests"]["specimens"].size() == 9);
  CHECK(document["predictions"].size() == 9);
  CHECK(document["command"] == "coupon");
}

TEST_CASE("what was measured goes into a folder of one's own, and an estimate then rests on it and says what it was "
          "before") {
  const TemporaryFolder folder("coupon_write");
  const Ended written = run(folder, {"coupon", series, "--no-pack", "--write", "mine"});
  INFO(written.out << written.err);
  REQUIRE(written.code == 0);
  CHECK_THAT(written.out, Contains("Written to mine/unit_cells/kelvin.yaml. Use it: --catalogue mine\n"));
  CHECK_THAT(bytes_of(folder.path() / "mine/unit_cells/kelvin.yaml"), Contains("sha256: "));
  const Ended judged = run(folder, {"estimate", demo, "--catalogue", "mine", "--no-pack"});
  INFO(judged.out << judged.err);
  CHECK_THAT(judged.out, Contains("Without the measured laws, on published, computed or generic ones: pass."));
  const Ended as_json = run(folder, {"estimate", demo, "--catalogue", "mine", "--no-pack", "--json"});
  const json document = json::parse(as_json.out);
  CHECK(document["verdict_without_measured"]["word"] == "pass");
  CHECK(document["structures"][0].dump().find("coupons-kelvin_plates") != std::string::npos);
}

TEST_CASE("an entry that stands in the folder already keeps all that is its own") {
  const TemporaryFolder folder("coupon_keeps");
  std::filesystem::create_directories(folder.path() / "mine/unit_cells");
  const std::string own = "# a remark of the user's\n" + bytes_of(source / "lattices/unit_cells/kelvin.yaml");
  folder.write("mine/unit_cells/kelvin.yaml", own);
  REQUIRE(run(folder, {"coupon", series, "--no-pack", "--write", "mine"}).code == 0);
  const std::string once = bytes_of(folder.path() / "mine/unit_cells/kelvin.yaml");
  CHECK_THAT(once, Catch::StartsWith("# a remark of the user's\n"));
  CHECK_THAT(once, Contains("coupons-kelvin_plates"));
  REQUIRE(run(folder, {"coupon", series, "--no-pack", "--write", "mine"}).code == 0);
  CHECK(bytes_of(folder.path() / "mine/unit_cells/kelvin.yaml") == once);
}

TEST_CASE("a case is judged without and with the tests at one go, and nothing is written for it") {
  const TemporaryFolder folder("coupon_case");
  const Ended ended = run(folder, {"coupon", series, "--no-pack", "--case", demo});
  INFO(ended.out << ended.err);
  REQUIRE(ended.code == 0);
  CHECK_THAT(ended.out, Contains("Verdict on twin_rear_cones"));
  CHECK_THAT(ended.out, Contains("  without these tests: pass."));
  CHECK_THAT(ended.out, Contains("  with them: "));
  CHECK(std::filesystem::is_empty(folder.path()) == false); // the captured output of the run alone
  CHECK_FALSE(std::filesystem::exists(folder.path() / "mine"));
}

TEST_CASE("a data file that says its columns and units needs no description") {
  const TemporaryFolder folder("coupon_file");
  folder.write("block.csv", data_file());
  const Ended ended = run(folder, {"coupon", "block.csv", "--area", "400 mm2", "--height", "20 mm", "--no-pack"});
  INFO(ended.out << ended.err);
  REQUIRE(ended.code == 0);
  // 2 kN over 400 mm2, times 1.06 at 30 % strain.
  CHECK_THAT(ended.out, Contains("5.3"));
  CHECK_THAT(ended.out, Contains("no law; the base material's proof stress is not known"));
}

TEST_CASE("bars of the metal give its properties, and they go into its entry") {
  const TemporaryFolder folder("coupon_bars");
  std::string text = "Strain [%],Stress [MPa]\n";
  for (int i = 0; i <= 200; ++i) {
    const double stress = 1.4 * i;
    text += std::to_string(100 * (stress / 70000 + std::pow(stress / 420, 1 / 0.12))) + "," + std::to_string(stress) +
            "\n";
  }
  folder.write("bar.csv", text);
  folder.write("bars.yaml",
               "schema: 1\ntitle: Bars\ntest: metal_tension\nmaterial: AlSi10Mg-stress-relieved\n"
               "source: invented for this test\ncommon: {area: 20 mm2, height: 25 mm, strain_rate: 0.001 1/s}\n"
               "specimens:\n  - {file: bar.csv, id: one}\n");
  const Ended ended = run(folder, {"coupon", "bars.yaml", "--no-pack", "--write", "mine"});
  INFO(ended.out << ended.err);
  REQUIRE(ended.code == 0);
  CHECK_THAT(ended.out, Contains("0.2 % proof"));
  const std::string entry = bytes_of(folder.path() / "mine/base_materials/AlSi10Mg-stress-relieved.yaml");
  CHECK_THAT(entry, Contains("invented for this test: mean of 1 test (metal_tension)"));
  CHECK_THAT(entry, Contains("rate_factor:"));
}

TEST_CASE("options that a description holds itself, or files that do not go together, are refused") {
  const TemporaryFolder folder("coupon_refused");
  folder.write("block.csv", data_file());
  const auto words = [&](const std::vector<std::string>& arguments) {
    const Ended ended = run(folder, arguments);
    CHECK(ended.code == 2);
    return ended.err;
  };
  CHECK_THAT(words({"coupon", series, "--area", "400 mm2"}), Contains("--area stands beside a description"));
  CHECK_THAT(words({"coupon", "block.csv", series}), Contains("is a description and stands beside other files"));
  CHECK_THAT(words({"coupon", "block.csv"}), Contains("the cross-section is not stated"));
  CHECK_THAT(words({"coupon", "block.csv", "--area", "400 mm2", "--height", "20 mm", "--write", "mine"}),
             Contains("none is named"));
  CHECK_THAT(words({"coupon", "block.csv", "--test", "bending"}), Contains("not a kind of test"));
  CHECK_FALSE(std::filesystem::exists(folder.path() / "mine"));
}
