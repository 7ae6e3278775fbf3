#include "crash_case/unconfirmed.hpp"

#include "crash_case/sample_case.hpp"

#include <catch2/catch.hpp>
#include <vector>

using namespace crushwright;
using namespace sample_case;
using Sentences = std::vector<std::string>;

namespace {

std::string with_requirement(const std::string& requirement) {
  return with_limit("{of: car, quantity: acceleration, at_most: 30 g, " + requirement + "}");
}

} // namespace

TEST_CASE("a limit of a template asks for the edition and the clause that apply, once") {
  // The limit holds in both impacts of the case.
  CHECK(unconfirmed(read(with_requirement("status: regulation, requirement: {identifier: R 1, edition: state the "
                                          "edition, clause: state the clause}"))) ==
        Sentences{"limit peak: the edition and the clause of R 1 are not stated: write those that apply into "
                  "`requirement`, and confirm the impact and the limit against it."});
  CHECK(unconfirmed(read(with_requirement("requirement: {edition: state the edition, clause: 4.2}"))) ==
        Sentences{"limit peak: the edition of its requirement is not stated: write the one that applies into "
                  "`requirement`, and confirm the impact and the limit against it."});
}

TEST_CASE("a regulation or series rule without an edition is told, one of the user's own is not") {
  CHECK(
      unconfirmed(read(with_requirement("status: series_rule, requirement: {identifier: SER-07, clause: 16.4}"))) ==
      Sentences{"limit peak: the edition of SER-07 is not stated: write the one that applies into `requirement`, and "
                "confirm the impact and the limit against it."});
  CHECK(unconfirmed(read(with_requirement("requirement: {identifier: STR-04}"))).empty());
  CHECK(unconfirmed(read(with_requirement("status: regulation, requirement: {edition: \"2031\", clause: 16.4}")))
            .empty());
}

TEST_CASE("values from memory are counted and the first is named") {
  CHECK(unconfirmed(read()).empty());
  const std::string speed = "closing_speed: 9 m/s";
  CHECK(
      unconfirmed(read(with(speed, "closing_speed: {value: 9 m/s, source: recalled, standing: memory}"))) ==
      Sentences{"One value of the case is from memory, impacts.full.closing_speed: confirm it before the verdict is "
                "relied on."});
  std::string two = with(speed, "closing_speed: {value: 9 m/s, source: recalled, standing: memory}");
  two.replace(two.find("cell_edge: 10 mm"), 16, "cell_edge: {value: 10 mm, standing: memory}");
  CHECK(unconfirmed(read(two)) ==
        Sentences{"2 values of the case are from memory, structures.left.lattice.cell_edge the first of them; the "
                  "inputs mark each. Confirm them before the verdict is relied on."});
}
