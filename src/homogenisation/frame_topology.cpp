#include "homogenisation/frame_topology.hpp"

#include "crushwright/errors.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <fmt/format.h>
#include <numeric>
#include <tuple>

namespace crushwright {

namespace {

// Struts that pass each other at less than this [cell edges] meet. A twentieth of the thinnest strut of the
// catalogue, and wide enough for thirds that a user wrote with three digits.
const double touching = 1e-3;

struct Segment {
  Eigen::Vector3d start;
  Eigen::Vector3d span;
  double length() const { return span.norm(); }
  Eigen::Vector3d end() const { return start + span; }
  Eigen::Vector3d at(double part) const { return start + part * span; }
};

std::vector<Segment> segments_of(const std::vector<Strut>& struts) {
  std::vector<Segment> segments;
  segments.reserve(struts.size());
  for (const Strut& strut : struts) {
    const Eigen::Vector3d from(strut.from[0], strut.from[1], strut.from[2]);
    const Eigen::Vector3d to(strut.to[0], strut.to[1], strut.to[2]);
    if (!((to - from).norm() > touching)) {
      throw OutOfDomain(fmt::format("strut {} has no length: its ends must lie more than {:g} cell edges apart.",
                                    segments.size() + 1, touching));
    }
    segments.push_back({from, to - from});
  }
  return segments;
}

/// Whole shifts that can bring the box of `other` into the box of `segment`.
std::array<std::array<int, 2>, 3> shift_range(const Segment& segment, const Segment& other) {
  std::array<std::array<int, 2>, 3> range{};
  for (int axis = 0; axis < 3; ++axis) {
    const double low = std::min(segment.start[axis], segment.end()[axis]);
    const double high = std::max(segment.start[axis], segment.end()[axis]);
    const double other_low = std::min(other.start[axis], other.end()[axis]);
    const double other_high = std::max(other.start[axis], other.end()[axis]);
    range[static_cast<std::size_t>(axis)] = {static_cast<int>(std::ceil(low - other_high - touching)),
                                             static_cast<int>(std::floor(high - other_low + touching))};
  }
  return range;
}

/// Place along the segment next to a point, as a part of its length; outside [0, 1] when the point does not touch.
double part_at(const Segment& segment, const Eigen::Vector3d& point) {
  const double part = std::clamp((point - segment.start).dot(segment.span) / segment.span.squaredNorm(), 0.0, 1.0);
  return (segment.at(part) - point).norm() < touching ? part : -1;
}

/// Adds the parts of the segment's length at which `other` meets it.
void add_meetings(const Segment& segment, const Segment& other, std::vector<double>& parts) {
  for (const Eigen::Vector3d& end : {other.start, other.end()}) {
    if (const double part = part_at(segment, end); part >= 0) {
      parts.push_back(part);
    }
  }
  const Eigen::Vector3d gap = other.start - segment.start;
  const double along = segment.span.dot(other.span);
  const double scale = segment.span.squaredNorm() * other.span.squaredNorm();
  const double determinant = scale - along * along;
  // Parallel struts meet at their ends or not at all. 1e-6 is the sine of the angle, squared: a strut that leaves
  // another by less than 0.06 degrees does not leave it within a cell.
  if (determinant < 1e-6 * scale) {
    return;
  }
  const double part = (gap.dot(segment.span) * other.span.squaredNorm() - gap.dot(other.span) * along) / determinant;
  const double other_part =
      (gap.dot(segment.span) * along - gap.dot(other.span) * segment.span.squaredNorm()) / determinant;
  const bool inside = part >= 0 && part <= 1 && other_part >= 0 && other_part <= 1;
  if (inside && (segment.at(part) - other.at(other_part)).norm() < touching) {
    parts.push_back(part);
  }
}

std::vector<double> meeting_parts(const std::vector<Segment>& segments, std::size_t place) {
  const Segment& segment = segments[place];
  std::vector<double> parts{0, 1};
  for (const Segment& other : segments) {
    const auto range = shift_range(segment, other);
    for (int x = range[0][0]; x <= range[0][1]; ++x) {
      for (int y = range[1][0]; y <= range[1][1]; ++y) {
        for (int z = range[2][0]; z <= range[2][1]; ++z) {
          const bool itself = &other == &segment && x == 0 && y == 0 && z == 0;
          if (!itself) {
            add_meetings(segment, {other.start + Eigen::Vector3d(x, y, z), other.span}, parts);
          }
        }
      }
    }
  }
  std::sort(parts.begin(), parts.end());
  return parts;
}

/// A node's copy.
struct NodeCopy {
  int node;
  Eigen::Vector3i shift;
};

NodeCopy node_at(std::vector<Eigen::Vector3d>& nodes, const Eigen::Vector3d& point) {
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const Eigen::Vector3d gap = point - nodes[i];
    const Eigen::Vector3d whole = gap.array().round();
    if ((gap - whole).norm() < touching) {
      return {static_cast<int>(i), whole.cast<int>()};
    }
  }
  const Eigen::Vector3d whole = (point.array() + touching).floor();
  nodes.push_back((point - whole).cwiseMax(0));
  return {static_cast<int>(nodes.size()) - 1, whole.cast<int>()};
}

bool goes_backwards(const FrameMember& member) {
  const auto shift = std::tuple(member.shift[0], member.shift[1], member.shift[2]);
  return member.from > member.to || (member.from == member.to && shift < std::tuple(0, 0, 0));
}

FrameMember forwards(FrameMember member) {
  if (goes_backwards(member)) {
    std::swap(member.from, member.to);
    member.shift = -member.shift;
    member.span = -member.span;
  }
  return member;
}

bool same_place(const FrameMember& first, const FrameMember& second) {
  return first.from == second.from && first.to == second.to && first.shift == second.shift;
}

void add_member(FrameTopology& topology, const FrameMember& member) {
  const FrameMember added = forwards(member);
  const bool no_length = added.from == added.to && added.shift.isZero();
  const bool known = std::any_of(topology.members.begin(), topology.members.end(),
                                 [&](const FrameMember& other) { return same_place(other, added); });
  if (!no_length && !known) {
    topology.members.push_back(added);
  }
}

FrameMember between(const std::vector<Eigen::Vector3d>& nodes, const NodeCopy& start, const NodeCopy& end) {
  const Eigen::Vector3i shift = end.shift - start.shift;
  const Eigen::Vector3d span =
      nodes[static_cast<std::size_t>(end.node)] + shift.cast<double>() - nodes[static_cast<std::size_t>(start.node)];
  return {start.node, end.node, shift, span};
}

FrameTopology joined_at_meetings(const std::vector<Segment>& segments) {
  FrameTopology topology;
  for (std::size_t place = 0; place < segments.size(); ++place) {
    const std::vector<double> parts = meeting_parts(segments, place);
    NodeCopy last = node_at(topology.nodes, segments[place].start);
    for (const double part : parts) {
      const NodeCopy next = node_at(topology.nodes, segments[place].at(part));
      add_member(topology, between(topology.nodes, last, next));
      last = next;
    }
  }
  return topology;
}

/// Places of the members that end at a node; a member from the node to its own copy counts twice.
std::vector<std::size_t> members_at(const FrameTopology& topology, int node) {
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < topology.members.size(); ++i) {
    for (const int end : {topology.members[i].from, topology.members[i].to}) {
      if (end == node) {
        places.push_back(i);
      }
    }
  }
  return places;
}

