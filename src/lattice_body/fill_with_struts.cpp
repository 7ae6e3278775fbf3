#include "crushwright/errors.hpp"
#include "lattice_body/strut_fill.hpp"

#include <Eigen/Dense>

namespace crushwright {
namespace {

using Vector = Eigen::Vector3d;

struct Bounds {
  Vector low = Vector::Constant(1e300), high = Vector::Constant(-1e300);
};

Bounds bounds_of(const TriangleMesh& mesh, const TrimOptions& options) {
  if (mesh.triangles.empty())
    throw OutOfDomain("the outer surface has no triangles; there is nothing to fill");
  Bounds bounds;
  for (const auto& point : mesh.points) {
    bounds.low = bounds.low.cwiseMin(Vector(point.data()));
    bounds.high = bounds.high.cwiseMax(Vector(point.data()));
  }
  if (options.first_station != 0 || options.last_station != 0) {
    bounds.low.x() = std::max(bounds.low.x(), options.first_station);
    bounds.high.x() = std::min(bounds.high.x(), options.last_station);
  }
  if (!(bounds.high.x() >= bounds.low.x()))
    throw OutOfDomain("the stations between which the lattice is to lie miss the body");
  return bounds;
}

} // namespace

TrimmedLattice trim_struts(const UnitCell& cell, const LatticePlacement& placement, const SizeAt& size,
                           const TriangleMesh& outer, const TrimOptions& options) {
  const Bounds bounds = bounds_of(outer, options);
  const SurfaceProbe probe(outer);
  const InnerRegion region(probe, options, boundary_grain * placement.cell_edge);
  return strut_fill(cell, placement, size, region, bounds.low, bounds.high, options).trimmed;
}

FilledBody fill_with_struts(const UnitCell& cell, const LatticePlacement& placement, const SizeAt& size,
                            const TriangleMesh& outer, const TrimOptions& options) {
  const Bounds bounds = bounds_of(outer, options);
  const SurfaceProbe probe(outer);
  const InnerRegion region(probe, options, boundary_grain * placement.cell_edge);
  StrutFill fill = strut_fill(cell, placement, size, region, bounds.low, bounds.high, options);
  const FillReport report = fill_report(cell, fill, size, region);
  return {std::move(fill.trimmed), report};
}

} // namespace crushwright
