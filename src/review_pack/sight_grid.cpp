#include "review_pack/sight_grid.hpp"

#include "review_pack/round_bar.hpp"
#include "review_pack/row_bands.hpp"
#include "review_pack/soft_normals.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include <tbb/parallel_for.h>
#include <tbb/parallel_sort.h>

namespace crushwright {

namespace {

using Places = std::vector<ViewVector>; ///< right, down, toward the eye [ray steps]; 0, 0 in the upper left corner

/// From the body's frame to the grid's.
class Looker {
public:
  Looker(const CellView& view, const RasterFrame& frame, double step) : view_(view), frame_(frame), step_(step) {}

  Places places(const std::vector<std::array<double, 3>>& points) const {
    Places all(points.size());
    tbb::parallel_for(std::size_t{0}, points.size(), [&](std::size_t i) {
      const ViewVector& point = points[i];
      all[i] = {(dot(point, view_.right) - frame_.left) / step_, (frame_.top - dot(point, view_.up)) / step_,
                dot(point, view_.toward) / step_};
    });
    return all;
  }

  std::array<float, 3> turned(const std::array<float, 3>& n) const {
    const ViewVector normal = {n[0], n[1], n[2]};
    return {static_cast<float>(dot(normal, view_.right)), static_cast<float>(dot(normal, view_.up)),
            static_cast<float>(dot(normal, view_.toward))};
  }

private:
  const CellView& view_;
  const RasterFrame& frame_;
  double step_;
};

/// Which side of a triangle's edge a point lies on. Both triangles of an edge get the same number with opposite
/// signs, so that a ray through their common edge meets exactly one of them.
class EdgeSide {
public:
  EdgeSide(const ViewVector& from, const ViewVector& to) : from_(from), to_(to) {
    if (to[0] < from[0] || (to[0] == from[0] && to[1] < from[1])) {
      std::swap(from_, to_);
      turn_ = -1;
    }
  }
  /// Twice the signed area of the triangle of edge and point.
  double at(double x, double y) const {
    return turn_ * ((to_[0] - from_[0]) * (y - from_[1]) - (to_[1] - from_[1]) * (x - from_[0]));
  }
  bool holds(double area, double sign) const { return area * sign > 0 || (area == 0 && turn_ * sign > 0); }

private:
  ViewVector from_, to_;
  double turn_ = 1;
};

/// One triangle as the rays meet it.
class SeenTriangle {
public:
  explicit SeenTriangle(const std::array<ViewVector, 3>& corners)
      : corners_(corners),
        edges_{EdgeSide(corners[1], corners[2]), EdgeSide(corners[2], corners[0]), EdgeSide(corners[0], corners[1])} {
    const auto& [a, b, c] = corners;
    doubled_ = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
  }

  bool on_edge_to_eye() const { return doubled_ == 0; }
  /// Corners run counter-clockwise seen from outside, and rows run down.
  bool faces_eye() const { return doubled_ < 0; }
  Span rows(std::size_t height) const { return extent(1, height); }
  Span columns(std::size_t width) const { return extent(0, width); }

  /// The corners' parts in the point of a ray; absent where the ray misses.
  std::optional<ViewVector> parts(double x, double y) const {
    ViewVector parts{};
    for (std::size_t k = 0; k < 3; ++k) {
      const double area = edges_[k].at(x, y);
      if (!edges_[k].holds(area, doubled_ > 0 ? 1 : -1)) {
        return std::nullopt;
      }
      parts[k] = area / doubled_;
    }
    return parts;
  }

  double depth(const ViewVector& parts) const {
    return parts[0] * corners_[0][2] + parts[1] * corners_[1][2] + parts[2] * corners_[2][2];
  }

private:
  std::array<ViewVector, 3> corners_;
  std::array<EdgeSide, 3> edges_;
  double doubled_ = 0;

