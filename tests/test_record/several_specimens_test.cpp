#include "test_record/read_text.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

std::vector<std::string> ids(const std::vector<TestRecord>& records) {
  std::vector<std::string> found;
  for (const TestRecord& record : records)
    found.push_back(record.specimen.id);
  return found;
}

using Ids = std::vector<std::string>;

} // namespace

TEST_CASE("a column tells the specimens of a file apart") {
  const auto records =
      read_all_records("Specimen;Displacement [mm];Force [N]\nA;0;0.5\nA;1;2\nB;0;3\nB;1;4\nA;2;5\n");
  REQUIRE(ids(records) == Ids{"press-A", "press-B"});
  CHECK(records[0].points.size() == 3);
  CHECK(records[0].points[2].load == 5);
  CHECK(records[1].points[0].load == 3);
  CHECK(records[0].remarks == std::vector<std::string>{"line 6: the specimen A goes on behind lines of another"});
  CHECK(records[1].remarks.empty());

  TableOptions options;
  options.specimen_column = "Sample";
  CHECK(ids(read_all_records("Sample;Displacement [mm];Force [N]\n7;0;0.5\n7;1;2\n8;0;3\n8;1;4\n", options)) ==
        Ids{"press-7", "press-8"});
}

TEST_CASE("headings that are repeated begin the next specimen") {
  const std::string heads = "Displacement [mm];Force [N]\n";
  const auto records = read_all_records(heads + "0;0.5\n1;2\n\n" + heads + "0;3\n1;4\n2;5\n");
  REQUIRE(ids(records) == Ids{"press-1", "press-2"});
  CHECK(records[1].points.size() == 3);
  CHECK(records[1].points[0].line == 6);
}

TEST_CASE("each block has its own columns and units, and a line above it may name its specimen") {
  const auto records =
      read_all_records("Specimen: A7\nDisplacement [mm];Force [N]\n0;0.5\n1;2\n\nSpecimen: B2\nHeight; 20 mm\n"
                       "Force;Displacement\nkN;mm\n0.25;0\n0.5;3\n");
  REQUIRE(ids(records) == Ids{"press-A7", "press-B2"});
  CHECK(records[1].points[1].load == 500);
  CHECK(records[1].points[1].along == 3e-3);
  CHECK(records[1].remarks == std::vector<std::string>{"lines 6 to 7: skipped, text above the headings"});
}

TEST_CASE("specimens side by side are told apart by their headings' labels, whatever their order") {
  const auto records = read_all_records(
      "Force A [N];Displacement A [mm];Displacement B [mm];Force B [N]\n0.5;0;0;3\n2;1;1;4\n;;2;5\n");
  REQUIRE(ids(records) == Ids{"press-A", "press-B"});
  CHECK(records[0].points.size() == 2);
  REQUIRE(records[1].points.size() == 3);
  CHECK(records[1].points[2].load == 5);
  CHECK(records[1].points[2].along == 2e-3);
}

TEST_CASE("specimens side by side under the same headings in turn are numbered") {
  const auto records =
      read_all_records("Time [s],Force [N],Stroke [mm],Force [N],Stroke [mm]\n0,0.5,0,3,0\n1,2,1,4,1\n2,5,2\n");
  REQUIRE(ids(records) == Ids{"press-1", "press-2"});
  CHECK(records[0].points.size() == 3);
  CHECK(records[1].points.size() == 2);
  CHECK(records[1].points[1].time == 1);
}
