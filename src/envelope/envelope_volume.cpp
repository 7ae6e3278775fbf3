#include "crushwright/envelope.hpp"

namespace crushwright {

double volume_of(const Envelope& envelope) {
  double volume = 0;
  for (std::size_t i = 1; i < envelope.sections.size(); ++i) {
    const Section& nearer = envelope.sections[i - 1];
    const Section& farther = envelope.sections[i];
    const bool three_cuts = envelope.surface != nullptr; // the next cut lies half way to the one after
    if (three_cuts && i + 1 >= envelope.sections.size())
      break;
    const Section& end = three_cuts ? envelope.sections[++i] : farther;
    const double middle = 0.5 * (nearer.station + end.station);
    volume +=
        (end.station - nearer.station) / 6 *
        (properties_of(nearer).area + 4 * properties_of(section_at(envelope, middle)).area + properties_of(end).area);
  }
  return volume;
}

} // namespace crushwright
