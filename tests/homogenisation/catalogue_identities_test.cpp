// What must hold for every cell that has a geometry, whatever it is; on coarse grids, for these are identities.
#include "crushwright/homogenisation.hpp"
#include "homogenisation/frame_stiffness.hpp"
#include "homogenisation/hand_made_frames.hpp"
#include "homogenisation/limit_analysis.hpp"
#include "homogenisation/solid_collapse.hpp"
#include "homogenisation/voxel_extrapolation.hpp"
#include "homogenisation/voxel_multigrid.hpp"
#include "homogenisation/voxel_solids.hpp"
#include "homogenisation/voxel_stiffness.hpp"
#include "scaling_law/bounds.hpp"
#include "unit_cell/catalogue_folder.hpp"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <numeric>

using namespace crushwright;

namespace {

constexpr double nu = 0.3;
/// Bulk modulus over density and Young's modulus of thin walls that reach the bulk bound: 2/(9(1 − ν)).
constexpr double slender_bulk = 2 / (9 * (1 - nu));

const Catalogue& catalogue() {
  static const Catalogue only = own_catalogue();
  return only;
}

/// A size a part of the way through the cell's range.
double size_at(const UnitCell& cell, double part) {
  return std::lerp(cell.size_ratio_range.low, cell.size_ratio_range.high, part);
}

std::vector<const UnitCell*> cells_with_geometry() {
  std::vector<const UnitCell*> cells;
  for (const std::string& id : catalogue().cell_ids()) {
    const UnitCell& cell = catalogue().cell(id);
    if (cell.cell_class != CellClass::foam) {
      cells.push_back(&cell);
    }
  }
  return cells;
}

std::vector<const UnitCell*> strut_cells() {
  std::vector<const UnitCell*> cells;
  for (const UnitCell* cell : cells_with_geometry()) {
    if (cell->cell_class == CellClass::strut) {
      cells.push_back(cell);
    }
  }
  return cells;
}

/// A cell as voxels, with their stiffness.
struct Sample {
  const UnitCell* cell = nullptr;
  VoxelSolid solid;
  StiffnessMatrix stiffness;
};

Sample sample_of(const UnitCell& cell, double size_ratio, int grid) {
  Sample sample{&cell, voxel_solid(cell, size_ratio, grid), {}};
  sample.stiffness = voxel_stiffness(sample.solid, nu, 1e-7).over_youngs_modulus;
  return sample;
}

/// Every cell on 24 voxels, near the thick end of its range so that no wall is thinner than 1.6 voxels.
const std::vector<Sample>& coarse_samples() {
  static const std::vector<Sample> all = [] {
    std::vector<Sample> samples;
    for (const UnitCell* cell : cells_with_geometry()) {
      samples.push_back(sample_of(*cell, size_at(*cell, 0.8), 24));
    }
    return samples;
  }();
  return all;
}

double least_eigenvalue(const StiffnessMatrix& matrix) {
  return Eigen::SelfAdjointEigenSolver<StiffnessMatrix>(matrix).eigenvalues()[0];
}

double distance(const StiffnessMatrix& one, const StiffnessMatrix& other) {
  return (one - other).norm() / other.norm();
}

/// Two copies side by side along x. It is no cube any more, so all six load cases are solved.
VoxelSolid twice_along_x(const VoxelSolid& solid) {
  const auto [nx, ny, nz] = solid.cells;
  return voxels_where({2 * nx, ny, nz},
                      [&solid, nx = nx, ny = ny](int x, int y, int z) {
                        return solid.metal[static_cast<std::size_t>((z * ny + y) * nx + x % nx)] != 0;
                      },
                      {2 * solid.edges[0], solid.edges[1], solid.edges[2]});
}

/// One cell alone in an empty box, two voxels wider: nothing of it meets its own copy.
VoxelSolid alone_in_a_box(const VoxelSolid& solid) {
  const auto [nx, ny, nz] = solid.cells;
  std::array<double, 3> edges{};
  for (std::size_t axis = 0; axis < 3; ++axis) {
    edges[axis] = solid.edges[axis] * (solid.cells[axis] + 2) / solid.cells[axis];
  }
  return voxels_where(
      {nx + 2, ny + 2, nz + 2},
      [&solid, nx = nx, ny = ny, nz = nz](int x, int y, int z) {
        return x < nx && y < ny && z < nz && solid.metal[static_cast<std::size_t>((z * ny + y) * nx + x)] != 0;
      },
      edges);
}

/// Displacements when every node of a mesh moves by a linear field of its place.
std::vector<double> linear_motion(const VoxelMesh& mesh, const Eigen::Matrix3d& gradient) {
  std::vector<double> motion(3 * static_cast<std::size_t>(mesh.nodes));
  for (std::size_t element = 0; element < mesh.elements.size(); ++element) {
    for (std::size_t corner = 0; corner < 8; ++corner) {
      Eigen::Vector3d place;
      for (std::size_t axis = 0; axis < 3; ++axis) {
        const int step = static_cast<int>(corner >> axis & 1U);
        place[static_cast<Eigen::Index>(axis)] = mesh.spacing[axis] * (mesh.element_place[element][axis] + step);
      }
      const Eigen::Vector3d moved = gradient * place;
      const auto node = static_cast<std::size_t>(mesh.elements[element][corner]);
      std::copy(moved.begin(), moved.end(), motion.begin() + static_cast<std::ptrdiff_t>(3 * node));
    }
  }
  return motion;
}

double stored_energy(const VoxelMultigrid& solid, const std::vector<double>& motion) {
  std::vector<double> forces(motion.size());
  solid.apply(motion, forces);
  double work = 0;
  for (std::size_t i = 0; i < motion.size(); ++i) {
    work += 0.5 * motion[i] * forces[i];
  }
  return work;
}

/// The cell of struts two times smaller, eight times over.
std::vector<Strut> eight_small_copies(const std::vector<Strut>& struts) {
  std::vector<Strut> copies;
  for (int copy = 0; copy < 8; ++copy) {
    for (Strut strut : struts) {
      for (std::size_t axis = 0; axis < 3; ++axis) {
        const double offset = 0.5 * (copy >> axis & 1);
        strut.from[axis] = 0.5 * strut.from[axis] + offset;
        strut.to[axis] = 0.5 * strut.to[axis] + offset;
      }
      copies.push_back(strut);
    }
  }
  return copies;
}

StiffnessMatrix stiff_node_stiffness(const std::vector<Strut>& struts, double diameter) {
  return frame_response(stiff_node_frame(frame_topology(struts), {diameter, nu, true})).stiffness;
}

/// Perfectly plastic crushing, far enough that a cell is near its limit load.
Crushing crushing_to(double strain, const Eigen::Vector3d& direction) {
  Crushing crushing;
  crushing.poissons_ratio = nu;
  crushing.yield_strain = 0.003;
  crushing.direction = direction;
  crushing.last_strain = strain;
  return crushing;
}

/// Greatest shear modulus of an isotropic porous solid over Young's modulus (Hashin and Shtrikman 1963, recalled).
double shear_bound(double density) {
  const double bulk = 1 / (3 * (1 - 2 * nu));
  const double shear = 1 / (2 * (1 + nu));
  return shear +
         (1 - density) / (-1 / shear + density * 6 * (bulk + 2 * shear) / (5 * shear * (3 * bulk + 4 * shear)));
}

/// Metal on the side Σ cos > level of a surface of the primitive kind, in a box whose axes are turned: column k of
/// `axes` is the box's axis k.
VoxelSolid primitive_network(std::array<int, 3> cells, std::array<double, 3> edges, const Eigen::Matrix3d& axes,
                             double density) {
  const auto height = [&](int x, int y, int z) {
    const Eigen::Vector3d in_box((x + 0.5) * edges[0] / cells[0], (y + 0.5) * edges[1] / cells[1],
                                 (z + 0.5) * edges[2] / cells[2]);
    return -(2 * std::numbers::pi * (axes * in_box)).array().cos().sum();
  };
  std::vector<double> heights;
  for (int z = 0; z < cells[2]; ++z) {
    for (int y = 0; y < cells[1]; ++y) {
      for (int x = 0; x < cells[0]; ++x) {
        heights.push_back(height(x, y, z));
      }
    }
  }
  const auto middle = heights.begin() + static_cast<std::ptrdiff_t>(density * static_cast<double>(heights.size()));
  std::nth_element(heights.begin(), middle, heights.end());
  const double limit = *middle + 1e-9;
  return voxels_where(
      cells, [&](int x, int y, int z) { return height(x, y, z) < limit; }, edges);
}

/// Whole layers of metal on {100} and on {111}, whose layers are 1/√3 of a voxel apart; each counted along one
/// normal.
struct Layers {
  int flat = 0;
  int slanted = 0;
};
Layers whole_layers(const VoxelSolid& solid) {
  const int n = solid.cells[0];
  std::vector<int> flat(static_cast<std::size_t>(n), 1);
  std::vector<int> slanted(static_cast<std::size_t>(n), 1);
  for (int z = 0; z < n; ++z) {
    for (int y = 0; y < n; ++y) {
      for (int x = 0; x < n; ++x) {
        if (solid.metal[static_cast<std::size_t>((z * n + y) * n + x)] == 0) {
          flat[static_cast<std::size_t>(x)] = 0;
          slanted[static_cast<std::size_t>((x + y + z) % n)] = 0;
        }
      }
    }
  }
  return {std::accumulate(flat.begin(), flat.end(), 0), std::accumulate(slanted.begin(), slanted.end(), 0)};
}

} // namespace

