#include "envelope/folding_corners.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <utility>
#include <vector>

namespace crushwright {

namespace {

constexpr double degree = std::numbers::pi / 180;
const double folding_turn = 20 * degree; // as for typed polygons, docs/method/envelope.md
/// A turn of more than that at one point is a corner of its own, however even its neighbours.
const double largest_facet_turn = 35 * degree;
constexpr double window_part = 1.0 / 40; ///< of the outline, over which turning is gathered
constexpr double straightness = 1e-5;    ///< of the outline, what cutting facets across leaves beside a line

/// A piece of the outline over which it turns evenly; a corner is a piece of no length.
struct Turning {
  double from;
  double to;
  double angle; ///< left turns positive [rad]
};

double length_of(const Polygon& loop) {
  double length = 0;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Point& next = loop[(i + 1) % loop.size()];
    length += std::hypot(next[0] - loop[i][0], next[1] - loop[i][1]);
  }
  return length;
}

double distance_to_line(const Point& point, const Point& from, const Point& to) {
  const double dy = to[0] - from[0], dz = to[1] - from[1], length = std::hypot(dy, dz);
  if (!(length > 0))
    return std::hypot(point[0] - from[0], point[1] - from[1]);
  const double along =
      std::clamp(((point[0] - from[0]) * dy + (point[1] - from[1]) * dz) / (length * length), 0.0, 1.0);
  return std::hypot(point[0] - from[0] - along * dy, point[1] - from[1] - along * dz);
}

/// Keeps the place farthest from the line between two kept ones, and looks again on both sides of it.
void keep_between(const Polygon& loop, std::size_t from, std::size_t to, double deviation, std::vector<bool>& kept) {
  std::vector<std::pair<std::size_t, std::size_t>> open{{from, to}};
  while (!open.empty()) {
    const auto [first, last] = open.back();
    open.pop_back();
    double farthest = deviation;
    std::size_t place = first;
    for (std::size_t i = first + 1; i < last; ++i) {
      const double distance = distance_to_line(loop[i], loop[first], loop[last % loop.size()]);
      if (distance > farthest) {
        farthest = distance;
        place = i;
      }
    }
    if (place == first)
      continue;
    kept[place] = true;
    open.push_back({first, place});
    open.push_back({place, last});
  }
}

std::size_t farthest_from(const Polygon& loop, const Point& from) {
  const auto distance = [&](const Point& point) { return std::hypot(point[0] - from[0], point[1] - from[1]); };
  return static_cast<std::size_t>(
      std::max_element(loop.begin(), loop.end(),
                       [&](const Point& a, const Point& b) { return distance(a) < distance(b); }) -
      loop.begin());
}

/// Turn at each corner, and the length of the edge that leaves it.
struct Corners {
  std::vector<double> turn;
  std::vector<double> edge;
};

Corners corners_of(const Polygon& loop) {
  const std::size_t count = loop.size();
  Corners corners;
  for (std::size_t i = 0; i < count; ++i) {
    const Point& before = loop[(i + count - 1) % count];
    const Point& here = loop[i];
    const Point& after = loop[(i + 1) % count];
    const Point in{here[0] - before[0], here[1] - before[1]}, out{after[0] - here[0], after[1] - here[1]};
    corners.turn.push_back(std::atan2(in[0] * out[1] - in[1] * out[0], in[0] * out[0] + in[1] * out[1]));
    corners.edge.push_back(std::hypot(out[0], out[1]));
  }
  return corners;
}

/// Facets of one curve: both ends of an edge turn the same way, neither like a corner, nor one much more than the
/// other.
bool same_curve(double turn, double other) {
  const double smaller = std::min(std::abs(turn), std::abs(other)),
               larger = std::max(std::abs(turn), std::abs(other));
  return turn * other > 0 && larger <= largest_facet_turn && smaller >= larger / 3;
}

/// The turn of a facet's end is spread over the halves of the facets beside it; that of a corner stays in its place.
std::vector<Turning> turnings_of(const Polygon& loop) {
  const Corners corners = corners_of(loop);
  const std::size_t count = loop.size();
  std::vector<Turning> turnings;
  double along = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t before = (i + count - 1) % count, after = (i + 1) % count;
    const double back = same_curve(corners.turn[i], corners.turn[before]) ? corners.edge[before] / 2 : 0;
    const double ahead = same_curve(corners.turn[i], corners.turn[after]) ? corners.edge[i] / 2 : 0;
    turnings.push_back({along - back, along + ahead, corners.turn[i]});
    along += corners.edge[i];
  }
  return turnings;
}

