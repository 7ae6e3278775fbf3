#include "test_record/read_text.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

using namespace crushwright;

namespace {

// The same invented test in SI and as lines of numbers.
struct Sample {
  double displacement, force; // mm, kN
};
const std::vector<Sample> samples{{0, 0.002}, {0.125, 1.75}, {0.5, 12.3456}, {1.25, 11.9}, {10, 1.3e1}};

std::string lines(const std::string& separator, char mark, const std::string& end = "\n", bool quoted = false) {
  const std::vector<std::string> numbers{"0",       "0.002", "0.125", "1.75", "0.5",
                                         "12.3456", "1.25",  "11.9",  "+10",  "1.3e1"};
  std::string text;
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    std::string number = numbers[i];
    for (char& letter : number)
      letter = letter == '.' ? mark : letter;
    text += (quoted ? "\"" + number + "\"" : number) + (i % 2 == 0 ? separator : end);
  }
  return text;
}

void check_samples(const TestRecord& record) {
  REQUIRE(record.points.size() == samples.size());
  const TestRecord plain = read_one("Displacement [mm],Force [kN]\n" + lines(",", '.'));
  CHECK(record.kind == RecordKind::force_displacement);
  for (std::size_t i = 0; i < samples.size(); ++i) {
    CHECK(record.points[i].along == plain.points[i].along); // to the last bit
    CHECK(record.points[i].load == plain.points[i].load);
    CHECK(record.points[i].along == Approx(samples[i].displacement * 1e-3).epsilon(1e-15));
    CHECK(record.points[i].load == Approx(samples[i].force * 1e3).epsilon(1e-15));
  }
}

bool has_remark(const TestRecord& record, const std::string& remark) {
  return std::find(record.remarks.begin(), record.remarks.end(), remark) != record.remarks.end();
}

} // namespace

TEST_CASE("separator, decimal mark, line ends, quotes and order of columns change no bit of the data") {
  const std::string heads = "Displacement [mm]", loads = "Force [kN]";
  for (const std::string separator : {",", ";", "\t", " ", "   "}) {
    CAPTURE(separator);
    check_samples(read_one(heads + separator + loads + "\n" + lines(separator, '.')));
    check_samples(read_one("\xEF\xBB\xBF" + heads + separator + loads + "\r\n" + lines(separator, '.', "\r\n")));
    check_samples(read_one(heads + separator + loads + "\n" + lines(separator, '.', "\n", true)));
    check_samples(read_one(heads + separator + loads + "\n" + lines(separator, ',', "\n", true)));
    if (separator != ",")
      check_samples(read_one(heads + separator + loads + "\n" + lines(separator, ',')));
  }
  check_samples(read_one("Force [kN];Displacement [mm]\n0,002;0\n1,75;0,125\n12,3456;0,5\n11,9;1,25\n13;10\n"));
}

TEST_CASE("a unit in the heading, in a line of its own or beside the file gives the same data") {
  for (const std::string heads :
       {"Displacement [mm];Force [kN]", "displacement (mm);FORCE (kN)", "Displacement / mm;Force / kN",
        "displacement_mm;force_kN", "Displacement, mm;Force, kN", "Displacement in mm;Force in kN",
        "Displacement mm;F/kN", "Displacement;Force\nmm;kN", "Displacement;Force\n[mm];[kN]",
        "Displacement;Force\n(mm);(kN)", "  Crosshead displacement [ mm ] ; \"Load [kN]\" ", "Stroke [mm];Load [kN]",
        "Load-line displacement [mm];Axial load [kN]", "Weg [mm];Kraft [kN]", "Crush [mm];Force [kN];;"}) {
    CAPTURE(heads);
    check_samples(read_one(heads + "\n" + lines(";", '.')));
  }
  TableOptions options;
  options.along_unit = "mm";
  options.load_unit = "kN";
  check_samples(read_one("Displacement;Force\n" + lines(";", '.'), options));
  check_samples(read_one("Displacement [mm];Force\n" + lines(";", '.'), options));
  check_samples(read_one("Force / kN  Displacement / mm\n0.002 0\n1.75 .125\n12.3456 0.5\n11.9 1.25\n13. 10\n"));
  check_samples(read_one("Crosshead displacement (mm)   Axial force (kN)\n" + lines("   ", '.')));
}

