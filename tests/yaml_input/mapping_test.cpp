#include "quantities/message_of.hpp"
#include "yaml_input/mapping.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

/// The mapping "lattice" inside structures.left of a file that holds the given lines there.
Mapping lattice(const std::string& lines, std::initializer_list<std::string_view> allowed) {
  Mapping root = Mapping::read_text("schema: 1\nstructures:\n  left:\n    lattice:\n" + lines, "cases/x.yaml");
  root.allow({"structures"});
  Mapping structures = root.mapping("structures");
  structures.allow({"left"});
  Mapping left = structures.mapping("left");
  left.allow({"lattice"});
  Mapping read = left.mapping("lattice");
  read.allow(allowed);
  return read;
}

} // namespace

TEST_CASE("an unknown key is reported with the known ones and the nearest") {
  CHECK(message_of([] {
          lattice("      cell: bcc\n      strutt: 1.2 mm\n", {"cell", "cell_edge", "strut"});
        }) == "cases/x.yaml:6:7: unknown key `strutt` in structures.left.lattice\n"
              "    6 |       strutt: 1.2 mm\n"
              "      |       ^\n"
              "   Did you mean `strut`? Known keys: cell, cell_edge, strut.\n"
              "   Correct the spelling or delete the line.");
  CHECK(message_of([] { Mapping::read_text("schema: 1\ncolour: red\n", "cases/x.yaml").allow({"title"}); }) ==
        "cases/x.yaml:2:1: unknown key `colour` at the top level\n"
        "    2 | colour: red\n"
        "      | ^\n"
        "   Known keys: schema, title.\n"
        "   Correct the spelling or delete the line.");
}

TEST_CASE("a comma inside a number is named, not taken for an unknown key") {
  CHECK(message_of([] {
          lattice("      strut: {value: 1,100 mm}\n", {"strut"}).quantity("strut", Dimension::length);
        }) == "cases/x.yaml:5:24: `100 mm` stands where a key should in structures.left.lattice.strut\n"
              "    5 |       strut: {value: 1,100 mm}\n"
              "      |                        ^\n"
              "   Inside braces a comma ends a value: write a number without one, 1100 kg or 1.5 mm.");
}

TEST_CASE("a missing key is reported where it belongs, with an example") {
  const Mapping read = lattice("      cell: bcc\n", {"cell", "strut", "skin", "count", "name"});
  const std::string where = "    4 |     lattice:\n      |     ^\n";
  CHECK(message_of([&] { read.quantity("strut", Dimension::length); }) ==
        "cases/x.yaml:4:5: `strut` is missing in structures.left.lattice\n" + where +
            "   Add a line, for instance `strut: 275 mm`.");
  CHECK(message_of([&] { read.mapping("skin"); }) ==
        "cases/x.yaml:4:5: `skin` is missing in structures.left.lattice\n" + where +
            "   Add `skin:` with its own keys below it.");
  CHECK(message_of([&] { read.integer("count", 1, 9); }) ==
        "cases/x.yaml:4:5: `count` is missing in structures.left.lattice\n" + where +
            "   Add a line, for instance `count: 1`.");
  CHECK(message_of([&] {
          read.choice("name", {"tip", "body"});
        }) == "cases/x.yaml:4:5: `name` is missing in structures.left.lattice\n" + where +
                  "   Add a line, for instance `name: tip`.");
}

TEST_CASE("asking for a key that was not allowed is an error of the program, not of the user") {
  const Mapping read = lattice("      cell: bcc\n", {"cell"});
  CHECK_THROWS_AS(read.has("strut"), std::logic_error);
  CHECK_THROWS_AS(read.text("strut"), std::logic_error);
  CHECK_THROWS_AS(read.mapping("strut"), std::logic_error);
}

TEST_CASE("presence and kinds are told apart") {
  const Mapping read = lattice("      a: 1\n      b: {x: 1}\n      c: [1]\n", {"a", "b", "c", "d"});
  CHECK(read.has("a"));
  CHECK_FALSE(read.has("d"));
  CHECK(read.is_mapping("b"));
  CHECK_FALSE(read.is_mapping("a"));
  CHECK_FALSE(read.is_mapping("d"));
  CHECK(read.is_list("c"));
  CHECK_FALSE(read.is_list("b"));
  CHECK(read.path() == "structures.left.lattice");
}

TEST_CASE("keys may be allowed from a list made at run time") {
  Mapping root = Mapping::read_text("schema: 1\nlaws: {tip: 1, body: 2}\n", "cases/x.yaml");
  root.allow({"laws"});
  Mapping laws = root.mapping("laws");
  laws.allow_keys(root.keys_of("laws"));
  CHECK(laws.number("tip") == 1);
  CHECK(laws.number("body") == 2);
}

