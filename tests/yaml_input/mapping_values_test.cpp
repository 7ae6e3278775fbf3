#include "quantities/message_of.hpp"
#include "yaml_input/mapping.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

/// A file with the one key `a`, its value starting in line 2, column 4.
Mapping with(const std::string& value) {
  Mapping read = Mapping::read_text("schema: 1\na: " + value + "\n", "cases/x.yaml");
  read.allow({"a", "b"});
  return read;
}

std::string length_refusal(const std::string& value, const Bounds& bounds = {}) {
  return message_of([&] { with(value).quantity("a", Dimension::length, bounds); });
}

/// The message about `a` whose value is one line.
std::string at_value(const std::string& what, const std::string& value, const std::string& what_to_do) {
  return "cases/x.yaml:2:4: " + what + "\n    2 | a: " + value + "\n      |    ^\n   " + what_to_do;
}

} // namespace

TEST_CASE("a quantity in short form keeps its path, dimension and SI value") {
  const Quantity read = with("35 km/h").quantity("a", Dimension::speed);
  CHECK(read.value == Approx(35 / 3.6).epsilon(1e-15));
  CHECK(read.path == "a");
  CHECK(read.dimension == Dimension::speed);
  CHECK(read.source.text.empty());
  CHECK_FALSE(read.low);
  CHECK_FALSE(read.high);
  CHECK_FALSE(read.coefficient_of_variation);
  CHECK(with("'35 km/h'").quantity("a", Dimension::speed) == read);
}

TEST_CASE("a quantity in long form keeps its spread and source") {
  const Quantity read =
      with("{value: 275 MPa, low: 260 MPa, high: 0.29 GPa, coefficient_of_variation: 4 %, source: own coupons, "
           "standing: read}")
          .quantity("a", Dimension::stress, Bounds::positive());
  CHECK(read.value == Approx(275e6).epsilon(1e-15));
  CHECK(read.low_end() == Approx(260e6).epsilon(1e-15));
  CHECK(read.high_end() == Approx(290e6).epsilon(1e-15));
  CHECK(read.coefficient_of_variation.value() == Approx(0.04).epsilon(1e-15));
  CHECK(read.source == Source{"own coupons", Standing::read});
  CHECK(read.path == "a");
  CHECK(read.dimension == Dimension::stress);
}

TEST_CASE("an absent optional value is no value") {
  const Mapping read = with("5 mm");
  CHECK_FALSE(read.optional_quantity("b", Dimension::length));
  CHECK_FALSE(read.optional_number("b"));
  CHECK_FALSE(read.optional_integer("b", 0, 5));
  CHECK(read.optional_quantity("a", Dimension::length)->value == Approx(0.005));
  CHECK(read.text_or("b", "none") == "none");
  CHECK(read.choice_or("b", {"x", "y"}, "y") == "y");
  CHECK(read.flag_or("b", true));
}

TEST_CASE("a value that the quantity grammar refuses is shown in its line") {
  CHECK(length_refusal("35") == at_value("a: `35` has no unit; a length was expected, for instance 275 mm", "35",
                                         "Put one space and a unit behind the number. Units of a length: mm, cm, m, "
                                         "um."));
  CHECK(length_refusal("275 MPa") == at_value("a: 275 MPa is a stress; a length was expected, for instance 275 mm",
                                              "275 MPa", "Units of a length: mm, cm, m, um."));
  CHECK(length_refusal(".nan") == at_value("a: `.nan` is not a finite number", ".nan",
                                           "Give a finite value, or delete the line where the value is optional."));
}