TEST_CASE("every cell resists every strain, by less than the metal that it weighs") {
  int cells = 0;
  for (const auto& [cell, solid, stiffness] : coarse_samples()) {
    INFO(cell->id);
    ++cells;
    CHECK(stiffness == stiffness.transpose());
    CHECK(least_eigenvalue(stiffness) > 1e-3 * stiffness.norm());
    // Equal strain everywhere is the stiffest that metal can do (Voigt). A honeycomb pulled along its axis does just
    // that, so the least gap is zero there but for rounding.
    const double gap = least_eigenvalue(solid.relative_density * isotropic_stiffness(1, nu) - stiffness);
    CHECK(gap > (cell->cell_class == CellClass::honeycomb ? -1e-12 : 0.02 * solid.relative_density));
  }
  CHECK(cells >= 21);
}

TEST_CASE("every cell has the symmetry that its entry declares") {
  for (const auto& [cell, solid, stiffness] : coarse_samples()) {
    INFO(cell->id);
    const double error = symmetry_error(stiffness, cell->symmetry.c_str());
    if (cell->symmetry == "cubic") {
      // The voxels themselves come back to themselves; the doubled cells below show it of a stiffness that was solved
      // without that knowledge.
      CHECK(has_cubic_symmetry(solid));
      CHECK(error < 1e-12);
    } else if (cell->symmetry == "tetragonal") {
      CHECK(error < 1e-7); // what the solver leaves
    } else if (cell->id == "honeycomb_doubled_wall") {
      // Known failure: one wall in three is of two foils, so the cell is orthotropic in its plane and hexagonal in
      // outline alone. Its entry says hexagonal because the axis is what it is crushed along.
      CHECK(error > 0.1);
      CHECK(symmetry_error(sample_of(*cell, 0.1, 24).stiffness, "hexagonal") < error); // grows with the foils
      CHECK(stiffness.block<3, 3>(0, 3).norm() < 1e-7 * stiffness.norm());
    } else {
      // No grid of rectangles has a sixth turn: about 1 % on 32 voxels, 0.4 % on 128.
      CHECK(cell->symmetry == "hexagonal");
      CHECK(error < 0.02);
      CHECK(symmetry_error(sample_of(*cell, size_at(*cell, 0.4), 128).stiffness, "hexagonal") < 0.006);
    }
  }
}