FrameMember reversed(const FrameMember& member) {
  return {member.to, member.from, -member.shift, -member.span};
}

/// Two members in one line that only meet each other at a node are one: a strut written in two halves would
/// otherwise buckle at four times its load.
bool straightened_at(FrameTopology& topology, int node) {
  const std::vector<std::size_t> places = members_at(topology, node);
  if (places.size() != 2 || places[0] == places[1]) {
    return false;
  }
  FrameMember first = topology.members[places[0]];
  FrameMember second = topology.members[places[1]];
  first = first.to == node ? first : reversed(first);
  second = second.from == node ? second : reversed(second);
  const double sine = first.span.normalized().cross(second.span.normalized()).norm();
  if (first.span.dot(second.span) < 0 || sine > touching) {
    return false;
  }
  topology.members.erase(topology.members.begin() + static_cast<std::ptrdiff_t>(places[1]));
  topology.members[places[0]] =
      forwards({first.from, second.to, first.shift + second.shift, first.span + second.span});
  return true;
}

void remove_node(FrameTopology& topology, int node) {
  topology.nodes.erase(topology.nodes.begin() + node);
  for (FrameMember& member : topology.members) {
    member.from -= member.from > node ? 1 : 0;
    member.to -= member.to > node ? 1 : 0;
  }
}

