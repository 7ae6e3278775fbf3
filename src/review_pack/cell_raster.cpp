#include "review_pack/cell_raster.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <limits>

#include <tbb/parallel_for.h>

namespace crushwright {

namespace {

constexpr int finer = 3;               // rays a pixel along each side, for smooth outlines
constexpr double trusted_reach = 0.09; // the field is a distance only within 0.1 of the boundary
constexpr float nothing = -std::numeric_limits<float>::infinity();

/// The sampled field between its samples, periodic.
class Field {
public:
  explicit Field(const DrawnSolid& solid) : solid_(solid) {
    for (std::size_t a = 0; a < 3; ++a) {
      const int n = solid.cells[a];
      scale_[a] = n / solid.edges[a];
      // Probes beside the surface reach a little beyond what is shown.
      first_[a] = static_cast<int>(std::floor((solid.low[a] - solid.origin[a] - 0.2) * scale_[a]));
      const int last = static_cast<int>(std::ceil((solid.high[a] - solid.origin[a] + 0.2) * scale_[a])) + 1;
      for (int i = first_[a]; i <= last; ++i) {
        wrapped_[a].push_back(static_cast<std::size_t>((i % n + n) % n));
      }
    }
  }

  double spacing() const { return 1 / std::max({scale_[0], scale_[1], scale_[2]}); }

  double at(const ViewVector& point) const {
    std::array<std::size_t, 3> low{}, high{};
    ViewVector part{};
    for (std::size_t a = 0; a < 3; ++a) {
      const double place = (point[a] - solid_.origin[a]) * scale_[a] - 0.5;
      const double whole = std::floor(place);
      const std::size_t index = static_cast<std::size_t>(static_cast<int>(whole) - first_[a]);
      low[a] = wrapped_[a][index];
      high[a] = wrapped_[a][index + 1];
      part[a] = place - whole;
    }
    const std::size_t nx = static_cast<std::size_t>(solid_.cells[0]), ny = static_cast<std::size_t>(solid_.cells[1]);
    const auto row = [&](std::size_t y, std::size_t z) {
      const float* values = solid_.distance.data() + (z * ny + y) * nx;
      return values[low[0]] + part[0] * (values[high[0]] - values[low[0]]);
    };
    const auto plane = [&](std::size_t z) {
      const double near = row(low[1], z);
      return near + part[1] * (row(high[1], z) - near);
    };
    const double near = plane(low[2]);
    return near + part[2] * (plane(high[2]) - near);
  }

private:
  const DrawnSolid& solid_;
  ViewVector scale_{};
  std::array<int, 3> first_{};
  std::array<std::vector<std::size_t>, 3> wrapped_;
};

/// What a ray meets; in single precision, as there are two million of them.
struct Hit {
  float depth = nothing;
  float tone = 0;                ///< 0 black to 1 white
  std::array<float, 3> normal{}; ///< out of the metal
};

ViewVector along(const ViewVector& from, const ViewVector& direction, double by) {
  return {from[0] + by * direction[0], from[1] + by * direction[1], from[2] + by * direction[2]};
}

ViewVector unit(const ViewVector& v) {
  const double length = std::sqrt(dot(v, v));
  return length > 0 ? ViewVector{v[0] / length, v[1] / length, v[2] / length} : v;
}

class Caster {
public:
  Caster(const DrawnSolid& solid, const CellView& view)
      : field_(solid), view_(view), spacing_(field_.spacing()), low_(solid.low), high_(solid.high) {
    double reach = 0;
    for (std::size_t a = 0; a < 3; ++a) {
      reach += std::abs(view.toward[a]) * (high_[a] - low_[a]);
      away_[a] = -view.toward[a];
    }
    depth_range_ = reach;
    nearest_ = 0;
    for (std::size_t a = 0; a < 3; ++a) {
      nearest_ += std::max(view.toward[a] * low_[a], view.toward[a] * high_[a]);
    }
    light_ = unit(along(along(along({}, view.right, -0.45), view.up, 0.75), view.toward, 0.65));
  }

  Hit cast(double right, double up) const {
    const ViewVector start = along(along(along({}, view_.right, right), view_.up, up), view_.toward, nearest_);
    double enters = 0, leaves = depth_range_;
    std::size_t face = 0;
    for (std::size_t a = 0; a < 3; ++a) {
      const double to_low = (low_[a] - start[a]) / away_[a], to_high = (high_[a] - start[a]) / away_[a];
      const double in = std::min(to_low, to_high);
      if (in > enters) {
        enters = in;
        face = a;
      }
      leaves = std::min(leaves, std::max(to_low, to_high));
    }
    return enters < leaves ? march(start, enters, leaves, face) : Hit{};
  }

private:
  Field field_;
  CellView view_;
  double spacing_;
  ViewVector low_{}, high_{}, away_{}, light_{};
  double depth_range_ = 0, nearest_ = 0;