TEST_CASE("the bulk modulus of every cubic cell stays under the Hashin-Shtrikman bound") {
  // It holds for cubic cells as for isotropic ones. Where a wall is one brick thick the bricks are too stiff by up to
  // 0.1 %; at 1.6 voxels and more no cell comes nearer than 1 %.
  int cubic = 0;
  for (const auto& [cell, solid, stiffness] : coarse_samples()) {
    if (cell->symmetry != "cubic") {
      continue;
    }
    INFO(cell->id);
    ++cubic;
    CHECK(bulk_modulus_voigt(stiffness) < hashin_shtrikman_bulk_modulus(solid.relative_density, nu));
    CHECK(bulk_modulus_voigt(stiffness) == Approx(bulk_modulus_reuss(stiffness)).epsilon(1e-9));
  }
  CHECK(cubic >= 16);
}

TEST_CASE("the bounds on E and G of isotropic solids hold for the isotropic plate cell, not along a cubic plate "
          "cell's edge") {
  const UnitCell& isotropic = catalogue().cell("cubic_octet_plate");
  const Sample equal = sample_of(isotropic, 0.08, 48); // 4 and 4 layers of voxels where 3.84 and 4.32 are asked for
  CHECK(zener_ratio(equal.stiffness) == Approx(1).margin(0.01));
  const double modulus_bound = hashin_shtrikman_modulus(equal.solid.relative_density, nu);
  for (const char* direction : {"100", "110", "111", "321"}) {
    INFO(direction);
    const double modulus = youngs_modulus(equal.stiffness, direction_vector(direction));
    CHECK(modulus < modulus_bound);
    CHECK(modulus > 0.9 * modulus_bound);
  }
  CHECK(shear_modulus(equal.stiffness, {1, 0, 0}, {0, 1, 0}) < shear_bound(equal.solid.relative_density));
  CHECK(shear_modulus(equal.stiffness, {1, 1, 0}, {1, -1, 0}) < shear_bound(equal.solid.relative_density));

  const Sample cubic = sample_of(catalogue().cell("cubic_plate"), 0.125, 32); // 4 whole layers
  CHECK(youngs_modulus(cubic.stiffness, {1, 0, 0}) >
        1.2 * hashin_shtrikman_modulus(cubic.solid.relative_density, nu));
  CHECK(youngs_modulus(cubic.stiffness, {1, 1, 1}) < hashin_shtrikman_modulus(cubic.solid.relative_density, nu));
}