void straighten(FrameTopology& topology) {
  for (int node = static_cast<int>(topology.nodes.size()) - 1; node >= 0; --node) {
    if (straightened_at(topology, node)) {
      remove_node(topology, node);
    }
  }
}

/// What a walk through the frame finds: the nodes it reached, each with the cell it was met in, and the whole-cell
/// vectors by which the frame comes back to a copy of a node.
struct Walk {
  std::vector<bool> reached;
  std::vector<Eigen::Vector3i> closing;
};

Walk walk_from_first(const FrameTopology& topology) {
  Walk walk;
  walk.reached.assign(topology.nodes.size(), false);
  std::vector<Eigen::Vector3i> cell(topology.nodes.size(), Eigen::Vector3i::Zero());
  walk.reached[0] = true;
  for (bool grown = true; grown;) {
    grown = false;
    for (const FrameMember& member : topology.members) {
      const auto from = static_cast<std::size_t>(member.from);
      const auto to = static_cast<std::size_t>(member.to);
      if (walk.reached[from] == walk.reached[to]) {
        continue;
      }
      grown = true;
      if (walk.reached[from]) {
        cell[to] = cell[from] + member.shift;
      } else {
        cell[from] = cell[to] - member.shift;
      }
      walk.reached[from] = walk.reached[to] = true;
    }
  }
  for (const FrameMember& member : topology.members) {
    const auto from = static_cast<std::size_t>(member.from);
    const auto to = static_cast<std::size_t>(member.to);
    const Eigen::Vector3i vector = cell[from] + member.shift - cell[to];
    if (walk.reached[from] && !vector.isZero()) {
      walk.closing.push_back(vector);
    }
  }
  return walk;
}

void require_one_piece(const FrameTopology& topology, const Walk& walk) {
  for (std::size_t i = 0; i < topology.nodes.size(); ++i) {
    if (!walk.reached[i]) {
      const Eigen::Vector3d& loose = topology.nodes[i];
      const Eigen::Vector3d& first = topology.nodes[0];
      throw OutOfDomain(fmt::format("the struts do not hang together: those at ({:g}, {:g}, {:g}) touch none of "
                                    "those that hang on ({:g}, {:g}, "
                                    "{:g}). Struts meet when their centre lines come closer than {:g} cell edges.",
                                    loose[0], loose[1], loose[2], first[0], first[1], first[2], touching));
    }
  }
}

/// A direction along which the frame never reaches its own copy; closing vectors of rank below three.
Eigen::Vector3d missing_direction(const std::vector<Eigen::Vector3i>& closing) {
  Eigen::Matrix3d products = Eigen::Matrix3d::Zero();
  for (const Eigen::Vector3i& vector : closing) {
    products += vector.cast<double>() * vector.cast<double>().transpose();
  }
  // An edge of the cell reads best, where the closing vectors all lie across it.
  for (int axis = 0; axis < 3; ++axis) {
    if (products(axis, axis) == 0) {
      return Eigen::Vector3d::Unit(axis);
    }
  }
  Eigen::Vector3d direction = Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d>(products).eigenvectors().col(0);
  direction /= direction.cwiseAbs().maxCoeff();
  return direction;
}

int determinant(const Eigen::Vector3i& a, const Eigen::Vector3i& b, const Eigen::Vector3i& c) {
  return a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
}

