#include "review_pack/round_bar.hpp"

#include <algorithm>
#include <cmath>

namespace crushwright {

namespace {

constexpr RoundBar::Hit cut_face(double limit) {
  return {limit, {0, 0, 1}, true};
}

bool nearer(const std::optional<RoundBar::Hit>& hit, const std::optional<RoundBar::Hit>& than) {
  return hit && (!than || hit->depth > than->depth);
}

} // namespace

RoundBar::RoundBar(const ViewVector& from, const ViewVector& to, double from_radius, double to_radius)
    : from_(from), to_(to), from_radius_(from_radius), to_radius_(to_radius) {
  const ViewVector way = {to[0] - from[0], to[1] - from[1], to[2] - from[2]};
  length_ = std::sqrt(dot(way, way));
  if (length_ > 0) {
    along_ = {way[0] / length_, way[1] / length_, way[2] / length_};
    slope_ = (to_radius - from_radius) / length_;
  }
}

std::optional<RoundBar::Hit> RoundBar::nearest(double x, double y, double limit) const {
  std::optional<Hit> best = nearest_on_cone(x, y, limit);
  for (const auto& ball :
       {nearest_on_ball(from_, from_radius_, x, y, limit), nearest_on_ball(to_, to_radius_, x, y, limit)}) {
    if (nearer(ball, best)) {
      best = ball;
    }
  }
  return best;
}

std::optional<RoundBar::Hit> RoundBar::nearest_on_cone(double x, double y, double limit) const {
  const double dx = x - from_[0], dy = y - from_[1];
  const double flat = dx * along_[0] + dy * along_[1]; // of the ray's foot, along the axis
  const double widening = 1 + slope_ * slope_;
  const double a = 1 - widening * along_[2] * along_[2];
  if (length_ == 0 || a < 1e-9) {
    return std::nullopt; // seen along its axis it is hidden by a ball
  }
  const double b = -along_[2] * (widening * flat + from_radius_ * slope_);
  const double c =
      dx * dx + dy * dy - widening * flat * flat - 2 * from_radius_ * slope_ * flat - from_radius_ * from_radius_;
  const double under_root = b * b - a * c;
  if (under_root < 0) {
    return std::nullopt;
  }
  const double root = std::sqrt(under_root);
  const double beyond_from = (root - b) / a;
  const double depth = from_[2] + beyond_from;
  if (depth > limit) {
    const double place = flat + (limit - from_[2]) * along_[2];
    const bool inside = limit >= from_[2] + (-root - b) / a && place >= 0 && place <= length_;
    return inside ? std::optional<Hit>(cut_face(limit)) : std::nullopt;
  }
  const double place = flat + beyond_from * along_[2];
  if (place < 0 || place > length_) {
    return std::nullopt;
  }
  const double radius = from_radius_ + slope_ * place, steep = std::sqrt(widening);
  const auto part = [&](double off, std::size_t axis) {
    return static_cast<float>(((off - place * along_[axis]) / radius - slope_ * along_[axis]) / steep);
  };
  return Hit{depth, {part(dx, 0), part(dy, 1), part(beyond_from, 2)}, false};
}

std::optional<RoundBar::Hit> RoundBar::nearest_on_ball(const ViewVector& centre, double radius, double x, double y,
                                                       double limit) const {
  const double dx = x - centre[0], dy = y - centre[1];
  const double squared = radius * radius - dx * dx - dy * dy;
  if (squared < 0) {
    return std::nullopt;
  }
  const double rise = std::sqrt(squared);
  if (centre[2] + rise > limit) {
    return centre[2] - rise <= limit ? std::optional<Hit>(cut_face(limit)) : std::nullopt;
  }
  return Hit{centre[2] + rise,
             {static_cast<float>(dx / radius), static_cast<float>(dy / radius), static_cast<float>(rise / radius)},
             false};
}

double RoundBar::top() const {
  return std::min(from_[1] - from_radius_, to_[1] - to_radius_);
}

double RoundBar::bottom() const {
  return std::max(from_[1] + from_radius_, to_[1] + to_radius_);
}

double RoundBar::front() const {
  return std::max(from_[2] + from_radius_, to_[2] + to_radius_);
}

std::pair<double, double> RoundBar::reach_across(double y) const {
  double left = std::min(from_[0] - from_radius_, to_[0] - to_radius_);
  double right = std::max(from_[0] + from_radius_, to_[0] + to_radius_);
  const double flat = std::hypot(along_[0], along_[1]);
  if (std::abs(along_[1]) > 1e-6 * flat && flat > 0) {
    // The shadow lies within the greater radius of the line on which the axis lies.
    const double middle = from_[0] + (y - from_[1]) * along_[0] / along_[1];
    const double half = std::max(from_radius_, to_radius_) * flat / std::abs(along_[1]);
    left = std::max(left, middle - half);
    right = std::min(right, middle + half);
  }
  return {left, right};
}

} // namespace crushwright