TEST_CASE("two cells side by side are as stiff as one, and as symmetric without being told") {
  for (const UnitCell* cell : cells_with_geometry()) {
    INFO(cell->id);
    const Sample once = sample_of(*cell, cell->size_ratio_range.high, 12);
    const StiffnessMatrix twice = voxel_stiffness(twice_along_x(once.solid), nu, 1e-7).over_youngs_modulus;
    CHECK(distance(twice, once.stiffness) < 1e-6);
    if (cell->symmetry == "cubic") {
      CHECK(symmetry_error(twice, "cubic") < 1e-6);
    }
  }
}

TEST_CASE("a frame of eight cells of half the size is as stiff as one, and collapses alike") {
  for (const UnitCell* cell : strut_cells()) {
    INFO(cell->id);
    const double size = size_at(*cell, 0.3);
    CHECK(distance(stiff_node_stiffness(eight_small_copies(cell->struts), 0.5 * size),
                   stiff_node_stiffness(cell->struts, size)) < 1e-9);
    const HingedFrame frame = frame_of(cell->struts, size);
    const Voigt stress = axial_stress({0, 0, 1});
    const LimitLoad once = limit_load(frame, stress);
    const LimitLoad twice = limit_load(doubled(frame, 0), stress);
    // Each pair of bounds encloses the one true load.
    CHECK(twice.lower <= once.upper * (1 + 1e-9));
    CHECK(once.lower <= twice.upper * (1 + 1e-9));
  }
}

