// Several structures on one motion of the bodies, and what stands in series with them.
#include "crush_curve/test_layers.hpp"
#include "crushwright/errors.hpp"
#include "impact/test_impacts.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace crushwright;
using namespace test_impacts;

namespace {

constexpr double pi = std::numbers::pi;

CrushCurve spring(double stiffness) {
  return test_layers::polyline({{0, 0}, {1, stiffness}}, stiffness);
}

Line line(const std::string& id, const CrushCurve& curve, double stagger = 0) {
  Line made;
  made.structure = id;
  made.curve = &curve;
  made.stagger = stagger;
  return made;
}

Line on_rail(const std::string& id, const CrushCurve& curve, const CrushCurve& rail) {
  Line made = line(id, curve);
  made.with = {{"rail", ElementKind::attachment, &rail}};
  return made;
}

ImpactMotion hit(double mass, double speed, const std::vector<Line>& lines,
                 const std::vector<SeriesElement>& common = {}) {
  return integrate_impact(body(mass), wall(), speed, {Group{1, lines, common}});
}

void check_ledger(const ImpactMotion& motion, double tolerance = 1e-9) {
  CHECK(std::abs(motion.ledger.residual) <= tolerance * motion.ledger.input);
}

/// A structure that never falls: polyline of a lattice with skin.
CrushCurve rising_lattice(double factor = 1) {
  return test_layers::polyline({{0, 0},
                                {0.004, 42e3 * factor},
                                {0.060, 46e3 * factor},
                                {0.110, 52e3 * factor},
                                {0.150, 60e3 * factor},
                                {0.180, 95e3 * factor},
                                {0.195, 260e3 * factor},
                                {0.205, 900e3 * factor}},
                               30e6 * factor);
}

} // namespace

TEST_CASE("two equal structures on one motion are one structure of twice the force") {
  const CrushCurve half = lattice_like(), whole = scaled(half, 2, 1);
  const ImpactMotion pair = hit(600, 8, {line("left", half), line("right", half)});
  const ImpactMotion one = test_impacts::hit(body(600), wall(), 8, whole);
  CHECK(pair.columns[0].peak_crush == Approx(one.columns[0].peak_crush).epsilon(1e-10));
  CHECK(pair.columns[1].stop_time == Approx(one.columns[0].stop_time).epsilon(1e-10));
  CHECK(pair.columns[0].residual_crush == Approx(one.columns[0].residual_crush).epsilon(1e-9));
  CHECK(pair.groups[0].rebound_speed == Approx(one.groups[0].rebound_speed).epsilon(1e-9));
  CHECK(pair.groups[0].separation_time == Approx(one.groups[0].separation_time).epsilon(1e-9));
  CHECK(pair.peak_total_force == Approx(one.peak_total_force).epsilon(1e-12));
  check_ledger(pair);
}

TEST_CASE("unequal structures on one motion share one crush, and the stronger takes more of the energy") {
  const CrushCurve weak = constant_force(40e3), strong = constant_force(60e3);
  const ImpactMotion motion = hit(500, 8, {line("weak", weak), line("strong", strong)});
  const double crush = 0.5 * 500 * 64 / 100e3; // energy over the summed force
  CHECK(motion.columns[0].peak_crush == Approx(crush).epsilon(1e-6));
  CHECK(motion.columns[1].peak_crush == Approx(crush).epsilon(1e-6));
  CHECK(motion.columns[0].share == Approx(0.4).epsilon(1e-6));
  CHECK(motion.columns[1].share == Approx(0.6).epsilon(1e-6));
  CHECK(motion.groups[0].stop_time == Approx(8 * 500 / 100e3).epsilon(1e-6));
  check_ledger(motion);
}

