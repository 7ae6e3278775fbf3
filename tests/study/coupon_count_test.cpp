#include "crushwright/catalogue.hpp"
#include "crushwright/coupon_count.hpp"
#include "crushwright/errors.hpp"

#include "crash_case/scatter_reader.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;
using Catch::Contains;

namespace {

const std::string source = CRUSHWRIGHT_SOURCE_DIR;

struct Demo {
  Catalogue catalogue{{source + "/lattices"}};
  CrashCase crash_case = read_case(source + "/cases/twin_rear_cones.yaml");
  std::vector<StructureModel> structures = structure_models(crash_case, catalogue);
};

} // namespace

TEST_CASE("a scatter that three coupons cannot vouch for passes with more, and the fewest are found") {
  Demo demo;
  const CouponCount few = coupons_to_pass(demo.crash_case, demo.structures, 0.05, 3);
  INFO(few.sentence);
  CHECK(few.factor == Approx(7.656).margin(1e-3)); // 95 % of the population at 95 %: tables, memory
  CHECK(few.word == Word::open);
  CHECK(few.word_if_known == Word::pass);
  REQUIRE(few.needed);
  CHECK(*few.needed > 3);
  // The number found passes, and one fewer does not.
  CHECK(coupons_to_pass(demo.crash_case, demo.structures, 0.05, *few.needed).word == Word::pass);
  CHECK(coupons_to_pass(demo.crash_case, demo.structures, 0.05, *few.needed - 1).word != Word::pass);
  CHECK_THAT(few.sentence, Contains(std::to_string(*few.needed) + " specimens would make it pass"));
}

TEST_CASE("a scatter that no number of coupons makes good is said to be so") {
  Demo demo;
  const CouponCount wide = coupons_to_pass(demo.crash_case, demo.structures, 0.3, 5);
  CHECK(wide.word != Word::pass);
  CHECK_FALSE(wide.needed);
  CHECK_THAT(wide.sentence, Contains("no number of specimens would make it pass"));
}

TEST_CASE("a scatter that passes as it is needs nothing more") {
  Demo demo;
  const CouponCount fine = coupons_to_pass(demo.crash_case, demo.structures, 0.01, 9);
  CHECK(fine.word == Word::pass);
  CHECK(fine.needed == 9);
}

TEST_CASE("one coupon, or a scatter over one half, is refused") {
  Demo demo;
  CHECK_THROWS_AS(coupons_to_pass(demo.crash_case, demo.structures, 0.05, 1), OutOfDomain);
  CHECK_THROWS_AS(coupons_to_pass(demo.crash_case, demo.structures, 0.7, 5), OutOfDomain);
}
