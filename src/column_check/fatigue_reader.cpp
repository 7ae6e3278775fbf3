#include "column_check/service_reader.hpp"

#include "yaml_input/spread.hpp"

#include <array>
#include <utility>

namespace crushwright {
namespace {

/// How the file calls the parts, and what their strength is counted in.
struct PartWords {
  const char* part;
  Dimension dimension;
  const char* mean_limit;
};
constexpr std::array<PartWords, 3> parts{{{"skin", Dimension::stress, "mean_stress_limit"},
                                          {"lattice", Dimension::stress, "mean_stress_limit"},
                                          {"root", Dimension::force, "mean_force_limit"}}};

Quantity relied_on(const Mapping& holder, std::string_view key, Dimension dimension) {
  return without_spread(
      holder, key, dimension, Bounds::positive(),
      "Give the value that the design rests on, for instance of 97.7 % survival, alone or with its source.");
}

FatigueStrength read_strength(const PartWords& words, Mapping strength) {
  strength.allow({"amplitude", "cycles", "slope", words.mean_limit, "surface", "source", "standing"});
  FatigueStrength read;
  read.of = words.part;
  read.amplitude = relied_on(strength, "amplitude", words.dimension);
  read.cycles = relied_on(strength, "cycles", Dimension::number);
  read.slope = relied_on(strength, "slope", Dimension::number);
  read.mean_stress_limit.dimension = words.dimension;
  if (strength.has(words.mean_limit))
    read.mean_stress_limit = relied_on(strength, words.mean_limit, words.dimension);
  read.surface = strength.text("surface");
  if (read.amplitude.source.text.empty())
    read.amplitude.source = strength.source();
  if (read.mean_stress_limit.value > 0 && !(read.mean_stress_limit.value > read.amplitude.value))
    strength.fail(words.mean_limit, "the limit of the mean is not above the amplitude",
                  "It is the ultimate strength; check both values and their units.");
  return read;
}

} // namespace

std::vector<FatigueStrength> read_fatigue(const Mapping& root) {
  std::vector<FatigueStrength> strengths;
  std::optional<Mapping> fatigue = root.optional_mapping("fatigue");
  if (!fatigue)
    return strengths;
  fatigue->allow({"skin", "lattice", "root"});
  for (const PartWords& words : parts)
    if (fatigue->has(words.part))
      strengths.push_back(read_strength(words, fatigue->mapping(words.part)));
  return strengths;
}

} // namespace crushwright
