// Elastic bolt groups as in any handbook of machine elements: N / n, M z / Σ z^2, T r / Σ r^2 (derived).
#include "column_check/service_bolts.hpp"

#include "column_check/service_samples.hpp"
#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace service_samples;

namespace {

BoltPattern four(double wide = 0.1, double high = 0.06, double y = 0, double z = 0) {
  BoltPattern bolts;
  for (const double side : {-0.5, 0.5})
    for (const double up : {-0.5, 0.5})
      bolts.places.push_back({y + side * wide, z + up * high});
  bolts.proof_load = value(20e3);
  bolts.preload = value(0);
  return bolts;
}

} // namespace

TEST_CASE("a pull is shared evenly, a push loads no bolt") {
  CHECK(bolt_service(four(), {{-8000, 0, 0}, {}}, false).tension == Approx(2000));
  CHECK(bolt_service(four(), {{-8000, 0, 0}, {}}, false).use == Approx(0.1));
  CHECK(bolt_service(four(), {{8000, 0, 0}, {}}, false).tension == 0);
  CHECK(bolt_service(four(), {{8000, 0, 0}, {}}, true).tension == Approx(2000)); // alternating: it pulls as well
}

TEST_CASE("a moment pulls the two bolts of a side by M over twice their distance") {
  CHECK(bolt_service(four(), {{}, {0, 300, 0}}, false).tension == Approx(300 / (2 * 0.06)));
  CHECK(bolt_service(four(), {{}, {0, 0, -300}}, false).tension == Approx(300 / (2 * 0.1)));
  const double corner = 300 / (2 * 0.06) + 200 / (2 * 0.1) + 400;
  CHECK(bolt_service(four(), {{-1600, 0, 0}, {0, 300, 200}}, false).tension == Approx(corner));
}

TEST_CASE("a pull beside the middle of the bolts is a pull and a moment") {
  const double y = 0.01, z = -0.02;
  const BoltService beside = bolt_service(four(0.1, 0.06, y, z), {{-8000, 0, 0}, {}}, false);
  CHECK(beside.tension == Approx(2000 + 8000 * 0.02 / (2 * 0.06) + 8000 * 0.01 / (2 * 0.1)));
}

TEST_CASE("a pattern turned against the axes balances the same moment") {
  BoltPattern turned = four();
  const double c = std::cos(0.4), s = std::sin(0.4);
  for (auto& [y, z] : turned.places) {
    const double along = y * c - z * s;
    z = y * s + z * c;
    y = along;
  }
  const CutLoad moment{{}, {0, 300, 200}}, same{{}, {0, 300 * c - 200 * -s, 0}};
  // The moment vector turned back into the pattern's own axes.
  const CutLoad back{{}, {0, 300 * c + 200 * s, -300 * s + 200 * c}};
  CHECK(bolt_service(turned, moment, false).tension == Approx(bolt_service(four(), back, false).tension));
  CHECK(same.moment[1] == Approx(back.moment[1]));
}

TEST_CASE("shear and torque add at a bolt, and meet the pull on an ellipse") {
  BoltPattern bolts = four();
  bolts.shear_load = value(10e3);
  CHECK(bolt_service(bolts, {{0, 4000, 0}, {}}, false).use == Approx(0.1));
  const double radius = std::hypot(0.05, 0.03), each = 100 / (4 * radius);
  CHECK(bolt_service(bolts, {{}, {100, 0, 0}}, false).use == Approx(each / 10e3));
  CHECK(bolt_service(bolts, {{-8000, 4000, 0}, {}}, false).use == Approx(std::hypot(0.1, 0.1)));
  CHECK(bolt_service(four(), {{0, 4000, 0}, {}}, false).use == 0); // no shear load is stated
}

TEST_CASE("a joint opens when a bolt's pull reaches its preload") {
  BoltPattern bolts = four();
  bolts.preload = value(5e3);
  CHECK(bolt_service(bolts, {{-8000, 0, 0}, {}}, false).use == Approx(2000.0 / 5000));
}

TEST_CASE("bolts in one row carry a pull and refuse a moment about the row") {
  BoltPattern row = four(0.1, 0);
  CHECK(bolt_service(row, {{-8000, 0, 0}, {}}, false).tension == Approx(2000));
  CHECK_THROWS_AS(bolt_service(row, {{}, {0, 10, 0}}, false), crushwright::OutOfDomain);
  CHECK_THROWS_AS(bolt_service(BoltPattern{}, {}, false), crushwright::OutOfDomain);
}
