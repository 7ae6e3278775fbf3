#include "unit_cell/cell_solid.hpp"

#include "crushwright/errors.hpp"
#include "unit_cell/strut_identity.hpp"

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

// Sampled boundaries are softened over this many grid spacings either side.
constexpr double boundary_half_width = 2;
constexpr double wave_number = 2 * std::numbers::pi;
// Each partial derivative of either surface function has the form cos x · p - sin x · q with |p|, |q| <= 1.
constexpr double steepest_slope = wave_number * 2.449489742783178; // 2π √6

Vector as_vector(const CellPoint& p) {
  return {p[0], p[1], p[2]};
}

double distance_to_axis(const Vector& point, const Vector& from, const Vector& along, double along_squared) {
  const Vector offset = point - from;
  const double s = std::clamp(offset.dot(along) / along_squared, 0.0, 1.0);
  return (offset - s * along).norm();
}

/// Value, gradient and second derivatives of a surface function at one point [1, 1/edge, 1/edge²].
struct SurfaceJet {
  double value;
  Vector gradient;
  Eigen::Matrix3d hessian;
};

double surface_value(SheetSurface surface, const Vector& s, const Vector& c) {
  if (surface == SheetSurface::gyroid)
    return s[0] * c[1] + s[1] * c[2] + s[2] * c[0];
  return s[0] * s[1] * s[2] + s[0] * c[1] * c[2] + c[0] * s[1] * c[2] + c[0] * c[1] * s[2];
}

SurfaceJet gyroid_jet(const Vector& s, const Vector& c) {
  SurfaceJet jet;
  jet.value = surface_value(SheetSurface::gyroid, s, c);
  jet.gradient = {c[0] * c[1] - s[2] * s[0], c[1] * c[2] - s[0] * s[1], c[2] * c[0] - s[1] * s[2]};
  jet.hessian << -s[0] * c[1] - s[2] * c[0], -c[0] * s[1], -c[2] * s[0], //
      -c[0] * s[1], -s[1] * c[2] - s[0] * c[1], -c[1] * s[2],            //
      -c[2] * s[0], -c[1] * s[2], -s[2] * c[0] - s[1] * c[2];
  return jet;
}

SurfaceJet diamond_jet(const Vector& s, const Vector& c) {
  SurfaceJet jet;
  jet.value = surface_value(SheetSurface::diamond, s, c);
  jet.gradient = {c[0] * (s[1] * s[2] + c[1] * c[2]) - s[0] * (s[1] * c[2] + c[1] * s[2]),
                  c[1] * (s[0] * s[2] + c[0] * c[2]) - s[1] * (s[0] * c[2] + c[0] * s[2]),
                  c[2] * (s[0] * s[1] + c[0] * c[1]) - s[2] * (s[0] * c[1] + c[0] * s[1])};
  const auto mixed = [&](int i, int j, int k) {
    return c[i] * (c[j] * s[k] - s[j] * c[k]) - s[i] * (c[j] * c[k] - s[j] * s[k]);
  };
  const double xy = mixed(0, 1, 2);
  const double xz = mixed(0, 2, 1);
  const double yz = mixed(1, 2, 0);
  jet.hessian << -jet.value, xy, xz, xy, -jet.value, yz, xz, yz, -jet.value;
  return jet;
}

SurfaceJet surface_jet(SheetSurface surface, const Vector& point) {
  const Vector angle = wave_number * point;
  const Vector s = angle.array().sin();
  const Vector c = angle.array().cos();
  SurfaceJet jet = surface == SheetSurface::gyroid ? gyroid_jet(s, c) : diamond_jet(s, c);
  jet.gradient *= wave_number;
  jet.hessian *= wave_number * wave_number;
  return jet;
}

/// Follows the steepest way onto the surface, never stepping farther than an eighth of the cell.
Vector dropped_onto(SheetSurface surface, Vector p, int steps) {
  for (int i = 0; i < steps; ++i) {
    const SurfaceJet jet = surface_jet(surface, p);
    Vector step = -jet.value / std::max(jet.gradient.squaredNorm(), 1e-9) * jet.gradient;
    const double length = step.norm();
    if (length > 0.125)
      step *= 0.125 / length;
    p += step;
    if (length < 1e-12)
      break;
  }
  return p;
}