/// Cells that the closing vectors span together, 0 when they lie in a plane; 1 when every copy of a node can be
/// reached from every other.
int spanned_cells(const std::vector<Eigen::Vector3i>& closing) {
  int common = 0;
  for (std::size_t i = 0; i < closing.size(); ++i) {
    for (std::size_t j = i + 1; j < closing.size(); ++j) {
      for (std::size_t k = j + 1; k < closing.size(); ++k) {
        common = std::gcd(common, std::abs(determinant(closing[i], closing[j], closing[k])));
      }
    }
  }
  return common;
}

std::vector<Eigen::Vector3i> distinct(std::vector<Eigen::Vector3i> vectors) {
  const auto order = [](const Eigen::Vector3i& a, const Eigen::Vector3i& b) {
    return std::tuple(a[0], a[1], a[2]) < std::tuple(b[0], b[1], b[2]);
  };
  std::sort(vectors.begin(), vectors.end(), order);
  vectors.erase(std::unique(vectors.begin(), vectors.end()), vectors.end());
  return vectors;
}

void require_percolation(const std::vector<Eigen::Vector3i>& closing) {
  const int cells = spanned_cells(closing);
  if (cells == 0) {
    const Eigen::Vector3d along = missing_direction(closing);
    throw OutOfDomain(
        fmt::format("the struts do not reach their own copy in the next cell along [{:.3g} {:.3g} {:.3g}]: nothing "
                    "carries load in that direction. Add struts that meet the opposite face where others leave it.",
                    along[0], along[1], along[2]));
  }
  if (cells > 1) {
    throw OutOfDomain(
        fmt::format("the struts form {} frames that run through each other without touching: join them, "
                    "or give the cell of one of them.",
                    cells));
  }
}

/// Outward unit vector of each end of each member, with the node it leaves.
struct MemberEnd {
  int node;
  Eigen::Vector3d outward;
};

std::array<MemberEnd, 2> ends_of(const FrameMember& member) {
  const Eigen::Vector3d along = member.span.normalized();
  return {MemberEnd{member.from, along}, MemberEnd{member.to, -along}};
}

double reach_of_end(const FrameTopology& topology, std::size_t place, std::size_t side, double diameter) {
  const MemberEnd end = ends_of(topology.members[place])[side];
  double reach = 0;
  for (std::size_t other_place = 0; other_place < topology.members.size(); ++other_place) {
    const std::array<MemberEnd, 2> others = ends_of(topology.members[other_place]);
    for (std::size_t other_side = 0; other_side < 2; ++other_side) {
      const bool itself = other_place == place && other_side == side;
      if (itself || others[other_side].node != end.node) {
        continue;
      }
      const double cosine = std::clamp(end.outward.dot(others[other_side].outward), -1.0, 1.0);
      // 1 / tan(θ/2) from the cosine; two struts in one line would be one member, so the cosine stays below 1.
      reach = std::max(reach, 0.5 * diameter * std::sqrt((1 + cosine) / std::max(1 - cosine, 1e-12)));
    }
  }
  return std::min(reach, 0.45 * topology.members[place].span.norm());
}

} // namespace

FrameTopology frame_topology(const std::vector<Strut>& struts) {
  if (struts.empty()) {
    throw OutOfDomain("a frame needs struts: the cell has none.");
  }
  FrameTopology topology = joined_at_meetings(segments_of(struts));
  straighten(topology);
  const Walk walk = walk_from_first(topology);
  require_one_piece(topology, walk);
  require_percolation(distinct(walk.closing));
  return topology;
}

std::vector<NodeReach> node_reaches(const FrameTopology& topology, double diameter) {
  std::vector<NodeReach> reaches;
  reaches.reserve(topology.members.size());
  for (std::size_t place = 0; place < topology.members.size(); ++place) {
    reaches.push_back({reach_of_end(topology, place, 0, diameter), reach_of_end(topology, place, 1, diameter)});
  }
  return reaches;
}

} // namespace crushwright
