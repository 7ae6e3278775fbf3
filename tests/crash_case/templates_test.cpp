#include "crash_case/unconfirmed.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <vector>

using namespace crushwright;

namespace {

const std::filesystem::path folder = std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "cases/templates";

std::vector<CrashCase> templates() {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  std::vector<CrashCase> cases;
  for (const auto& file : files)
    cases.push_back(read_case(file));
  return cases;
}

const CrashCase& named(const std::vector<CrashCase>& cases, const std::string& id) {
  return *std::find_if(cases.begin(), cases.end(), [&](const CrashCase& each) { return each.id == id; });
}

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("every scenario has its template, with a car that is said to be invented") {
  std::vector<std::string> ids;
  for (const CrashCase& each : templates()) {
    ids.push_back(each.id);
    INFO(each.id);
    CHECK(each.invented);
    CHECK(contains(each.title, "in the style of"));
    CHECK(contains(each.vehicle, "invented"));
    CHECK(contains(each.description, "invented"));
    for (const ImpactInput& impact : each.impacts)
      CHECK(impact.face);
  }
  CHECK(ids == std::vector<std::string>{"fmvss_301_style", "rcar_rear_structural_style", "student_attenuator_style",
                                        "un_r153_style", "un_r32_style", "un_r42_style"});
}

TEST_CASE("what a template recalls says so, and what a rule asks for asks back for its edition") {
  for (const CrashCase& each : templates()) {
    INFO(each.id);
    std::size_t recalled = 0;
    for (const Quantity& quantity : each.all_quantities) {
      INFO(quantity.path << ": " << quantity.source.text);
      const bool says_so = contains(quantity.source.text, "recalled; confirm against the edition that applies");
      CHECK((quantity.source.standing == Standing::memory) == says_so);
      if (quantity.source.standing == Standing::read)
        CHECK(contains(quantity.source.text, "confirm against the edition that applies"));
      recalled += says_so ? 1 : 0;
    }
    // All of the student rule was read.
    CHECK((recalled > 0) == (each.id != "student_attenuator_style"));
    std::size_t asked = 0;
    for (const Limit& limit : each.limits)
      if (limit.status != LimitStatus::internal) {
        CHECK(limit.requirement.edition == edition_to_state);
        CHECK_FALSE(limit.requirement.identifier.empty());
        ++asked;
      }
    CHECK(asked > 0);
    const std::vector<std::string> told = unconfirmed(each);
    CHECK(told.size() == asked + (recalled > 0 ? 1 : 0));
    CHECK(contains(told.front(), "the edition"));
  }
}

TEST_CASE("the crushable face of a template stands as high as it was recalled, 50 mm lower than before a side") {
  const auto cases = templates();
  const FaceInput& face = *named(cases, "fmvss_301_style").impacts.front().face;
  // Memory (FMVSS 301): 1676 x 559 mm from 279 mm up, strip 203 mm high from 330 mm up, 102 and 381 mm deep, 1690 and
  // 310 kPa; lowered by 50 mm (read).
  CHECK(face.width.value == Approx(1.676));
  CHECK(face.height.value == Approx(0.559));
  CHECK(face.lower_edge.value == Approx(0.279 - 0.050));
  // 70 % of 1780 mm from the left.
  CHECK(face.lateral.value == Approx(0.890 - 0.7 * 1.780 + 1.676 / 2));
  REQUIRE(face.blocks.size() == 2);
  CHECK(face.blocks[0].lower_edge->value == Approx(0.330 - 0.050));
  CHECK(face.blocks[0].height->value == Approx(0.203));
  CHECK(face.blocks[0].depth.value == Approx(0.102));
  CHECK(face.blocks[0].crush_pressure.value == Approx(1.69e6));
  CHECK(face.blocks[1].depth.value == Approx(0.381));
  CHECK(face.blocks[1].crush_pressure.value == Approx(0.31e6));
  // The blocks are pressed over the overlap: from there to the car's left side.
  for (const FaceBlock& block : face.blocks) {
    CHECK(block.width->value == Approx(0.7 * 1.780));
    CHECK(block.lateral->value == Approx((0.890 - 0.7 * 1.780 + 0.890) / 2));
  }
}