/// Newton's method for the foot p of x: p - x + λ ∇f = 0 and f = 0. False when it does not settle.
bool settle_foot(SheetSurface surface, const Vector& x, Vector& p) {
  const SurfaceJet start = surface_jet(surface, p);
  double multiplier = (x - p).dot(start.gradient) / start.gradient.squaredNorm();
  for (int i = 0; i < 25; ++i) {
    const SurfaceJet jet = surface_jet(surface, p);
    // The 4 × 4 system by elimination of the multiplier's step.
    const Eigen::Matrix3d matrix = Eigen::Matrix3d::Identity() + multiplier * jet.hessian;
    const Eigen::Matrix3d inverse = matrix.inverse();
    const Vector residual = p - x + multiplier * jet.gradient;
    const double pivot = jet.gradient.dot(inverse * jet.gradient);
    const double multiplier_step = (jet.value - jet.gradient.dot(inverse * residual)) / pivot;
    const Vector step = -inverse * (residual + multiplier_step * jet.gradient);
    if (!step.allFinite() || step.norm() > 0.25)
      return false;
    p += step;
    multiplier += multiplier_step;
    if (step.norm() < 1e-7) // quadratic: the foot is then good to 1e-12
      return true;
  }
  return false;
}

/// Slow and sure way to a foot: the point's own projection on the tangent plane, dropped onto the surface again.
Vector crept_foot(SheetSurface surface, const Vector& x, Vector p) {
  for (int i = 0; i < 200; ++i) {
    const Vector normal = surface_jet(surface, p).gradient.normalized();
    const Vector in_tangent_plane = x - (x - p).dot(normal) * normal;
    const Vector next = dropped_onto(surface, p + 0.5 * (in_tangent_plane - p), 4);
    const bool settled = (next - p).norm() < 1e-8;
    p = next;
    if (settled)
      break;
  }
  return p;
}

bool comes_near_cell(const Strut& strut, double reach) {
  for (std::size_t i = 0; i < 3; ++i)
    if (std::max(strut.from[i], strut.to[i]) < -reach || std::min(strut.from[i], strut.to[i]) > 1 + reach)
      return false;
  return true;
}

/// A strut prepared for many distance queries.
struct Axis {
  Vector from;
  Vector along;
  double along_squared;
  double distance(const Vector& p) const { return distance_to_axis(p, from, along, along_squared); }
};

std::vector<Axis> prepared(const std::vector<Strut>& struts) {
  std::vector<Axis> axes;
  for (const Strut& strut : struts) {
    const Vector from = as_vector(strut.from);
    const Vector along = as_vector(strut.to) - from;
    axes.push_back({from, along, along.squaredNorm()});
  }
  return axes;
}

/// Integral of the weight 35/32 (1 - u²)³ from u to 1: smooth enough at its ends that the grid leaves no trace.
double covered_fraction(double signed_distance, double half_width) {
  const double u = std::clamp(signed_distance / half_width, -1.0, 1.0);
  const double u2 = u * u;
  return 0.5 - 35.0 / 32.0 * u * (1 - u2 * (1 - u2 * (0.6 - u2 / 7)));
}

} // namespace

SheetSurface sheet_surface(std::string_view name) {
  if (name == "gyroid")
    return SheetSurface::gyroid;
  if (name == "diamond")
    return SheetSurface::diamond;
  throw OutOfDomain(fmt::format("no solid is known for a sheet around a '{}' surface; known: gyroid, diamond", name));
}

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
  for (const Strut& strut : skeleton.struts_)
    for (int x = -3; x <= 3; ++x)
      for (int y = -3; y <= 3; ++y)
        for (int z = -3; z <= 3; ++z) {
          Strut image = strut;
          const std::array<double, 3> shift{double(x), double(y), double(z)};
          for (std::size_t i = 0; i < 3; ++i) {
            image.from[i] += shift[i];
            image.to[i] += shift[i];
          }
          if (comes_near_cell(image, largest_reach))
            skeleton.images_.push_back(image);
        }
  return skeleton;
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
  Vector p = as_vector(point);
  if (is_sheet())
    return distance_to_surface(surface_, point);
  p -= Vector(p.array().floor());
  double nearest = 4;
  for (const Axis& axis : prepared(images_))
    nearest = std::min(nearest, axis.distance(p));
  return nearest;
}

