#include "coupon/specimen_size.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace crushwright {

std::optional<double> cross_section(const SpecimenFacts& facts) {
  if (facts.area) {
    return facts.area;
  }
  if (facts.width && facts.depth) {
    return *facts.width * *facts.depth;
  }
  if (facts.diameter) {
    return std::numbers::pi / 4 * *facts.diameter * *facts.diameter;
  }
  return std::nullopt;
}

std::optional<double> least_width(const SpecimenFacts& facts) {
  if (facts.width && facts.depth) {
    return std::min(*facts.width, *facts.depth);
  }
  if (facts.diameter) {
    return facts.diameter;
  }
  if (facts.width) {
    return facts.width;
  }
  return facts.area ? std::optional(std::sqrt(*facts.area)) : std::nullopt;
}

std::optional<double> envelope_volume(const SpecimenFacts& facts) {
  const std::optional<double> area = cross_section(facts);
  return area && facts.height ? std::optional(*area * *facts.height) : std::nullopt;
}

std::optional<double> strain_rate_of(const SpecimenFacts& facts) {
  if (facts.strain_rate) {
    return facts.strain_rate;
  }
  return facts.speed && facts.height ? std::optional(*facts.speed / *facts.height) : std::nullopt;
}

std::optional<double> weighed_relative_density(const SpecimenFacts& facts, std::optional<double> solid_density) {
  const std::optional<double> volume = envelope_volume(facts);
  if (!facts.mass || !volume || !solid_density) {
    return std::nullopt;
  }
  return *facts.mass / (*volume * *solid_density);
}

} // namespace crushwright
