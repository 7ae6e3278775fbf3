#include "impact/resolved_link.hpp"

#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {
namespace {

/// A locked layer is at most as stiff as its solid metal. A cell has about the square of its relative density of that
/// stiffness: a hundredth at 0.1, the sparsest in use. A lock that is drawn steeper would only make the step small.
constexpr double solid_over_cell = 100;

void check(const Layer& layer) {
  if (!(layer.height > 0) || !std::isfinite(layer.height))
    throw OutOfDomain(
        fmt::format("the layer at station {} m is {} m high; it must be above 0", layer.station, layer.height));
  if (!(layer.collapse_force() > 0) || !std::isfinite(layer.collapse_force()))
    throw OutOfDomain(fmt::format("the layer at station {} m has no strength: its collapse force is {} N",
                                  layer.station, layer.collapse_force()));
}

/// Of the elastic rise: the layer's own, or that of its curve where none is known [1, over the collapse force].
double elastic_slope(const Layer& layer) {
  if (layer.elastic_force > 0)
    return layer.elastic_force / layer.collapse_force();
  if (layer.shape.ratio[0] > 0 || !(layer.shape.ratio[1] > 0))
    throw OutOfDomain(fmt::format("the layer at station {} m has neither an elastic stiffness nor a rise in its "
                                  "curve: a chain of masses needs one of them",
                                  layer.station));
  return layer.shape.ratio[1] / layer.shape.strain[1];
}

} // namespace

CrushLink::CrushLink(const Layer& layer, double force_factor, double crush_factor) {
  check(layer);
  const CurveShape& shape = layer.shape;
  const double force = layer.collapse_force() * force_factor;
  const double height = layer.height * crush_factor;
  const double unit = force / height; // slope for one ratio per unit strain
  elastic_stiffness_ = unit * elastic_slope(layer);
  alongs_.push_back(0);
  forces_.push_back(0);
  if (shape.ratio[0] > 0)
    add_point(force * shape.ratio[0], 0);
  for (std::size_t k = 0; k + 1 < CurveShape::points; ++k)
    add_point(force * (shape.ratio[k + 1] - shape.ratio[k]), height * (shape.strain[k + 1] - shape.strain[k]));
  collapse_along_ = alongs_[1];
  tension_limit_ = forces_[1];
  const std::size_t used_up = CurveShape::efficiency_point + (shape.ratio[0] > 0 ? 1 : 0);
  half_along_ = 0.5 * (collapse_along_ + alongs_[used_up]);
  unloading_slope_ = elastic_stiffness_;
  meet_slopes();
}

void CrushLink::add_point(double rise, double stretch) {
  const double least = rise / (solid_over_cell * elastic_stiffness_);
  const double rigid = rise / elastic_stiffness_; // a force that is there at once comes with the elastic slope
  alongs_.push_back(alongs_.back() + (stretch > 0 ? std::max(stretch, least) : rigid));
  forces_.push_back(forces_.back() + rise);
}

void CrushLink::meet_slopes() {
  slope_ = slope_of(segment_);
  unloading_slope_ = std::max(unloading_slope_, slope_);
  stiffness_ = unloading_slope_;
  if (segment_ + 2 < alongs_.size())
    stiffness_ = std::max(stiffness_, slope_of(segment_ + 1));
}

void CrushLink::load_to(double along) {
  while (segment_ + 2 < alongs_.size() && alongs_[segment_ + 1] < along) {
    ++segment_;
    meet_slopes();
  }
  force_ = forces_[segment_] + slope_ * (along - alongs_[segment_]);
  return_along_ = along;
  return_force_ = force_;
}

void CrushLink::unload_to(double along) {
  force_ = return_force_ + unloading_slope_ * (along - return_along_);
  if (force_ >= -tension_limit_)
    return;
  // It yields in tension: what it had crushed stays crushed, and it is longer by what it yields.
  force_ = -tension_limit_;
  offset_ += along - (return_along_ - (return_force_ + tension_limit_) / unloading_slope_);
}

} // namespace crushwright
