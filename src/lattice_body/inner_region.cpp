#include "lattice_body/inner_region.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace crushwright {
namespace {

using Vector = Eigen::Vector3d;

std::array<double, 3> as_point(const Vector& v) {
  return {v.x(), v.y(), v.z()};
}

/// Finds where the level changes its sign along a segment, from few evaluations: between two of them nothing can
/// happen that their levels do not allow.
template <class LevelAt>
class SignChanges {
public:
  SignChanges(const LevelAt& level_at, double unseen, double close)
      : level_at_(level_at), unseen_(unseen), close_(close) {}

  /// Places where the sign changes, on the negative side of each, rising; `from` and `to` in lengths.
  std::vector<double> between(double from, double from_level, double to, double to_level) {
    changes_.clear();
    visit(from, from_level, to, to_level, 0);
    return changes_;
  }

private:
  static bool inside(double level) { return level <= 0; }

  /// As good as 0, on the side of another level.
  static double next_to_change(double other) { return inside(other) ? 0 : std::numeric_limits<double>::min(); }

  void visit(double from, double from_level, double to, double to_level, int depth) {
    if (inside(from_level) == inside(to_level))
      visit_one_side(from, from_level, to, to_level, depth);
    else
      visit_change(from, from_level, to, to_level, depth);
  }

  void split(double from, double from_level, double middle, double to, double to_level, int depth) {
    const double level = level_at_(middle);
    visit(from, from_level, middle, level, depth + 1);
    visit(middle, level, to, to_level, depth + 1);
  }

  void visit_one_side(double from, double from_level, double to, double to_level, int depth) {
    const double p = std::abs(from_level), q = std::abs(to_level), length = to - from;
    if (length <= p + q + 2 * unseen_)
      return;
    // The longest step from the deeper end that its own level and the expected one at the step's end just cover.
    const double slope = std::abs(p - q) / length;
    const double step = std::min(0.98 * 2 * (std::max(p, q) + unseen_) / (1 + slope), 0.5 * length + std::abs(p - q));
    const double farthest = length - 0.5 * unseen_;
    const double safe = std::clamp(step, 0.5 * unseen_, farthest);
    const bool even = depth % 8 == 7; // halving now and then bounds the number of steps
    split(from, from_level, even ? from + 0.5 * length : p >= q ? from + safe : to - safe, to, to_level, depth);
  }

  void visit_change(double from, double from_level, double to, double to_level, int depth) {
    const double length = to - from;
    // The end next to the change passes for the other side; what is left lies on one side.
    if (length <= close_ || std::abs(from_level) <= close_) {
      changes_.push_back(inside(from_level) ? from : length <= close_ ? to : from);
      if (length > close_)
        visit_one_side(from, next_to_change(to_level), to, to_level, depth + 1);
      return;
    }
    if (std::abs(to_level) <= close_) {
      visit_one_side(from, from_level, to, next_to_change(from_level), depth + 1);
      changes_.push_back(to);
      return;
    }
    const double part = std::abs(from_level) / (std::abs(from_level) + std::abs(to_level));
    const double place = depth % 4 == 3 ? 0.5 : std::clamp(part, 1e-3, 1 - 1e-3);
    split(from, from_level, from + place * length, to, to_level, depth);
  }

  const LevelAt& level_at_;
  double unseen_, close_;
  std::vector<double> changes_;
};

} // namespace

InnerRegion::InnerRegion(const SurfaceProbe& outer, const TrimOptions& options, double grain)
    : outer_(outer), inset_(options.inset), first_(options.first_station), last_(options.last_station),
      grain_(grain) {
  if (first_ == 0 && last_ == 0) {
    first_ = -std::numeric_limits<double>::infinity();
    last_ = std::numeric_limits<double>::infinity();
  }
}

double InnerRegion::stations_level(double station) const {
  return std::max(first_ - station, station - last_);
}

double InnerRegion::level(const Vector& point) const {
  return std::max(outer_.signed_distance(as_point(point)) + inset_, stations_level(point.x())) - grain_;
}

NodePlace InnerRegion::boundary_at(const Vector& point) const {
  // A cut end lies within 2 grains of its boundary; where a plate and the skin meet the plate is named.
  if (first_ - point.x() > -3 * grain_)
    return NodePlace::at_tip;
  return point.x() - last_ > -3 * grain_ ? NodePlace::at_root : NodePlace::at_surface;
}

std::vector<KeptPart> InnerRegion::exact_parts(const Vector& from, const Vector& to) const {
  double first = 0, last = 1;
  const double run = to.x() - from.x();
  const double low = first_ - grain_ - from.x(), high = last_ + grain_ - from.x();
  if (run == 0) {
    if (low > 0 || high < 0)
      return {};
  } else {
    first = std::max(first, std::min(low / run, high / run));
    last = std::min(last, std::max(low / run, high / run));
  }
  std::vector<KeptPart> kept;
  const double snap = grain_ / (to - from).norm();
  for (const auto& [begin, end] : outer_.parts_inside(as_point(from), as_point(to))) {
    KeptPart part{std::max(first, begin), std::min(last, end), false, false};
    if (part.from < snap)
      part.from = 0;
    if (part.to > 1 - snap)
      part.to = 1;
    part.cut_from = part.from > 0;
    part.cut_to = part.to < 1;
    if (part.to - part.from > snap)
      kept.push_back(part);
  }
  return kept;
}

std::vector<KeptPart> InnerRegion::kept_parts(const Vector& from, const Vector& to, double from_level,
                                              double to_level, double unseen) const {
  const double length = (to - from).norm();
  const bool from_inside = from_level <= 0, to_inside = to_level <= 0;
  if (from_inside == to_inside && std::abs(from_level) + std::abs(to_level) >= length)
    return from_inside ? std::vector<KeptPart>{KeptPart{}} : std::vector<KeptPart>{};
  if (inset_ == 0)
    return exact_parts(from, to);
  const Vector along = (to - from) / length;
  const auto level_at = [&](double place) { return level(from + place * along); };
  SignChanges<decltype(level_at)> search(level_at, unseen, 0.25 * grain_);
  const std::vector<double> changes = search.between(0, from_level, length, to_level);
  std::vector<KeptPart> kept;
  bool is_inside = from_inside;
  KeptPart part;
  for (const double change : changes) {
    if (is_inside) {
      part.to = change / length;
      part.cut_to = true;
      kept.push_back(part);
    } else {
      part = {change / length, 1, true, false};
    }
    is_inside = !is_inside;
  }
  if (is_inside)
    kept.push_back(part.cut_from ? KeptPart{part.from, 1, true, false} : KeptPart{});
  const double least = grain_ / length;
  kept.erase(std::remove_if(kept.begin(), kept.end(), [&](const KeptPart& k) { return k.to - k.from <= least; }),
             kept.end());
  return kept;
}

} // namespace crushwright
