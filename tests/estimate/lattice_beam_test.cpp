#include "estimate/lattice_beam.hpp"

#include "crushwright/errors.hpp"
#include "crushwright/homogenisation.hpp"
#include "estimate/shear_ratio.hpp"
#include "unit_cell/catalogue_folder.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace crushwright;

namespace {

const Catalogue& catalogue() {
  static const Catalogue own = own_catalogue();
  return own;
}

const BaseMaterial& metal() {
  return catalogue().material("AlSi10Mg-stress-relieved");
}

} // namespace

TEST_CASE("a slender octet's shear modulus is 3/4 of its modulus along an edge") {
  // ρ̄/12 over ρ̄/9: C44 and E100 of the pin-jointed octet, Deshpande, Fleck, Ashby, JMPS 49 (2001) 1747; memory. Nodes
  // stiffen both a little.
  CHECK(shear_ratio(catalogue().cell("octet"), "100", 0.01).value == Approx(0.75).epsilon(0.02));
}

TEST_CASE("along a body diagonal the octet's shear moduli are those of its cubic tensor") {
  // Cubic, derived. Pins: C11 = ρ̄/6, C12 = C44 = ρ̄/12:
  // s11 − s12 = 12/ρ̄, s44 = 12/ρ̄, so 1/G = (4 (s11 − s12) + s44)/3 = 20/ρ̄ and E(111) = ρ̄/5: G/E = 1/4.
  CHECK(shear_ratio(catalogue().cell("octet"), "111", 0.01).value == Approx(0.25).epsilon(0.03));
}

TEST_CASE("an isotropic foam and a honeycomb along its axis have their closed forms") {
  CHECK(shear_ratio(catalogue().cell("metal_foam_closed"), "100", 0.1).value == Approx(1 / (2 * 1.33)));
  // Gibson, Ashby, Cellular Solids, ch. 4, memory: G = ρ̄ Gs/2, E = ρ̄ Es. With doubled walls across them 3/8.
  CHECK(shear_ratio(catalogue().cell("honeycomb_uniform_wall"), "001", 0.1).value == Approx(0.5 / 2.6));
  CHECK(shear_ratio(catalogue().cell("honeycomb_doubled_wall"), "001", 0.1).value == Approx(0.375 / 2.6));
}

TEST_CASE("the honeycombs' closed forms are those of their own solid") {
  for (const char* id : {"honeycomb_uniform_wall", "honeycomb_doubled_wall"}) {
    INFO(id);
    const UnitCell& cell = catalogue().cell(id);
    const SolidStiffness solid =
        solid_stiffness(cell, size_ratio(cell, 0.15), metal_poissons_ratio, {.grid = 48, .tolerance = 1e-4});
    const Eigen::Vector3d axis = Eigen::Vector3d::UnitZ();
    const double softer = std::min(shear_modulus(solid.over_youngs_modulus, axis, Eigen::Vector3d::UnitX()),
                                   shear_modulus(solid.over_youngs_modulus, axis, Eigen::Vector3d::UnitY()));
    // Junctions of this thickness add a few per cent to the shear.
    CHECK(shear_ratio(cell, "001", 0.15).value ==
          Approx(softer / youngs_modulus(solid.over_youngs_modulus, axis)).epsilon(0.09));
  }
}

TEST_CASE("a lattice as a beam has the modulus and plateau of the crush curve, and its own mass") {
  const BeamMaterial beam = lattice_beam(catalogue().cell("octet"), metal(), "100", 0.12, 900e6, 7e6);
  CHECK(beam.youngs_modulus == 900e6);
  CHECK(beam.collapse_stress == 7e6);
  CHECK(beam.density == Approx(0.12 * metal().density->value));
  CHECK(beam.metal_proof_stress == metal().proof_stress->value);
  CHECK(beam.shear_modulus ==
        Approx(900e6 * shear_ratio(catalogue().cell("octet"), "100", 0.12).value).epsilon(1e-12));
  const BeamMaterial stiffer = lattice_beam(catalogue().cell("octet"), metal(), "100", 0.12, 1800e6, 7e6);
  CHECK(stiffer.shear_modulus == Approx(2 * beam.shear_modulus));
}

TEST_CASE("a slender octet's shear strength is half of its axial one, and joints add to it") {
  // ρ̄ σy/6 over ρ̄ σy/3 for pins, derived in tests/homogenisation/oblique_collapse_test.cpp.
  const auto ratio = [](double density) {
    return lattice_beam(catalogue().cell("octet"), metal(), "100", density, 1e9, 1e6).shear_strength / 1e6;
  };
  CHECK(ratio(0.01) == Approx(0.5).epsilon(0.05));
  CHECK(ratio(0.15) > ratio(0.01));
}

TEST_CASE("first yield of struts is the frame's, under a weaker law that law's plateau; of other cells half of it") {
  const UnitCell& cell = catalogue().cell("octet");
  const double frame = frame_load(cell, size_ratio(cell, 0.12), metal_poissons_ratio, {1, 0, 0}).first_yield *
                       metal().proof_stress->value;
  CHECK(lattice_beam(cell, metal(), "100", 0.12, 1e9, 3 * frame).first_yield == Approx(frame));
  CHECK(lattice_beam(cell, metal(), "100", 0.12, 1e9, 0.5 * frame).first_yield == Approx(0.5 * frame));
  CHECK(lattice_beam(catalogue().cell("gyroid_sheet"), metal(), "100", 0.15, 1e9, 8e6).first_yield == Approx(4e6));
}

TEST_CASE("a metal without a density or proof stress makes no beam") {
  BaseMaterial bare = metal();
  bare.density.reset();
  CHECK_THROWS_WITH(lattice_beam(catalogue().cell("octet"), bare, "100", 0.12, 1e9, 7e6),
                    Catch::Contains("AlSi10Mg"));
}
