#include "envelope/envelope_reader.hpp"

#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>
#include <string>

using namespace crushwright;

namespace {

Envelope read(const std::string& text) {
  Mapping structure = Mapping::read_text("schema: 1\n" + text, "case.yaml");
  structure.allow({"sections", "surface", "parts"});
  return read_envelope(structure);
}

std::string message_of(const std::string& text) {
  try {
    read(text);
  } catch (const InputError& error) {
    return error.what();
  }
  return "no error";
}

/// A structure of two rectangles, 520 mm long, with the given parts.
std::string with_parts(const std::string& parts) {
  return "sections:\n"
         "  shape: rectangle\n"
         "  stations:\n"
         "    - {station: 0 mm, width: 90 mm, height: 110 mm}\n"
         "    - {station: 520 mm, width: 150 mm, height: 190 mm}\n"
         "parts:\n" +
         parts;
}

/// Stations of a shape, one a line; the first of them stands on line 5.
std::string with_stations(const std::string& shape, const std::string& stations) {
  return "sections:\n"
         "  shape: " +
         shape + "\n  stations:\n" + stations;
}

} // namespace

TEST_CASE("a rounded rectangle with a part is read in metres") {
  const Envelope envelope = read(with_stations(
      "rounded_rectangle", "    - {station: 0 mm, width: 90 mm, height: 110 mm, corner_radius: 20 mm}\n"
                           "    - {station: 0.52 m, width: 150 mm, height: 190 mm, corner_radius: 30 mm, "
                           "centre: [0 mm, 12 mm]}\n"
                           "parts:\n"
                           "  tip: {from: 0 mm, to: 120 mm}\n"));
  REQUIRE(envelope.sections.size() == 2);
  CHECK(envelope.length() == Approx(0.520));
  CHECK(envelope.sections[0].shape == SectionShape::rounded_rectangle);
  CHECK(envelope.sections[0].station == 0);
  CHECK(envelope.sections[0].width == Approx(0.090));
  CHECK(envelope.sections[0].height == Approx(0.110));
  CHECK(envelope.sections[0].corner_radius == Approx(0.020));
  CHECK(envelope.sections[0].centre[1] == 0);
  CHECK(envelope.sections[1].corner_radius == Approx(0.030));
  CHECK(envelope.sections[1].centre[0] == 0);
  CHECK(envelope.sections[1].centre[1] == Approx(0.012));
  REQUIRE(envelope.parts.size() == 1);
  CHECK(envelope.parts[0].id == "tip");
  CHECK(envelope.parts[0].from == 0);
  CHECK(envelope.parts[0].to == Approx(0.120));
}

TEST_CASE("every shape is read into a section of its own area") {
  const auto area = [](const std::string& text) { return properties_of(read(text).sections.front()).area; };
  CHECK(area(with_stations("rectangle", "    - {station: 0 mm, width: 90 mm, height: 110 mm}\n"
                                        "    - {station: 500 mm, width: 90 mm, height: 110 mm}\n")) ==
        Approx(0.0099));
  CHECK(area(with_stations("ellipse", "    - {station: 0 mm, width: 90 mm, height: 110 mm}\n"
                                      "    - {station: 500 mm, width: 90 mm, height: 110 mm}\n")) ==
        Approx(0.0077754418)); // pi 45 mm 55 mm
  CHECK(area(with_stations("trapezoid",
                           "    - {station: 0 mm, lower_width: 120 mm, upper_width: 80 mm, height: 110 mm}\n"
                           "    - {station: 500 mm, lower_width: 120 mm, upper_width: 80 mm, height: 110 mm}\n")) ==
        Approx(0.0110));
  CHECK(area(with_stations("polygon",
                           "    - {station: 0 mm, corners: [[0 mm, 0 mm], [90 mm, 0 mm], [0 mm, 110 mm]]}\n"
                           "    - {station: 500 mm, corners: [[0 mm, 0 mm], [90 mm, 0 mm], [0 mm, 110 mm]]}\n")) ==
        Approx(0.00495));
}

TEST_CASE("parts are kept from the struck end upwards, whatever their order in the file") {
  const Envelope envelope = read(with_parts("  body: {from: 120 mm, to: 520 mm}\n"
                                            "  tip: {from: 0 mm, to: 120 mm}\n"));
  REQUIRE(envelope.parts.size() == 2);
  CHECK(envelope.parts[0].id == "tip");
  CHECK(envelope.parts[1].id == "body");
}

TEST_CASE("a structure without parts has none") {
  CHECK(read(with_stations("ellipse", "    - {station: 0 mm, width: 90 mm, height: 110 mm}\n"
                                      "    - {station: 500 mm, width: 90 mm, height: 110 mm}\n"))
            .parts.empty());
}

TEST_CASE("a first station that is not the struck end is shown to the user") {
  CHECK(message_of(with_stations("ellipse", "    - {station: 10 mm, width: 90 mm, height: 110 mm}\n"
                                            "    - {station: 520 mm, width: 150 mm, height: 190 mm}\n")) ==
        "case.yaml:5:17: sections.stations[0].station: the first station must be 0 mm, the struck end; it is 10 mm\n"
        "    5 |     - {station: 10 mm, width: 90 mm, height: 110 mm}\n"
        "      |                 ^\n"
        "   Measure the stations from the struck end.");
}