TEST_CASE("springs in series give the half sine of their common stiffness and all the energy back") {
  const CrushCurve structure = spring(3e6), rail = spring(6e6), rest = spring(2e6);
  const ImpactMotion motion =
      hit(400, 3, {on_rail("block", structure, rail)}, {{"rest", ElementKind::rest_of_body, &rest}});
  const double stiffness = 1 / (1 / 3e6 + 1 / 6e6 + 1 / 2e6); // 1 MN/m
  const double wave = std::sqrt(stiffness / 400);
  CHECK(motion.groups[0].peak_closing == Approx(3 / wave).epsilon(1e-10));
  CHECK(motion.groups[0].stop_time == Approx(0.5 * pi / wave).epsilon(1e-10));
  CHECK(motion.groups[0].separation_time == Approx(pi / wave).epsilon(1e-10));
  CHECK(motion.groups[0].rebound_speed == Approx(3).epsilon(1e-10));
  CHECK(motion.columns[0].peak_crush == Approx(3 / wave * stiffness / 3e6).epsilon(1e-10));
  CHECK(motion.elements[0].peak_crush == Approx(3 / wave * stiffness / 6e6).epsilon(1e-10));
  CHECK(motion.elements[1].first_crush_time < 0);
  check_ledger(motion);
}

TEST_CASE("springs in parallel behind a common one share the force by their stiffness") {
  const CrushCurve soft = spring(1e6), stiff = spring(3e6), rest = spring(4e6);
  const ImpactMotion motion =
      hit(400, 3, {line("soft", soft), line("stiff", stiff)}, {{"rest", ElementKind::rest_of_body, &rest}});
  const double force = 3 * std::sqrt(400 * 2e6); // v √(m k), k of 4 and 4 MN/m in series
  CHECK(motion.peak_total_force == Approx(force).epsilon(1e-10));
  CHECK(motion.columns[0].peak_force == Approx(0.25 * force).epsilon(1e-10));
  CHECK(motion.columns[1].peak_force == Approx(0.75 * force).epsilon(1e-10));
  CHECK(motion.elements[0].peak_force == Approx(force).epsilon(1e-10));
}

TEST_CASE("a rail weaker than its structure crushes at its capacity and takes the rest of the energy") {
  const CrushCurve structure = test_layers::polyline({{0, 0}, {0.5, 500e3}}, 50e6); // 1 MN/m
  const CrushCurve rail = elastic_plastic(40e6, 80e3);
  const ImpactMotion motion = hit(1000, 6, {on_rail("cone", structure, rail)});
  CHECK(motion.columns[0].peak_force == Approx(80e3).epsilon(1e-9));
  CHECK(motion.columns[0].peak_crush == Approx(0.08).epsilon(1e-9));
  const double in_structure = 0.5 * 80e3 * 0.08, elastic = 0.5 * 80e3 * 80e3 / 40e6;
  const double in_rail = 0.5 * 1000 * 36 - in_structure - elastic;
  CHECK(motion.elements[0].peak_crush == Approx(80e3 / 40e6 + in_rail / 80e3).epsilon(1e-9));
  CHECK(motion.elements[0].lasting_crush == Approx(in_rail / 80e3).epsilon(1e-9));
  CHECK(motion.elements[0].first_crush_time > 0);
  CHECK(motion.ledger.elsewhere == Approx(in_rail).epsilon(1e-9));
  check_ledger(motion);
}

TEST_CASE("a rigid rail of a stated capacity does not shorten below it") {
  const CrushCurve structure = elastic_plastic(20e6, 50e3), rail = constant_force(90e3);
  const ImpactMotion motion = hit(300, 7, {on_rail("cone", structure, rail)});
  const ImpactMotion bare = test_impacts::hit(body(300), wall(), 7, structure);
  CHECK(motion.elements[0].lasting_crush == 0);
  CHECK(motion.elements[0].first_crush_time < 0);
  CHECK(motion.columns[0].peak_crush == Approx(bare.columns[0].peak_crush).epsilon(1e-7));
  CHECK(motion.groups[0].rebound_speed == Approx(bare.groups[0].rebound_speed).epsilon(1e-6));
}