  Hit march(const ViewVector& start, double enters, double leaves, std::size_t face) const {
    double gone = enters, before = enters;
    double distance = field_.at(along(start, away_, gone));
    if (distance < 0) {
      return cut_face(gone, face);
    }
    while (gone < leaves) {
      before = gone;
      gone += std::clamp(distance, 0.35 * spacing_, trusted_reach);
      distance = field_.at(along(start, away_, gone));
      if (distance < 0) {
        const double hit = boundary(start, before, gone);
        return hit < leaves ? surface(along(start, away_, hit), hit) : Hit{};
      }
    }
    return {};
  }

  double boundary(const ViewVector& start, double outside, double inside) const {
    for (int i = 0; i < 8; ++i) {
      const double middle = 0.5 * (outside + inside);
      (field_.at(along(start, away_, middle)) < 0 ? inside : outside) = middle;
    }
    return inside;
  }

  Hit cut_face(double gone, std::size_t face) const {
    // Bright as paper where the eye looks down on it, a step darker on each side face.
    constexpr double tones[] = {0.80, 0.90, 0.98};
    ViewVector normal{};
    normal[face] = view_.toward[face] > 0 ? 1 : -1;
    return hit_of(gone, tones[face], normal);
  }

  Hit surface(const ViewVector& point, double gone) const {
    ViewVector slope{};
    for (std::size_t a = 0; a < 3; ++a) {
      ViewVector step{};
      step[a] = spacing_;
      slope[a] = field_.at(along(point, step, 1)) - field_.at(along(point, step, -1));
    }
    const ViewVector normal = unit(slope);
    const double lit = 0.5 + 0.5 * dot(normal, light_);
    const double far = gone / depth_range_;
    const double tone = (0.22 + 0.78 * lit * lit) * (1 - 0.55 * crowding(point, normal)) * (1.06 - 0.30 * far);
    return hit_of(gone, std::clamp(tone, 0.0, 1.0), normal);
  }

  Hit hit_of(double gone, double tone, const ViewVector& normal) const {
    return {static_cast<float>(nearest_ - gone),
            static_cast<float>(tone),
            {static_cast<float>(normal[0]), static_cast<float>(normal[1]), static_cast<float>(normal[2])}};
  }

