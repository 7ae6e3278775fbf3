#include "load_path/face_reader.hpp"

#include "load_path/read_block.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace crushwright;

namespace {

FaceInput read(const std::string& text) {
  return read_face(read_block::block("face", text));
}

std::string told(const std::string& text) {
  return read_block::told(read_face, "face", text);
}

const std::string plain = "shape: flat, width: 1676 mm, height: 559 mm, lower_edge: 279 mm";

std::string with(const std::string& more) {
  return "{" + plain + ", " + more + "}";
}

std::string with_block(const std::string& more) {
  return with("blocks: {foam: {crush_pressure: 310 kPa, depth: 381 mm, lock_up: 80 %" + more + "}}");
}

} // namespace

TEST_CASE("a flat face is read with its blocks in their order") {
  const FaceInput face = read(with("lateral: 30 mm, angle: 10 deg, blocks: {zeta: {crush_pressure: {value: 1690 kPa, "
                                   "low: 1600 kPa, high: 1750 kPa, source: a test, standing: memory}, depth: 102 mm, "
                                   "lock_up: 80 %, spread: plate, height: 203 mm, lower_edge: 330 mm}, "
                                   "alpha: {crush_pressure: 310 kPa, depth: 381 mm, lock_up: 0.75}}"));
  CHECK(face.shape == FaceShape::flat);
  CHECK(face.width.value == Approx(1.676));
  CHECK(face.height.value == Approx(0.559));
  CHECK(face.lower_edge.value == Approx(0.279));
  CHECK(face.lateral.value == Approx(0.030));
  CHECK(face.angle.value == Approx(10 * std::numbers::pi / 180));
  REQUIRE(face.blocks.size() == 2);
  CHECK(face.blocks[0].id == "zeta");
  CHECK(face.blocks[0].spread == Spread::plate);
  CHECK(face.blocks[0].crush_pressure.low_end() == Approx(1.6e6));
  CHECK(face.blocks[0].crush_pressure.source.standing == Standing::memory);
  CHECK_FALSE(face.blocks[0].width);
  CHECK(face.blocks[0].lower_edge->value == Approx(0.330));
  CHECK(face.blocks[1].id == "alpha");
  CHECK(face.blocks[1].spread == Spread::imprint);
  CHECK(face.blocks[1].lock_up.value == Approx(0.75));
}

TEST_CASE("an overlap places the face's end at that share of the car's width") {
  // 70 % of 1780 mm from the left: the face's right end at 890 - 1246 = -356 mm, its middle 838 mm farther.
  CHECK(read(with("overlap: {share: 70 %, of_width: 1780 mm, side: left}")).lateral.value == Approx(0.482));
  CHECK(read(with("overlap: {share: 70 %, of_width: 1780 mm, side: right}")).lateral.value == Approx(-0.482));
  // 40 % of 1780 mm, a face of 2000 mm turned by 10 degrees: its end at 890 - 712 = 178 mm, half its width as seen.
  const double seen = 2 * std::cos(10 * std::numbers::pi / 180);
  CHECK(
      read("{shape: flat, width: 2000 mm, height: 500 mm, lower_edge: 200 mm, angle: 10 deg, overlap: {share: 40 %, "
           "of_width: 1780 mm, side: left}}")
          .lateral.value == Approx(0.178 + seen / 2));
}

TEST_CASE("a pole has a diameter, a wall nothing but an angle") {
  const FaceInput pole = read("{shape: pole, diameter: 254 mm, lateral: -100 mm}");
  CHECK(pole.shape == FaceShape::pole);
  CHECK(pole.width.value == Approx(0.254));
  CHECK(pole.lateral.value == Approx(-0.1));
  const FaceInput wall = read("{shape: wall, angle: -5 deg}");
  CHECK(wall.shape == FaceShape::wall);
  CHECK(wall.width.value == 0);
  CHECK(wall.angle.value == Approx(-5 * std::numbers::pi / 180));
  const std::string what = " | Delete the line, or set `shape: flat`.";
  CHECK(told("{shape: pole, width: 254 mm}") == "face.width: a pole is round: it has a `diameter`" + what);
  CHECK(told("{shape: pole, diameter: 254 mm, height: 2 m}") ==
        "face.height: a pole is taken to stand from the ground to above every structure" + what);
  CHECK(told("{shape: pole, diameter: 254 mm, angle: 3 deg}") ==
        "face.angle: a pole is round: it has no angle" + what);
  CHECK(told("{shape: pole, diameter: 254 mm, blocks: {}}") ==
        "face.blocks: a pole is taken to be rigid; crushable blocks stand on a flat face" + what);
  CHECK(told("{shape: wall, width: 2 m}") == "face.width: a wall has no edges: it meets every structure" + what);
  CHECK(told(with("diameter: 1 m")) == "face.diameter: a flat face has a `width` and a `height`, no diameter" + what);
}