TEST_CASE("a value out of bounds is refused with the bounds in display units") {
  const std::string advice = "Correct the value or its unit.";
  CHECK(length_refusal("0 mm", Bounds::positive()) == at_value("a must be more than 0 mm, not 0 mm", "0 mm", advice));
  CHECK(length_refusal("-1 mm", Bounds::not_negative()) ==
        at_value("a must be at least 0 mm, not -1 mm", "-1 mm", advice));
  CHECK(length_refusal("5 cm", Bounds::closed(0.001, 0.04)) ==
        at_value("a must be at least 1 mm and at most 40 mm, not 5 cm", "5 cm", advice));
  CHECK(length_refusal("4 cm", Bounds::open(0.001, 0.04)) ==
        at_value("a must be more than 1 mm and less than 40 mm, not 4 cm", "4 cm", advice));
  CHECK(length_refusal("4 cm", Bounds::closed(0.001, 0.04)) == "accepted");
  CHECK(message_of([] {
          with("1.5").number("a", Bounds{-1e300 * 1e300, 1, false, false});
        }) == at_value("a must be at most 1, not 1.5", "1.5", advice));
  CHECK(length_refusal("{value: 2 mm, high: -3 mm}", Bounds::positive()) ==
        "cases/x.yaml:2:24: a.high must be more than 0 mm, not -3 mm\n"
        "    2 | a: {value: 2 mm, high: -3 mm}\n"
        "      |                        ^\n"
        "   Correct the value or its unit.");
}

TEST_CASE("low, value and high stand in this order") {
  CHECK(length_refusal("{value: 4 mm, low: 5 mm}") == "cases/x.yaml:2:23: a.low: 5 mm is above the value, 4 mm\n"
                                                      "    2 | a: {value: 4 mm, low: 5 mm}\n"
                                                      "      |                       ^\n"
                                                      "   Order them low <= value <= high.");
  CHECK(length_refusal("{value: 4 mm, high: 3 mm}") == "cases/x.yaml:2:24: a.high: 3 mm is below the value, 4 mm\n"
                                                       "    2 | a: {value: 4 mm, high: 3 mm}\n"
                                                       "      |                        ^\n"
                                                       "   Order them low <= value <= high.");
  CHECK(length_refusal("{value: 4 mm, low: 4 mm, high: 4 mm}") == "accepted");
}

TEST_CASE("the long form is read as strictly as every mapping") {
  CHECK(length_refusal("{value: 4 mm, lo: 3 mm}") ==
        "cases/x.yaml:2:18: unknown key `lo` in a\n"
        "    2 | a: {value: 4 mm, lo: 3 mm}\n"
        "      |                  ^\n"
        "   Did you mean `low`? Known keys: value, low, high, coefficient_of_variation, source, standing.\n"
        "   Correct the spelling or delete the line.");
  CHECK(length_refusal("{low: 3 mm}") == "cases/x.yaml:2:1: `value` is missing in a\n"
                                         "    2 | a: {low: 3 mm}\n"
                                         "      | ^\n"
                                         "   Add a line, for instance `value: 275 mm`.");
  CHECK(length_refusal("{value: {value: 4 mm}}") ==
        "cases/x.yaml:2:5: a.value: this is a mapping; a single value was expected\n"
        "    2 | a: {value: {value: 4 mm}}\n"
        "      |     ^\n"
        "   Write the value itself behind the colon.");
  CHECK(length_refusal("{value: 4 mm, coefficient_of_variation: -5 %}") ==
        "cases/x.yaml:2:44: a.coefficient_of_variation must be at least 0 %, not -5 %\n"
        "    2 | a: {value: 4 mm, coefficient_of_variation: -5 %}\n"
        "      |                                            ^\n"
        "   Correct the value or its unit.");
}

TEST_CASE("a number is bare") {
  CHECK(with("1.5e-3").number("a") == 0.0015);
  CHECK(message_of([] { with("5 mm").number("a"); }) == at_value("a: 5 mm is a length; a bare number was expected",
                                                                 "5 mm",
                                                                 "Write a number without a unit, for instance 1.5."));
}

TEST_CASE("an integer is whole and within its ends") {
  CHECK(with("6").integer("a", 1, 9) == 6);
  CHECK(with("-6").integer("a", -9, 9) == -6);
  for (const std::string value : {"2.5", "10", "0", "0x5", "99999999999", "six", "1e1", "5 mm"}) {
    CHECK(message_of([&] { with(value).integer("a", 1, 9); }) ==
          at_value("a must be a whole number from 1 to 9, not `" + value + "`", value, "Write it in digits alone."));
  }
}

TEST_CASE("a flag is true or false and nothing like it") {
  CHECK(with("true").flag_or("a", false));
  CHECK_FALSE(with("false").flag_or("a", true));
  CHECK(message_of([] { with("yes").flag_or("a", false); }) ==
        at_value("a cannot be `yes`", "yes", "Write one of: true, false."));
}

