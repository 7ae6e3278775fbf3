#include "crushwright/crush_curve.hpp"

#include "crush_curve/curve_points.hpp"
#include "crush_curve/later_peak.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace crushwright {
namespace {

/// At this force the compliance of the series changes, or a layer shortens at constant force.
struct Breakpoint {
  double force;
  double compliance_change; ///< [m/N]
  double shortening;        ///< at constant force [m]
};

void check(const Layer& layer, std::size_t index) {
  if (!(layer.height > 0))
    throw OutOfDomain(fmt::format("layer {} has a height of {} m; it must be above 0", index + 1, layer.height));
  if (!(layer.collapse_force() > 0))
    throw OutOfDomain(fmt::format("layer {} at station {:.4f} m has no strength: its collapse force is {} N",
                                  index + 1, layer.station, layer.collapse_force()));
}

void add_breakpoints(const Layer& layer, std::vector<Breakpoint>& breakpoints) {
  const double force = layer.collapse_force();
  double compliance = 0;
  for (std::size_t k = 0; k + 1 < CurveShape::points; ++k) {
    const double shortening = layer.height * (layer.shape.strain[k + 1] - layer.shape.strain[k]);
    const double rise = force * (layer.shape.ratio[k + 1] - layer.shape.ratio[k]);
    const double at = force * layer.shape.ratio[k];
    if (rise > 0) {
      breakpoints.push_back({at, shortening / rise - compliance, 0});
      compliance = shortening / rise;
    } else {
      breakpoints.push_back({at, 0, shortening});
    }
  }
}

/// Ratio of a shape at a strain; the last segment goes on.
double ratio_at(const CurveShape& shape, double strain) {
  std::size_t k = 0;
  while (k + 2 < CurveShape::points && shape.strain[k + 1] < strain)
    ++k;
  const double slope = (shape.ratio[k + 1] - shape.ratio[k]) / (shape.strain[k + 1] - shape.strain[k]);
  return shape.ratio[k] + slope * (strain - shape.strain[k]);
}

/// Strain of a shape at a ratio; where the ratio is constant, the end of that stretch.
double strain_at(const CurveShape& shape, double ratio) {
  std::size_t k = 0;
  while (k + 2 < CurveShape::points && shape.ratio[k + 1] <= ratio)
    ++k;
  const double rise = shape.ratio[k + 1] - shape.ratio[k];
  if (!(rise > 0))
    return shape.strain[k + 1];
  return shape.strain[k] + (ratio - shape.ratio[k]) / rise * (shape.strain[k + 1] - shape.strain[k]);
}

/// Point of a shape at which collapse begins: where its rise ends, or at once when it has none.
std::size_t collapse_point(const CurveShape& shape) {
  return shape.ratio[0] > 0 ? 0 : 1;
}

double collapse_ratio(const Layer& layer) {
  return layer.shape.ratio[collapse_point(layer.shape)];
}

/// Forces closer than this are one level: layers that are equal but for rounding would put two points so close that a
/// scaled curve has them at one crush, and a slope between them of nothing over nothing.
constexpr double same_level = 1e-12;

/// Points of the series from breakpoints sorted by force.
CrushCurve walk(const std::vector<Breakpoint>& breakpoints) {
  CrushCurve curve;
  curve.crush.reserve(breakpoints.size() + 2);
  curve.force.reserve(breakpoints.size() + 2);
  curve.energy.reserve(breakpoints.size() + 2);
  double crush = 0, force = 0, compliance = 0;
  append(curve, 0, 0);
  for (std::size_t i = 0; i < breakpoints.size();) {
    const double at = breakpoints[i].force;
    crush += compliance * (at - force);
    force = at;
    double shortening = 0;
    for (; i < breakpoints.size() && breakpoints[i].force <= at * (1 + same_level); ++i) {
      compliance += breakpoints[i].compliance_change;
      shortening += breakpoints[i].shortening;
    }
    if (crush > curve.crush.back())
      append(curve, crush, force);
    else if (curve.crush.size() == 1)
      curve.force.front() = force; // layers without a rise: the force is there before any crush
    if (shortening > 0) {
      crush += shortening;
      append(curve, crush, force);
    }
  }
  // One more point far up the final slope, so that the curve ends with the slope at which the layers lock.
  const double beyond = 4 * force;
  append(curve, crush + compliance * (beyond - force), beyond);
  return curve;
}

/// Puts a first peak over the start of the curve: the larger of the curve and a triangle that rises to the peak by
/// the crush at which the first layer starts and dies out over `fall_crush`.
CrushCurve with_first_peak(const CrushCurve& base, double collapse_force, const FirstPeak& peak) {
  const double top = peak.ratio * collapse_force;
  const double top_crush = first_crush_at(base, collapse_force);
  const double end_crush = top_crush + peak.fall_crush;
  const auto triangle = [&](double crush) {
    return top * (end_crush - crush) / peak.fall_crush; // from the peak on; before it the curve goes straight up
  };
  CrushCurve result;
  result.crush.reserve(base.crush.size() + 4);
  result.force.reserve(base.crush.size() + 4);
  result.energy.reserve(base.crush.size() + 4);
  if (top_crush > 0)
    append(result, 0, 0);
  append(result, top_crush, top);
  std::size_t i = 0;
  while (base.crush[i] <= top_crush * (1 + same_level)) // the point of the peak itself, but for rounding
    ++i;
  double before = top_crush;
  for (; i < base.crush.size(); ++i) {
    const double crush = base.crush[i];
    const double over_before = triangle(before) - base.force_at(before);
    const double over_now = triangle(crush) - base.force[i];
    if (over_before > 0 && over_now <= 0) {
      const double meet = before + (crush - before) * over_before / (over_before - over_now);
      if (meet > result.crush.back() && meet < crush)
        append(result, meet, base.force_at(meet));
    }
    append(result, crush, std::max(base.force[i], over_now > 0 ? triangle(crush) : base.force[i]));
    before = crush;
  }
  result.elastic_stiffness = base.elastic_stiffness;
  result.bottoming_crush = base.bottoming_crush;
  result.bottoming_force = base.bottoming_force;
  return result;
}

std::size_t segment_of(const std::vector<double>& values, double value) {
  const auto above = std::upper_bound(values.begin(), values.end(), value);
  const auto index = static_cast<std::size_t>(std::distance(values.begin(), above));
  return std::clamp<std::size_t>(index, 1, values.size() - 1) - 1;
}

} // namespace