  /// How much of the way out is closed by other metal, 0 open to 1.
  double crowding(const ViewVector& point, const ViewVector& normal) const {
    double closed = 0, weight = 1, sum = 0;
    for (const double reach : {0.015, 0.03, 0.06, trusted_reach}) {
      const double open = std::clamp(field_.at(along(point, normal, reach)), 0.0, reach);
      closed += weight * (1 - open / reach);
      sum += weight;
      weight *= 0.8;
    }
    return std::clamp(1.4 * closed / sum, 0.0, 1.0);
  }
};

/// Rays on the fine grid, three a pixel each way.
struct RayGrid {
  std::size_t width = 0, height = 0;
  std::vector<Hit> hits;
  const Hit& at(std::size_t x, std::size_t y) const { return hits[y * width + x]; }
};

RayGrid cast_all(const Caster& caster, const RasterFrame& frame) {
  RayGrid grid;
  grid.width = static_cast<std::size_t>(frame.width) * finer;
  grid.height = static_cast<std::size_t>(frame.height) * finer;
  grid.hits.resize(grid.width * grid.height);
  const double step = frame.pixel / finer;
  tbb::parallel_for(std::size_t{0}, grid.height, [&](std::size_t y) {
    const double up = frame.top - (static_cast<double>(y) + 0.5) * step;
    for (std::size_t x = 0; x < grid.width; ++x) {
      grid.hits[y * grid.width + x] = caster.cast(frame.left + (static_cast<double>(x) + 0.5) * step, up);
    }
  });
  return grid;
}

/// Whether a line belongs on a hit because the surface beside it ends, lies far behind or is bent away.
bool outlines(const Hit& hit, const Hit& beside) {
  constexpr float jump = 0.035F;
  if (hit.depth - beside.depth > jump) {
    return true;
  }
  const float bend =
      hit.normal[0] * beside.normal[0] + hit.normal[1] * beside.normal[1] + hit.normal[2] * beside.normal[2];
  return std::abs(hit.depth - beside.depth) <= jump && bend < 0.55F;
}

bool on_outline(const RayGrid& grid, std::size_t x, std::size_t y) {
  static const Hit beyond;
  const Hit& hit = grid.at(x, y);
  constexpr int around[][2] = {{2, 0}, {-2, 0}, {0, 2}, {0, -2}, {1, 1}, {-1, 1}, {1, -1}, {-1, -1}};
  return std::any_of(std::begin(around), std::end(around), [&](const auto& step) {
    const int bx = static_cast<int>(x) + step[0], by = static_cast<int>(y) + step[1];
    const bool inside = bx >= 0 && by >= 0 && bx < static_cast<int>(grid.width) && by < static_cast<int>(grid.height);
    return outlines(hit, inside ? grid.at(static_cast<std::size_t>(bx), static_cast<std::size_t>(by)) : beyond);
  });
}

RasterFrame frame_of(const DrawnSolid& solid, const CellView& view, int pixels) {
  double left = 0, right = 0, low = 0, high = 0;
  for (std::size_t a = 0; a < 3; ++a) {
    const double from = solid.low[a], to = solid.high[a];
    left += std::min(view.right[a] * from, view.right[a] * to);
    right += std::max(view.right[a] * from, view.right[a] * to);
    low += std::min(view.up[a] * from, view.up[a] * to);
    high += std::max(view.up[a] * from, view.up[a] * to);
  }
  return frame_around(left, right, low, high, pixels);
}

} // namespace

RasterFrame frame_around(double left, double right, double low, double high, int pixels) {
  RasterFrame frame;
  frame.pixel = std::max(right - left, high - low) / (pixels - 2);
  frame.left = left - frame.pixel;
  frame.top = high + frame.pixel;
  frame.width = static_cast<int>(std::ceil((right - left) / frame.pixel)) + 2;
  frame.height = static_cast<int>(std::ceil((high - low) / frame.pixel)) + 2;
  return frame;
}

bool CellRaster::hides(const CellView& view, const ViewVector& point) const {
  const int x = static_cast<int>(std::floor((dot(point, view.right) - frame.left) / frame.pixel));
  const int y = static_cast<int>(std::floor((frame.top - dot(point, view.up)) / frame.pixel));
  if (x < 0 || y < 0 || x >= frame.width || y >= frame.height) {
    return false;
  }
  // A line that lies on a cut face is seen.
  return depth[static_cast<std::size_t>(y) * static_cast<std::size_t>(frame.width) + static_cast<std::size_t>(x)] >
         dot(point, view.toward) + 2 * frame.pixel;
}

CellRaster cell_raster(const DrawnSolid& solid, const CellView& view, int pixels) {
  CellRaster raster;
  raster.frame = frame_of(solid, view, pixels);
  const Caster caster(solid, view);
  const RayGrid grid = cast_all(caster, raster.frame);
  const std::size_t width = static_cast<std::size_t>(raster.frame.width);
  const std::size_t height = static_cast<std::size_t>(raster.frame.height);
  raster.image = {raster.frame.width, raster.frame.height, std::vector<std::uint8_t>(width * height),
                  std::vector<std::uint8_t>(width * height)};
  raster.depth.assign(width * height, nothing);
  constexpr double line_tone = 0.10;
  tbb::parallel_for(std::size_t{0}, height, [&](std::size_t y) {
    for (std::size_t x = 0; x < width; ++x) {
      double tone = 0, covered = 0;
      float depth = nothing;
      for (std::size_t i = 0; i < finer * finer; ++i) {
        const std::size_t fx = finer * x + i % finer, fy = finer * y + i / finer;
        const Hit& hit = grid.at(fx, fy);
        if (hit.depth != nothing) {
          covered += 1;
          tone += on_outline(grid, fx, fy) ? line_tone : hit.tone;
          depth = std::max(depth, hit.depth);
        }
      }
      const std::size_t place = y * width + x;
      raster.depth[place] = depth;
      // Steps of four levels are not seen and make the file a third smaller.
      raster.image.grey[place] =
          covered > 0 ? static_cast<std::uint8_t>(4 * std::lround(63 * tone / covered)) : std::uint8_t{0};
      raster.image.coverage[place] = static_cast<std::uint8_t>(std::lround(255 * covered / (finer * finer)));
    }
  });
  return raster;
}

} // namespace crushwright