TEST_CASE("a rigid rotation of any cell stores no energy") {
  Eigen::Matrix3d turn;
  turn << 0, -0.5, -0.2, 0.5, 0, -0.3, 0.2, 0.3, 0; // small angles about x, y and z
  for (const UnitCell* cell : cells_with_geometry()) {
    INFO(cell->id);
    const VoxelSolid box = alone_in_a_box(voxel_solid(*cell, cell->size_ratio_range.high, 12));
    const VoxelMesh mesh = voxel_mesh(box);
    const VoxelMultigrid solid(mesh, box.cells, nu);
    // The same angles without the change of sign are a shear, which gives the scale.
    const double sheared = stored_energy(solid, linear_motion(mesh, turn.cwiseAbs()));
    CHECK(sheared > 0);
    CHECK(std::abs(stored_energy(solid, linear_motion(mesh, turn))) < 1e-12 * sheared);
  }
  const Eigen::Vector3d angles(0.3, -0.2, 0.5);
  for (const UnitCell* cell : strut_cells()) {
    INFO(cell->id);
    const BeamFrame frame = stiff_node_frame(*cell, size_at(*cell, 0.5), nu);
    for (std::size_t place = 0; place < frame.beams.size(); ++place) {
      const FrameMember& member = frame.topology.members[place];
      const Eigen::Vector3d start = frame.topology.nodes[static_cast<std::size_t>(member.from)];
      Vector12 motion;
      motion << angles.cross(start), angles, angles.cross(start + member.span), angles;
      const Matrix12 stiffness = beam_stiffness(frame.beams[place], frame.section);
      CHECK(std::abs(motion.dot(stiffness * motion)) < 1e-12 * stiffness.norm());
    }
  }
}

TEST_CASE("no cell carries more than its metal's share of the section when crushed one way") {
  // The metal's mean stress is the macroscopic one over the density, and a mean of stresses that do not yield does
  // not yield: true for any solid, isotropic or not. Steps of the path are in balance to 5e-4.
  for (const UnitCell* cell : cells_with_geometry()) {
    INFO(cell->id);
    const VoxelSolid solid = voxel_solid(*cell, cell->size_ratio_range.high, 12);
    const bool prism = cell->cell_class == CellClass::honeycomb;
    const CrushingPath path =
        crushing_path(solid, crushing_to(0.01, prism ? Eigen::Vector3d::UnitZ() : Eigen::Vector3d::UnitX()));
    const double carried = *std::max_element(path.stress.begin(), path.stress.end()) / solid.relative_density;
    CHECK(carried < 1.0005);
    CHECK(carried > (prism ? 0.9995 : 0.02)); // a prism along its axis does carry all of it
  }
}

TEST_CASE("no frame carries more than its metal's share of the section") {
  for (const UnitCell* cell : strut_cells()) {
    for (const double density : {0.05, 0.25}) {
      const double size = size_ratio(*cell, density);
      for (const char* direction : {"100", "001", "110", "111"}) {
        INFO(cell->id << " at " << density << " along " << direction);
        CHECK(frame_collapse(*cell, size, direction_vector(direction)).upper <= density);
      }
    }
  }
  // A frame's bars run through their nodes undiminished: at the thick end of FCCz, 0.49 true and 0.84 nominal
  // density, they would carry 13 % more than the metal's share of the section. That share is the most that is
  // claimed.
  const UnitCell& thick = catalogue().cell("fccz");
  const double size = thick.size_ratio_range.high;
  CHECK(frame_collapse(thick, size, {0, 0, 1}).lower == Approx(relative_density(thick, size)));
  CHECK(frame_collapse(thick, size, {0, 0, 1}).upper == Approx(relative_density(thick, size)));
}

TEST_CASE("a solid pushed aslant is as stiff as its tensor says") {
  for (const UnitCell* cell : cells_with_geometry()) {
    INFO(cell->id);
    const Sample sample = sample_of(*cell, cell->size_ratio_range.high, 12);
    const Eigen::Vector3d aslant = direction_vector("321");
    CHECK(crushing_path(sample.solid, crushing_to(0.001, aslant)).elastic_modulus ==
          Approx(youngs_modulus(sample.stiffness, aslant)).epsilon(1e-4));
  }
}

