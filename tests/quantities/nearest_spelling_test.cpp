#include "quantities/nearest_spelling.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

TEST_CASE("one slip of the pen counts one, a swap of neighbours included") {
  CHECK(spelling_distance("strut", "strut") == 0);
  CHECK(spelling_distance("strutt", "strut") == 1);
  CHECK(spelling_distance("stru", "strut") == 1);
  CHECK(spelling_distance("strat", "strut") == 1);
  CHECK(spelling_distance("srtut", "strut") == 1);
  CHECK(spelling_distance("", "strut") == 5);
  CHECK(spelling_distance("kitten", "sitting") == 3);
  CHECK(spelling_distance("ca", "abc") == 3);
}

TEST_CASE("the nearest word is offered only when it is near") {
  const std::vector<std::string> known{"cell", "cell_edge", "strut", "coefficient_of_variation"};
  CHECK(nearest_spelling("strutt", known) == "strut");
  CHECK(nearest_spelling("cel_edge", known) == "cell_edge");
  CHECK(nearest_spelling("coefficent_of_varriations", known) == "coefficient_of_variation");
  CHECK_FALSE(nearest_spelling("wall", known));
  CHECK_FALSE(nearest_spelling("x", {"y"}));
  CHECK_FALSE(nearest_spelling(std::string(5000, 'a'), known));
}

TEST_CASE("of two words equally near the first is offered") {
  CHECK(nearest_spelling("tups", {"tips", "tops"}) == "tips");
}
