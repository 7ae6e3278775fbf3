#include "test_record/read_text.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

struct Malformed {
  std::string text;
  std::string begins; ///< of the message: file, line and what is wrong
};

void check(const std::vector<Malformed>& files, const TableOptions& options = {}) {
  for (const Malformed& file : files) {
    CAPTURE(file.text);
    const std::string message = refusal(file.text, options);
    CHECK_THAT(message, Catch::StartsWith(file.begins));
    CHECK(message.find("\n   ") != std::string::npos); // what to do
  }
}

const std::string heads = "Displacement [mm];Force [kN]\n";

} // namespace

TEST_CASE("a refusal is whole: file, line, what was found and expected, the line itself, what to do") {
  CHECK(refusal(heads + "0;0.5\n1;abc\n") ==
        "press.csv:3: `abc` under `Force [kN]` is not a number; digits with a decimal point were expected\n"
        "    3 | 1;abc\n"
        "   Correct the cell, or delete the line. Units stand in the heading, not in the cells.");
  CHECK(refusal("Displacement [mm];Force [kN]\n1,250;1,234\n2,500;1,300\n") ==
        "press.csv:2: `1,250` can mean 1.250 or 1250, and nothing in the file tells which\n"
        "    2 | 1,250;1,234\n"
        "   State `decimal_mark`: point or comma.");
}

TEST_CASE("files that are no text are refused") {
  check({{"", "press.csv: the file is empty"},
         {" \r\n\n\t\n", "press.csv: the file is empty"},
         {"\xEF\xBB\xBF", "press.csv: the file is empty"},
         {std::string("\xFF\xFE", 2) + "F", "press.csv: the file is UTF-16 text"},
         {"PK\x03\x04zzz", "press.csv: the file is a packed document"},
         {"%PDF-1.4\n", "press.csv: the file is a page for printing"},
         {heads + std::string("0;\0\n", 4), "press.csv:2: the file is binary"},
         {heads + "0;0.5\n1;2\x01\n", "press.csv:3: the control character 0x01"},
         {heads + "0;0.5\r1;2\r\n", "press.csv:2: a carriage return stands inside a line"},
         {"Displacement [\xB5m];Force [kN]\n0;0.5\n1;2\n", "press.csv:1: byte 0xB5 is not UTF-8 text"}});
}

TEST_CASE("numbers that cannot be read are refused with their line") {
  check({{heads + "0;0.5\n1;NaN\n2;3\n", "press.csv:3: `NaN` under `Force [kN]` is not finite"},
         {heads + "0;0.5\n-inf;2\n2;3\n", "press.csv:3: `-inf` under `Displacement [mm]` is not finite"},
         {heads + "0;0.5\n1;\n2;3\n", "press.csv:3: the cell under `Force [kN]` is empty"},
         {heads + "0;0.5\n;2\n2;3\n", "press.csv:3: the cell under `Displacement [mm]` is empty"},
         {heads + "0;0.5\n1;2 kN\n", "press.csv:3: `2 kN` under `Force [kN]` is not a number"},
         {heads + "0;0.5\n1;0x1F\n", "press.csv:3: `0x1F` under"},
         {heads + "0;0.5\n1;--2\n", "press.csv:3: `--2` under"},
         {heads + "0;0.5\nx;2\n2;3\n", "press.csv:3: `x` stands where a number was expected"},
         {heads + "0;0.5\n1;1e999\n", "press.csv:3: `1e999` under `Force [kN]` is too large"},
         {heads + "0;0.5\n1;1e307\n", "press.csv:3: `1e307` under `Force [kN]` is too large"},
         {heads + "0;0.5\n1;2\u00a0000\n", "press.csv:3: `2\u00a0000` under"}});
}

TEST_CASE("lines with too few or too many cells are refused") {
  check({{heads + "0;0.5\n1\n2;3\n", "press.csv:3: this line has 1 cell parted by semicolon; 2 were expected"},
         {heads + "0;0.5\n1;2;3\n", "press.csv:3: this line has 3 cells parted by semicolon; 2 were expected"},
         {"Displacement [mm],Force [kN]\n0,5,1,5\n1,5,2,5\n", "press.csv:2: this line has 4 cells parted by comma"},
         {"Displacement [mm] Force [kN]\n0.5 1 9\n1 2 9\n", "press.csv:2: this line has 3 cells parted by blank"},
         {heads + "0;\"0.5\n1;2\n", "press.csv:2: a double quote does not open and close a whole cell"},
         {heads + "0;0.5\n1;\"2\"x\n", "press.csv:3: a double quote does not open and close"},
         {heads + "0;0.5\n1;2\"\n", "press.csv:3: a double quote does not open and close"}});
}

