#include "crushwright/packaging.hpp"

#include <algorithm>
#include <cstddef>

namespace crushwright {

CrushedStations::CrushedStations(const std::vector<Layer>& layers, const std::vector<double>& shortenings) {
  const std::size_t count = layers.size();
  stations_.resize(count + 1);
  moved_.resize(count + 1);
  stations_[count] = moved_[count] = layers.back().station + layers.back().height;
  double behind = 0; // what lies between here and the attachment has shortened by that
  for (std::size_t i = count; i-- > 0;) {
    behind += shortenings[i];
    stations_[i] = layers[i].station;
    moved_[i] = layers[i].station + behind;
  }
}

double CrushedStations::at(double station) const {
  const auto next = std::lower_bound(stations_.begin() + 1, stations_.end() - 1, station);
  const auto i = static_cast<std::size_t>(next - stations_.begin());
  // Beyond an end, which rounding alone can reach, all moves with the end.
  if (station <= stations_.front())
    return station + moved_.front() - stations_.front();
  if (station >= stations_.back())
    return station;
  const double part = (station - stations_[i - 1]) / (stations_[i] - stations_[i - 1]);
  return moved_[i - 1] + part * (moved_[i] - moved_[i - 1]);
}

} // namespace crushwright
