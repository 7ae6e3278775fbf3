#include "lattice_body/strut_union.hpp"

#include "lattice_body/strut_network.hpp"

#include <Eigen/Dense>
#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace crushwright {
namespace {

using Vector = Eigen::Vector3d;
using Cube = Eigen::Vector3i;

Vector node_at(const StrutBody& body, std::int32_t node) {
  return Vector(body.nodes[std::size_t(node)].data());
}

/// Numbers in [0, 1) that look random and depend on nothing but the count (the mixing step of a 64-bit hash).
class Scatter {
public:
  explicit Scatter(std::uint64_t start) : state_(start * 0x9E3779B97F4A7C15U) {}
  double next() {
    state_ += 0x9E3779B97F4A7C15U;
    std::uint64_t mixed = state_;
    mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9U;
    mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EBU;
    return static_cast<double>((mixed ^ (mixed >> 31)) >> 11) * 0x1p-53;
  }

private:
  std::uint64_t state_;
};

double distance_to_segment(const Vector& point, const Vector& from, const Vector& along) {
  const double part = std::clamp((point - from).dot(along) / along.squaredNorm(), 0.0, 1.0);
  return (point - from - part * along).norm();
}

} // namespace

BarGrid::BarGrid(const StrutBody& body) : body_(body), ball_radii_(body.nodes.size(), 0.0) {
  double length = 0;
  for (const BodyStrut& strut : body.struts) {
    double &from = ball_radii_[std::size_t(strut.from)], &to = ball_radii_[std::size_t(strut.to)];
    from = std::max(from, strut.from_radius);
    to = std::max(to, strut.to_radius);
    length += length_of(body, strut);
  }
  Vector low = Vector::Constant(1e300), high = -low;
  for (std::size_t node = 0; node < body.nodes.size(); ++node) {
    const Vector point = node_at(body, std::int32_t(node));
    low = low.cwiseMin((point.array() - ball_radii_[node]).matrix());
    high = high.cwiseMax((point.array() + ball_radii_[node]).matrix());
  }
  // Cubes of half a bar's length hold a dozen bars; fewer of them than bars, however odd the body.
  edge_ = 0.5 * length / static_cast<double>(body.struts.size());
  const double most_cubes = 4.0 * static_cast<double>(body.struts.size()) + 1000;
  edge_ = std::max(edge_, std::cbrt((high - low).prod() / most_cubes));
  low_ = low;
  count_ = ((high - low) / edge_).array().floor().cast<int>() + 1;
  const std::size_t cubes = std::size_t(count_[0]) * std::size_t(count_[1]) * std::size_t(count_[2]);
  const std::size_t items = body.struts.size() + body.nodes.size();
  starts_.assign(cubes + 1, 0);
  for (std::size_t item = 0; item < items; ++item)
    visit_cubes(item, [&](std::size_t cube) { ++starts_[cube + 1]; });
  for (std::size_t cube = 0; cube < cubes; ++cube)
    starts_[cube + 1] += starts_[cube];
  items_.resize(starts_.back());
  std::vector<std::uint32_t> next(starts_.begin(), starts_.end() - 1);
  for (std::size_t item = 0; item < items; ++item)
    visit_cubes(item, [&](std::size_t cube) { items_[next[cube]++] = static_cast<std::uint32_t>(item); });
}

Cube BarGrid::cube_of(const Vector& point) const {
  const Cube cube = ((point - low_) / edge_).array().floor().cast<int>();
  return cube.cwiseMax(0).cwiseMin((count_.array() - 1).matrix());
}

std::size_t BarGrid::place_of(const Cube& cube) const {
  return (std::size_t(cube[2]) * std::size_t(count_[1]) + std::size_t(cube[1])) * std::size_t(count_[0]) +
         std::size_t(cube[0]);
}

template <class Visit>
void BarGrid::visit_cubes(std::size_t item, const Visit& visit) const {
  Vector from, along = Vector::Zero();
  double radius = 0;
  if (item < body_.struts.size()) {
    const BodyStrut& strut = body_.struts[item];
    from = node_at(body_, strut.from);
    along = node_at(body_, strut.to) - from;
    radius = std::max(strut.from_radius, strut.to_radius);
  } else {
    const std::size_t node = item - body_.struts.size();
    from = node_at(body_, std::int32_t(node));
    radius = ball_radii_[node];
  }
  const Cube first = cube_of((from.cwiseMin(from + along).array() - radius).matrix());
  const Cube last = cube_of((from.cwiseMax(from + along).array() + radius).matrix());
  const double near = radius + edge_ * std::sqrt(0.75) * (1 + 1e-9);
  for (int z = first[2]; z <= last[2]; ++z)
    for (int y = first[1]; y <= last[1]; ++y)
      for (int x = first[0]; x <= last[0]; ++x) {
        const Cube cube(x, y, z);
        const Vector middle = low_ + edge_ * (cube.cast<double>().array() + 0.5).matrix();
        const double distance =
            item < body_.struts.size() ? distance_to_segment(middle, from, along) : (middle - from).norm();
        if (distance <= near)
          visit(place_of(cube));
      }
}

