#include "crushwright/crush_curve.hpp"

#include "crush_curve/test_layers.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <vector>

using namespace crushwright;
using namespace test_layers;

namespace {

std::vector<Layer> three_layers() {
  return {lattice_layer(0.00, 0.05, 20e3), lattice_layer(0.05, 0.04, 26e3), lattice_layer(0.09, 0.06, 33e3)};
}

/// Area under a curve by many small trapezoids, without its stored energies.
double area_by_steps(const CrushCurve& curve, double to) {
  constexpr int steps = 200000;
  double area = 0;
  for (int i = 0; i < steps; ++i)
    area += curve.force_at(to * (i + 0.5) / steps);
  return area * to / steps;
}

} // namespace

TEST_CASE("the curve of one layer is its shape times its force and its height") {
  const Layer layer = lattice_layer(0, 0.08, 25e3);
  const CrushCurve curve = crush_curve({layer});
  for (std::size_t i = 0; i < CurveShape::points; ++i)
    CHECK(curve.force_at(0.08 * layer.shape.strain[i]) ==
          Approx(25e3 * layer.shape.ratio[i]).epsilon(1e-12).margin(1e-6));
  CHECK(curve.bottoming_crush == Approx(0.08 * 0.6).epsilon(1e-12));
  CHECK(curve.elastic_stiffness == Approx(100 * 25e3 / 0.08).epsilon(1e-12));
}

TEST_CASE("layers in series carry one force and their shortenings add up") {
  const std::vector<Layer> layers = three_layers();
  const CrushCurve curve = crush_curve(layers);
  for (double force = 1e3; force < 200e3; force *= 1.07) {
    double sum = 0;
    for (const Layer& layer : layers)
      sum += crush_curve({layer}).crush_at_force(force);
    CHECK(curve.crush_at_force(force) == Approx(sum).epsilon(1e-9));
    const std::vector<double> shortenings = layer_shortenings(layers, force);
    CHECK(std::accumulate(shortenings.begin(), shortenings.end(), 0.0) == Approx(sum).epsilon(1e-9));
  }
}

TEST_CASE("the order of the layers does not matter to the curve") {
  std::vector<Layer> layers = three_layers();
  const CrushCurve curve = crush_curve(layers);
  std::reverse(layers.begin(), layers.end());
  const CrushCurve reversed = crush_curve(layers);
  REQUIRE(reversed.crush.size() == curve.crush.size());
  for (std::size_t i = 0; i < curve.crush.size(); ++i) {
    CHECK(reversed.crush[i] == Approx(curve.crush[i]).epsilon(1e-12).margin(1e-15));
    CHECK(reversed.force[i] == Approx(curve.force[i]).epsilon(1e-12).margin(1e-9));
  }
}

TEST_CASE("the weakest layer crushes first") {
  const std::vector<double> shortenings = layer_shortenings(three_layers(), 23e3);
  CHECK(shortenings[0] > 0.06 * 0.05);
  CHECK(shortenings[1] < 0.06 * 0.04);
  CHECK(shortenings[2] < 0.06 * 0.06);
}

TEST_CASE("absorbed energy equals the area under the crush curve") {
  const CrushCurve curve = crush_curve(three_layers(), {1.3, 0.01});
  for (const double crush : {0.002, 0.02, 0.05, 0.09, 0.1})
    CHECK(curve.energy_at(crush) == Approx(area_by_steps(curve, crush)).epsilon(1e-7));
}

TEST_CASE("absorbed energy in series is the sum of what the layers absorb at one force") {
  const std::vector<Layer> layers = three_layers();
  const CrushCurve curve = crush_curve(layers);
  for (const double force : {15e3, 24e3, 40e3, 90e3}) {
    double sum = 0;
    for (const Layer& layer : layers) {
      const CrushCurve alone = crush_curve({layer});
      sum += alone.energy_at(alone.crush_at_force(force));
    }
    CHECK(curve.energy_at(curve.crush_at_force(force)) == Approx(sum).epsilon(1e-9));
  }
}