TEST_CASE("columns may be named by heading or by number") {
  TableOptions options;
  options.along_column = "channel 3";
  options.load_column = "#2";
  options.along_unit = "mm";
  options.load_unit = "kN";
  const std::string data = "9;0.002;0\n9;1.75;0.125\n9;12.3456;0.5\n9;11.9;1.25\n9;13;10\n";
  check_samples(read_one("Channel_1;Channel_2;Channel_3\n" + data, options));
  options.along_column = "#3";
  check_samples(read_one("Channel 1;Channel 2;Channel 3\n" + data, options));
  check_samples(read_one(data, options)); // no headings at all
  check_samples(read_one("a press\n" + std::string("one;two;three\n") + data, options));
}

TEST_CASE("comments, blank lines and text above the headings are skipped, the text with a remark") {
  const TestRecord record =
      read_one("# made up\n\nOperator: nobody\nHeight; 20; mm\n\n// more\n"
               "Displacement [mm];Force [kN];Note\n\n% still a comment\n0;0.002;\n0.125;1.75;x\n"
               "# within\n0.5;12.3456;\n1.25;11.9;;\n10;13;\n;;\n\n");
  check_samples(record);
  CHECK(record.points[2].line == 13);
  CHECK(has_remark(record, "lines 3 to 4: skipped, text above the headings"));
  CHECK(has_remark(record, "line 16: skipped one line of empty cells from here on"));
  CHECK(record.along_column == "Displacement [mm]");
  CHECK(record.load_column == "Force [kN]");
  CHECK(record.file_name == "press.csv");
  CHECK(record.specimen.id == "press");
}

TEST_CASE("headings may stand in a comment, with their units below") {
  const TestRecord record = read_one("# an invented test\n# Displacement [mm], Force [kN]\n" + lines(",", '.'));
  check_samples(record);
  CHECK(has_remark(record, "line 2: the headings were taken from a comment"));
  check_samples(read_one("# Displacement  Force\n# mm          kN\n" + lines("  ", '.')));
}

TEST_CASE("stress over strain is read with strain as a fraction or in per cent") {
  const TestRecord percent = read_one("Strain [%],Stress [MPa],Time [s]\n0.5,10.25,0\n40,12,60\n");
  CHECK(percent.kind == RecordKind::stress_strain);
  CHECK(percent.has_time);
  CHECK(percent.points[1].along == Approx(0.4).epsilon(1e-15));
  CHECK(percent.points[1].load == Approx(12e6).epsilon(1e-15));
  CHECK(percent.points[1].time == 60);
  for (const std::string head : {"Strain [-]", "Strain / -", "Engineering strain (mm/mm)", "\u03b5 [1]",
                                 "Deformation [-]", "Compressive strain [m/m]"}) {
    CAPTURE(head);
    CHECK(read_one(head + ";\u03c3 [N/mm\u00b2]\n0.005;10.25\n0.4;12\n").points[1].along == 0.4);
  }
}

TEST_CASE("samples stay in the file's order, repeated and falling ones too") {
  const TestRecord record = read_one("Displacement [mm];Force [N]\n2.5;1\n1.5;2\n1.5;2\n3.5;1\n");
  REQUIRE(record.points.size() == 4);
  CHECK(record.points[1].along == record.points[2].along);
  CHECK(record.points[1].along < record.points[0].along);
}

TEST_CASE("a time that runs backwards and a missing line end are remarked") {
  const TestRecord record = read_one("t [s];Displacement [mm];Force [N]\n0;0.5;1\n2;1;1\n1;2;1");
  CHECK(has_remark(record, "line 4: the time runs backwards"));
  CHECK(has_remark(record, "line 4: the file ends without a line end; if its writing was cut off, the last value may "
                           "be short"));
  const TestRecord no_unit = read_one("Time;Displacement [mm];Force [N]\n0;0.5;1\n2;1;1\n");
  CHECK_FALSE(no_unit.has_time);
  CHECK(has_remark(no_unit, "line 1: the column `Time` has no accepted unit of time and is left out"));
}