TEST_CASE("a tip that stands back is met when the bodies have closed by its stagger") {
  const CrushCurve first = constant_force(30e3), second = constant_force(50e3);
  const ImpactMotion motion = hit(500, 6, {line("first", first), line("second", second, 0.1)});
  // From 6 m/s under 30 kN over 0.1 m, then 80 kN.
  const double speed_squared = 36 - 2 * 30e3 * 0.1 / 500;
  const double touch = (6 - std::sqrt(speed_squared)) / (30e3 / 500);
  const double further = speed_squared * 500 / (2 * 80e3);
  CHECK(motion.columns[1].touch_time == Approx(touch).epsilon(1e-6));
  CHECK(motion.columns[0].peak_crush == Approx(0.1 + further).epsilon(1e-6));
  CHECK(motion.columns[1].peak_crush == Approx(further).epsilon(1e-6));
  check_ledger(motion);
}

TEST_CASE("a tip that stands back too far is never met") {
  const CrushCurve first = constant_force(100e3), second = constant_force(50e3);
  const ImpactMotion motion = hit(500, 6, {line("first", first), line("second", second, 0.5)});
  CHECK(motion.columns[1].peak_crush == 0);
  CHECK(motion.columns[1].peak_force == 0);
  CHECK(motion.columns[1].share == 0);
  const ImpactHistory history = sample(motion, 1e-3);
  for (const double force : history.column_force[1])
    CHECK(force == 0);
}

TEST_CASE("the rest of the body gives way when the structures together pass its capacity") {
  const CrushCurve cone = elastic_plastic(50e6, 60e3), rest = elastic_plastic(20e6, 100e3);
  const ImpactMotion motion =
      hit(1000, 8, {line("left", cone), line("right", cone)}, {{"rest", ElementKind::rest_of_body, &rest}});
  CHECK(motion.peak_total_force == Approx(100e3).epsilon(1e-9));
  CHECK(motion.columns[0].peak_force == Approx(50e3).epsilon(1e-9));
  const double elastic = 0.5 * 100e3 * (100e3 / 20e6 + 100e3 / 100e6);
  CHECK(motion.ledger.elsewhere == Approx(0.5 * 1000 * 64 - elastic).epsilon(1e-9));
  check_ledger(motion);
}

TEST_CASE(
    "a first peak that falls faster than a soft rail can follow lets the rail spring back and loses that energy") {
  const CrushCurve structure = test_layers::polyline({{0, 0}, {0.002, 100e3}, {0.004, 40e3}, {1, 40e3}}, 50e6);
  const CrushCurve rail = spring(2e6); // the fall is 30 MN/m steep
  const ImpactMotion motion = hit(500, 6, {on_rail("cone", structure, rail)});
  // Between the rail's line, which lets go at 2 MN/m from the peak, and the curve.
  const double released = 0.5 * 60e3 * (60e3 / 2e6) - 0.5 * 60e3 * 0.002;
  CHECK(motion.ledger.released == Approx(released).epsilon(1e-9));
  CHECK(motion.columns[0].peak_force == Approx(100e3).epsilon(1e-9));
  check_ledger(motion);
}

TEST_CASE("two structures whose peaks fall on a soft body spring back together") {
  const CrushCurve structure = test_layers::polyline({{0, 0}, {0.002, 50e3}, {0.004, 20e3}, {1, 20e3}}, 50e6);
  const CrushCurve rest = spring(2e6);
  const ImpactMotion motion =
      hit(500, 6, {line("left", structure), line("right", structure)}, {{"rest", ElementKind::rest_of_body, &rest}});
  const double released = 0.5 * 60e3 * (60e3 / 2e6) - 0.5 * 60e3 * 0.002;
  CHECK(motion.ledger.released == Approx(released).epsilon(1e-9));
  CHECK(motion.columns[0].peak_crush == Approx(motion.columns[1].peak_crush).epsilon(1e-12));
  check_ledger(motion);
}

TEST_CASE("a first peak on a stiff rail is followed without any loss") {
  const CrushCurve structure = lattice_like(), rail = spring(200e6);
  const ImpactMotion motion = hit(300, 7, {on_rail("cone", structure, rail)});
  CHECK(motion.ledger.released == 0);
  CHECK(motion.columns[0].peak_force >= 62e3 * (1 - 1e-12));
  check_ledger(motion);
}