TEST_CASE("scaling a curve equals composing it again from scaled layers") {
  const double k = 1.17, d = 0.93;
  std::vector<Layer> layers = three_layers();
  const CrushCurve curve = scaled(crush_curve(layers, {1.4, 0.008}), k, d);
  for (Layer& layer : layers) {
    layer.lattice_force *= k;
    layer.elastic_force *= k / d;
    layer.efficiency_strain *= d;
    for (double& strain : layer.shape.strain)
      strain *= d;
  }
  const CrushCurve composed = crush_curve(layers, {1.4, 0.008 * d});
  REQUIRE(curve.crush.size() == composed.crush.size());
  for (std::size_t i = 0; i < curve.crush.size(); ++i) {
    CHECK(curve.crush[i] == Approx(composed.crush[i]).epsilon(1e-9).margin(1e-15));
    CHECK(curve.force[i] == Approx(composed.force[i]).epsilon(1e-9).margin(1e-9));
    CHECK(curve.energy[i] == Approx(composed.energy[i]).epsilon(1e-9).margin(1e-9));
  }
  CHECK(curve.elastic_stiffness == Approx(composed.elastic_stiffness).epsilon(1e-12));
  CHECK(curve.bottoming_crush == Approx(composed.bottoming_crush).epsilon(1e-9));
  CHECK(curve.bottoming_force == Approx(composed.bottoming_force).epsilon(1e-12));
}

TEST_CASE("layers that are equal but for rounding still give a curve of which every scaled one rises in crush") {
  std::vector<Layer> layers;
  for (int i = 0; i < 40; ++i)
    layers.push_back(lattice_layer(0.01 * i, 0.01, 50e3 * (1 + 2e-16 * (i % 3))));
  const CrushCurve curve = crush_curve(layers, {});
  for (const double factor : {1.0, 0.9677, 0.933, 1.033}) {
    const CrushCurve changed = scaled(curve, 1.1, factor);
    for (std::size_t k = 1; k < changed.crush.size(); ++k)
      REQUIRE(changed.crush[k] - changed.crush[k - 1] > 1e-15);
  }
}

TEST_CASE("a layer without a rise resists from the first moment") {
  const CrushCurve curve = crush_curve({layer(0, 0.1, 30e3, rigid_plastic_locking(0.6), 0.6)});
  CHECK(curve.force_at(0) == Approx(30e3).epsilon(1e-12));
  CHECK(curve.force_at(1e-9) == Approx(30e3).epsilon(1e-12));
  CHECK(curve.energy_at(0.06) == Approx(1800).epsilon(1e-9));
}

TEST_CASE("the crush that absorbs an energy and the energy at a crush are inverse to each other") {
  for (const FirstPeak peak : {FirstPeak{}, FirstPeak{1.5, 0.01}}) {
    const CrushCurve curve = crush_curve(three_layers(), peak);
    CHECK(curve.crush_at_energy(0) == 0);
    for (double energy = 0.01; energy < 1e5; energy *= 1.9)
      CHECK(curve.energy_at(curve.crush_at_energy(energy)) == Approx(energy).epsilon(1e-11));
  }
}

TEST_CASE("beyond the last point the curve goes on with its last slope") {
  const CrushCurve curve = crush_curve(three_layers());
  const double last = curve.crush.back();
  const double before = curve.force_at(last) - curve.force_at(last - 1e-6);
  CHECK(curve.force_at(last + 1e-6) - curve.force_at(last) == Approx(before).epsilon(1e-6));
}

TEST_CASE("a first peak appears once at the start and leaves the rest of the curve alone") {
  const std::vector<Layer> layers = three_layers();
  const CrushCurve base = crush_curve(layers);
  const CrushCurve peaked = crush_curve(layers, {1.5, 0.012});
  const double first_force = 20e3 * layers[0].shape.ratio[1];
  const double top_crush = base.crush_at_force(first_force);
  CHECK(peaked.force_at(top_crush) == Approx(1.5 * first_force).epsilon(1e-12));
  CHECK(peaked.peak_force_up_to(0.03) == Approx(1.5 * first_force).epsilon(1e-12));
  for (double crush = top_crush + 0.012; crush < base.crush.back(); crush += 0.0007)
    CHECK(peaked.force_at(crush) == Approx(base.force_at(crush)).epsilon(1e-12));
  std::size_t maxima = 0;
  for (std::size_t i = 1; i + 1 < peaked.force.size(); ++i)
    if (peaked.force[i] > peaked.force[i - 1] && peaked.force[i] > peaked.force[i + 1])
      ++maxima;
  CHECK(maxima == 1);
  CHECK(peaked.bottoming_crush == base.bottoming_crush);
  for (double crush = 0; crush < 0.03; crush += 1e-4)
    CHECK(peaked.force_at(crush) >= base.force_at(crush) * (1 - 1e-12));
}

TEST_CASE("between the peak and its end the force is the larger of the falling line and the curve") {
  const std::vector<Layer> layers = three_layers();
  const CrushCurve base = crush_curve(layers);
  const CrushCurve peaked = crush_curve(layers, {1.5, 0.012});
  const double top = 1.5 * 20e3 * layers[0].shape.ratio[1];
  const double top_crush = base.crush_at_force(top / 1.5);
  for (double further = 0; further < 0.012; further += 1e-4) {
    const double line = top * (1 - further / 0.012);
    CHECK(peaked.force_at(top_crush + further) ==
          Approx(std::max(line, base.force_at(top_crush + further))).epsilon(1e-9));
  }
}

