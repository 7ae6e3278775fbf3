#include "review_pack/body_raster.hpp"

#include "review_pack/cut_skin.hpp"
#include "review_pack/nearness.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>

#include <tbb/parallel_for.h>

namespace crushwright {

namespace {

constexpr std::size_t finer = 2;

float light_on(const Sight& sight) {
  constexpr std::array<float, 3> light = {-0.201F, 0.602F, 0.773F}; // unit vector from the upper left
  switch (sight.met) {
  case Met::lattice_cut:
  case Met::skin_cut:
    return 1;
  case Met::nothing:
    return 0;
  default:
    break;
  }
  const std::array<float, 3>& n = sight.normal;
  const float lit = 0.5F + 0.5F * (n[0] * light[0] + n[1] * light[1] + n[2] * light[2]);
  return sight.met == Met::skin_inside ? 0.90F + 0.10F * lit : 0.46F + 0.58F * lit * lit;
}

/// Lines about struts keep some of their colour: there are many of them.
float line_on(const Sight& sight) {
  return sight.met == Met::lattice ? 0.30F : 0.10F;
}

/// Where dark lines belong.
class Outlines {
public:
  Outlines(const SightGrid& grid, double strut) : grid_(grid) {
    const double drawn = strut / grid.step;
    on_lattice_ = drawn >= 7; // thinner struts would be all line
    lattice_jump_ = static_cast<float>(std::max(3.0, 0.6 * drawn));
    skin_jump_ = static_cast<float>(0.02 * static_cast<double>(grid.width));
  }

  bool at(std::size_t x, std::size_t y) const {
    static const Sight beyond;
    const Sight& here = grid_.at(x, y);
    if (here.met == Met::nothing || here.met == Met::skin_cut || (!on_lattice_ && on_lattice(here))) {
      return false;
    }
    constexpr int around[][2] = {{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, 1}, {-1, 1}, {1, -1}, {-1, -1}};
    return std::any_of(std::begin(around), std::end(around), [&](const auto& step) {
      const int bx = static_cast<int>(x) + step[0], by = static_cast<int>(y) + step[1];
      const bool inside =
          bx >= 0 && by >= 0 && bx < static_cast<int>(grid_.width) && by < static_cast<int>(grid_.height);
      return parts(here, inside ? grid_.at(static_cast<std::size_t>(bx), static_cast<std::size_t>(by)) : beyond);
    });
  }

private:
  const SightGrid& grid_;
  bool on_lattice_ = false;
  float lattice_jump_ = 0, skin_jump_ = 0;

  static bool on_lattice(const Sight& sight) { return sight.met == Met::lattice || sight.met == Met::lattice_cut; }

  bool parts(const Sight& here, const Sight& beside) const {
    if (beside.met == Met::nothing) {
      return true;
    }
    if (on_lattice(here)) {
      const bool edge_of_cut = here.met == Met::lattice_cut && beside.met != Met::lattice_cut;
      return edge_of_cut || here.depth - beside.depth > lattice_jump_;
    }
    const auto& a = here.normal;
    const auto& b = beside.normal;
    const bool bent = here.met == beside.met && a[0] * b[0] + a[1] * b[1] + a[2] * b[2] < 0.82F;
    return bent || (here.met == Met::skin && here.depth - beside.depth > skin_jump_);
  }
};

/// Mean diameter of the struts; of walls a tenth of a cell [m].
double drawn_thickness(const BodyShape& body) {
  if (body.struts == nullptr || body.struts->struts.empty()) {
    return 0.1 * body.cell_edge;
  }
  double sum = 0;
  for (const BodyStrut& strut : body.struts->struts) {
    sum += strut.from_radius + strut.to_radius;
  }
  return sum / static_cast<double>(body.struts->struts.size());
}

class Resolver {
public:
  Resolver(const SightGrid& grid, const Outlines& outlines, const CellView& view, BodyRaster& raster)
      : grid_(grid), outlines_(outlines), view_(view), raster_(raster),
        width_(static_cast<std::size_t>(raster.frame.width)), height_(static_cast<std::size_t>(raster.frame.height)) {
  }

  /// Tone, kind and station of every pixel. @return depth of the nearest [m], -infinity where there is nothing
  std::vector<float> resolve() {
    const std::size_t count = width_ * height_;
    raster_.met.assign(count, Met::nothing);
    raster_.station.assign(count, 0);
    raster_.tone.assign(count, 0);
    raster_.coverage.assign(count, 0);
    std::vector<float> depth(count, -std::numeric_limits<float>::infinity());
    tbb::parallel_for(std::size_t{0}, height_, [&](std::size_t y) {
      for (std::size_t x = 0; x < width_; ++x) {
        resolve_pixel(x, y, depth[y * width_ + x]);
      }
    });
    return depth;
  }

private:
  const SightGrid& grid_;
  const Outlines& outlines_;
  const CellView& view_;
  BodyRaster& raster_;
  std::size_t width_, height_;

  struct Place {
    const Sight* sight = nullptr;
    std::size_t x = 0, y = 0;
  };

