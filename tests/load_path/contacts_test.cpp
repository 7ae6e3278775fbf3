#include "crushwright/errors.hpp"
#include "load_path/placed.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace placed;
using sections::rectangle;
using Notes = std::vector<std::string>;

namespace {

constexpr double degree = std::numbers::pi / 180;

/// A tip of 80 x 100 mm at 430 mm to either side, its middle 420 mm high.
const Envelope tip = bar(rectangle(0.080, 0.100));
std::vector<StructurePlace> pair_of(const Envelope& envelope = tip) {
  return {{"left", &envelope, 0.430, 0.420}, {"right", &envelope, -0.430, 0.420}};
}

} // namespace

TEST_CASE("a face that covers both tips meets both at once and has nothing to tell") {
  for (const FaceInput& face : {flat(2.5, 0.8, 0.175), wall()}) {
    const auto found = contacts(face, pair_of());
    REQUIRE(found.size() == 2);
    for (const Contact& each : found) {
      CHECK(each.struck);
      CHECK(each.bearing_share == 1);
      CHECK(each.bearing_area == Approx(0.008).epsilon(1e-14));
      CHECK(each.stagger == 0);
      CHECK(each.below == 0);
      CHECK(each.above == 0);
      CHECK(each.beside == 0);
      CHECK(each.vertical == Approx(0.420).epsilon(1e-12));
      CHECK(each.tip_lateral == each.lateral);
      CHECK(each.tip_vertical == each.vertical);
      CHECK(each.notes.empty());
    }
    CHECK(found[0].structure == "left");
    CHECK(found[0].lateral == Approx(0.430).epsilon(1e-12));
    CHECK(found[1].lateral == Approx(-0.430).epsilon(1e-12));
  }
}

TEST_CASE("a turned face meets the second of two tips later by their distance times the tangent") {
  // Rear structural test with a rigid face turned by 10 degrees, as insurers' research runs it: tips 860 mm apart,
  // 0.860 tan 10 deg = 151.64 mm.
  const auto left_first = contacts(flat(2.5, 0.8, 0.175, 0, 10 * degree), pair_of());
  CHECK(left_first[0].stagger == 0);
  CHECK(left_first[1].stagger == Approx(0.15164).epsilon(1e-4));
  CHECK(left_first[1].stagger == Approx(0.860 * std::tan(10 * degree)).epsilon(1e-12));
  const auto right_first = contacts(wall(-10 * degree), pair_of());
  CHECK(right_first[0].stagger == Approx(0.860 * std::tan(10 * degree)).epsilon(1e-12));
  CHECK(right_first[1].stagger == 0);
  // Where the face is turned about does not count.
  const auto shifted = contacts(flat(3.0, 0.8, 0.175, 0.2, 10 * degree), pair_of());
  CHECK(shifted[1].stagger == Approx(left_first[1].stagger).epsilon(1e-12));
}

TEST_CASE("a tip that a turned face covers in part is met at the middle of that part") {
  // Seen 1200 mm wide, so from y = -600 to 600 mm: of the second tip, 580 to 660 mm, 20 mm with their middle at 590
  // mm.
  const double angle = -8 * degree;
  const auto found = contacts(flat(1.2 / std::cos(angle), 0.8, 0.175, 0, angle),
                              {{"near", &tip, -0.43, 0.42}, {"far", &tip, 0.62, 0.42}});
  CHECK(found[1].bearing_share == Approx(0.25).epsilon(1e-9));
  CHECK(found[1].stagger == Approx((0.430 + 0.590) * std::tan(8 * degree)).epsilon(1e-9));
}

TEST_CASE("an offset face misses the tip beyond its end and says by how much") {
  // From y = -356 mm to the left: the right tip ends at -390 mm, 34 mm farther out.
  const auto found = contacts(flat(1.676, 0.559, 0.279, 0.482), pair_of());
  CHECK(found[0].struck);
  CHECK(found[0].notes.empty());
  CHECK_FALSE(found[1].struck);
  CHECK(found[1].bearing_area == 0);
  CHECK(found[1].bearing_share == 0);
  CHECK(found[1].stagger == 0);
  CHECK(found[1].beside == Approx(0.034 + 0.080).epsilon(1e-9));
  CHECK(found[1].notes == Notes{"the face misses right, whose tip begins 34 mm beyond the face's right end"});
}

