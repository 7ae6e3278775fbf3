#include "unit_cell/cell_solid.hpp"

#include "crushwright/errors.hpp"
#include "unit_cell/covered_fraction.hpp"
#include "unit_cell/near_pieces.hpp"
#include "unit_cell/strut_axis.hpp"
#include "unit_cell/strut_identity.hpp"
#include "unit_cell/surface_samples.hpp"

#include <Eigen/Dense>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <utility>

namespace crushwright {
namespace {

using Vector = Eigen::Vector3d;

bool comes_near_cell(const Strut& strut, double reach) {
  for (std::size_t i = 0; i < 3; ++i)
    if (std::max(strut.from[i], strut.to[i]) < -reach || std::min(strut.from[i], strut.to[i]) > 1 + reach)
      return false;
  return true;
}

} // namespace

CellSkeleton CellSkeleton::of_struts(const std::vector<Strut>& struts) {
  if (struts.empty())
    throw OutOfDomain("a strut cell needs at least one strut");
  CellSkeleton skeleton;
  std::vector<std::pair<CellPoint, CellPoint>> seen;
  for (const Strut& strut : struts) {
    const double length = crushwright::strut_length(strut);
    if (!(length > 1e-6 && length < 2))
      throw OutOfDomain(fmt::format("a strut is {} cell edges long; expected between 1e-6 and 2", length));
    const Strut folded = folded_strut(strut);
    if (std::find(seen.begin(), seen.end(), std::pair(folded.from, folded.to)) != seen.end())
      continue;
    seen.emplace_back(folded.from, folded.to);
    skeleton.struts_.push_back(strut);
  }
  skeleton.images_ = skeleton.copies_within(largest_reach);
  return skeleton;
}

std::vector<Strut> CellSkeleton::copies_within(double reach) const {
  std::vector<Strut> copies;
  for (const Strut& strut : struts_)
    for (int x = -3; x <= 3; ++x)
      for (int y = -3; y <= 3; ++y)
        for (int z = -3; z <= 3; ++z) {
          Strut copy = strut;
          const std::array<double, 3> shift{double(x), double(y), double(z)};
          for (std::size_t i = 0; i < 3; ++i) {
            copy.from[i] += shift[i];
            copy.to[i] += shift[i];
          }
          if (comes_near_cell(copy, reach))
            copies.push_back(copy);
        }
  return copies;
}

CellSkeleton CellSkeleton::of_surface(SheetSurface surface) {
  CellSkeleton skeleton;
  skeleton.surface_ = surface;
  return skeleton;
}

CellSkeleton CellSkeleton::of_cell(const UnitCell& cell) {
  if (cell.cell_class == CellClass::strut)
    return of_struts(cell.struts);
  if (cell.cell_class == CellClass::sheet)
    return of_surface(sheet_surface(cell.surface));
  throw OutOfDomain(fmt::format("cell '{}' is neither of struts nor of a sheet", cell.id));
}

double CellSkeleton::strut_length() const {
  double length = 0;
  for (const Strut& strut : struts_)
    length += crushwright::strut_length(strut);
  return length;
}

double CellSkeleton::distance(const CellPoint& point) const {
  Vector p(point.data());
  if (is_sheet())
    return distance_to_level(surface_, 0, point);
  p -= Vector(p.array().floor());
  double nearest = 4;
  for (const StrutAxis& axis : strut_axes(images_, 0))
    nearest = std::min(nearest, axis.distance(p));
  return nearest;
}

int CellSkeleton::layers(int n) const {
  return is_sheet() ? n : piece_layers(SampleGrid::cube(n));
}

void CellSkeleton::visit_layer(int n, double reach, int layer, const SampleVisitor& visitor) const {
  if (n < 1 || !(reach > 0 && reach <= largest_reach))
    throw OutOfDomain(fmt::format("sampling a cell needs n > 0 and a reach in (0, {}], not n = {}, reach = {}",
                                  largest_reach, n, reach));
  if (is_sheet())
    visit_near_surface(surface_, 0, false, n, reach, layer, visitor);
  else
    visit_near_pieces(strut_axes(images_, 0), SampleGrid::cube(n), reach, layer, visitor);
}

void CellSkeleton::visit_near(int n, double reach, const SampleVisitor& visitor) const {
  for (int layer = 0; layer < layers(n); ++layer)
    visit_layer(n, reach, layer, visitor);
}

std::vector<double> sampled_volume_fractions(const CellSkeleton& skeleton, std::span<const double> size_ratios,
                                             int n) {
  const double h = 1.0 / n;
  const double half_width = boundary_half_width * h;
  double largest = 0;
  for (double tau : size_ratios) {
    if (!(0.5 * tau >= half_width * (1 - 1e-9) && 0.5 * tau + half_width <= CellSkeleton::largest_reach))
      throw OutOfDomain(
          fmt::format("size ratio {} cannot be sampled with {} cells along the edge; expected {:.6g} to {:.6g}", tau,
                      n, 2 * half_width, 2 * (CellSkeleton::largest_reach - half_width)));
    largest = std::max(largest, tau);
  }
  std::vector<double> sums(size_ratios.size(), 0.0);
  skeleton.visit_near(n, 0.5 * largest + half_width, [&](std::size_t, double distance) {
    for (std::size_t i = 0; i < sums.size(); ++i)
      sums[i] += covered_fraction(distance - 0.5 * size_ratios[i], half_width);
  });
  for (double& sum : sums)
    sum *= h * h * h;
  return sums;
}

VolumeFraction extrapolated(double coarse, double fine, int fine_cells) {
  // Errors in the ratio (3/2)² = 9/4, so the limit is fine + (fine - coarse) / (9/4 - 1).
  const double value = fine + (fine - coarse) / 1.25;
  return {value, fine, std::abs(value - fine) / value, fine_cells};
}

namespace {

constexpr int cells_across_a_strut = 12;
constexpr int fewest_cells_for_struts = 96;
constexpr int cells_across_a_sheet = 4;
constexpr int fewest_cells_for_sheets = 80;

/// Even, so that one and a half times as many is a whole number.
int cells_for(double size_ratio, bool sheet) {
  const int across = sheet ? cells_across_a_sheet : cells_across_a_strut;
  const int fewest = sheet ? fewest_cells_for_sheets : fewest_cells_for_struts;
  const int wanted = static_cast<int>(std::ceil(across / size_ratio - 1e-9));
  return std::max(fewest, wanted + wanted % 2);
}

} // namespace

std::vector<VolumeFraction> volume_fractions(const CellSkeleton& skeleton, std::span<const double> size_ratios) {
  // Sizes that ask for the same grid share one pass, because the distances are the work.
  std::map<int, std::vector<std::size_t>> sizes_of_grid;
  for (std::size_t i = 0; i < size_ratios.size(); ++i)
    sizes_of_grid[cells_for(size_ratios[i], skeleton.is_sheet())].push_back(i);
  std::vector<VolumeFraction> result(size_ratios.size());
  for (const auto& [n, indices] : sizes_of_grid) {
    std::vector<double> sizes;
    for (std::size_t i : indices)
      sizes.push_back(size_ratios[i]);
    const auto coarse = sampled_volume_fractions(skeleton, sizes, n);
    const auto fine = sampled_volume_fractions(skeleton, sizes, n * 3 / 2);
    for (std::size_t k = 0; k < indices.size(); ++k)
      result[indices[k]] = extrapolated(coarse[k], fine[k], n * 3 / 2);
  }
  return result;
}

namespace {

using Voxels = std::vector<char>; // 0 void, 1 solid, 2 solid and reached

/// Marks what is reached through voxel faces from the solid voxels of the lower face across one axis.
bool reaches_far_face(Voxels voxels, std::size_t n, std::size_t axis) {
  const std::array<std::size_t, 3> stride{1, n, n * n};
  std::vector<std::size_t> front;
  const auto place = [&](std::size_t index, std::size_t along) { return index / stride[along] % n; };
  const auto reach = [&](std::size_t index) {
    if (voxels[index] != 1)
      return;
    voxels[index] = 2;
    front.push_back(index);
  };
  for (std::size_t index = 0; index < voxels.size(); ++index)
    if (place(index, axis) == 0)
      reach(index);
  while (!front.empty()) {
    const std::size_t index = front.back();
    front.pop_back();
    if (place(index, axis) == n - 1)
      return true;
    for (std::size_t along = 0; along < 3; ++along) {
      const std::size_t here = place(index, along);
      const std::size_t row = index - here * stride[along];
      // Sideways the cell goes on in its copies; across, leaving through the lower face is no way to the upper one.
      if (here > 0 || along != axis)
        reach(row + (here + n - 1) % n * stride[along]);
      reach(row + (here + 1) % n * stride[along]);
    }
  }
  return false;
}

} // namespace

bool connects_opposite_faces(const SolidBody& body, int n) {
  const SampleGrid grid = SampleGrid::cube(n);
  const std::size_t count = static_cast<std::size_t>(n);
  Voxels voxels(grid.size(), 0);
  for (int layer = 0; layer < body.layers(grid); ++layer)
    body.visit_layer(grid, 0.5 / n, layer, [&](std::size_t index, double distance) {
      if (distance <= 0)
        voxels[index] = 1;
    });
  return reaches_far_face(voxels, count, 0) && reaches_far_face(voxels, count, 1) &&
         reaches_far_face(voxels, count, 2);
}

bool connects_opposite_faces(const CellSkeleton& skeleton, double size_ratio, int n) {
  const std::size_t count = static_cast<std::size_t>(n);
  Voxels voxels(count * count * count, 0);
  skeleton.visit_near(n, 0.5 * size_ratio, [&](std::size_t index, double) { voxels[index] = 1; });
  return reaches_far_face(voxels, count, 0) && reaches_far_face(voxels, count, 1) &&
         reaches_far_face(voxels, count, 2);
}

} // namespace crushwright
