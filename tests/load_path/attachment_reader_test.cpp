#include "load_path/attachment_reader.hpp"

#include "load_path/read_block.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

std::string told_of_attachment(const std::string& text) {
  return read_block::told(read_attachment, "attachment", text);
}

std::string told_of_rest(const std::string& text) {
  return read_block::told(read_rest_of_body, "rest_of_body", text);
}

} // namespace

TEST_CASE("an attachment is read with the ends of its capacity") {
  const AttachmentInput rail = read_attachment(read_block::block(
      "attachment", "{capacity: {value: 95 kN, low: 90 kN, high: 105 kN}, stiffness: 30 kN/mm, crush_room: 120 mm, "
                    "bolts: {anything: read elsewhere}}"));
  CHECK(rail.capacity.value == Approx(95e3));
  CHECK(rail.capacity.low_end() == Approx(90e3));
  CHECK(rail.capacity.high_end() == Approx(105e3));
  CHECK(rail.stiffness->value == Approx(30e6));
  CHECK(rail.crush_room->value == Approx(0.120));
  const AttachmentInput least = read_attachment(read_block::block("attachment", "{capacity: 95 kN}"));
  CHECK_FALSE(least.stiffness);
  CHECK_FALSE(least.crush_room);
}

TEST_CASE("the rest of a body is read") {
  const RestOfBodyInput rest = read_rest_of_body(read_block::block(
      "rest_of_body", "{stiffness: 12 kN/mm, capacity: 260 kN, hardening: 0.3 kN/mm, crush_room: 250 mm}"));
  CHECK(rest.stiffness.value == Approx(12e6));
  CHECK(rest.capacity.value == Approx(260e3));
  CHECK(rest.hardening->value == Approx(0.3e6));
  CHECK(rest.crush_room->value == Approx(0.250));
}

TEST_CASE("what carries a structure must be able to crush") {
  CHECK(told_of_attachment("{stiffness: 30 kN/mm}") == "attachment | Add a line, for instance `capacity: 80 kN`.");
  CHECK(told_of_attachment("{capacity: 0 kN}") ==
        "attachment.capacity must be more than 0 kN, not 0 kN | Correct the value or its unit.");
  CHECK(told_of_attachment("{capacity: 90 kN, stiffness: {value: 40 kN/mm, low: 30 kN/mm}, crush_room: 3 mm}") ==
        "attachment.crush_room: it would lock before it crushes: capacity over stiffness is 3 mm | The room is the "
        "whole length that it can lose; give more, or delete the line.");
  CHECK(told_of_attachment("{capacity: {value: 90 kN, coefficient_of_variation: 5 %}}") ==
        "attachment.capacity: this value carries a coefficient of variation, which nothing would use | Give its ends "
        "as `low` and `high`.");
  CHECK(read_block::refusal(read_attachment, "attachment", "{capacty: 90 kN}").find("Did you mean `capacity`?") !=
        std::string::npos);
  CHECK(
      told_of_rest("{stiffness: 1 kN/mm, capacity: 90 kN, hardening: 1 kN/mm}") ==
      "rest_of_body.hardening: the slope beyond the capacity reaches the elastic stiffness, 1 kN/mm | Give a smaller "
      "slope, or delete the line for a flat force.");
  CHECK(told_of_rest("{stiffness: 1 kN/mm, capacity: 90 kN, hardening: -1 kN/mm}") ==
        "rest_of_body.hardening must be at least 0 kN/mm, not -1 kN/mm | Correct the value or its unit.");
  CHECK(told_of_rest("{capacity: 90 kN}") == "rest_of_body | Add a line, for instance `stiffness: 40 kN/mm`.");
}