TEST_CASE("files without data enough are refused") {
  check(
      {{heads, "press.csv:1: no line of data follows these headings"},
       {"Displacement [mm];Force [kN]", "press.csv:1: no line of data follows"},
       {heads + "0;0.5\n", "press.csv:2: there is one line of data; two or more were expected"},
       {"1;2\n", "press.csv:1: numbers stand here without a line of headings"},
       {"hello\n", "press.csv:1: no line of data was found"},
       {"# nothing but this\n", "press.csv:1: no line of data was found"},
       {heads + "0;0.5\n1;2\n" + heads, "press.csv:4: no line of data follows these headings"},
       {"Specimen;Displacement [mm];Force [kN]\nA;0;0.5\nA;1;2\nB;0;1\n", "press.csv:4: `B` has one line of data"}});
}

TEST_CASE("columns that cannot be told are refused, with all headings") {
  check(
      {{"Time [s];Position [mm]\n0;0.5\n1;2\n",
        "press.csv:1: no column of displacement or strain was found among the headings `Time [s]` (#1), `Position "
        "[mm]` (#2)"},
       {"Displacement [mm];Channel 2\n0;0.5\n1;2\n", "press.csv:1: no column of force or stress was found"},
       {"True strain [-];True stress [MPa]\n0;0.5\n1;2\n", "press.csv:1: no column of displacement or strain"},
       {"Displacement [mm];Max. force [kN]\n0;0.5\n1;2\n", "press.csv:1: no column of force or stress"},
       {"Crosshead displacement [mm];Extensometer displacement [mm];Force [kN]\n0;0;0.5\n1;1;2\n",
        "press.csv:1: more than one column could be the displacement or strain: `Crosshead displacement [mm]` (#1), "
        "`Extensometer displacement [mm]` (#2)"},
       {"Displacement [mm];Force [kN];Load [kN]\n0;0;0.5\n1;1;2\n",
        "press.csv:1: more than one column could be the load"},
       {"Displacement [mm];Force [kN];Strain [%];Stress [MPa]\n0;0;0;0.5\n1;1;1;2\n",
        "press.csv:1: force over displacement and stress over strain are both there"},
       {"Displacement [mm];Stress [MPa]\n0;0.5\n1;2\n", "press.csv:1: the columns do not go together"},
       {"Specimen;Coupon;Displacement [mm];Force [kN]\na;b;0;0.5\na;b;1;2\n",
        "press.csv:1: more than one column could be the specimen"},
       {"Test time [s];Machine time [s];Displacement [mm];Force [kN]\n0;0;0;0.5\n1;1;1;2\n",
        "press.csv:1: more than one column could be the time"}});
  TableOptions options;
  options.along_column = "Stroke";
  options.load_column = "#4";
  CHECK_THAT(refusal("Displacement [mm];Force [kN]\n0;0.5\n1;2\n", options),
             Catch::StartsWith("press.csv:1: no heading is `Stroke`"));
  options.along_column = "Displacement";
  CHECK_THAT(refusal("Displacement [mm];Force [kN]\n0;0.5\n1;2\n", options),
             Catch::StartsWith("press.csv:1: there is no column #4"));
  options.load_column = "#1";
  CHECK_THAT(
      refusal("Displacement [mm];Force [kN]\n0;0.5\n1;2\n", options),
      Catch::StartsWith("press.csv:1: the column `Displacement [mm]` (#1) is named for the load, but neither its "
                        "heading nor its unit tells a force or a stress"));
  options.load_column = "#zero";
  CHECK_THAT(refusal("Displacement [mm];Force [kN]\n0;0.5\n1;2\n", options),
             Catch::StartsWith("press.csv: the column `#zero` is no column's number"));
  options.load_column = "Channel";
  CHECK_THAT(refusal("Displacement [mm];Channel\n0;0.5\n1;2\n", options),
             Catch::StartsWith("press.csv:1: the column `Channel` (#2) is named for the load, but neither"));
  options.along_column = options.load_column = "#1";
  options.along_unit = "mm";
  options.load_unit = "kN";
  CHECK_THAT(refusal("Channel;Channel 2\n0;0.5\n1;2\n", options),
             Catch::StartsWith("press.csv:1: one column, `Channel` (#1), is named for both"));
}

