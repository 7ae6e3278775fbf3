#include "printability/print_subject.hpp"

#include <algorithm>

namespace crushwright {
namespace {

/// Points around an outline: the search runs over hundreds of directions, and an angle within 4 degrees of the true
/// one at a curve is near enough for the area of an overhang.
constexpr std::size_t points_around = 48;

/// Faces of the closed outer surface that are there: the sides where there is a skin, the ends where a plate is
/// printed.
TriangleMesh metal_faces(const PrintSubject& subject, const PrintingInput& printing, const TriangleMesh& outer) {
  TriangleMesh shell;
  shell.points = outer.points;
  const double length = subject.envelope->length(), on_end = 1e-9 * length;
  const bool tip = printing.plates_printed && subject.tip_plate > 0;
  const bool root = printing.plates_printed && subject.root_plate > 0;
  const auto all_at = [&](const std::array<std::int32_t, 3>& triangle, double station) {
    return std::all_of(triangle.begin(), triangle.end(), [&](std::int32_t point) {
      return std::abs(outer.points[static_cast<std::size_t>(point)][0] - station) <= on_end;
    });
  };
  for (const auto& triangle : outer.triangles) {
    const bool there = all_at(triangle, 0) ? tip : all_at(triangle, length) ? root : subject.skin_thickness > 0;
    if (there)
      shell.triangles.push_back(triangle);
  }
  return shell;
}

bool is_printed_lattice(const UnitCell* cell) {
  return cell != nullptr && cell->cell_class != CellClass::foam;
}

double size_ratio_of(const PrintSubject& subject) {
  return is_sized(*subject.cell) ? subject.largest_size / subject.cell_edge : 1;
}

} // namespace

PreparedSubject prepared(const PrintSubject& subject, const PrintingInput& printing) {
  PreparedSubject ready;
  ready.subject = &subject;
  ready.outer = surface_of(*subject.envelope, points_around);
  ready.shell = metal_faces(subject, printing, ready.outer);
  ready.has_lattice = is_printed_lattice(subject.cell);
  if (ready.has_lattice && subject.cell->cell_class == CellClass::strut)
    ready.bars = cell_bars(subject.cell->struts);
  else if (ready.has_lattice)
    ready.facets = cell_facets(*subject.cell, size_ratio_of(subject));
  return ready;
}

LatticeSupport lattice_support(const PreparedSubject& prepared, const BuildDirection& direction, double angle,
                               bool with_spans) {
  if (!prepared.has_lattice)
    return {};
  const auto& axes = prepared.subject->axes;
  const Vector in_cell{dot(axes[0], direction), dot(axes[1], direction), dot(axes[2], direction)};
  if (prepared.facets == nullptr)
    return strut_support(prepared.bars.bars, std::vector<char>(prepared.bars.nodes, 0), in_cell, angle);
  const FacetArea area = overhanging_area(*prepared.facets, in_cell, angle);
  LatticeSupport support;
  support.whole = area.whole;
  support.unsupported = area.overhanging;
  if (with_spans)
    support.longest_span = widest_ceiling(*prepared.facets, in_cell, angle);
  return support;
}

double unsupported_share(const LatticeSupport& lattice, const Overhang& overhang) {
  const double skin = overhang.whole > 0 ? (overhang.outside + overhang.inside) / (2 * overhang.whole) : 0;
  if (!(lattice.whole > 0))
    return skin;
  return overhang.whole > 0 ? 0.5 * (lattice.share() + skin) : lattice.share();
}

} // namespace crushwright