double distance_to_surface(SheetSurface surface, const CellPoint& point) {
  const Vector x = as_vector(point);
  const Vector start = dropped_onto(surface, x, 4);
  Vector foot = start;
  if (!settle_foot(surface, x, foot) || (foot - x).norm() > (start - x).norm() + 1e-9)
    foot = crept_foot(surface, x, start);
  return (foot - x).norm();
}

void CellSkeleton::visit_near(int n, double reach, const Visitor& visitor) const {
  if (n < 1 || !(reach > 0 && reach <= largest_reach))
    throw OutOfDomain(fmt::format("sampling a cell needs n > 0 and a reach in (0, {}], not n = {}, reach = {}",
                                  largest_reach, n, reach));
  if (is_sheet())
    visit_near_sheet(n, reach, visitor);
  else
    visit_near_struts(n, reach, visitor);
}

// In blocks of samples, so that most struts are ruled out once for a whole block.
void CellSkeleton::visit_near_struts(int n, double reach, const Visitor& visitor) const {
  constexpr int block = 8;
  const double h = 1.0 / n;
  const double half_diagonal = 0.5 * std::sqrt(3.0) * block * h;
  const std::vector<Axis> axes = prepared(images_);
  std::vector<double> from_centre(axes.size());
  std::vector<Axis> close;
  for (int bz = 0; bz < n; bz += block)
    for (int by = 0; by < n; by += block)
      for (int bx = 0; bx < n; bx += block) {
        const Vector centre = h * Vector(bx + 0.5 * block, by + 0.5 * block, bz + 0.5 * block);
        double nearest = 4;
        for (std::size_t i = 0; i < axes.size(); ++i) {
          from_centre[i] = axes[i].distance(centre);
          nearest = std::min(nearest, from_centre[i]);
        }
        const double limit = half_diagonal + std::min(reach, nearest + half_diagonal);
        close.clear();
        for (std::size_t i = 0; i < axes.size(); ++i)
          if (from_centre[i] <= limit)
            close.push_back(axes[i]);
        if (close.empty())
          continue;
        for (int z = bz; z < std::min(n, bz + block); ++z)
          for (int y = by; y < std::min(n, by + block); ++y)
            for (int x = bx; x < std::min(n, bx + block); ++x) {
              const Vector p = h * Vector(x + 0.5, y + 0.5, z + 0.5);
              double d = 4;
              for (const Axis& axis : close)
                d = std::min(d, axis.distance(p));
              if (d <= reach)
                visitor((std::size_t(z) * std::size_t(n) + std::size_t(y)) * std::size_t(n) + std::size_t(x), d);
            }
      }
}

void CellSkeleton::visit_near_sheet(int n, double reach, const Visitor& visitor) const {
  const double h = 1.0 / n;
  const Eigen::ArrayXd angles = wave_number * h * (Eigen::ArrayXd::LinSpaced(n, 0, n - 1) + 0.5);
  const Eigen::ArrayXd sines = angles.sin();
  const Eigen::ArrayXd cosines = angles.cos();
  std::size_t index = 0;
  for (int z = 0; z < n; ++z)
    for (int y = 0; y < n; ++y)
      for (int x = 0; x < n; ++x, ++index) {
        const double value =
            surface_value(surface_, {sines[x], sines[y], sines[z]}, {cosines[x], cosines[y], cosines[z]});
        if (std::abs(value) > steepest_slope * reach)
          continue;
        const double d = distance_to_surface(surface_, {h * (x + 0.5), h * (y + 0.5), h * (z + 0.5)});
        if (d <= reach)
          visitor(index, d);
      }
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

namespace {

VolumeFraction extrapolated(double coarse, double fine, int fine_cells) {
  // Errors in the ratio (3/2)² = 9/4, so the limit is fine + (fine - coarse) / (9/4 - 1).
  const double value = fine + (fine - coarse) / 1.25;
  return {value, fine, std::abs(value - fine) / value, fine_cells};
}

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

bool connects_opposite_faces(const CellSkeleton& skeleton, double size_ratio, int n) {
  const std::size_t count = static_cast<std::size_t>(n);
  Voxels voxels(count * count * count, 0);
  skeleton.visit_near(n, 0.5 * size_ratio, [&](std::size_t index, double) { voxels[index] = 1; });
  return reaches_far_face(voxels, count, 0) && reaches_far_face(voxels, count, 1) &&
         reaches_far_face(voxels, count, 2);
}

} // namespace crushwright