double CrushCurve::force_at(double crush_value) const {
  const std::size_t k = segment_of(crush, crush_value);
  const double slope = (force[k + 1] - force[k]) / (crush[k + 1] - crush[k]);
  return force[k] + slope * (crush_value - crush[k]);
}

double CrushCurve::energy_at(double crush_value) const {
  const std::size_t k = segment_of(crush, crush_value);
  const double slope = (force[k + 1] - force[k]) / (crush[k + 1] - crush[k]);
  const double further = crush_value - crush[k];
  return energy[k] + further * (force[k] + 0.5 * slope * further);
}

double CrushCurve::crush_at_energy(double energy_value) const {
  const std::size_t k = segment_of(energy, energy_value);
  const double slope = (force[k + 1] - force[k]) / (crush[k + 1] - crush[k]);
  const double rest = energy_value - energy[k];
  if (!(rest > 0))
    return crush[k];
  // Root of rest = force x + slope x^2 / 2 in the form that stays exact for a slope near 0.
  return crush[k] + 2 * rest / (force[k] + std::sqrt(std::max(0.0, force[k] * force[k] + 2 * slope * rest)));
}

double CrushCurve::crush_at_force(double level) const {
  std::size_t k = crush.size() - 1;
  if (force[k] > level)
    while (k > 0 && force[k - 1] > level)
      --k;
  else
    ++k;
  if (k == 0)
    return 0;
  k = std::min(k, crush.size() - 1);
  const double slope = (force[k] - force[k - 1]) / (crush[k] - crush[k - 1]);
  return slope > 0 ? crush[k - 1] + (level - force[k - 1]) / slope : crush[k];
}

