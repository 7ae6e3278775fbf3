// Closed form, frame and solid of the same five cells. The closed forms are those of slender bars between node
// centres, on the sum of the bars' volumes; a real density has nodes, which only the solid sees whole.
#include "crushwright/homogenisation.hpp"
#include "homogenisation/frame_stiffness.hpp"
#include "homogenisation/limit_analysis.hpp"
#include "homogenisation/voxel_extrapolation.hpp"
#include "unit_cell/catalogue_folder.hpp"

#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace crushwright;

namespace {

constexpr double nu = 0.3;
const Eigen::Vector3d edge(1, 0, 0);

/// Modulus and collapse stress along an edge from the diameter over the cell's edge, over the metal's own; Euler
/// bars.
struct ClosedForm {
  double modulus = 0;
  double collapse = 0;
};

double nominal(const UnitCell& cell, double diameter) {
  return relative_density(cell, diameter, DensityBasis::nominal);
}

/// Where each comes from is in docs/verification.md. Diamond is derived: under a stress along an edge the symmetry of
/// the node (three half turns) stops its turning, and four bars carry a quarter of the stress each: E as BCC with
/// bars half as long, collapse twice BCC's.
ClosedForm closed_form(const UnitCell& cell, double diameter) {
  const double density = nominal(cell, diameter);
  const double square = diameter * diameter;
  if (cell.id == "simple_cubic") {
    return {std::numbers::pi / 4 * square, std::numbers::pi / 4 * square};
  }
  if (cell.id == "octet") {
    return {density / 9, density / 3};
  }
  if (cell.id == "kelvin") {
    return {0.600 * density * density / (1 + 0.900 * density), 0.310 * std::pow(density, 1.5)};
  }
  const double bars = std::sqrt(3.0) * std::numbers::pi * square;
  const double bending = 4 * std::sqrt(2.0) / 3 * square * diameter;
  if (cell.id == "bcc") {
    return {bars / (1 + 2 / square), bending};
  }
  REQUIRE(cell.id == "diamond");
  return {bars / (1 + 0.5 / square), 2 * bending};
}

const Catalogue& catalogue() {
  static const Catalogue only = own_catalogue();
  return only;
}

constexpr std::array<const char*, 5> compared{"simple_cubic", "bcc", "octet", "kelvin", "diamond"};

/// Perfectly plastic metal crushed to 5 % strain, near the limit load.
SolidCollapse crushed(const UnitCell& cell, double density, int grid) {
  return solid_collapse(cell, size_ratio(cell, density), nu, 0.003, HardeningCurve{{0.0}, {1.0}}, edge, 0.05,
                        {grid, 1e-6});
}

} // namespace

TEST_CASE("slender frames between node centres meet the closed forms of five cells") {
  for (const char* id : compared) {
    INFO(id);
    const UnitCell& cell = catalogue().cell(id);
    const double diameter = std::sqrt(0.02 / cell.nominal_density_coefficients.at(1));
    CHECK(nominal(cell, diameter) == Approx(0.02).epsilon(1e-6));
    const ClosedForm closed = closed_form(cell, diameter);
    const FrameTopology topology = frame_topology(cell.struts);
    const StiffnessMatrix euler = frame_response(node_to_node_frame(topology, {diameter, nu, false})).stiffness;
    // The octet's closed form is pin-jointed; bending adds 0.6 % at this density. The others leave under 0.1 %.
    CHECK(youngs_modulus(euler, edge) == Approx(closed.modulus).epsilon(0.01));
    const LimitLoad collapse = limit_load(hinged_frame(topology, diameter, 0), axial_stress(edge));
    // BCC, diamond, Kelvin: bending alone in the closed form, with axial force here, 0.04 to 0.4 %.
    CHECK(collapse.lower == Approx(closed.collapse).epsilon(0.005));
    CHECK(collapse.upper == Approx(closed.collapse).epsilon(0.005));
  }
}

TEST_CASE("frames with stiff nodes and solids of five cells are as stiff as each other, closed forms far softer") {
  for (const char* id : compared) {
    const UnitCell& cell = catalogue().cell(id);
    // What docs/method/frame.md claims, and what 64 voxels leave.
    const bool wide = cell.id == "kelvin" || cell.id == "diamond";
    for (const double density : {0.1, 0.2}) {
      INFO(id << " at " << density);
      const SolidStiffness solid = solid_stiffness(cell, size_ratio(cell, density), nu, {64, 1e-6});
      const double size = size_ratio(cell, solid.relative_density);
      const double modulus = youngs_modulus(solid.over_youngs_modulus, edge);
      const double of_frame = youngs_modulus(frame_stiffness(cell, size, nu).over_youngs_modulus, edge);
      CAPTURE(solid.relative_density, modulus, of_frame, closed_form(cell, size).modulus);
      const double tolerance = (wide ? 0.16 : 0.10) + voxel_layer / solid.voxels_across;
      CHECK(of_frame == Approx(modulus).epsilon(tolerance));
      CHECK(closed_form(cell, size).modulus < 0.95 * modulus);
    }
  }
}

TEST_CASE("a frame's collapse meets the solid's for straight bars, lies below it in bending cells and above it in "
          "the octet") {
  struct Row {
    const char* cell;
    double least; ///< frame over solid
    double most;
  };
  // Simple cubic: bars along the load, nothing to approximate but the nodes. Bending cells: 0.87 to 1.09 on 64 and 96
  // voxels (docs/method/limit_analysis.md), and coarse grids here carry up to a tenth more. Octet: its nodes are
  // taken strong, though the twelve bars share metal there, so the frame claims 1.14 to 1.26 times the solid: unsafe.
  for (const auto& [id, least, most] :
       {Row{"simple_cubic", 0.98, 1.01}, Row{"bcc", 0.78, 1.0}, Row{"octet", 1.10, 1.30}, Row{"kelvin", 0.78, 1.10},
        Row{"diamond", 0.85, 1.05}}) {
    const UnitCell& cell = catalogue().cell(id);
    for (const auto& [density, grid] : {std::pair{0.1, 48}, std::pair{0.2, 32}}) {
      INFO(id << " at " << density);
      const SolidCollapse solid = crushed(cell, density, grid);
      const double size = size_ratio(cell, solid.relative_density);
      const FrameCollapse frame = frame_collapse(cell, size, edge);
      CAPTURE(solid.relative_density, solid.greatest, frame.lower, frame.upper);
      CHECK(frame.lower / solid.greatest > least);
      CHECK(frame.upper / solid.greatest < most);
    }
  }
}