TEST_CASE("the message of a wrong face shows its line") {
  CHECK(read_block::refusal(read_face, "face", "{shape: flt}") ==
        "case.yaml:2:15: face.shape cannot be `flt`\n"
        "    2 | face: {shape: flt}\n"
        "      |               ^\n"
        "   Did you mean `flat`? Write one of: flat, pole, wall.");
  CHECK(read_block::refusal(read_face, "face", "{shape: wall, angel: 3 deg}") ==
        "case.yaml:2:21: unknown key `angel` in face\n"
        "    2 | face: {shape: wall, angel: 3 deg}\n"
        "      |                     ^\n"
        "   Did you mean `angle`? Known keys: shape, width, height, lower_edge, diameter, lateral, overlap, angle, "
        "blocks.\n"
        "   Correct the spelling or delete the line.");
}

TEST_CASE("a face that could not stand so is refused") {
  CHECK(told("{shape: flat, width: 2 m, lower_edge: 0 mm}").substr(0, 29) == "face | Add a line, for instan");
  CHECK(told("{shape: flat, width: 0 mm, height: 1 m, lower_edge: 0 mm}") ==
        "face.width must be more than 0 mm, not 0 mm | Correct the value or its unit.");
  CHECK(told("{shape: flat, width: 1 m, height: -1 m, lower_edge: 0 mm}") ==
        "face.height must be more than 0 mm, not -1 m | Correct the value or its unit.");
  CHECK(told("{shape: flat, width: 1 m, height: 1 m, lower_edge: -3 mm}") ==
        "face.lower_edge must be at least 0 mm, not -3 mm | Correct the value or its unit.");
  CHECK(told(with("angle: 50 deg")) ==
        "face.angle must be at least -45 \u00b0 and at most 45 \u00b0, not 50 deg | Correct the value or its unit.");
  CHECK(told(with("lateral: {value: 0 mm, low: -9 mm}")) ==
        "face.lateral: this value carries a spread, which nothing would use | Give the value alone, or with its "
        "source.");
  CHECK(told(with("lateral: 0 mm, overlap: {share: 50 %, of_width: 1.7 m, side: left}")) ==
        "face.overlap: the face is already placed by `lateral` | Keep one of the two.");
  CHECK(told(with("overlap: {share: 50 %, of_width: 1.7 m}")) ==
        "face.overlap | Add a line, for instance `side: left`.");
  CHECK(told(with("overlap: {share: 0 %, of_width: 1.7 m, side: left}")) ==
        "face.overlap.share must be more than 0 % and at most 100 %, not 0 % | Correct the value or its unit.");
  CHECK(told(with("overlap: {share: 100 %, of_width: 1780 mm, side: left}")) ==
        "face.overlap: the face covers 1676 mm of the width as seen along the crush axis, less than the overlap of "
        "1780 mm | Make the face wider or the overlap smaller, or place the face with `lateral`.");
}

TEST_CASE("a block that could not stand so is refused") {
  CHECK(told(with_block("")) == "no error");
  CHECK(told(with("blocks: {foam: {crush_pressure: 310 kPa, depth: 381 mm, lock_up: 100 %}}")) ==
        "face.blocks.foam.lock_up must be more than 0 % and less than 100 %, not 100 % | Correct the value or its "
        "unit.");
  CHECK(told(with("blocks: {foam: {crush_pressure: 310 kPa, depth: 0 mm, lock_up: 80 %}}")) ==
        "face.blocks.foam.depth must be more than 0 mm, not 0 mm | Correct the value or its unit.");
  CHECK(told(with("blocks: {foam: {crush_pressure: {value: 310 kPa, coefficient_of_variation: 5 %}, depth: 1 mm, "
                  "lock_up: 80 %}}")) ==
        "face.blocks.foam.crush_pressure: this value carries a coefficient of variation, which nothing would use | "
        "Give its ends as `low` and `high`.");
  CHECK(told(with_block(", spread: stamp")) ==
        "face.blocks.foam.spread cannot be `stamp` | Write one of: imprint, plate.");
  const std::string what = " | Make the block smaller, or the face as large as its blocks.";
  CHECK(told(with_block(", width: 1700 mm")) ==
        "face.blocks.foam.width: the block ends 12 mm beyond the face's left end" + what);
  CHECK(told(with_block(", width: 1000 mm, lateral: -400 mm")) ==
        "face.blocks.foam.lateral: the block ends 62 mm beyond the face's right end" + what);
  CHECK(told(with_block(", lower_edge: 200 mm, height: 100 mm")) ==
        "face.blocks.foam.lower_edge: the block begins 79 mm below the face's lower edge" + what);
  CHECK(told(with_block(", lower_edge: 330 mm")) ==
        "face.blocks.foam: the block ends 51 mm above the face's upper edge" + what);
  CHECK(read_block::refusal(read_face, "face", with("blocks: {a: {depth: 1 mm}, a: {depth: 2 mm}}"))
            .find("the key `a` stands twice in one mapping") != std::string::npos);
}
