#include "crushwright/errors.hpp"
#include "crushwright/lattice_body.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

SizeField two_by_two_by_two() {
  SizeField field;
  field.station = {0, 0.4};
  field.y = {-0.1, 0.1};
  field.z = {0, 0.2};
  field.values = {1.0, 1.2, 1.1, 1.5, 0.9, 0.8, 1.4, 2.0};
  return field;
}

} // namespace

TEST_CASE("The factor is the given one at the grid's points") {
  const SizeField field = two_by_two_by_two();
  std::size_t place = 0;
  for (double z : field.z)
    for (double y : field.y)
      for (double x : field.station)
        CHECK(factor_at(field, {x, y, z}) == Approx(field.values[place++]));
}

TEST_CASE("Between the points the factor is linear along each axis, in the middle the mean of the eight") {
  const SizeField field = two_by_two_by_two();
  CHECK(factor_at(field, {0.2, 0, 0.1}) == Approx((1.0 + 1.2 + 1.1 + 1.5 + 0.9 + 0.8 + 1.4 + 2.0) / 8));
  CHECK(factor_at(field, {0.1, -0.1, 0}) == Approx(1.05));
}

TEST_CASE("Beyond the grid the factor keeps the value at its end") {
  const SizeField field = two_by_two_by_two();
  CHECK(factor_at(field, {-1, -1, -1}) == Approx(1.0));
  CHECK(factor_at(field, {9, 9, 9}) == Approx(2.0));
  CHECK(factor_at(field, {0.4, 0.1, 7}) == Approx(2.0));
}

TEST_CASE("An axis with one place does not vary along it") {
  SizeField field;
  field.station = {0, 0.1, 0.3};
  field.y = {0};
  field.z = {0};
  field.values = {1, 2, 1};
  require_usable(field);
  CHECK(factor_at(field, {0.2, 5, -5}) == Approx(1.5));
}

TEST_CASE("The size runs linearly from the struck end to the attachment, times the factor") {
  const SizeAt plain = graded_size(0.8e-3, 1.6e-3, 0.4);
  CHECK(plain({0.1, 0, 0}) == Approx(1.0e-3));
  CHECK(plain({-0.1, 0, 0}) == Approx(0.8e-3));
  CHECK(plain({0.9, 0, 0}) == Approx(1.6e-3));
  const SizeAt varied = graded_size(0.8e-3, 1.6e-3, 0.4, two_by_two_by_two());
  CHECK(varied({0.2, 0, 0.1}) == Approx(1.2e-3 * 1.2375));
}

TEST_CASE("A size factor that cannot be used is refused in words") {
  SizeField field = two_by_two_by_two();
  field.y = {0.1, 0.1};
  CHECK_THROWS_WITH(require_usable(field), "size factor: `y` has 0.1 after 0.1; expected places that rise");
  field = two_by_two_by_two();
  field.station.clear();
  CHECK_THROWS_WITH(require_usable(field), "size factor: `station` is empty; expected at least one place");
  field = two_by_two_by_two();
  field.values.pop_back();
  CHECK_THROWS_WITH(require_usable(field),
                    "size factor: `values` has 7 numbers; expected 2 stations x 2 y x 2 z = 8, "
                    "station fastest");
  field = two_by_two_by_two();
  field.values[3] = -1;
  CHECK_THROWS_WITH(require_usable(field), "size factor: number 4 of `values` is -1; expected more than 0");
  CHECK_THROWS_WITH(graded_size(0, 1e-3, 0.4), "the size at the struck end is 0 m; expected more than 0");
  CHECK_THROWS_AS(graded_size(1e-3, 1e-3, 0.4, field), OutOfDomain);
}
