#include "crushwright/packaging.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

namespace crushwright {

namespace {

/// An even ramp is as steep everywhere but for rounding; the first place is named [rad].
constexpr double same_angle = 1e-9;

/// How far a section reaches to one side.
double reach_of(const Section& section, FlowFace face, double outer_side) {
  const std::size_t axis = face == FlowFace::lower || face == FlowFace::upper ? 1 : 0;
  const double sign = face == FlowFace::lower   ? -1
                      : face == FlowFace::upper ? 1
                      : face == FlowFace::outer ? outer_side
                                                : -outer_side;
  double reach = -std::numeric_limits<double>::infinity();
  const auto hold = [&](const std::vector<std::array<double, 2>>& loop) {
    for (const auto& point : loop)
      reach = std::max(reach, sign * point[axis]);
  };
  if (section.shape == SectionShape::sliced)
    std::for_each(section.figure.loops->begin(), section.figure.loops->end(), hold);
  else
    hold(outline(section));
  return reach;
}

double reach_at(const RampProfile& profile, double station) {
  const auto next = std::lower_bound(profile.station.begin() + 1, profile.station.end() - 1, station);
  const auto i = static_cast<std::size_t>(next - profile.station.begin());
  const double part = (station - profile.station[i - 1]) / (profile.station[i] - profile.station[i - 1]);
  return profile.reach[i - 1] + part * (profile.reach[i] - profile.reach[i - 1]);
}

double angle_between(const RampProfile& profile, double from, double to) {
  return std::atan2(reach_at(profile, to) - reach_at(profile, from), to - from);
}

} // namespace

RampProfile ramp_profile(const Envelope& envelope, FlowFace face, double outer_side, double ramp_length, int steps) {
  RampProfile profile;
  profile.face = face;
  const double length = envelope.length();
  const auto add = [&](const Section& section) {
    profile.station.push_back(section.station);
    profile.reach.push_back(reach_of(section, face, outer_side));
  };
  // Of a sliced body the cuts themselves: between them the loops stand still.
  if (envelope.surface)
    std::for_each(envelope.sections.begin(), envelope.sections.end(), add);
  else
    for (int step = 0; step <= steps; ++step)
      add(section_at(envelope, length * step / steps));
  for (const double station : profile.station)
    profile.angle.push_back(angle_between(profile, std::max(0.0, station - ramp_length / 2),
                                          std::min(length, station + ramp_length / 2)));
  profile.steepest = -std::numeric_limits<double>::infinity();
  // The reach is straight between stations, so the steepest length begins or ends at one.
  for (const double station : profile.station)
    for (const double from : {station, station - ramp_length}) {
      if (from < 0 || from + ramp_length > length * (1 + 1e-12))
        continue;
      const double angle = angle_between(profile, from, from + ramp_length);
      if (angle > profile.steepest + same_angle) {
        profile.steepest = angle;
        profile.from = from;
      }
    }
  return profile;
}

} // namespace crushwright