TEST_CASE("stations that do not rise are shown to the user") {
  CHECK(message_of(with_stations("ellipse", "    - {station: 0 mm, width: 90 mm, height: 110 mm}\n"
                                            "    - {station: 300 mm, width: 90 mm, height: 110 mm}\n"
                                            "    - {station: 300 mm, width: 150 mm, height: 190 mm}\n")) ==
        "case.yaml:7:17: sections.stations[2].station: stations must rise, but 300 mm follows 300 mm\n"
        "    7 |     - {station: 300 mm, width: 150 mm, height: 190 mm}\n"
        "      |                 ^\n"
        "   List the stations from the struck end to the attachment, each once.");
}

TEST_CASE("one station is not enough") {
  CHECK(message_of(with_stations("ellipse", "    - {station: 0 mm, width: 90 mm, height: 110 mm}\n")) ==
        "case.yaml:4:3: sections.stations: two stations or more are needed; there are 1\n"
        "    4 |   stations:\n"
        "      |   ^\n"
        "   Give the section at the struck end, station 0 mm, and the one at the attachment.");
}

TEST_CASE("a corner radius over half the smaller side is shown to the user") {
  CHECK(message_of(with_stations("rounded_rectangle",
                                 "    - {station: 0 mm, width: 90 mm, height: 110 mm, corner_radius: 46 mm}\n"
                                 "    - {station: 520 mm, width: 150 mm, height: 190 mm, corner_radius: 30 mm}\n")) ==
        "case.yaml:5:68: sections.stations[0].corner_radius: the corner radius is 46 mm; at most half the smaller "
        "side, "
        "45 mm, fits\n"
        "    5 |     - {station: 0 mm, width: 90 mm, height: 110 mm, corner_radius: 46 mm}\n"
        "      |                                                                    ^\n"
        "   Make the radius smaller, or the side larger.");
}

TEST_CASE("a corner radius of exactly half the smaller side is taken") {
  CHECK_NOTHROW(read(with_stations("rounded_rectangle",
                                   "    - {station: 0 mm, width: 90 mm, height: 110 mm, corner_radius: 45 mm}\n"
                                   "    - {station: 520 mm, width: 7 cm, height: 190 mm, corner_radius: 35 mm}\n")));
}

TEST_CASE("a key of another shape is an error that lists the known keys") {
  CHECK(
      message_of(with_stations("ellipse", "    - {station: 0 mm, width: 90 mm, height: 110 mm, corner_radius: 9 mm}\n"
                                          "    - {station: 520 mm, width: 150 mm, height: 190 mm}\n")) ==
      "case.yaml:5:53: unknown key `corner_radius` in sections.stations[0]\n"
      "    5 |     - {station: 0 mm, width: 90 mm, height: 110 mm, corner_radius: 9 mm}\n"
      "      |                                                     ^\n"
      "   Known keys: station, width, height, centre.\n"
      "   Correct the spelling or delete the line.");
}

TEST_CASE("a dimension with a spread is refused rather than read in part") {
  CHECK(
      message_of(with_stations("ellipse", "    - {station: 0 mm, width: {value: 90 mm, low: 88 mm}, height: 110 mm}\n"
                                          "    - {station: 520 mm, width: 150 mm, height: 190 mm}\n")) ==
      "case.yaml:5:23: sections.stations[0].width: this dimension of the outer shape carries a spread, which nothing "
      "would use\n"
      "    5 |     - {station: 0 mm, width: {value: 90 mm, low: 88 mm}, heigh...\n"
      "      |                       ^\n"
      "   Give the value alone, or with its source.");
}

TEST_CASE("a centre that is not a pair is shown to the user") {
  CHECK(message_of(with_stations("ellipse", "    - {station: 0 mm, width: 90 mm, height: 110 mm, centre: [12 mm]}\n"
                                            "    - {station: 520 mm, width: 150 mm, height: 190 mm}\n")) ==
        "case.yaml:5:53: sections.stations[0].centre: two lengths, [y, z], were expected; there are 1\n"
        "    5 |     - {station: 0 mm, width: 90 mm, height: 110 mm, centre: [12 mm]}\n"
        "      |                                                     ^\n"
        "   Write it for instance as `centre: [0 mm, 12 mm]`.");
}

TEST_CASE("a clockwise polygon is refused, not turned round") {
  CHECK(message_of(with_stations(
            "polygon", "    - {station: 0 mm, corners: [[0 mm, 0 mm], [0 mm, 80 mm], [90 mm, 0 mm]]}\n"
                       "    - {station: 500 mm, corners: [[0 mm, 0 mm], [90 mm, 0 mm], [0 mm, 80 mm]]}\n")) ==
        "case.yaml:5:23: sections.stations[0].corners: the corners go clockwise\n"
        "    5 |     - {station: 0 mm, corners: [[0 mm, 0 mm], [0 mm, 80 mm], [...\n"
        "      |                       ^\n"
        "   List them the other way round: counter-clockwise, seen with y to the right and z up. All stations of a "
        "structure begin at the same corner.");
}

