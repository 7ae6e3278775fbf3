#include "envelope/surface_sections.hpp"

#include "crushwright/errors.hpp"
#include "envelope/polygon.hpp"
#include "envelope/sliced_figure.hpp"
#include "quantities/units.hpp"
#include "surface/surface_cut.hpp"

#include <algorithm>
#include <cstddef>
#include <fmt/format.h>
#include <limits>
#include <utility>

namespace crushwright {

namespace {

constexpr double inside_end = 1e-6; ///< of the length

struct Extents {
  double low = std::numeric_limits<double>::infinity();
  double high = -std::numeric_limits<double>::infinity();
  void hold(double value) {
    low = std::min(low, value);
    high = std::max(high, value);
  }
};

Section section_of(SurfaceCut cut, double station) {
  if (cut.loops.empty())
    throw OutOfDomain(
        fmt::format("the surface has no section at {}, between its ends", show(station, Dimension::length)));
  Section section;
  section.station = station;
  section.shape = SectionShape::sliced;
  Extents y, z;
  for (const Polygon& loop : cut.loops)
    for (const Point& point : loop) {
      y.hold(point[0]);
      z.hold(point[1]);
    }
  section.width = y.high - y.low;
  section.height = z.high - z.low;
  section.figure = sliced_figure(std::move(cut.loops));
  return section;
}

std::size_t outer_loops(const Section& section) {
  const auto& loops = *section.figure.loops;
  return static_cast<std::size_t>(
      std::count_if(loops.begin(), loops.end(), [](const Polygon& loop) { return signed_area(loop) > 0; }));
}

/// First to last station of the cuts that something is said of.
struct Stretch {
  bool found = false;
  double from = 0;
  double to = 0;
  void hold(double station) {
    if (!found)
      from = station;
    found = true;
    to = station;
  }
  std::string shown() const {
    const std::string begin = show(from, Dimension::length), end = show(to, Dimension::length);
    return begin == end ? "at " + begin : fmt::format("between {} and {}", begin, end);
  }
};

} // namespace

std::vector<Section> surface_sections(const TriangleMesh& mesh, int layer_count) {
  const double length = bounds_of(mesh).high[0];
  const int steps = 2 * layer_count;
  std::vector<double> stations;
  for (int step = 0; step <= steps; ++step)
    stations.push_back(std::clamp(length * step / steps, inside_end * length, length * (1 - inside_end)));
  std::vector<SurfaceCut> cuts = cuts_across(mesh, stations);
  std::vector<Section> sections;
  sections.reserve(cuts.size());
  for (int step = 0; step <= steps; ++step)
    sections.push_back(section_of(std::move(cuts[static_cast<std::size_t>(step)]), length * step / steps));
  return sections;
}

std::vector<std::string> remarks_on(const std::vector<Section>& sections) {
  Stretch forked, pierced;
  for (const Section& section : sections) {
    const std::size_t outer = outer_loops(section);
    if (outer > 1)
      forked.hold(section.station);
    if (section.figure.loops->size() > outer)
      pierced.hold(section.station);
  }
  std::vector<std::string> remarks;
  if (forked.found)
    remarks.push_back(
        fmt::format("the surface has several separate outlines {}. Their areas, outlines and corners are "
                    "added, and the skin folds as one wall of that length; the smallest width is that of "
                    "the largest. Give separate columns separate structures.",
                    forked.shown()));
  if (pierced.found)
    remarks.push_back(
        fmt::format("the surface has an opening inside its outline {}. The skin is taken to line it too: "
                    "both outlines and their corners are added and fold as one wall.",
                    pierced.shown()));
  return remarks;
}

} // namespace crushwright
