#include "sample_cases.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace crushwright;
using namespace sample_cases;

// The sums below use nothing of the program: the numbers of the case file, of the material's sources and the
// published law, as one would with a pocket calculator.
namespace by_hand {

constexpr double side = 8, wall = 0.5;        // of the hexagon [mm]
constexpr double width = 100, length = 200;   // of the block [mm]
constexpr double mass = 300, speed = 7;       // kg, m/s
constexpr double proof = 230, ultimate = 345; // MPa
constexpr double uniform_elongation = 0.12;
constexpr double density = 2670; // kg/m^3

const double ratio = wall / side;
/// sqrt(σy σu / (1 + n)), n = ln(1 + uniform elongation) [MPa]
const double flow_stress = std::sqrt(proof * ultimate / (1 + std::log(1 + uniform_elongation)));
/// Gibson and Ashby, 5.6 (t/l)^(5/3) of the flow stress [MPa]
const double crush_stress = 5.6 * std::pow(ratio, 5.0 / 3) * flow_stress;
const double crush_force = crush_stress * width * width; // [N]
const double energy = 0.5 * mass * speed * speed;        // [J]
/// Less the open hexagons: of a cell with side l the part (l - t/√3)²/l² is open.
const double relative_density = 1 - std::pow(1 - ratio / std::sqrt(3.0), 2);
const double block_mass = relative_density * density * width * width * length * 1e-9; // [kg]
/// The force rises over 6 % of the length; the energy of that rise is half as much as on the plateau.
const double crush = 1000 * energy / crush_force + 0.5 * 0.06 * length; // [mm]

} // namespace by_hand

TEST_CASE("the honeycomb block agrees with a hand calculation within 1 %") {
  const Estimate result = estimate(shipped_case("honeycomb_block"), catalogue());
  const StructureModel& model = result.structures.front();
  const StructureOutcome& nominal = outcome(result);
  CHECK(by_hand::energy == 7350);
  CHECK(result.deciding.impacts.front().available_energy == Approx(by_hand::energy).epsilon(1e-12));
  CHECK(model.mass.total == Approx(by_hand::block_mass).epsilon(0.01));
  CHECK(model.cells[1].properties.plateau_stress.value == Approx(by_hand::crush_stress * 1e6).epsilon(0.01));
  CHECK(model.layers.front().collapse_force() == Approx(by_hand::crush_force).epsilon(0.01));
  CHECK(nominal.peak_force == Approx(by_hand::crush_force).epsilon(0.01));
  CHECK(nominal.peak_crush * 1000 == Approx(by_hand::crush).epsilon(0.01));
  // For docs/verification.md, with -s.
  CAPTURE(by_hand::flow_stress, by_hand::crush_stress, by_hand::crush_force, by_hand::relative_density,
          by_hand::block_mass, by_hand::crush, model.cells[1].properties.plateau_stress.value,
          model.layers.front().collapse_force(), model.layers.front().relative_density, model.mass.total,
          nominal.peak_force, nominal.peak_crush);
  CHECK(nominal.energy == Approx(by_hand::energy).epsilon(1e-9));
}

TEST_CASE("the hand calculation moves with the wall as 5/3 in force and once in mass") {
  CrashCase crash_case = shipped_case("honeycomb_block");
  const StructureModel drawn = structure_models(crash_case, catalogue()).front();
  crash_case.structures.front().lattice->size_tip.value = crash_case.structures.front().lattice->size_root.value =
      0.4e-3;
  const StructureModel thinner = structure_models(crash_case, catalogue()).front();
  CHECK(thinner.layers.front().collapse_force() / drawn.layers.front().collapse_force() ==
        Approx(std::pow(0.8, 5.0 / 3)).epsilon(1e-6));
  CHECK(thinner.mass.total / drawn.mass.total == Approx(0.8).epsilon(0.01));
}