  Span extent(std::size_t axis, std::size_t count) const {
    const auto [least, greatest] = std::minmax({corners_[0][axis], corners_[1][axis], corners_[2][axis]});
    return span_of(least, greatest, count);
  }
};

template <class Visit>
void each_ray(const Span& rows, const Span& columns, const Visit& visit) {
  for (std::size_t y = rows.first; rows.first <= rows.last && y <= rows.last; ++y) {
    for (std::size_t x = columns.first; columns.first <= columns.last && x <= columns.last; ++x) {
      visit(x, y);
    }
  }
}

/// Draws a closed mesh into the grid, all that lies beyond a limit of depth left out.
class MeshPainter {
public:
  MeshPainter(SightGrid& grid, const Looker& looker, const TriangleMesh& mesh, double limit)
      : grid_(grid), looker_(looker), mesh_(mesh), places_(looker.places(mesh.points)), normals_(mesh),
        limit_(limit) {}

  /// @return how often each ray is inside the mesh at the limit; empty without a limit
  std::vector<std::int16_t> paint(Met outside, Met inside) {
    std::vector<std::int16_t> inside_count(std::isfinite(limit_) ? grid_.sights.size() : 0);
    const RowBands bands(mesh_.triangles.size(), grid_.height,
                         [&](std::size_t i) { return triangle(i).rows(grid_.height); });
    tbb::parallel_for(std::size_t{0}, bands.count(), [&](std::size_t band) {
      bands.each_item(band, [&](std::size_t i) { paint_triangle(i, band, outside, inside, inside_count); });
    });
    return inside_count;
  }

private:
  SightGrid& grid_;
  const Looker& looker_;
  const TriangleMesh& mesh_;
  Places places_;
  SoftNormals normals_;
  double limit_;

  SeenTriangle triangle(std::size_t i) const {
    const auto& corners = mesh_.triangles[i];
    return SeenTriangle({places_[static_cast<std::size_t>(corners[0])], places_[static_cast<std::size_t>(corners[1])],
                         places_[static_cast<std::size_t>(corners[2])]});
  }

  void paint_triangle(std::size_t i, std::size_t band, Met outside, Met inside, std::vector<std::int16_t>& counts) {
    const SeenTriangle seen = triangle(i);
    if (seen.on_edge_to_eye()) {
      return;
    }
    const std::array<std::array<float, 3>, 3> normals = {
        looker_.turned(normals_.at(i, 0)), looker_.turned(normals_.at(i, 1)), looker_.turned(normals_.at(i, 2))};
    const Span rows = RowBands::inside(seen.rows(grid_.height), band);
    each_ray(rows, seen.columns(grid_.width), [&](std::size_t x, std::size_t y) {
      const auto parts = seen.parts(static_cast<double>(x) + 0.5, static_cast<double>(y) + 0.5);
      if (!parts) {
        return;
      }
      const double depth = seen.depth(*parts);
      const std::size_t place = y * grid_.width + x;
      if (depth > limit_) {
        counts[place] = static_cast<std::int16_t>(counts[place] + (seen.faces_eye() ? 1 : -1));
      } else if (depth > static_cast<double>(grid_.sights[place].depth)) {
        grid_.sights[place] = {static_cast<float>(depth), mixed(normals, *parts, seen.faces_eye() ? 1 : -1),
                               seen.faces_eye() ? outside : inside};
      }
    });
  }

  static std::array<float, 3> mixed(const std::array<std::array<float, 3>, 3>& normals, const ViewVector& parts,
                                    double turn) {
    std::array<float, 3> sum{};
    for (std::size_t a = 0; a < 3; ++a) {
      double along = 0;
      for (std::size_t k = 0; k < 3; ++k) {
        along += parts[k] * static_cast<double>(normals[k][a]);
      }
      sum[a] = static_cast<float>(turn * along);
    }
    return sum;
  }
};

class BarPainter {
public:
  BarPainter(SightGrid& grid, const Looker& looker, const StrutBody& body, double limit)
      : grid_(grid), body_(body), places_(looker.places(body.nodes)), limit_(limit), order_(body.struts.size()) {
    // From near to far, so that most of a deep lattice is passed over as hidden.
    tbb::parallel_for(std::size_t{0}, order_.size(), [&](std::size_t i) { order_[i] = {-bar(i).front(), i}; });
    tbb::parallel_sort(order_.begin(), order_.end());
  }