TEST_CASE("on a flat plateau the first peak stands at the plateau's start") {
  const CrushCurve curve = crush_curve({layer(0, 0.1, 10e3, rigid_plastic_locking(0.6, 0.02), 0.6)}, {1.4, 0.01});
  CHECK(curve.force_at(0.002) == Approx(14e3).epsilon(1e-12));
  CHECK(curve.force_at(0.012) == Approx(10e3).epsilon(1e-12));
  const CrushCurve at_once = crush_curve({layer(0, 0.1, 10e3, rigid_plastic_locking(0.6), 0.6)}, {1.4, 0.01});
  CHECK(at_once.force_at(0) == Approx(14e3).epsilon(1e-12));
  CHECK(at_once.force_at(0.01) == Approx(10e3).epsilon(1e-12));
}

TEST_CASE("the stroke below a force level passes over a first peak above it") {
  const std::vector<Layer> layers = three_layers();
  const CrushCurve base = crush_curve(layers);
  const CrushCurve peaked = crush_curve(layers, {1.5, 0.012});
  CHECK(peaked.peak_force_up_to(0.02) > 27e3);
  CHECK(peaked.crush_at_force(27e3) == Approx(base.crush_at_force(27e3)).epsilon(1e-12));
  CHECK(peaked.force_at(peaked.crush_at_force(45e3)) == Approx(45e3).epsilon(1e-12));
  CHECK(peaked.crush_at_force(-1) == 0);
}

TEST_CASE("the structure bottoms when its last layer reaches its efficiency strain") {
  const std::vector<Layer> layers = three_layers();
  const CrushCurve curve = crush_curve(layers);
  const std::vector<double> shortenings = layer_shortenings(layers, curve.bottoming_force);
  CHECK(shortenings[2] == Approx(0.6 * 0.06).epsilon(1e-9));
  CHECK(shortenings[0] > 0.6 * 0.05);
  CHECK(shortenings[1] > 0.6 * 0.04);
  CHECK(curve.bottoming_crush == Approx(shortenings[0] + shortenings[1] + shortenings[2]).epsilon(1e-9));
}

TEST_CASE("a layer whose force stayed below its collapse force keeps no crush") {
  const std::vector<Layer> layers = three_layers();
  const double own = layers[1].lattice_force * layers[1].shape.ratio[1];
  CHECK(permanent_crush(layers, own, 0.05, 0.09) == 0);
  CHECK(permanent_crush(layers, 0.5 * own, 0.0, 0.15) == 0);
  CHECK(permanent_crush(layers, 1.2 * own, 0.05, 0.09) > 0);
  CHECK(permanent_crush(layers, 1.2 * own, 0.00, 0.05) ==
        Approx(layer_shortenings(layers, 1.2 * own)[0] - 0.06 * 0.05));
  CHECK(permanent_crush(layers, 40e3, 0.0, 0.15) ==
        Approx(permanent_crush(layers, 40e3, 0.0, 0.05) + permanent_crush(layers, 40e3, 0.05, 0.15)));
}

TEST_CASE("a layer that would crush before its outer neighbour is named") {
  CHECK(inversions(three_layers()).empty());
  const std::vector<Layer> layers{lattice_layer(0, 0.05, 20e3), lattice_layer(0.05, 0.05, 30e3),
                                  lattice_layer(0.10, 0.05, 24e3), lattice_layer(0.15, 0.05, 24e3)};
  const std::vector<Inversion> found = inversions(layers);
  REQUIRE(found.size() == 1);
  CHECK(found[0].station == 0.10);
  CHECK(found[0].collapse_force == 24e3);
  CHECK(found[0].outer_collapse_force == 30e3);
  CHECK(inversions(layers, 0.25).empty());
}

TEST_CASE("a structure that cannot have a curve is refused with its values") {
  CHECK_THROWS_AS(crush_curve({}), OutOfDomain);
  CHECK_THROWS_WITH(crush_curve({lattice_layer(0, 0.05, 2e4), lattice_layer(0.05, 0, 2e4)}),
                    "layer 2 has a height of 0 m; it must be above 0");
  CHECK_THROWS_WITH(crush_curve({lattice_layer(0.125, 0.05, 0)}),
                    "layer 1 at station 0.1250 m has no strength: its collapse force is 0 N");
  CHECK_THROWS_WITH(crush_curve(three_layers(), {1.5, 0}),
                    "a first peak of 1.5 times the collapse force dies out over 0 m of crush; it must be above 0");
}