bool BarGrid::holds(std::size_t item, const Vector& point) const {
  if (item >= body_.struts.size()) {
    const std::size_t node = item - body_.struts.size();
    return (point - node_at(body_, std::int32_t(node))).squaredNorm() <= ball_radii_[node] * ball_radii_[node];
  }
  const BodyStrut& strut = body_.struts[item];
  const Vector from = node_at(body_, strut.from);
  const Vector along = node_at(body_, strut.to) - from, offset = point - from;
  const double squared = along.squaredNorm(), run = offset.dot(along);
  if (run < 0 || run > squared)
    return false;
  const double part = run / squared;
  const double radius = strut.from_radius + part * (strut.to_radius - strut.from_radius);
  return offset.squaredNorm() - part * run <= radius * radius;
}

int BarGrid::count_at(const Vector& point) const {
  const std::size_t cube = place_of(cube_of(point));
  int count = 0;
  for (std::uint32_t i = starts_[cube]; i < starts_[cube + 1]; ++i)
    count += holds(items_[i], point) ? 1 : 0;
  return count;
}

namespace {

/// Sums of one block of bars or balls.
struct Sums {
  std::array<double, 3> volume{}, variance{};
};

struct Sampler {
  const StrutBody& body;
  const BarGrid& bars;
  const SiteOf& site_of;
  int pairs;

  std::array<double, 3> weights_at(const Vector& point, NearestLevel& known) const {
    // The sample's own bar holds it, though rounding may say that it lies just outside.
    const double weight = 1.0 / std::max(1, bars.count_at(point));
    const SampleSite site = site_of(point, known);
    return {weight, site.inside ? weight : 0, site.core ? weight : 0};
  }

  template <class PointAt>
  void add(double volume, std::uint64_t item, const PointAt& point_at, Sums& sums) const {
    Scatter scatter(item + 1);
    NearestLevel known;
    const double share = volume / pairs;
    for (int pair = 0; pair < pairs; ++pair) {
      // Strata along the bar, two samples in each.
      const auto stratum = [&] { return (pair + scatter.next()) / pairs; };
      const auto first = weights_at(point_at(stratum(), scatter), known);
      const auto second = weights_at(point_at(stratum(), scatter), known);
      for (std::size_t k = 0; k < 3; ++k) {
        sums.volume[k] += 0.5 * share * (first[k] + second[k]);
        const double half_gap = 0.5 * share * (first[k] - second[k]);
        sums.variance[k] += half_gap * half_gap;
      }
    }
  }

  void add_bar(std::size_t item, Sums& sums) const {
    const BodyStrut& strut = body.struts[item];
    const Vector from = node_at(body, strut.from), along = node_at(body, strut.to) - from;
    const Vector across = along.unitOrthogonal(), third = along.normalized().cross(across);
    const double r = strut.from_radius, s = strut.to_radius;
    add(
        volume_of(body, strut), item,
        [&](double part, Scatter& scatter) {
          // Places along the bar with a chance as the square of the radius there.
          const double cube = r * r * r + part * (s * s * s - r * r * r);
          const double along_part = std::abs(s - r) < 1e-6 * r ? part : (std::cbrt(cube) - r) / (s - r);
          const double radius = (r + along_part * (s - r)) * std::sqrt(scatter.next());
          const double angle = 2 * std::numbers::pi * scatter.next();
          return Vector(from + along_part * along + radius * (std::cos(angle) * across + std::sin(angle) * third));
        },
        sums);
  }

  void add_ball(std::size_t node, Sums& sums) const {
    const double radius = bars.ball_radii()[node];
    const Vector middle = node_at(body, std::int32_t(node));
    add(
        4 * std::numbers::pi / 3 * radius * radius * radius, body.struts.size() + node,
        [&](double part, Scatter& scatter) {
          const double height = 2 * part - 1, angle = 2 * std::numbers::pi * scatter.next();
          const double off = std::sqrt(std::max(0.0, 1 - height * height));
          return Vector(middle + radius * std::cbrt(scatter.next()) *
                                     Vector(off * std::cos(angle), off * std::sin(angle), height));
        },
        sums);
  }
};

} // namespace

UnionVolumes union_volumes(const StrutBody& body, const SiteOf& site_of, double samples) {
  if (body.struts.empty())
    return {};
  const BarGrid bars(body);
  const std::size_t items = body.struts.size() + body.nodes.size();
  const Sampler sampler{body, bars, site_of,
                        static_cast<int>(std::clamp(0.5 * samples / static_cast<double>(items), 1.0, 1e6))};
  const std::size_t block = std::clamp<std::size_t>(items / 64, 1, 4096);
  std::vector<Sums> sums((items + block - 1) / block);
  tbb::parallel_for(std::size_t{0}, sums.size(), [&](std::size_t b) {
    for (std::size_t item = b * block; item < std::min(items, (b + 1) * block); ++item)
      if (item < body.struts.size())
        sampler.add_bar(item, sums[b]);
      else
        sampler.add_ball(item - body.struts.size(), sums[b]);
  });
  std::array<SampledVolume, 3> total{};
  for (const Sums& sum : sums)
    for (std::size_t k = 0; k < 3; ++k) {
      total[k].value += sum.volume[k];
      total[k].error += sum.variance[k];
    }
  for (SampledVolume& volume : total)
    volume.error = std::sqrt(volume.error);
  return {total[0], total[1], total[2]};
}

} // namespace crushwright