double CrushCurve::peak_force_up_to(double crush_value) const {
  double peak = force_at(crush_value);
  for (std::size_t k = 0; k < crush.size() && crush[k] <= crush_value; ++k)
    peak = std::max(peak, force[k]);
  return peak;
}

CrushCurve crush_curve(const std::vector<Layer>& layers, const FirstPeak& first_peak,
                       const std::vector<LaterPeak>& later_peaks) {
  if (layers.empty())
    throw OutOfDomain("a structure without layers has no crush curve");
  if (first_peak.ratio > 1 && !(first_peak.fall_crush > 0))
    throw OutOfDomain(
        fmt::format("a first peak of {} times the collapse force dies out over {} m of crush; it must be "
                    "above 0",
                    first_peak.ratio, first_peak.fall_crush));
  std::vector<Breakpoint> breakpoints;
  breakpoints.reserve(layers.size() * CurveShape::points);
  double elastic_compliance = 0, bottoming_force = 0;
  double first_force = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < layers.size(); ++i) {
    const Layer& layer = layers[i];
    check(layer, i);
    add_breakpoints(layer, breakpoints);
    if (layer.elastic_force > 0)
      elastic_compliance += layer.height / layer.elastic_force;
    const double used_up = layer.collapse_force() * ratio_at(layer.shape, layer.efficiency_strain);
    bottoming_force = std::max(bottoming_force, used_up);
    first_force = std::min(first_force, layer.collapse_force() * collapse_ratio(layer));
  }
  std::sort(breakpoints.begin(), breakpoints.end(),
            [](const Breakpoint& a, const Breakpoint& b) { return a.force < b.force; });
  CrushCurve curve = walk(breakpoints);
  curve.elastic_stiffness = elastic_compliance > 0 ? 1 / elastic_compliance : 0;
  curve.bottoming_force = bottoming_force;
  curve.bottoming_crush = curve.crush_at_force(bottoming_force);
  if (!(first_peak.ratio > 1) && later_peaks.empty())
    return curve;
  const CrushCurve started = first_peak.ratio > 1 ? with_first_peak(curve, first_force, first_peak) : curve;
  return later_peaks.empty() ? started : with_later_peaks(started, curve, later_peaks);
}

CrushCurve scaled(const CrushCurve& curve, double force_factor, double crush_factor) {
  CrushCurve result = curve;
  for (std::size_t i = 0; i < curve.crush.size(); ++i) {
    result.crush[i] *= crush_factor;
    result.force[i] *= force_factor;
    result.energy[i] *= force_factor * crush_factor;
  }
  result.elastic_stiffness *= force_factor / crush_factor;
  result.bottoming_crush *= crush_factor;
  result.bottoming_force *= force_factor;
  return result;
}

std::vector<double> layer_shortenings(const std::vector<Layer>& layers, double force) {
  std::vector<double> shortenings;
  shortenings.reserve(layers.size());
  for (const Layer& layer : layers)
    shortenings.push_back(layer.height * strain_at(layer.shape, force / layer.collapse_force()));
  return shortenings;
}

double permanent_crush(const std::vector<Layer>& layers, double force, double from, double to) {
  double crush = 0;
  for (const Layer& layer : layers) {
    const double middle = layer.station + 0.5 * layer.height;
    const double ratio = force / layer.collapse_force();
    if (middle >= from && middle < to && ratio > collapse_ratio(layer))
      crush += layer.height * (strain_at(layer.shape, ratio) - layer.shape.strain[collapse_point(layer.shape)]);
  }
  return crush;
}

std::vector<Inversion> inversions(const std::vector<Layer>& layers, double tolerance) {
  std::vector<Inversion> found;
  for (std::size_t i = 1; i < layers.size(); ++i) {
    const double outer = layers[i - 1].collapse_force(), inner = layers[i].collapse_force();
    if (inner < outer * (1 - tolerance))
      found.push_back({layers[i].station, inner, outer});
  }
  return found;
}

} // namespace crushwright
