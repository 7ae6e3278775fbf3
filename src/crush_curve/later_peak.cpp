#include "crush_curve/later_peak.hpp"

#include "crush_curve/curve_points.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numeric>

namespace crushwright {
namespace {

/// Forces further apart than this have no row between them that leads the crush on: common practice, no source.
constexpr double least_gap = 0.10;
/// A graded body cut coarsely has gaps everywhere; a step stands out among them by this much.
constexpr double over_usual_gap = 3;

/// Rises elastically from the series to the top, then falls straight to zero.
struct Overlay {
  double start, top_at, end; ///< crush [m]
  double start_force, top;   ///< [N]

  double force_at(double crush) const {
    if (crush < start || crush > end)
      return 0;
    return crush < top_at ? start_force + (top - start_force) * (crush - start) / (top_at - start)
                          : top * (end - crush) / (end - top_at);
  }
};

Overlay overlay_of(const CrushCurve& series, const LaterPeak& peak) {
  if (!(peak.ratio > 1) || !(peak.fall_crush > 0))
    throw OutOfDomain(fmt::format("a later peak of {} times its start force dies out over {} m of crush; the ratio "
                                  "must be above 1 and the crush above 0",
                                  peak.ratio, peak.fall_crush));
  Overlay overlay{};
  overlay.start = first_crush_at(series, peak.start_force);
  overlay.start_force = peak.start_force;
  overlay.top = peak.ratio * peak.start_force;
  const double elastic =
      series.elastic_stiffness > 0 ? (overlay.top - overlay.start_force) / series.elastic_stiffness : 0;
  // Without a stiffness, or with hardly any, the rise takes the tenth of the fall.
  const double most = 0.1 * peak.fall_crush;
  overlay.top_at = overlay.start + (elastic > 0 ? std::min(elastic, most) : most);
  overlay.end = overlay.top_at + peak.fall_crush;
  return overlay;
}

CrushCurve larger_of(const CrushCurve& curve, const Overlay& overlay) {
  std::vector<double> places = curve.crush;
  places.insert(places.end(), {overlay.start, overlay.top_at, overlay.end});
  std::sort(places.begin(), places.end());
  // Points closer than this would make a slope of nothing over nothing; the curve's own are further apart.
  const double close = 1e-12 * curve.crush.back();
  CrushCurve result;
  double before = 0, over_before = 0;
  for (const double crush : places) {
    if (!result.crush.empty() && crush - before <= close)
      continue;
    const double force = curve.force_at(crush), over = overlay.force_at(crush) - force;
    if (!result.crush.empty() && over_before * over < 0) {
      const double meet = before + (crush - before) * over_before / (over_before - over);
      if (meet - before > close && crush - meet > close)
        append(result, meet, curve.force_at(meet));
    }
    append(result, crush, force + std::max(0.0, over));
    before = crush;
    over_before = over;
  }
  result.elastic_stiffness = curve.elastic_stiffness;
  result.bottoming_crush = curve.bottoming_crush;
  result.bottoming_force = curve.bottoming_force;
  return result;
}

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

} // namespace

std::vector<std::size_t> fresh_starts(const std::vector<Layer>& layers) {
  std::vector<std::size_t> order(layers.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return layers[a].start_force() < layers[b].start_force(); });
  std::vector<double> gaps;
  for (std::size_t k = 1; k < order.size(); ++k)
    gaps.push_back(layers[order[k]].start_force() / layers[order[k - 1]].start_force() - 1);
  std::vector<std::size_t> fresh;
  if (gaps.empty())
    return fresh;
  const double gap = std::max(least_gap, over_usual_gap * median(gaps));
  for (std::size_t k = 0; k < gaps.size(); ++k)
    if (gaps[k] > gap)
      fresh.push_back(order[k + 1]);
  return fresh;
}

CrushCurve with_later_peaks(const CrushCurve& curve, const CrushCurve& series, const std::vector<LaterPeak>& peaks) {
  CrushCurve result = curve;
  for (const LaterPeak& peak : peaks)
    result = larger_of(result, overlay_of(series, peak));
  return result;
}

} // namespace crushwright