TEST_CASE("commas before three digits are decimals when another number of the file shows it, or it is stated") {
  const std::string heads = "Displacement [mm];Force [N]\n";
  CHECK(read_one(heads + "0,25;1,234\n0,5;5,678\n").points[0].load == 1.234);
  TableOptions options;
  options.decimal_mark = ',';
  CHECK(read_one(heads + "1,250;1,234\n2,500;5,678\n", options).points[0].load == 1.234);
  options.decimal_mark = '.';
  CHECK(read_one(heads + "1.250;1.234\n2.500;5.678\n", options).points[0].load == 1.234);
  CHECK(read_one("Displacement [mm],Force [N]\n1.250,1.234\n2.500,5.678\n").points[0].load == 1.234);
}

TEST_CASE("data written with compression negative are turned, with a remark") {
  const TestRecord both = read_one("Displacement [mm];Force [N]\n0;0\n-1;-20\n-2;-30\n");
  CHECK(both.points[2].along == 2e-3);
  CHECK(both.points[2].load == 30);
  CHECK_FALSE(std::signbit(both.points[0].along));
  CHECK(has_remark(both, "line 3: `Displacement [mm]` and `Force [N]` are mostly negative; both were turned"));

  const TestRecord one = read_one("Displacement [mm];Force [N]\n0;-0.1\n-1;20\n-2;30\n");
  CHECK(one.points[2].along == 2e-3);
  CHECK(one.points[2].load == 30);
  CHECK(has_remark(one, "line 3: `Displacement [mm]` alone is mostly negative; it was turned"));

  const TestRecord load = read_one("Displacement [mm];Force [N]\n0;-10\n1;-20\n2;-30\n");
  CHECK(load.points[2].load == 30);

  TableOptions stated;
  stated.compression_is_negative = true;
  const TestRecord told = read_one("Displacement [mm];Force [N]\n0;0\n-1;-20\n-2;-30\n", stated);
  CHECK(told.points[2].load == 30);
  CHECK(told.remarks.empty());
}

TEST_CASE("a file on disk reads as its text, and files that are none are refused by name") {
  const std::filesystem::path folder = std::filesystem::temp_directory_path() / "crushwright_test_file";
  std::filesystem::create_directories(folder);
  std::ofstream(folder / "A1.csv") << "Displacement [mm],Force [kN]\n" << lines(",", '.');
  SpecimenFacts facts;
  facts.height = 0.02;
  const std::vector<TestRecord> records = read_test_file(folder / "A1.csv", {}, facts);
  REQUIRE(records.size() == 1);
  check_samples(records.front());
  CHECK(records.front().specimen.id == "A1");
  CHECK(records.front().specimen.height == 0.02);
  facts.id = "own";
  CHECK(read_test_file(folder / "A1.csv", {}, facts).front().specimen.id == "own");
  facts.mass = 0.004;
  CHECK_THROWS_WITH(
      read_test_text("Specimen;Stroke [mm];Load [N]\n1;0;0.5\n1;1;2\n2;0;3\n2;1;4\n", "press.csv", {}, facts),
      Catch::StartsWith("press.csv: the file holds 2 specimens, and one mass"));

  CHECK_THROWS_WITH(read_test_file(folder / "A2.csv", {}, {}),
                    (folder / "A2.csv").generic_string() +
                        ": there is no such file; a file with the data of a test was expected\n   Did you mean "
                        "`A1.csv`? Correct the path.");
  CHECK_THROWS_WITH(read_test_file(folder, {}, {}), Catch::Contains("this is a folder"));
  std::ofstream(folder / "none.csv").flush();
  CHECK_THROWS_WITH(read_test_file(folder / "none.csv", {}, {}), Catch::Contains("none.csv: the file is empty"));
  std::filesystem::resize_file(folder / "none.csv", 200'000'001); // a hole: it takes no room on the disk
  CHECK_THROWS_WITH(read_test_file(folder / "none.csv", {}, {}), Catch::Contains("larger than 200 MB"));
  std::filesystem::remove_all(folder);
}
