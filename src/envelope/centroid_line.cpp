#include "crushwright/envelope.hpp"
#include "envelope/polygon.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace crushwright {

namespace {

/// Stations of the line of a typed body; every measure along it is linear between two typed stations.
constexpr int typed_steps = 40;

/// A straight line leans alike everywhere but for rounding; the first place is named [rad].
constexpr double same_tilt = 1e-9;

double tilt_between(double from, const Point& at_from, double to, const Point& at_to) {
  return std::atan2(std::hypot(at_to[0] - at_from[0], at_to[1] - at_from[1]), to - from);
}

Point at(const CentroidLine& line, double station) {
  const auto next = std::lower_bound(line.station.begin() + 1, line.station.end() - 1, station);
  const auto i = static_cast<std::size_t>(next - line.station.begin());
  const double part = (station - line.station[i - 1]) / (line.station[i] - line.station[i - 1]);
  return {line.at[i - 1][0] + part * (line.at[i][0] - line.at[i - 1][0]),
          line.at[i - 1][1] + part * (line.at[i][1] - line.at[i - 1][1])};
}

void find_steepest(CentroidLine& line) {
  const double stretch = line.station.back() / 10;
  // A stretch that begins or ends at a given station is the steepest: the line is straight between them.
  for (const double station : line.station)
    for (const double from : {station, station - stretch}) {
      if (from < 0 || from + stretch > line.station.back() * (1 + 1e-12))
        continue;
      const double tilt = tilt_between(from, at(line, from), from + stretch, at(line, from + stretch));
      if (tilt > line.steepest_tilt + same_tilt) {
        line.steepest_tilt = tilt;
        line.steepest_station = from + stretch / 2;
      }
    }
}

} // namespace

std::array<double, 2> centroid_of(const Section& section) {
  if (section.shape == SectionShape::sliced)
    return section.figure.centroid;
  return centroid(outline(section));
}

CentroidLine centroid_line(const Envelope& envelope) {
  CentroidLine line;
  const auto add = [&](const Section& section) {
    line.station.push_back(section.station);
    line.at.push_back(centroid_of(section));
  };
  if (envelope.surface)
    std::for_each(envelope.sections.begin(), envelope.sections.end(), add);
  else
    for (int step = 0; step <= typed_steps; ++step)
      add(section_at(envelope, envelope.length() * step / typed_steps));
  line.tilt = tilt_between(line.station.front(), line.at.front(), line.station.back(), line.at.back());
  find_steepest(line);
  return line;
}

} // namespace crushwright
