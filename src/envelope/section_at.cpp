#include "crushwright/envelope.hpp"
#include "crushwright/errors.hpp"
#include "envelope/section_between.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace crushwright {

Section section_at(const Envelope& envelope, double station) {
  constexpr double rounding = 1e-9; // sums of layer thicknesses end a few digits beside the length
  const double length = envelope.length();
  if (!(station >= -rounding * length && station <= length * (1 + rounding)))
    throw OutOfDomain(fmt::format(
        "a section was asked for at station {:g} m of an envelope that runs from 0 to {:g} m", station, length));
  const auto farther = std::lower_bound(envelope.sections.begin() + 1, envelope.sections.end() - 1, station,
                                        [](const Section& section, double at) { return section.station < at; });
  const Section& nearer = *(farther - 1);
  const double part = (station - nearer.station) / (farther->station - nearer.station);
  Section section = section_between(nearer, *farther, std::clamp(part, 0.0, 1.0));
  section.station = std::clamp(station, 0.0, length);
  return section;
}

} // namespace crushwright