TEST_CASE("a polygon that crosses itself is refused") {
  CHECK(message_of(with_stations(
            "polygon",
            "    - {station: 0 mm, corners: [[0 mm, 0 mm], [9 mm, 9 mm], [9 mm, 0 mm], [0 mm, 9 mm]]}\n"
            "    - {station: 500 mm, corners: [[0 mm, 0 mm], [9 mm, 0 mm], [9 mm, 9 mm], [0 mm, 9 mm]]}\n")) ==
        "case.yaml:5:23: sections.stations[0].corners: the outline crosses or touches itself\n"
        "    5 |     - {station: 0 mm, corners: [[0 mm, 0 mm], [9 mm, 9 mm], [9...\n"
        "      |                       ^\n"
        "   List the corners in the order in which a pencil would go once round the section, each once.");
}

TEST_CASE("two corners are no polygon") {
  CHECK(message_of(with_stations("polygon", "    - {station: 0 mm, corners: [[0 mm, 0 mm], [9 mm, 9 mm]]}\n"
                                            "    - {station: 500 mm, corners: [[0 mm, 0 mm], [9 mm, 9 mm]]}\n")) ==
        "case.yaml:5:23: sections.stations[0].corners: a polygon needs three corners or more; this one has 2\n"
        "    5 |     - {station: 0 mm, corners: [[0 mm, 0 mm], [9 mm, 9 mm]]}\n"
        "      |                       ^\n"
        "   List the corners as [y, z] pairs, for instance [[0 mm, 0 mm], [90 mm, 0 mm], [45 mm, 80 mm]].");
}

TEST_CASE("polygons of different corner counts are refused") {
  CHECK(message_of(with_stations(
            "polygon",
            "    - {station: 0 mm, corners: [[0 mm, 0 mm], [90 mm, 0 mm], [0 mm, 80 mm]]}\n"
            "    - {station: 500 mm, corners: [[0 mm, 0 mm], [9 mm, 0 mm], [9 mm, 9 mm], [0 mm, 9 mm]]}\n")) ==
        "case.yaml:6:25: sections.stations[1].corners: this polygon has 4 corners, the one before it 3\n"
        "    6 |     - {station: 500 mm, corners: [[0 mm, 0 mm], [9 mm, 0 mm], [9...\n"
        "      |                         ^\n"
        "   Give all stations of a structure the same number of corners; a corner on a straight edge may fill up.");
}

TEST_CASE("two good outlines with a crossed one between them are refused") {
  // The second list begins at the opposite corner, so the square shrinks to a point half-way.
  CHECK(
      message_of(with_stations(
          "polygon",
          "    - {station: 0 mm, corners: [[0 mm, 0 mm], [9 mm, 0 mm], [9 mm, 9 mm], [0 mm, 9 mm]]}\n"
          "    - {station: 500 mm, corners: [[9 mm, 9 mm], [0 mm, 9 mm], [0 mm, 0 mm], [9 mm, 0 mm]]}\n")) ==
      "case.yaml:6:25: sections.stations[1].corners: between the station before and this one, at 250 mm, the outline "
      "crosses itself or turns over\n"
      "    6 |     - {station: 500 mm, corners: [[9 mm, 9 mm], [0 mm, 9 mm], [0...\n"
      "      |                         ^\n"
      "   Begin the lists of all stations at the same corner, or add a station between.");
}

TEST_CASE("a part that ends before it starts is shown to the user") {
  CHECK(message_of(with_parts("  tip: {from: 120 mm, to: 120 mm}\n")) ==
        "case.yaml:8:27: parts.tip.to: the part ends at 120 mm, which is not past its start at 120 mm\n"
        "    8 |   tip: {from: 120 mm, to: 120 mm}\n"
        "      |                           ^\n"
        "   Give `from` the end nearer to the struck face and `to` the other.");
}

TEST_CASE("a part past the end of the structure is shown to the user") {
  CHECK(message_of(with_parts("  tip: {from: 0 mm, to: 521 mm}\n")) ==
        "case.yaml:8:25: parts.tip.to: the part ends at 521 mm, past the end of the structure at 520 mm\n"
        "    8 |   tip: {from: 0 mm, to: 521 mm}\n"
        "      |                         ^\n"
        "   End the part at or before the last station of `sections`.");
}

TEST_CASE("parts that overlap are shown to the user") {
  CHECK(message_of(with_parts("  tip: {from: 0 mm, to: 120 mm}\n"
                              "  body: {from: 119 mm, to: 520 mm}\n")) ==
        "case.yaml:9:16: parts.body.from: this part starts at 119 mm, inside the part `tip`, which ends at 120 mm\n"
        "    9 |   body: {from: 119 mm, to: 520 mm}\n"
        "      |                ^\n"
        "   Let each part start where the one before it ends, or later.");
}