TEST_CASE("a list where a mapping belongs is refused, and every other mix-up") {
  const Mapping read =
      lattice("      a: [1]\n      b: {x: 1}\n      c: 5 mm\n      d:\n      e: ''\n", {"a", "b", "c", "d", "e"});
  CHECK(message_of([&] { read.mapping("a"); }) ==
        "cases/x.yaml:5:7: structures.left.lattice.a is a list; a mapping was expected\n"
        "    5 |       a: [1]\n"
        "      |       ^\n"
        "   Write its keys below it, indented, each as `key: value`.");
  CHECK(message_of([&] { read.mapping("c"); }) ==
        "cases/x.yaml:7:10: structures.left.lattice.c is a single value; a mapping was expected\n"
        "    7 |       c: 5 mm\n"
        "      |          ^\n"
        "   Write its keys below it, indented, each as `key: value`.");
  CHECK(message_of([&] { read.list("b"); }) ==
        "cases/x.yaml:6:7: structures.left.lattice.b is a mapping; a list was expected\n"
        "    6 |       b: {x: 1}\n"
        "      |       ^\n"
        "   Write one item per line, each behind `- `, or all in brackets: [first, second].");
  CHECK(message_of([&] { read.quantity("a", Dimension::length); }) ==
        "cases/x.yaml:5:7: structures.left.lattice.a is a list; a length was expected\n"
        "    5 |       a: [1]\n"
        "      |       ^\n"
        "   Write it behind the colon, for instance `a: 275 mm`.");
  CHECK(message_of([&] { read.text("b"); }) ==
        "cases/x.yaml:6:7: structures.left.lattice.b is a mapping; a text was expected\n"
        "    6 |       b: {x: 1}\n"
        "      |       ^\n"
        "   Write it behind the colon, for instance `b: some words`.");
  CHECK(message_of([&] { read.number("d"); }) ==
        "cases/x.yaml:8:7: structures.left.lattice.d is empty; a bare number was expected\n"
        "    8 |       d:\n"
        "      |       ^\n"
        "   Write it behind the colon, for instance `d: 1.5`.");
  CHECK(message_of([&] { read.text("e"); }) ==
        "cases/x.yaml:9:10: structures.left.lattice.e is empty; a text was expected\n"
        "    9 |       e: ''\n"
        "      |          ^\n"
        "   Write it behind the colon, for instance `e: some words`.");
}

TEST_CASE("entries come in the order of the file, with their paths") {
  Mapping root = Mapping::read_text("schema: 1\nparts:\n  tip: {a: 1}\n  body: {a: 2}\n", "cases/x.yaml");
  root.allow({"parts", "absent"});
  auto parts = root.entries("parts");
  REQUIRE(parts.size() == 2);
  CHECK(parts[0].first == "tip");
  CHECK(parts[1].first == "body");
  CHECK(parts[1].second.path() == "parts.body");
  parts[1].second.allow({"a"});
  CHECK(parts[1].second.number("a") == 2);
  CHECK(root.entries("absent").empty());
  CHECK(root.keys_of("parts") == std::vector<std::string>{"tip", "body"});
  CHECK(root.keys_of("absent").empty());
}

TEST_CASE("an id with a dot would make paths ambiguous and is refused") {
  Mapping root = Mapping::read_text("schema: 1\nparts:\n  tip.left: {a: 1}\n", "cases/x.yaml");
  root.allow({"parts"});
  CHECK(message_of([&] { root.entries("parts"); }) == "cases/x.yaml:3:3: `tip.left` is not a usable name\n"
                                                      "    3 |   tip.left: {a: 1}\n"
                                                      "      |   ^\n"
                                                      "   Make names of letters (a to z), digits, `_` and `-`.");
}

TEST_CASE("an entry that is not a mapping is refused") {
  Mapping root = Mapping::read_text("schema: 1\nparts:\n  tip: 5 mm\n", "cases/x.yaml");
  root.allow({"parts"});
  CHECK(message_of([&] { root.entries("parts"); }) ==
        "cases/x.yaml:3:8: parts.tip is a single value; a mapping was expected\n"
        "    3 |   tip: 5 mm\n"
        "      |        ^\n"
        "   Write its keys below it, indented, each as `key: value`.");
}

TEST_CASE("a list of mappings counts its items from 0") {
  Mapping root = Mapping::read_text("schema: 1\nlimits:\n  - value: 1\n  - value: 2\n", "cases/x.yaml");
  root.allow({"limits", "absent"});
  auto limits = root.list("limits");
  REQUIRE(limits.size() == 2);
  CHECK(limits[1].path() == "limits[1]");
  CHECK(root.list("absent").empty());
  CHECK(root.optional_mapping("absent") == std::nullopt);
  CHECK(message_of([&] { limits[1].allow({"quantity"}); }) == "cases/x.yaml:4:5: unknown key `value` in limits[1]\n"
                                                              "    4 |   - value: 2\n"
                                                              "      |     ^\n"
                                                              "   Known keys: quantity.\n"
                                                              "   Correct the spelling or delete the line.");
  Mapping mixed = Mapping::read_text("schema: 1\nlimits: [{a: 1}, 5]\n", "cases/x.yaml");
  mixed.allow({"limits"});
  CHECK(message_of([&] { mixed.list("limits"); }) ==
        "cases/x.yaml:2:18: limits[1] is a single value; a mapping was expected\n"
        "    2 | limits: [{a: 1}, 5]\n"
        "      |                  ^\n"
        "   Write the item as `- key: value`, with its further keys below, indented alike.");
}

TEST_CASE("a caller's own complaint points at the value, or at the mapping without one") {
  const Mapping read = lattice("      strut: 1.2 mm\n", {"strut", "cell"});
  CHECK(message_of([&] { read.fail("strut", "thicker than half the cell", "Make it thinner."); }) ==
        "cases/x.yaml:5:14: structures.left.lattice.strut: thicker than half the cell\n"
        "    5 |       strut: 1.2 mm\n"
        "      |              ^\n"
        "   Make it thinner.");
  CHECK(message_of([&] { read.fail("", "no cell fits", "Choose a smaller cell."); }) ==
        "cases/x.yaml:4:5: structures.left.lattice: no cell fits\n"
        "    4 |     lattice:\n"
        "      |     ^\n"
        "   Choose a smaller cell.");
}
