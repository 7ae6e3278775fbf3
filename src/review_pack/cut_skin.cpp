#include "review_pack/cut_skin.hpp"

#include "surface/wall_tree.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <tbb/parallel_for.h>

namespace crushwright {

namespace {

constexpr std::size_t block = 8; // rays along the side of a square that one question may settle

std::vector<std::array<std::array<double, 3>, 3>> corners_of(const TriangleMesh& mesh) {
  std::vector<std::array<std::array<double, 3>, 3>> corners;
  corners.reserve(mesh.triangles.size());
  for (const auto& triangle : mesh.triangles) {
    corners.push_back({mesh.points[static_cast<std::size_t>(triangle[0])],
                       mesh.points[static_cast<std::size_t>(triangle[1])],
                       mesh.points[static_cast<std::size_t>(triangle[2])]});
  }
  return corners;
}

class SkinLayer {
public:
  SkinLayer(SightGrid& grid, const TriangleMesh& surface, double thickness, const CellView& view,
            const RasterFrame& frame, double cut)
      : grid_(grid), tree_(corners_of(surface)), thickness_(std::max(thickness, frame.pixel)), view_(view),
        frame_(frame), cut_(cut) {}

  void lay() {
    if (tree_.empty()) {
      return;
    }
    tbb::parallel_for(std::size_t{0}, (grid_.height + block - 1) / block, [&](std::size_t row) {
      for (std::size_t x = 0; x < grid_.width; x += block) {
        lay_block(x, row * block);
      }
    });
  }

private:
  SightGrid& grid_;
  WallTree tree_;
  double thickness_;
  const CellView& view_;
  const RasterFrame& frame_;
  double cut_;

  double distance(double x, double y) const {
    const double right = frame_.left + x * grid_.step, up = frame_.top - y * grid_.step;
    ViewVector point{};
    for (std::size_t a = 0; a < 3; ++a) {
      point[a] = right * view_.right[a] + up * view_.up[a] + cut_ * view_.toward[a];
    }
    return tree_.distance(point);
  }

  void lay_block(std::size_t left, std::size_t top) {
    const std::size_t right = std::min(left + block, grid_.width), bottom = std::min(top + block, grid_.height);
    bool any = false;
    for (std::size_t y = top; y < bottom; ++y) {
      for (std::size_t x = left; x < right; ++x) {
        any = any || grid_.in_section[y * grid_.width + x] != 0;
      }
    }
    if (!any) {
      return;
    }
    const double half = 0.5 * static_cast<double>(block);
    const double middle = distance(static_cast<double>(left) + half, static_cast<double>(top) + half);
    const double reach = std::numbers::sqrt2 * half * grid_.step;
    if (middle - reach > thickness_) {
      return;
    }
    const bool all = middle + reach <= thickness_;
    for (std::size_t y = top; y < bottom; ++y) {
      for (std::size_t x = left; x < right; ++x) {
        const std::size_t place = y * grid_.width + x;
        if (grid_.in_section[place] != 0 &&
            (all || distance(static_cast<double>(x) + 0.5, static_cast<double>(y) + 0.5) <= thickness_)) {
          grid_.sights[place] = {static_cast<float>(cut_ / grid_.step), {0, 0, 1}, Met::skin_cut};
        }
      }
    }
  }
};

} // namespace

void lay_cut_skin(SightGrid& grid, const TriangleMesh& surface, double thickness, const CellView& view,
                  const RasterFrame& frame, double cut) {
  SkinLayer(grid, surface, thickness, view, frame, cut).lay();
}

} // namespace crushwright
