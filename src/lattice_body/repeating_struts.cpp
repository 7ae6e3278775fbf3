#include "lattice_body/repeating_struts.hpp"

#include "crushwright/errors.hpp"
#include "homogenisation/frame_topology.hpp"

#include <Eigen/Dense>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

using Vector = Eigen::Vector3d;
using Shift = Eigen::Vector3i;

constexpr double in_a_face = 1e-3; // cell edges, as frame_topology joins

RepeatingStrut owned(const FrameTopology& topology, const FrameMember& member) {
  const Vector from = topology.nodes[std::size_t(member.from)];
  const Shift owner = ((from + 0.5 * member.span).array() + in_a_face).floor().cast<int>();
  return {member.from, member.to, -owner, member.shift - owner};
}

bool in_cell(const Vector& point) {
  return (point.array() > -in_a_face).all() && (point.array() < 1 + in_a_face).all();
}

/// Shifts of the copies for which `lies_in` holds; its own, with shift 0, always counts.
template <class LiesIn>
void add_closed(int place, const LiesIn& lies_in, std::vector<InClosedCell>& closed) {
  const std::size_t first = closed.size();
  for (int copy = 0; copy < 27; ++copy) {
    const Shift shift(copy % 3 - 1, copy / 3 % 3 - 1, copy / 9 - 1);
    if (shift.isZero() || lies_in(Vector(shift.cast<double>())))
      closed.push_back({place, shift, 1});
  }
  for (std::size_t i = first; i < closed.size(); ++i)
    closed[i].share = 1.0 / static_cast<double>(closed.size() - first);
}

} // namespace

Vector RepeatingStruts::end(const RepeatingStrut& strut, bool at_to) const {
  return at_to ? Vector(nodes[std::size_t(strut.to)] + strut.to_shift.cast<double>())
               : Vector(nodes[std::size_t(strut.from)] + strut.from_shift.cast<double>());
}

double RepeatingStruts::length(const RepeatingStrut& strut) const {
  return (end(strut, true) - end(strut, false)).norm();
}

std::vector<Vector> RepeatingStruts::directions_at(int node) const {
  std::vector<Vector> directions;
  for (const RepeatingStrut& strut : struts) {
    const Vector along = (end(strut, true) - end(strut, false)).normalized();
    if (strut.from == node)
      directions.push_back(along);
    if (strut.to == node)
      directions.push_back(-along);
  }
  return directions;
}

RepeatingStruts repeating_struts(const UnitCell& cell) {
  if (cell.cell_class != CellClass::strut)
    throw OutOfDomain(
        fmt::format("cell '{}' is not of struts; only strut cells are trimmed strut by strut", cell.id));
  const FrameTopology topology = frame_topology(cell.struts);
  RepeatingStruts lattice;
  lattice.nodes = topology.nodes;
  lattice.reach = std::sqrt(0.75);
  const Vector middle = Vector::Constant(0.5);
  for (const FrameMember& member : topology.members) {
    const RepeatingStrut strut = owned(topology, member);
    lattice.struts.push_back(strut);
    const Vector from = lattice.end(strut, false), to = lattice.end(strut, true);
    lattice.reach = std::max({lattice.reach, (from - middle).norm(), (to - middle).norm()});
    add_closed(
        static_cast<int>(lattice.struts.size()) - 1,
        [&](const Vector& shift) { return in_cell(from + shift) && in_cell(to + shift); }, lattice.closed_struts);
  }
  for (std::size_t node = 0; node < lattice.nodes.size(); ++node)
    add_closed(
        static_cast<int>(node), [&](const Vector& shift) { return in_cell(lattice.nodes[node] + shift); },
        lattice.closed_nodes);
  return lattice;
}

} // namespace crushwright