  void resolve_pixel(std::size_t x, std::size_t y, float& depth) {
    std::array<int, 6> count{};
    std::array<Place, 6> nearest{}; // of each kind
    float covered = 0, tone = 0;
    for (std::size_t i = 0; i < finer * finer; ++i) {
      const std::size_t fx = finer * x + i % finer, fy = finer * y + i / finer;
      const Sight& sight = grid_.at(fx, fy);
      if (sight.met == Met::nothing) {
        continue;
      }
      covered += 1;
      tone += outlines_.at(fx, fy) ? line_on(sight) : light_on(sight);
      const std::size_t kind = static_cast<std::size_t>(sight.met);
      ++count[kind];
      if (nearest[kind].sight == nullptr || sight.depth > nearest[kind].sight->depth) {
        nearest[kind] = {&sight, fx, fy};
      }
    }
    if (covered == 0) {
      return;
    }
    // What covers most of the pixel gives it its kind, so that areas are true; of two halves the nearer one.
    std::size_t kind = 0;
    for (std::size_t k = 1; k < count.size(); ++k) {
      if (count[k] > count[kind] || (count[k] == count[kind] && nearest[k].sight != nullptr &&
                                     nearest[k].sight->depth > nearest[kind].sight->depth)) {
        kind = k;
      }
    }
    const Place& shown = nearest[kind];
    const std::size_t place = y * width_ + x;
    const double right = raster_.frame.left + (static_cast<double>(shown.x) + 0.5) * grid_.step;
    const double up = raster_.frame.top - (static_cast<double>(shown.y) + 0.5) * grid_.step;
    const double toward = static_cast<double>(shown.sight->depth) * grid_.step;
    depth = static_cast<float>(toward);
    raster_.met[place] = shown.sight->met;
    raster_.station[place] = static_cast<float>(right * view_.right[0] + up * view_.up[0] + toward * view_.toward[0]);
    raster_.tone[place] = tone / covered;
    raster_.coverage[place] = covered / static_cast<float>(finer * finer);
  }
};

/// Darker where nearer metal stands about it, and where it lies deep.
void shade(BodyRaster& raster, const std::vector<float>& depth, const std::vector<float>& surface_depth,
           double cell_edge) {
  const std::size_t width = static_cast<std::size_t>(raster.frame.width);
  const double cell_pixels = cell_edge / raster.frame.pixel;
  const std::vector<float> about =
      mean_about(depth, width, static_cast<int>(std::clamp(0.2 * cell_pixels, 2.0, 40.0)));
  const float cell = static_cast<float>(cell_edge);
  for (std::size_t i = 0; i < depth.size(); ++i) {
    if (raster.met[i] != Met::lattice) {
      continue;
    }
    const float crowding = std::clamp((about[i] - depth[i]) / (0.6F * cell), 0.0F, 1.0F);
    const float below = surface_depth[i] - depth[i];
    const float deep = std::isfinite(below) && below > 0 ? 1 - std::exp(-below / (1.3F * cell)) : 0.0F;
    raster.tone[i] *= (1 - 0.30F * crowding) * (1 - 0.42F * deep);
  }
}

/// The body without its lattice: its depth [m], and how strongly it shows as an outline.
void outline_behind(const BodyShape& body, const CellView& view, BodyRaster& raster,
                    std::vector<float>& surface_depth) {
  SeenBody seen;
  seen.surface = body.surface;
  const SightGrid grid = sight_grid(seen, view, raster.frame, static_cast<int>(finer));
  const Outlines outlines(grid, 0);
  const std::size_t width = static_cast<std::size_t>(raster.frame.width);
  raster.ghost.assign(width * static_cast<std::size_t>(raster.frame.height), 0);
  tbb::parallel_for(std::size_t{0}, raster.ghost.size(), [&](std::size_t place) {
    for (std::size_t i = 0; i < finer * finer; ++i) {
      const std::size_t x = finer * (place % width) + i % finer, y = finer * (place / width) + i / finer;
      const Sight& sight = grid.at(x, y);
      if (sight.met != Met::nothing) {
        raster.ghost[place] += (outlines.at(x, y) ? 1.0F : 0.15F) / static_cast<float>(finer * finer);
        surface_depth[place] =
            std::max(surface_depth[place], static_cast<float>(sight.depth * static_cast<float>(grid.step)));
      }
    }
  });
}

} // namespace

RasterFrame frame_about(const BodyShape& body, const CellView& view, int pixels) {
  double left = std::numeric_limits<double>::infinity(), low = left, right = -left, high = -left;
  visit_extent(body, [&](const ViewVector& point, double radius) {
    const double x = dot(point, view.right), y = dot(point, view.up);
    left = std::min(left, x - radius);
    right = std::max(right, x + radius);
    low = std::min(low, y - radius);
    high = std::max(high, y + radius);
  });
  return frame_around(left, right, low, high, pixels);
}

BodyRaster body_raster(const BodyShape& body, BodySight sight, const CellView& view, const RasterFrame& frame,
                       double cut) {
  BodyRaster raster;
  raster.frame = frame;
  const std::size_t count = static_cast<std::size_t>(frame.width) * static_cast<std::size_t>(frame.height);
  std::vector<float> surface_depth(count, sight == BodySight::cut ? static_cast<float>(cut)
                                                                  : -std::numeric_limits<float>::infinity());
  SeenBody seen;
  seen.surface = sight == BodySight::lattice ? nullptr : body.surface;
  if (sight != BodySight::outside) {
    seen.bars = body.struts;
    seen.lattice = body.walls;
  }
  if (sight == BodySight::cut) {
    seen.cut = cut;
  }
  raster.ghost.assign(count, 0);
  if (sight == BodySight::lattice && body.surface != nullptr) {
    outline_behind(body, view, raster, surface_depth);
  }
  SightGrid grid = sight_grid(seen, view, frame, static_cast<int>(finer));
  if (sight == BodySight::cut && body.surface != nullptr && body.skin_thickness > 0) {
    lay_cut_skin(grid, *body.surface, body.skin_thickness, view, frame, cut);
  }
  const Outlines outlines(grid, drawn_thickness(body));
  const std::vector<float> depth = Resolver(grid, outlines, view, raster).resolve();
  if (sight != BodySight::outside && body.cell_edge > 0) {
    shade(raster, depth, surface_depth, body.cell_edge);
  }
  return raster;
}

} // namespace crushwright
