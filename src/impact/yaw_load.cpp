#include "crushwright/impact.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace crushwright {
namespace {

/// Forces times their arms summed, signed and by magnitude: what is left of moments that balance is rounding.
struct TurningSum {
  double signed_sum = 0, magnitudes = 0;
  void add(double force, double arm) {
    signed_sum += force * arm;
    magnitudes += std::abs(force * arm);
  }
  double value() const {
    constexpr double rounding = 1e-9;
    return std::abs(signed_sum) > rounding * magnitudes ? signed_sum : 0;
  }
};

/// Nodes and weights of the five-point rule of Gauss and Legendre on [0, 1]. A piece is at most a quarter of a wave
/// while it unloads and short of that while it loads.
struct Node {
  double at;
  double weight;
};
std::array<Node, 5> gauss_nodes() {
  const double inner = std::sqrt(5 - 2 * std::sqrt(10.0 / 7)) / 3, outer = std::sqrt(5 + 2 * std::sqrt(10.0 / 7)) / 3;
  const double near = (322 + 13 * std::sqrt(70.0)) / 1800, far = (322 - 13 * std::sqrt(70.0)) / 1800;
  return {{{0.5 - 0.5 * outer, far},
           {0.5 - 0.5 * inner, near},
           {0.5, 64.0 / 225},
           {0.5 + 0.5 * inner, near},
           {0.5 + 0.5 * outer, far}}};
}

/// Impulse of one structure over the whole impact [N s].
double impulse_of(const ColumnMotion& column, const GroupMotion& group) {
  static const std::array<Node, 5> nodes = gauss_nodes();
  double impulse = 0;
  for (std::size_t k = 0; k < group.pieces.size(); ++k) {
    const MotionPiece& piece = group.pieces[k];
    for (const Node& node : nodes) {
      const double further = piece.closing_after(node.at * piece.duration, group.moving_mass) - piece.closing;
      impulse += node.weight * piece.duration * (column.pieces[k].force + column.pieces[k].slope * further);
    }
  }
  return impulse;
}

/// Greatest magnitude of Σ F_i (y_i - centre) over the pieces' ends of all groups.
double peak_moment(const ImpactMotion& motion, double centre) {
  std::vector<double> times;
  for (const GroupMotion& group : motion.groups)
    for (const MotionPiece& piece : group.pieces) {
      times.push_back(piece.start);
      times.push_back(std::nextafter(piece.start, 0.0));
      times.push_back(std::nextafter(piece.start + piece.duration, 0.0));
    }
  double peak = 0;
  for (const double time : times) {
    TurningSum moment;
    for (const ColumnMotion& column : motion.columns) {
      const GroupMotion& group = motion.groups[column.group];
      std::size_t k = group.pieces.size();
      while (k > 0 && group.pieces[k - 1].start > time)
        --k;
      if (k == 0 || time >= group.separation_time)
        continue;
      const MotionPiece& piece = group.pieces[k - 1];
      const double further = piece.closing_after(time - piece.start, group.moving_mass) - piece.closing;
      moment.add(column.pieces[k - 1].force + column.pieces[k - 1].slope * further, column.lateral - centre);
    }
    peak = std::max(peak, std::abs(moment.value()));
  }
  return peak;
}

} // namespace

YawLoad yaw_load(const ImpactMotion& motion, const Body& body, double centre, double radius) {
  YawLoad load;
  double push = 0;
  TurningSum turns;
  for (const ColumnMotion& column : motion.columns) {
    const double impulse = impulse_of(column, motion.groups[column.group]);
    push += impulse;
    turns.add(impulse, column.lateral - centre);
  }
  const double turn = turns.value();
  // A force along +x at y has the moment -F y about z: pushed forward left of its centre, a body turns to the right.
  load.impulse = 0 - turn; // no -0
  load.peak_moment = peak_moment(motion, centre);
  load.arm = push > 0 ? turn / push : 0;
  if (radius > 0 && !body.held) {
    const double inertia = body.mass * radius * radius;
    load.rate = load.impulse / inertia;
    load.energy = 0.5 * inertia * load.rate * load.rate;
    load.share_of_energy = motion.ledger.input > 0 ? load.energy / motion.ledger.input : 0;
  }
  return load;
}

} // namespace crushwright