TEST_CASE("a face over part of the tip's height may climb over or dive beneath the structure") {
  // Tips from 370 to 470 mm high. Lower edge at 408 mm: 62 of 100 mm covered.
  const auto high = contacts(flat(2.5, 0.4, 0.408), pair_of());
  CHECK(high[0].bearing_share == Approx(0.62).epsilon(1e-12));
  CHECK(high[0].vertical == Approx(0.439).epsilon(1e-12));
  CHECK(high[0].tip_vertical == Approx(0.420).epsilon(1e-12));
  CHECK(high[0].below == Approx(0.038).epsilon(1e-12));
  CHECK(high[0].notes ==
        Notes{"the face covers 62 % of the tip of left, which reaches 38 mm below the face's lower edge",
              "the face's lower edge lies within the height of the tip of left: the face may climb over the "
              "structure (override); not simulated"});
  const auto low = contacts(flat(2.5, 0.25, 0.2), pair_of());
  CHECK(low[0].bearing_share == Approx(0.80).epsilon(1e-12));
  CHECK(low[0].above == Approx(0.020).epsilon(1e-12));
  CHECK(low[0].notes ==
        Notes{"the face covers 80 % of the tip of left, which reaches 20 mm above the face's upper edge",
              "the face's upper edge lies within the height of the tip of left: the face may dive beneath the "
              "structure (underride); not simulated"});
  const auto narrow = contacts(flat(2.5, 0.04, 0.4), pair_of());
  CHECK(narrow[0].notes == Notes{"the face covers 40 % of the tip of left, which reaches 30 mm below the face's "
                                 "lower edge and 30 mm above the face's upper edge",
                                 "both edges of the face lie within the height of the tip of left: it may cut into "
                                 "the structure and part with it either way; not simulated"});
}

TEST_CASE("a face over or under the tip misses it, and the words say which") {
  const auto over = contacts(flat(2.5, 0.4, 0.49), pair_of());
  CHECK_FALSE(over[0].struck);
  CHECK(over[0].notes == Notes{"the face misses left, whose tip begins 20 mm below the face's lower edge; it passes "
                               "over it (override), and what it meets then is not simulated"});
  const auto under = contacts(flat(1.0, 0.16, 0.2, -1.0), pair_of());
  CHECK(under[0].notes ==
        Notes{"the face misses left, whose tip begins 890 mm beyond the face's left end and 10 mm above the face's "
              "upper edge; it passes beneath it (underride), and what it meets then is not simulated"});
}

TEST_CASE("a tip that the end of the face cuts bears on the side that is met") {
  // Face from y = -419 mm to the left: 29 of the right tip's 80 mm, their middle at -404.5 mm.
  const auto found = contacts(flat(1.676, 0.559, 0.279, 0.419), pair_of());
  CHECK(found[1].bearing_share == Approx(29.0 / 80).epsilon(1e-9));
  CHECK(found[1].lateral == Approx(-0.4045).epsilon(1e-9));
  CHECK(found[1].tip_lateral == Approx(-0.430).epsilon(1e-12));
  CHECK(found[1].beside == Approx(0.051).epsilon(1e-9));
  CHECK(found[1].notes ==
        Notes{"the face covers 36 % of the tip of right, which reaches 51 mm beyond the face's right end"});
}

