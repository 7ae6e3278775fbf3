#include "crush_curve/test_layers.hpp"
#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>
#include <vector>

using namespace crushwright;
using namespace test_layers;

namespace {

/// Two weak rows before six strong ones, rigid-plastic-locking: forces 10 kN and 20 kN, packed at 60 %.
std::vector<Layer> stepped() {
  std::vector<Layer> layers;
  for (int i = 0; i < 8; ++i)
    layers.push_back(layer(0.01 * i, 0.01, i < 2 ? 10e3 : 20e3, rigid_plastic_locking(0.6), 0.6));
  return layers;
}

} // namespace

TEST_CASE("rows behind a step start afresh, rows of a uniform or evenly graded body follow their neighbours") {
  CHECK(fresh_starts(stepped()) == std::vector<std::size_t>{2});
  CHECK(fresh_starts(layers_of(
                         20, 0.2, [](double) { return 2e4; }, 0.6))
            .empty());
  CHECK(fresh_starts(layers_of(
                         48, 0.4, [](double x) { return 2e4 + 1e5 * x; }, 0.6))
            .empty());
  // Cut coarsely an even grade has large gaps, none of which stands out.
  CHECK(fresh_starts(layers_of(
                         4, 0.4, [](double x) { return 2e4 + 2e5 * x; }, 0.6))
            .empty());
  CHECK(fresh_starts({stepped().front()}).empty());
}

TEST_CASE("a step of less than a tenth starts nothing afresh") {
  std::vector<Layer> layers = stepped();
  for (std::size_t i = 2; i < layers.size(); ++i)
    layers[i].lattice_force = 10.9e3;
  CHECK(fresh_starts(layers).empty());
  for (std::size_t i = 2; i < layers.size(); ++i)
    layers[i].lattice_force = 11.1e3;
  CHECK(fresh_starts(layers) == std::vector<std::size_t>{2});
}

TEST_CASE("a weak row away from the struck end makes the rows around it start afresh, wherever it lies") {
  std::vector<Layer> layers = stepped();
  std::swap(layers[0].lattice_force, layers[5].lattice_force);
  const auto fresh = fresh_starts(layers);
  REQUIRE(fresh.size() == 1);
  CHECK(layers[fresh.front()].lattice_force == 20e3);
}

TEST_CASE("the peak behind a trigger stands where the weak rows have packed, and dies out over its crush") {
  const CrushCurve plain = crush_curve(stepped());
  const CrushCurve peaked = crush_curve(stepped(), {}, {{20e3, 1.5, 0.006}});
  const double packed = 2 * 0.6 * 0.01;
  const double rise = 0.5 * 20e3 / plain.elastic_stiffness;
  CHECK(peaked.force_at(packed - 1e-6) == Approx(10e3).epsilon(1e-9));
  // The locked rows' slope of 1e9 per unit strain puts the step 1e-11 m further.
  CHECK(peaked.peak_force_up_to(0.02) == Approx(30e3).epsilon(1e-6));
  CHECK(peaked.force_at(packed + rise) == Approx(30e3).epsilon(1e-4));
  // A triangle to zero cuts the plateau after a third of its fall.
  CHECK(peaked.force_at(packed + rise + 0.006 / 3) == Approx(20e3).epsilon(1e-4));
  CHECK(peaked.force_at(0.03) == Approx(20e3).epsilon(1e-9));
  CHECK(peaked.bottoming_crush == plain.bottoming_crush);
  // Area over the plateau: half of height times base, the base the rise and a third of the fall.
  const double extra = 0.5 * 10e3 * (rise + 0.006 / 3);
  CHECK(peaked.energy_at(0.03) - plain.energy_at(0.03) == Approx(extra).epsilon(1e-4));
}

TEST_CASE("a later peak that lies under the first one's triangle changes nothing") {
  const CrushCurve first = crush_curve(stepped(), {4, 0.5});
  const CrushCurve both = crush_curve(stepped(), {4, 0.5}, {{20e3, 1.5, 0.004}});
  for (double crush = 0; crush < 0.05; crush += 3e-4) {
    CHECK(both.force_at(crush) == Approx(first.force_at(crush)).epsilon(1e-12));
    CHECK(both.energy_at(crush) == Approx(first.energy_at(crush)).epsilon(1e-9).margin(1e-9));
  }
}

TEST_CASE("with later peaks the crush still rises from point to point and energy is the area") {
  const CrushCurve curve = crush_curve(stepped(), {1.3, 0.002}, {{20e3, 1.5, 0.004}});
  double area = 0;
  for (std::size_t k = 1; k < curve.crush.size(); ++k) {
    REQUIRE(curve.crush[k] > curve.crush[k - 1]);
    area += 0.5 * (curve.force[k] + curve.force[k - 1]) * (curve.crush[k] - curve.crush[k - 1]);
  }
  CHECK(curve.energy.back() == Approx(area).epsilon(1e-12));
}

TEST_CASE("a later peak without height or crush is refused with its values") {
  CHECK_THROWS_WITH(crush_curve(stepped(), {}, {{20e3, 1.5, 0}}),
                    "a later peak of 1.5 times its start force dies out over 0 m of crush; the ratio must be above 1 "
                    "and the crush above 0");
  CHECK_THROWS_AS(crush_curve(stepped(), {}, {{20e3, 1, 0.01}}), OutOfDomain);
}