/// Turning between two places of the outline, which goes round and round.
class TurningSum {
public:
  TurningSum(const std::vector<Turning>& turnings, double around) {
    for (int lap = -1; lap <= 2; ++lap)
      for (const Turning& each : turnings)
        pieces_.push_back({each.from + lap * around, each.to + lap * around, each.angle});
    std::sort(pieces_.begin(), pieces_.end(), [](const Turning& a, const Turning& b) { return a.from < b.from; });
  }

  double between(double from, double to) const {
    double sum = 0;
    for (const Turning& piece : pieces_) {
      if (piece.from > to)
        break;
      const double length = piece.to - piece.from;
      const double inside = std::min(to, piece.to) - std::max(from, piece.from);
      if (length > 0)
        sum += inside > 0 ? piece.angle * inside / length : 0;
      else if (piece.from >= from && piece.from < to)
        sum += piece.angle;
    }
    return sum;
  }

private:
  std::vector<Turning> pieces_;
};

/// The halving above may have kept a place in the middle of a straight edge.
Polygon without_needless(const Polygon& loop, double deviation) {
  if (loop.size() < 4)
    return loop;
  Polygon left{loop.front()};
  for (std::size_t i = 1; i < loop.size(); ++i)
    if (distance_to_line(loop[i], left.back(), loop[(i + 1) % loop.size()]) > deviation)
      left.push_back(loop[i]);
  return left;
}

/// Total turning of each stretch of the outline in which every window turns by more than the folding turn [rad].
std::vector<double> stretches_that_fold(const TurningSum& turning, double around) {
  constexpr int samples = 400; // ten a window
  const double window = window_part * around;
  const auto middle = [&](int sample) { return around * sample / samples; };
  const auto sign_at = [&](int sample) {
    const double angle = turning.between(middle(sample) - window / 2, middle(sample) + window / 2);
    return angle > folding_turn ? 1 : angle < -folding_turn ? -1 : 0;
  };
  int first = 0; // begin where nothing folds, so that no stretch is parted
  while (first < samples && sign_at(first) != 0)
    ++first;
  if (first == samples)
    return {turning.between(0, around)};
  std::vector<double> stretches;
  int begin = first, sign = 0;
  for (int sample = first; sample <= first + samples; ++sample) {
    const int here = sign_at(sample % samples);
    if (here == sign)
      continue;
    if (sign != 0)
      stretches.push_back(turning.between(middle(begin) - window / 2, middle(sample - 1) + window / 2));
    begin = sample;
    sign = here;
  }
  return stretches;
}

/// A stretch is one corner, or as many as right angles go into its turning.
int corners_in(const std::vector<double>& stretches) {
  int count = 0;
  for (const double angle : stretches)
    count += std::max(1, static_cast<int>(std::lround(std::abs(angle) / (90 * degree))));
  return count;
}

} // namespace

Polygon without_straight_corners(const Polygon& loop, double deviation) {
  if (loop.size() < 4)
    return loop;
  // Two corners that surely stay: the farthest from anywhere, and the farthest from that one.
  const std::size_t first = farthest_from(loop, loop.front());
  Polygon turned(loop.begin() + static_cast<std::ptrdiff_t>(first), loop.end());
  turned.insert(turned.end(), loop.begin(), loop.begin() + static_cast<std::ptrdiff_t>(first));
  const std::size_t second = farthest_from(turned, turned.front());
  std::vector<bool> kept(turned.size(), false);
  kept[0] = kept[second] = true;
  keep_between(turned, 0, second, deviation, kept);
  keep_between(turned, second, turned.size(), deviation, kept);
  Polygon left;
  for (std::size_t i = 0; i < turned.size(); ++i)
    if (kept[i])
      left.push_back(turned[i]);
  return without_needless(left, deviation);
}

int folding_corners(const Polygon& loop) {
  const double around = length_of(loop);
  const Polygon plain = without_straight_corners(loop, straightness * around);
  if (plain.size() < 3)
    return 0;
  return corners_in(stretches_that_fold(TurningSum(turnings_of(plain), around), around));
}

} // namespace crushwright