TEST_CASE("units that are missing, foreign, misspelt or stated twice are refused") {
  check({{"Displacement [mm];Force\n0;0.5\n1;2\n",
          "press.csv:1: the column `Force` has no unit; a unit of force was expected (kN, N, MN)"},
         {"Strain;Stress [MPa]\n0;0.5\n1;2\n",
          "press.csv:1: the column `Strain` has no unit; - for a bare fraction or % for per cent was expected"},
         {"Displacement [mm];Force [lbf]\n0;0.5\n1;2\n",
          "press.csv:1: `lbf`, the unit of `Force [lbf]`, is not an accepted"},
         {"Displacement (in);Force (kN)\n0;0.5\n1;2\n", "press.csv:1: `in`, the unit of"},
         {"Displacement_mm;Force_KN\n0;0.5\n1;2\n", "press.csv:1: `KN`, the unit of `Force_KN`"},
         {"Displacement [mm];Force [mN]\n0;0.5\n1;2\n", "press.csv:1: `mN`, the unit of"}, // a billionth of MN
         {"Displacement [mm];Force [mm]\n0;0.5\n1;2\n", "press.csv:1: `mm`, the unit of `Force [mm]`"},
         {"Displacement;Force\nmm;psi\n0;0.5\n1;2\n", "press.csv:1: `psi`, the unit of"},
         {"Displacement [mm];Force [kN]\nmm;N\n0;0.5\n1;2\n",
          "press.csv:2: the unit of `Force [kN]` is `kN` in its heading and `N` in the line of units"}});
  TableOptions options;
  options.load_unit = "N";
  CHECK_THAT(
      refusal("Displacement [mm];Force [kN]\n0;0.5\n1;2\n", options),
      Catch::StartsWith("press.csv:1: the unit of `Force [kN]` is stated as `kN` in the file and as `N` beside it"));
}

TEST_CASE("two possible readings of a number are refused, never guessed") {
  check({{heads + "1,250;12\n2,500;13\n", "press.csv:2: `1,250` can mean 1.250 or 1250"},
         {heads + "1.250;12\n2.500;13\n", "press.csv:2: `1.250` can mean 1.250 or 1250"},
         {heads + "0.5;12\n0,75;13\n", "press.csv:3: `0,75` does not go with `0.5` on line 2"},
         {heads + "0.5;12\n1.5;1,300\n", "press.csv:3: `1,300` has a mark between thousands"},
         {heads + "0,5;12\n1,5;1.300\n", "press.csv:3: `1.300` has a mark between thousands"},
         {heads + "0.5;12\n1.5;1,300,000\n", "press.csv:3: `1,300,000` has a mark between thousands"},
         {heads + "0.5;12\n1.5;1.300,5\n", "press.csv:3: `1.300,5` has a mark between thousands"}});
  TableOptions options;
  options.decimal_mark = ',';
  CHECK_THAT(refusal(heads + "0,5;12\n1.5;13\n", options),
             Catch::StartsWith("press.csv:3: `1.5` does not go with the stated decimal mark, a comma"));
  TableOptions numbered;
  numbered.along_column = "#1";
  numbered.load_column = "#2";
  numbered.along_unit = "mm";
  numbered.load_unit = "kN";
  CHECK_THAT(refusal("0,5,1,5\n1,5,2,5\n", numbered), Catch::StartsWith("press.csv:1: without headings, a comma on"));
}

TEST_CASE("lines that are out of place are refused") {
  check({{"0;0.5\n" + heads + "1;2\n2;3\n", "press.csv:1: numbers stand above the line of headings"},
         {heads + "0;0.5\n1;2\nGreatest force: 2 kN\n", "press.csv:4: this line is neither data nor headings"},
         {heads + "0;0.5\nslipped\n1;2\n", "press.csv:3: this line is neither data nor headings"},
         {heads + "0;0.5\n1;2\n\n0;0.5\n1;2\n", "press.csv:5: data go on behind the blank line 4"},
         {heads + "0;0.5\n1;2\n;\n0;0.5\n1;2\n", "press.csv:5: data go on behind the blank line 4"},
         {"Specimen;Displacement [mm];Force [kN]\nA;0;0.5\n;1;2\nA;2;3\n",
          "press.csv:3: the cell that names the specimen is empty"},
         {"Force A [N];Stroke A [mm];Force B [N];Stroke B [mm]\n1;0;1;0\n2;1;;\n3;2;3;2\n",
          "press.csv:4: the data under `Force B [N]` go on here, but their cells were empty on line 3"},
         {"Specimen: A\n" + heads + "0;0.5\n1;2\n\nSpecimen: A\n" + heads + "0;1\n1;3\n",
          "press.csv:8: the data of the specimen `A` begin here, but it already has data from line 3 on"}});
}

TEST_CASE("signs that do not tell the direction are refused") {
  check({{heads + "0;0.5\n-1;2\n-2;-3\n-3;4\n",
          "press.csv:3: `Displacement [mm]` is mostly negative and `Force [kN]` is not"},
         {heads + "0;-0.5\n1;2\n2;-3\n3;-4\n",
          "press.csv:2: `Force [kN]` is mostly negative and `Displacement [mm]` is not"}});
  check({{heads + "-5;0.5\n-4;2\n-1;3\n1;4\n",
          "press.csv:2: `Displacement [mm]` is mostly negative, but also well above"},
         {heads + "-5;0.5\n-4;2\n-3;3\n", "press.csv:4: `Displacement [mm]` is negative and grows towards zero"}});
  TableOptions stated;
  stated.compression_is_negative = true;
  CHECK_THAT(
      refusal(heads + "0;0.5\n1;2\n", stated),
      Catch::StartsWith("press.csv:2: compression is stated to be negative, but `Displacement [mm]` is mostly not"));
}