TEST_CASE("the order of the lines does not matter") {
  const CrushCurve a = lattice_like(), b = rising_lattice(1.3), rail = elastic_plastic(30e6, 58e3),
                   rest = spring(20e6);
  Line on = on_rail("a", a, rail), other = line("b", b, 0.012);
  const std::vector<SeriesElement> common = {{"rest", ElementKind::rest_of_body, &rest}};
  const ImpactMotion one = hit(900, 9, {on, other}, common), two = hit(900, 9, {other, on}, common);
  CHECK(one.columns[0].peak_crush == Approx(two.columns[1].peak_crush).epsilon(1e-10));
  CHECK(one.columns[1].residual_crush == Approx(two.columns[0].residual_crush).epsilon(1e-9));
  CHECK(one.groups[0].stop_time == Approx(two.groups[0].stop_time).epsilon(1e-10));
  CHECK(one.elements[0].lasting_crush == Approx(two.elements[0].lasting_crush).epsilon(1e-9));
  check_ledger(one);
}

TEST_CASE("cutting the segments of the curves into pieces changes nothing") {
  const auto finer = [](const CrushCurve& curve) {
    CrushCurve fine = curve;
    fine.crush.clear();
    fine.force.clear();
    fine.energy.clear();
    for (std::size_t k = 0; k + 1 < curve.crush.size(); ++k)
      for (int n = 0; n < 5; ++n) {
        const double x = curve.crush[k] + 0.2 * n * (curve.crush[k + 1] - curve.crush[k]);
        fine.crush.push_back(x);
        fine.force.push_back(curve.force[k] + 0.2 * n * (curve.force[k + 1] - curve.force[k]));
        fine.energy.push_back(curve.energy_at(x));
      }
    fine.crush.push_back(curve.crush.back());
    fine.force.push_back(curve.force.back());
    fine.energy.push_back(curve.energy.back());
    return fine;
  };
  const CrushCurve structure = rising_lattice(), rail = elastic_plastic(30e6, 70e3);
  const CrushCurve fine_structure = finer(structure), fine_rail = finer(rail);
  const ImpactMotion coarse = hit(600, 8, {on_rail("a", structure, rail), line("b", structure, 0.02)});
  const ImpactMotion fine = hit(600, 8, {on_rail("a", fine_structure, fine_rail), line("b", fine_structure, 0.02)});
  CHECK(fine.columns[0].peak_crush == Approx(coarse.columns[0].peak_crush).epsilon(1e-9));
  CHECK(fine.columns[1].peak_crush == Approx(coarse.columns[1].peak_crush).epsilon(1e-9));
  CHECK(fine.groups[0].separation_time == Approx(coarse.groups[0].separation_time).epsilon(1e-9));
}

TEST_CASE("momentum holds at every time of a group with elements") {
  const CrushCurve a = lattice_like(), b = rising_lattice(), rail = elastic_plastic(30e6, 58e3);
  const Body striker{"striker", 1100, false}, car{"car", 1300, false};
  const ImpactMotion motion =
      integrate_impact(striker, car, 9, {Group{1, {on_rail("a", a, rail), line("b", b, 0.03)}, {}}});
  const ImpactHistory history = sample(motion, 1e-4);
  for (std::size_t n = 0; n < history.time.size(); ++n)
    CHECK(1100 * history.striker_speed[n] + 1300 * history.struck_speed[n] == Approx(1100 * 9).epsilon(1e-9));
  CHECK(speed_change(motion, car) == Approx(history.struck_speed.back()).epsilon(1e-6));
}

TEST_CASE("an element whose force falls is refused") {
  const CrushCurve structure = constant_force(50e3), rail = lattice_like();
  CHECK_THROWS_AS(hit(300, 7, {on_rail("a", structure, rail)}), OutOfDomain);
}