TEST_CASE("a network cut out in turned axes has the turned tensor, the better the finer the grid") {
  // Axes at 45 degrees in the plane: the box that repeats is the root of two wide and deep (but for 1 % of a voxel),
  // and the stairs on the skin lie elsewhere.
  const double half = std::sqrt(0.5);
  const double wide = std::sqrt(2.0);
  Eigen::Matrix3d axes;
  axes << half, -half, 0, half, half, 0, 0, 0, 1;
  struct Gap {
    double turned;
    double unturned;
  };
  const auto gap = [&](int n, int m) {
    const VoxelSolid straight = primitive_network({n, n, n}, {1, 1, 1}, Eigen::Matrix3d::Identity(), 0.3);
    const VoxelSolid aslant = primitive_network({m, m, n}, {wide, wide, 1}, axes, 0.3);
    const StiffnessMatrix upright = voxel_stiffness(straight, nu, 1e-6).over_youngs_modulus;
    const StiffnessMatrix found = voxel_stiffness(aslant, nu, 1e-6).over_youngs_modulus;
    return Gap{distance(found, in_turned_axes(upright, axes)), distance(found, upright)};
  };
  const Gap coarse = gap(14, 20);
  const Gap fine = gap(28, 40);
  CAPTURE(coarse.turned, fine.turned, fine.unturned);
  CHECK(fine.turned < 0.5 * coarse.turned);
  CHECK(fine.turned < 0.02);
  CHECK(fine.unturned > 0.3);
}

TEST_CASE("refining the grid moves the stiffness less and less") {
  // Grids may weigh a few per cent too little or too much, so all are brought to one density first, by the power of
  // it that the frame of the strut cell and the catalogue's laws show; sheets and plates weigh alike on all three.
  struct Row {
    const char* cell;
    double density;
    int coarsest;
    double exponent;
    double shrinks_to; ///< second step over the first; measured 0.13, 0.81, 0.31 and 0.53
  };
  for (const auto& [id, density, coarsest, exponent, shrinks_to] :
       {Row{"kelvin", 0.2, 16, 1.4, 0.5}, Row{"gyroid_sheet", 0.2, 20, 1.2, 0.9},
        Row{"gyroid_skeletal", 0.2, 16, 1.7, 0.5}, Row{"cubic_plate", 0.3301, 16, 1.0, 0.7}}) {
    INFO(id);
    const UnitCell& cell = catalogue().cell(id);
    const double size = size_ratio(cell, density);
    std::array<StiffnessMatrix, 3> grids;
    for (int refined = 0; refined < 3; ++refined) {
      const SolidStiffness own = solid_stiffness(cell, size, nu, {coarsest << refined, 1e-6});
      grids[static_cast<std::size_t>(refined)] =
          own.over_youngs_modulus * std::pow(density / own.relative_density, exponent);
    }
    const double first = (grids[1] - grids[0]).norm();
    const double second = (grids[2] - grids[1]).norm();
    CAPTURE(first / grids[2].norm(), second / grids[2].norm(), second / first);
    CHECK(second < shrinks_to * first);
    CHECK(second < 0.05 * grids[2].norm());
  }
}

TEST_CASE("the cubic-octet plate cell is isotropic, but for the layers of voxels that its walls are rounded to") {
  // Slender plates carry plane stress, so their sums are (derived; in units of density E/(1 - nu^2)): shear across
  // the cubic axes (C11 - C12)/2 and along them C44 are (2 - nu)/6 and (1 - nu)/6 for {100}. Those of {111} follow
  // from the trace, which all plates share, and from isotropy at 40 : 60 per cent of the metal.
  const double across_flat = (2 - nu) / 6;
  const double along_flat = (1 - nu) / 6;
  const double isotropic = (2 * across_flat + 3 * along_flat) / 5;
  const double across_slanted = (isotropic - 0.4 * across_flat) / 0.6;
  const double along_slanted = (isotropic - 0.4 * along_flat) / 0.6;
  // Two layers of each, where the entry has 1.125 slanted ones to a flat one: too little metal on {111}.
  const double slanted_metal = 0.6 / 1.125;
  const double rounded =
      (0.4 * along_flat + slanted_metal * along_slanted) / (0.4 * across_flat + slanted_metal * across_slanted);
  const auto zener_at = [](double size, int grid) {
    const Sample sample = sample_of(catalogue().cell("cubic_octet_plate"), size, grid);
    const Layers layers = whole_layers(sample.solid);
    CHECK(layers.flat == 2);
    CHECK(layers.slanted == 2);
    return std::pair{sample.solid.relative_density, zener_ratio(sample.stiffness)};
  };
  const auto [thick, thick_zener] = zener_at(0.06, 32);
  const auto [thin, thin_zener] = zener_at(0.03, 64);
  CAPTURE(thick, thick_zener, thin, thin_zener, rounded);
  CHECK(thin_zener - (thick_zener - thin_zener) * thin / (thick - thin) == Approx(rounded).margin(0.005));
  CHECK(thin_zener == Approx(1).margin(0.04));
  // Four layers of each, nearer to the entry's ratio of thickness: 0.4 % off in place of 3.
  CHECK(zener_ratio(sample_of(catalogue().cell("cubic_octet_plate"), 0.08, 48).stiffness) == Approx(1).margin(0.01));
}

