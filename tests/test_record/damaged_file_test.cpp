#include "test_record/read_text.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace crushwright;

namespace {

const std::vector<std::string> sound{
    "Operator: nobody\nDisplacement [mm];Force [kN]\n0;0.5\n1.25;2\n2;-3e0\n",
    "\xEF\xBB\xBF# note\r\nForce\tStroke\tTime\r\nkN\tmm\ts\r\n0,5\t0\t0\r\n2\t1,25\t1\r\n3\t2\t2\r\n",
    "Specimen,\"Strain [%]\",Stress (MPa)\nA,0,0.5\nA,1,2\n\"B \"\"2\"\"\",0,3\n\"B \"\"2\"\"\",1,4\nA,2,4\n",
    "Force A [N];Stroke A [mm];Force B [N];Stroke B [mm]\n1;0;1;0\n2;1;1.5;1\n3;2;;\n",
    "Specimen: A\nForce_kN  Stroke_mm\n1 0\n2 .5\n\nSpecimen: B\nForce_kN  Stroke_mm\n-1 0\n-2 -1\n",
    "% Displacement [mm], Force [N]\n0,0.5\n-1,-2.5\n-2,-3.5\n"};

/// 1 when a text was refused. Whatever is read must be sound; anything but an InputError in our layout fails.
std::size_t refused(const std::string& text, const TableOptions& options = {}) {
  try {
    for (const TestRecord& record : read_test_text(text, "press.csv", options, {})) {
      if (record.points.size() < 2 || record.specimen.id.empty())
        throw std::logic_error("a record too small, or without a name");
      std::size_t last = 0;
      for (const RecordPoint& point : record.points) {
        if (!std::isfinite(point.along) || !std::isfinite(point.load) || point.line <= last)
          throw std::logic_error("a point that is not finite or out of order");
        last = point.line;
      }
    }
  } catch (const InputError& error) {
    const std::string message = error.what();
    if (message.find("press.csv") != 0 || message.find("\n   ") == std::string::npos)
      throw std::logic_error("a message without place or advice: " + message);
    return 1;
  }
  return 0;
}

constexpr char trouble[] = "\0\t\n\r \"#%+,-./;:019NaeE[](]\x7F\x80\xC2\xFF";

} // namespace

TEST_CASE("the sound files of this test are read") {
  for (const std::string& text : sound) {
    CAPTURE(text);
    CHECK(refusal(text) == "(read)");
  }
}

TEST_CASE(
    "a data file cut short anywhere, or with one byte more, fewer or changed, is read or refused by a message") {
  const std::string bytes(trouble, sizeof trouble - 1);
  std::size_t refusals = 0;
  for (const std::string& text : sound) {
    for (std::size_t at = 0; at < text.size(); ++at) {
      CAPTURE(text, at);
      REQUIRE_NOTHROW(refused(text.substr(0, at)));
      REQUIRE_NOTHROW(refusals += refused(text.substr(0, at) + text.substr(at + 1)));
      for (const char byte : bytes) {
        REQUIRE_NOTHROW(refusals += refused(text.substr(0, at) + byte + text.substr(at)));
        std::string changed = text;
        changed[at] = byte;
        REQUIRE_NOTHROW(refusals += refused(changed));
      }
    }
  }
  CHECK(refusals > 1000);
}

TEST_CASE("a data file with bytes or lines shuffled is read or refused by a message, whatever is stated beside it") {
  std::mt19937 random(6011);
  // Raw engine output, because distributions may differ between standard libraries.
  for (int round = 0; round < 6000; ++round) {
    std::string damaged = sound[random() % sound.size()];
    const std::size_t changes = 1 + random() % 12;
    for (std::size_t i = 0; i < changes; ++i) {
      const std::size_t one = random() % damaged.size(), other = random() % damaged.size();
      if (random() % 4 == 0)
        damaged.insert(one, damaged.substr(other, random() % 30));
      else
        std::swap(damaged[one], damaged[other]);
    }
    TableOptions options;
    if (random() % 3 == 0)
      options.separator = ",;\t "[random() % 4];
    if (random() % 3 == 0)
      options.decimal_mark = ".,"[random() % 2];
    if (random() % 4 == 0)
      options.along_column = std::vector<std::string>{"#1", "#2", "Stroke", "Strain"}[random() % 4];
    if (random() % 4 == 0)
      options.load_column = std::vector<std::string>{"#1", "#2", "#9", "Force_kN"}[random() % 4];
    if (random() % 4 == 0)
      options.load_unit = std::vector<std::string>{"N", "MPa", "mm", "?"}[random() % 4];
    if (random() % 4 == 0)
      options.along_unit = std::vector<std::string>{"mm", "%", "kN", "-"}[random() % 4];
    CAPTURE(round, damaged);
    REQUIRE_NOTHROW(refused(damaged, options));
  }
}