TEST_CASE("a pole meets the tip beside its axis later by the sagitta of its round front") {
  const Envelope narrow = bar(rectangle(0.020, 0.100));
  const std::vector<StructurePlace> two = {{"middle", &narrow, 0, 0.4}, {"side", &narrow, 0.100, 0.4}};
  const auto found = contacts(pole(0.254), two);
  CHECK(found[0].stagger == 0);
  CHECK(found[1].stagger == Approx(0.127 - std::sqrt(0.127 * 0.127 - 0.1 * 0.1)).epsilon(1e-12));
  CHECK(found[0].notes == Notes{"the pole meets the tip of middle along a line; what lies within its diameter bears "
                                "on it in full only when it has gone 127 mm deep"});
  // Within its diameter 254 of a bar of 400 mm width.
  const Envelope wide = bar(rectangle(0.400, 0.100));
  const auto strip = contacts(pole(0.254), {{"bar", &wide, 0, 0.4}});
  CHECK(strip[0].bearing_area == Approx(0.0254).epsilon(1e-12));
  CHECK(strip[0].beside == Approx(0.073).epsilon(1e-12));
  CHECK(strip[0].notes.front() == "the pole covers 64 % of the tip of bar, which reaches 73 mm beyond the pole's "
                                  "left side and 73 mm beyond the pole's right side");
  CHECK(contacts(pole(0.254), pair_of())[0].notes ==
        Notes{"the pole misses left, whose tip begins 263 mm beyond the pole's left side"});
}

TEST_CASE("the mirrored face on the mirrored structures bears alike") {
  const Envelope body = bar(sections::five_sided());
  const Envelope other = mirrored(body);
  const auto here =
      contacts(flat(0.9, 0.15, 0.36, 0.1, 5 * degree), {{"a", &body, 0.43, 0.35}, {"b", &body, -0.3, 0.3}});
  const auto there =
      contacts(flat(0.9, 0.15, 0.36, -0.1, -5 * degree), {{"a", &other, -0.43, 0.35}, {"b", &other, 0.3, 0.3}});
  for (std::size_t i = 0; i < 2; ++i) {
    CHECK(there[i].struck == here[i].struck);
    CHECK(there[i].bearing_area == Approx(here[i].bearing_area).epsilon(1e-12));
    CHECK(there[i].stagger == Approx(here[i].stagger).margin(1e-12));
    CHECK(there[i].lateral == Approx(-here[i].lateral).epsilon(1e-12));
    CHECK(there[i].vertical == Approx(here[i].vertical).epsilon(1e-12));
    CHECK(there[i].beside == Approx(here[i].beside).margin(1e-12));
  }
}

TEST_CASE("a block in front that a tip passes by sets that tip back by the block's depth") {
  // The strip stands from 380 to 480 mm high; the lower structure's tip ends at 350 mm.
  FaceInput face = flat(1.676, 0.559, 0.279);
  face.blocks = {block("strip", 1.69e6, 0.102, 0.8), block("block", 0.31e6, 0.381, 0.8)};
  face.blocks[0].lower_edge = value(0.380);
  face.blocks[0].height = value(0.100);
  const std::vector<StructurePlace> two = {{"upper", &tip, 0.4, 0.430}, {"lower", &tip, -0.4, 0.300}};
  const auto found = contacts(face, two);
  CHECK(found[0].stagger == 0);
  CHECK(found[0].notes.empty());
  CHECK(found[1].struck);
  CHECK(found[1].stagger == Approx(0.102).epsilon(1e-12));
  CHECK(found[1].notes.back() ==
        "the tip of lower passes by the block strip: what stands behind it is met 102 mm later");
  // As a plate it is pushed by every structure, and the report says so.
  face.blocks[0].spread = Spread::plate;
  const auto plated = contacts(face, two);
  CHECK(plated[1].stagger == 0);
  CHECK(plated[1].notes.back() ==
        "the block strip does not stand in front of the tip of lower; as a plate it is pushed all the same");
}

TEST_CASE("a face without width or too steep has no contacts") {
  CHECK_THROWS_WITH(contacts(flat(0, 0.5, 0.2), pair_of()), "a flat face is 0 m wide; it must be above 0");
  CHECK_THROWS_AS(contacts(wall(50 * degree), pair_of()), OutOfDomain);
}