TEST_CASE("slender cubic plates have 2/(9(1 - nu)) of their density as bulk modulus") {
  // Berger, Wadley and McMeeking (2017) find such plate cells on the bound; its slender limit is derived. The excess
  // of a real density falls with the density, so it is taken to zero from two of them. Walls are two whole layers.
  const auto over_density = [](double size, int grid) {
    const Sample sample = sample_of(catalogue().cell("cubic_plate"), size, grid);
    return std::pair{sample.solid.relative_density,
                     bulk_modulus_voigt(sample.stiffness) / sample.solid.relative_density};
  };
  const auto [thick, thick_bulk] = over_density(1.0 / 16, 32);
  const auto [thin, thin_bulk] = over_density(1.0 / 32, 64);
  const double slender = thin_bulk - (thick_bulk - thin_bulk) * thin / (thick - thin);
  CHECK(thin_bulk == Approx(slender_bulk).epsilon(thin));
  CHECK(slender == Approx(slender_bulk).epsilon(0.01));
}

TEST_CASE("thin sheets on minimal surfaces approach the bulk bound as they become thinner") {
  // Zhang and Liu (2025): in the limit of no thickness K is 2/(9(1 - nu)) of the density (abstract read, number
  // derived). The tolerance is the spread of the two grids, which is what is known of the value: 6 and 9 %.
  for (const char* id : {"gyroid_sheet", "diamond_sheet"}) {
    INFO(id);
    const UnitCell& cell = catalogue().cell(id);
    const auto limit = [&](double density, int fine) {
      return extrapolated_stiffness(cell, size_ratio(cell, density), nu, fine / 2, fine);
    };
    const auto share_of_bound = [](const ExtrapolatedStiffness& sheet, double density) {
      return bulk_modulus_voigt(sheet.over_youngs_modulus) / hashin_shtrikman_bulk_modulus(density, nu);
    };
    const ExtrapolatedStiffness thick = limit(0.2, 64);
    const ExtrapolatedStiffness thin = limit(0.1, 96);
    CAPTURE(thin.spread, share_of_bound(thin, 0.1), share_of_bound(thick, 0.2));
    CHECK(thin.spread < 0.10);
    CHECK(share_of_bound(thin, 0.1) > share_of_bound(thick, 0.2));
    CHECK(share_of_bound(thin, 0.1) > 0.9);
    CHECK(bulk_modulus_voigt(thin.over_youngs_modulus) / 0.1 == Approx(slender_bulk).epsilon(thin.spread));
  }
  // Metal on one side of the same surface does nothing of the kind.
  const UnitCell& skeletal = catalogue().cell("gyroid_skeletal");
  const SolidStiffness network = solid_stiffness(skeletal, size_ratio(skeletal, 0.1), nu, {64, 1e-6});
  CHECK(bulk_modulus_voigt(network.over_youngs_modulus) <
        0.6 * hashin_shtrikman_bulk_modulus(network.relative_density, nu));
}

TEST_CASE("a gyroid sheet pulled along an edge contracts by a third of its stretch") {
  // DeValk and Lakes (2021), tests on printed polymer: 0.34 +- 0.06 whatever the direction (abstract read). The metal
  // here has 0.3, theirs more, which moves a sheet by less than their scatter.
  const UnitCell& cell = catalogue().cell("gyroid_sheet");
  for (const double density : {0.15, 0.2, 0.3}) {
    INFO(density);
    const StiffnessMatrix stiffness =
        solid_stiffness(cell, size_ratio(cell, density), nu, {48, 1e-6}).over_youngs_modulus;
    const double contraction = poissons_ratio(stiffness, {1, 0, 0}, {0, 1, 0});
    CHECK(contraction > 0.28);
    CHECK(contraction < 0.40);
  }
}