  void paint() {
    const RowBands bands(order_.size(), grid_.height, [&](std::size_t i) { return rows(bar(order_[i].second)); });
    tbb::parallel_for(std::size_t{0}, bands.count(), [&](std::size_t band) {
      bands.each_item(band, [&](std::size_t i) { paint_bar(bar(order_[i].second), band); });
    });
  }

private:
  SightGrid& grid_;
  const StrutBody& body_;
  Places places_;
  double limit_;
  std::vector<std::pair<double, std::size_t>> order_; ///< how far each bar stays behind the eye's plane, its place

  RoundBar bar(std::size_t i) const {
    const BodyStrut& strut = body_.struts[i];
    constexpr double thinnest = 0.5;
    return {places_[static_cast<std::size_t>(strut.from)], places_[static_cast<std::size_t>(strut.to)],
            std::max(thinnest, strut.from_radius / grid_.step), std::max(thinnest, strut.to_radius / grid_.step)};
  }

  Span rows(const RoundBar& bar) const { return span_of(bar.top(), bar.bottom(), grid_.height); }

  void paint_bar(const RoundBar& bar, std::size_t band) {
    const Span band_rows = RowBands::inside(rows(bar), band);
    const double front = std::min(bar.front(), limit_);
    for (std::size_t y = band_rows.first; band_rows.first <= band_rows.last && y <= band_rows.last; ++y) {
      const double middle = static_cast<double>(y) + 0.5;
      const auto [left, right] = bar.reach_across(middle);
      each_ray({y, y}, span_of(left, right, grid_.width), [&](std::size_t x, std::size_t) {
        Sight& sight = grid_.sights[y * grid_.width + x];
        if (front <= static_cast<double>(sight.depth)) {
          return;
        }
        const auto hit = bar.nearest(static_cast<double>(x) + 0.5, middle, limit_);
        if (hit && hit->depth > static_cast<double>(sight.depth)) {
          const auto& n = hit->normal; // down in the grid, up in a sight
          sight = {static_cast<float>(hit->depth), {n[0], -n[1], n[2]}, hit->cut ? Met::lattice_cut : Met::lattice};
        }
      });
    }
  }
};

} // namespace

SightGrid sight_grid(const SeenBody& body, const CellView& view, const RasterFrame& frame, int finer) {
  SightGrid grid;
  grid.width = static_cast<std::size_t>(frame.width) * static_cast<std::size_t>(finer);
  grid.height = static_cast<std::size_t>(frame.height) * static_cast<std::size_t>(finer);
  grid.step = frame.pixel / finer;
  grid.sights.resize(grid.width * grid.height);
  const Looker looker(view, frame, grid.step);
  const double limit = body.cut ? *body.cut / grid.step : std::numeric_limits<double>::infinity();
  if (body.surface != nullptr) {
    const auto counts = MeshPainter(grid, looker, *body.surface, limit).paint(Met::skin, Met::skin_inside);
    grid.in_section.resize(counts.size());
    for (std::size_t i = 0; i < counts.size(); ++i) {
      grid.in_section[i] = counts[i] > 0 ? 1 : 0;
    }
  }
  if (body.bars != nullptr) {
    BarPainter(grid, looker, *body.bars, limit).paint();
  }
  if (body.lattice != nullptr) {
    const auto counts = MeshPainter(grid, looker, *body.lattice, limit).paint(Met::lattice, Met::lattice);
    for (std::size_t i = 0; i < counts.size(); ++i) {
      if (counts[i] > 0) {
        grid.sights[i] = {static_cast<float>(limit), {0, 0, 1}, Met::lattice_cut};
      }
    }
  }
  return grid;
}

} // namespace crushwright
