#include "homogenisation/frame_load.hpp"

#include "crushwright/errors.hpp"
#include "unit_cell/catalogue_folder.hpp"
#include "unit_cell/sample_lattices.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace crushwright;
namespace lattices = crushwright::sample_lattices;

namespace {

BeamFrame thin_frame(const std::vector<Strut>& struts, double diameter, bool shear = false) {
  return node_to_node_frame(frame_topology(struts), {diameter, 0.3, shear});
}

Voigt crushed_along_z() {
  return Voigt::Unit(2);
}

} // namespace

TEST_CASE("the upright bars of simple cubic carry the whole stress, the others none") {
  const BeamFrame frame = thin_frame(lattices::simple_cubic(), 0.1);
  const std::vector<BeamForces> forces = member_forces(frame, crushed_along_z());
  for (std::size_t place = 0; place < forces.size(); ++place) {
    const bool upright = std::abs(frame.topology.members[place].span[2]) > 0.5;
    CHECK(forces[place].compression == Approx(upright ? 1 : 0).margin(1e-9));
    CHECK(forces[place].moment_from == Approx(0).margin(1e-9));
  }
}

TEST_CASE("the forces in the struts add up to the macroscopic stress") {
  // Σ N l (e·n)² = σ in a pin-jointed cell; a slender octet is nearly one.
  const BeamFrame frame = thin_frame(lattices::octet(), 0.01);
  const std::vector<BeamForces> forces = member_forces(frame, crushed_along_z());
  double axial = 0;
  double lateral = 0;
  for (std::size_t place = 0; place < forces.size(); ++place) {
    const Eigen::Vector3d& span = frame.topology.members[place].span;
    axial += forces[place].compression * span[2] * span[2] / span.norm();
    lateral += forces[place].compression * span[0] * span[0] / span.norm();
  }
  CHECK(axial == Approx(1).epsilon(2e-3));
  CHECK(lateral == Approx(0).margin(2e-3));
}

TEST_CASE("a slender octet crushed along an edge yields first in its slanted struts, at a third of its density") {
  // Pin-jointed, all slanted struts reach yield at once, at ρ̄σy/3 (Deshpande, Fleck and Ashby, 2001; recalled). The
  // little bending of slender struts brings first yield slightly below it.
  const std::vector<Strut> struts = lattices::octet();
  const double diameter = 0.005;
  const BeamFrame frame = thin_frame(struts, diameter, true);
  double fibre = 0;
  for (const BeamForces& member : member_forces(frame, crushed_along_z())) {
    fibre = std::max(fibre, greatest_fibre_stress(member, frame.section));
  }
  const double density = std::numbers::pi / 4 * diameter * diameter * lattices::length(struts);
  CHECK(1 / fibre < density / 3);
  CHECK(1 / fibre == Approx(density / 3).epsilon(0.05));
}

TEST_CASE("BCC crushed along an edge yields first where a strut bends most, at its root") {
  // Euler struts node to node. A quarter of the cell's load on each of four struts: F = σ/4 vertically on a strut
  // whose slope is 35.26 degrees; equal end moments F l cos/2, axial force F sin.
  const double diameter = 0.05;
  const BeamFrame frame = thin_frame(lattices::bcc(), diameter);
  const std::vector<BeamForces> forces = member_forces(frame, crushed_along_z());
  const double force = 0.25;
  const double length = std::sqrt(0.75);
  const double moment = 0.5 * force * length * std::sqrt(2.0 / 3);
  for (const BeamForces& member : forces) {
    CHECK(member.compression == Approx(force * std::sqrt(1.0 / 3)).epsilon(1e-6));
    CHECK(member.moment_from == Approx(moment).epsilon(1e-6));
    CHECK(member.moment_to == Approx(moment).epsilon(1e-6));
  }
  const double area = std::numbers::pi / 4 * diameter * diameter;
  const double modulus = std::numbers::pi / 32 * std::pow(diameter, 3);
  CHECK(greatest_fibre_stress(forces[0], frame.section) ==
        Approx(force * std::sqrt(1.0 / 3) / area + moment / modulus).epsilon(1e-6));
}

TEST_CASE("a slender strut buckles at Euler's load of its clear length, a stocky one earlier") {
  const RoundSection slender{0.02, 0.3, true};
  const Beam beam{{0, 0, 1}, {1, 0, 0}, {0, 0.1, 0.05}, {0, 0.1, 0.05}};
  CHECK(beam.clear_length() == Approx(0.9)); // the longer of both directions
  const double euler = std::pow(std::numbers::pi / 0.9, 2) * slender.second_moment();
  CHECK(buckling_force(beam, {0.02, 0.3, false}) == Approx(euler).epsilon(1e-12));
  CHECK(buckling_force(beam, slender) == Approx(euler).epsilon(0.005));
  CHECK(buckling_force(beam, slender) < euler);
  const RoundSection stocky{0.3, 0.3, true};
  CHECK(buckling_force(beam, stocky) < 0.9 * buckling_force(beam, {0.3, 0.3, false}));
}

TEST_CASE("every strut cell crushed along an edge has a first yield, and one strut that buckles first") {
  const Catalogue catalogue = own_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    if (cell.cell_class != CellClass::strut) {
      continue;
    }
    INFO(id);
    const double ratio = 0.5 * (cell.size_ratio_range.low + cell.size_ratio_range.high);
    const FrameLoad load = frame_load(cell, ratio, 0.3, {0, 0, 1});
    CHECK(load.first_yield > 0);
    // No cell holds more than its own metal does.
    CHECK(load.first_yield < relative_density(cell, ratio, DensityBasis::nominal));
    CHECK(load.first_buckling > 0);
    CHECK(load.first_buckling_member >= 0);
    const auto members = frame_topology(cell.struts).members.size();
    CHECK(load.first_buckling_member < static_cast<int>(members));
  }
}

TEST_CASE("thin struts buckle before they yield in an octet, thick ones do not") {
  const Catalogue catalogue = own_catalogue();
  const double yield_strain = 0.003;
  const FrameLoad thin = frame_load(catalogue.cell("octet"), 0.03, 0.3, {0, 0, 1});
  CHECK(thin.first_buckling < thin.first_yield * yield_strain);
  const FrameLoad thick = frame_load(catalogue.cell("octet"), 0.15, 0.3, {0, 0, 1});
  CHECK(thick.first_buckling > thick.first_yield * yield_strain);
}

TEST_CASE("cubic cells yield at one stress along all three edges") {
  const Catalogue catalogue = own_catalogue();
  for (const char* id : {"bcc", "octet", "kelvin", "diamond", "simple_cubic"}) {
    INFO(id);
    const FrameLoad along_z = frame_load(catalogue.cell(id), 0.1, 0.3, {0, 0, 2});
    const FrameLoad along_x = frame_load(catalogue.cell(id), 0.1, 0.3, {1, 0, 0});
    CHECK(along_z.direction.norm() == Approx(1));
    CHECK(along_x.first_yield == Approx(along_z.first_yield).epsilon(1e-6));
    CHECK(along_x.first_buckling == Approx(along_z.first_buckling).epsilon(1e-6));
  }
}

TEST_CASE("a direction without length is refused") {
  const Catalogue catalogue = own_catalogue();
  CHECK_THROWS_WITH(frame_load(catalogue.cell("bcc"), 0.1, 0.3, Eigen::Vector3d::Zero()),
                    "the direction of crushing has no length");
}