TEST_CASE("a word outside the stated ones is refused with the nearest") {
  CHECK(with("body").choice("a", {"tip", "body"}) == "body");
  CHECK(message_of([] {
          with("bodi").choice("a", {"tip", "body"});
        }) == at_value("a cannot be `bodi`", "bodi", "Did you mean `body`? Write one of: tip, body."));
}

TEST_CASE("source and standing of a mapping are read") {
  Mapping read = Mapping::read_text("schema: 1\nsource: own coupons\nstanding: derived\n", "cases/x.yaml");
  read.allow({"source", "standing"});
  CHECK(read.required_source() == Source{"own coupons", Standing::derived});
  Mapping none = Mapping::read_text("schema: 1\n", "cases/x.yaml");
  none.allow({"source", "standing"});
  CHECK(none.source() == Source{});
  CHECK(message_of([&] { none.required_source(); }) == "cases/x.yaml:1:1: `source` is missing at the top level\n"
                                                       "    1 | schema: 1\n"
                                                       "      | ^\n"
                                                       "   Add a line, for instance `source: some words`.");
  Mapping wrong = Mapping::read_text("schema: 1\nstanding: memori\n", "cases/x.yaml");
  wrong.allow({"source", "standing"});
  CHECK(message_of([&] { wrong.source(); }) ==
        "cases/x.yaml:2:11: standing cannot be `memori`\n"
        "    2 | standing: memori\n"
        "      |           ^\n"
        "   Did you mean `memory`? Write one of: read, memory, derived, common_practice.");
}

TEST_CASE("lists of texts, quantities and rows are read in order") {
  CHECK(with("[x, 'y z']").text_list("a") == std::vector<std::string>{"x", "y z"});
  CHECK(with("[x]").text_list("b").empty());
  const auto lengths = with("[1 mm, 2 cm]").quantity_list("a", Dimension::length, Bounds::positive());
  REQUIRE(lengths.size() == 2);
  CHECK(lengths[1].value == Approx(0.02));
  CHECK(lengths[1].path == "a[1]");
  CHECK(with("[[0, 1], [2, 3]]").number_rows("a", 2) == std::vector<std::vector<double>>{{0, 1}, {2, 3}});
  const auto corners = with("[[0 mm, 10 mm], [5 mm, 0 mm]]").quantity_rows("a", 2, Dimension::length);
  REQUIRE(corners.size() == 2);
  CHECK(corners[0][1] == Approx(0.01));
}

TEST_CASE("a wrong item of a list is pointed at") {
  CHECK(message_of([] { with("[1 mm, 2]").quantity_list("a", Dimension::length); }) ==
        "cases/x.yaml:2:11: a[1]: `2` has no unit; a length was expected, for instance 275 mm\n"
        "    2 | a: [1 mm, 2]\n"
        "      |           ^\n"
        "   Put one space and a unit behind the number. Units of a length: mm, cm, m, um.");
  CHECK(message_of([] { with("[x, [y]]").text_list("a"); }) ==
        "cases/x.yaml:2:8: a[1] is a list; a single value was expected\n"
        "    2 | a: [x, [y]]\n"
        "      |        ^\n"
        "   Write one value per item.");
  CHECK(message_of([] { with("[[0, 1], [2]]").number_rows("a", 2); }) ==
        "cases/x.yaml:2:13: a[1] has length 1; 2 was expected\n"
        "    2 | a: [[0, 1], [2]]\n"
        "      |             ^\n"
        "   Write each row as a list of 2 values in brackets.");
  CHECK(message_of([] { with("[[0, 1], 5]").number_rows("a", 2); }) ==
        "cases/x.yaml:2:13: a[1] is a single value; a list was expected\n"
        "    2 | a: [[0, 1], 5]\n"
        "      |             ^\n"
        "   Write each row as a list of 2 values in brackets.");
  CHECK(message_of([] { with("[[0, x]]").number_rows("a", 2); }) ==
        "cases/x.yaml:2:9: a[0][1]: `x` does not begin with a number; a bare number was expected\n"
        "    2 | a: [[0, x]]\n"
        "      |         ^\n"
        "   Write a number without a unit, for instance 1.5.");
}
