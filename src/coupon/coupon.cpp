#include "crushwright/coupon.hpp"

#include "crushwright/errors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <vector>

namespace crushwright {
namespace {

constexpr double plateau_end_factor = 1.3;
constexpr double gradient_from = 0.2;
constexpr double gradient_to = 0.7;

void check_points(const StressStrain& curve) {
  if (curve.strain.size() != curve.stress.size()) {
    throw OutOfDomain(fmt::format("the curve has {} strains and {} stresses; give one stress for each strain",
                                  curve.strain.size(), curve.stress.size()));
  }
  if (curve.strain.size() < 2) {
    throw OutOfDomain(fmt::format("the curve has {} points; at least 2 are needed", curve.strain.size()));
  }
  for (std::size_t i = 0; i < curve.strain.size(); ++i) {
    if (!std::isfinite(curve.strain[i]) || !std::isfinite(curve.stress[i])) {
      throw OutOfDomain(fmt::format("point {} of the curve is not a number (strain {}, stress {} Pa)", i + 1,
                                    curve.strain[i], curve.stress[i]));
    }
    if (i > 0 && curve.strain[i] <= curve.strain[i - 1]) {
      throw OutOfDomain(fmt::format("strain does not rise at point {} of the curve: {} after {}; cut unloading and "
                                    "repeated readings",
                                    i + 1, curve.strain[i], curve.strain[i - 1]));
    }
  }
  if (curve.strain.front() < 0) {
    throw OutOfDomain(
        fmt::format("the curve starts at strain {}; shift it so that crushing starts at 0", curve.strain.front()));
  }
}

/// A checked curve that starts at zero strain, with the energy up to each point.
struct Polyline {
  explicit Polyline(const StressStrain& curve) {
    check_points(curve);
    strain.reserve(curve.strain.size() + 1);
    stress.reserve(curve.strain.size() + 1);
    if (curve.strain.front() > 0) {
      strain.push_back(0);
      stress.push_back(0);
    }
    strain.insert(strain.end(), curve.strain.begin(), curve.strain.end());
    stress.insert(stress.end(), curve.stress.begin(), curve.stress.end());
    energy.resize(strain.size());
    for (std::size_t i = 1; i < strain.size(); ++i) {
      energy[i] = energy[i - 1] + (strain[i] - strain[i - 1]) * (stress[i] + stress[i - 1]) / 2;
    }
  }

  void must_reach(double at) const {
    if (!(at >= 0 && at <= strain.back())) {
      throw OutOfDomain(fmt::format("strain {} is outside the curve, which goes from 0 to {}", at, strain.back()));
    }
  }

  /// Index of the first point at or after a strain inside the curve.
  std::size_t first_from(double at) const {
    return static_cast<std::size_t>(std::lower_bound(strain.begin(), strain.end(), at) - strain.begin());
  }

  double stress_at(double at) const {
    const std::size_t i = first_from(at);
    if (strain[i] == at) {
      return stress[i];
    }
    return stress[i - 1] + (stress[i] - stress[i - 1]) * (at - strain[i - 1]) / (strain[i] - strain[i - 1]);
  }

  double energy_at(double at) const {
    const std::size_t i = first_from(at);
    if (strain[i] == at) {
      return energy[i];
    }
    return energy[i - 1] + (at - strain[i - 1]) * (stress[i - 1] + stress_at(at)) / 2;
  }

  /// Strain at which the segment that ends at point i passes a stress level between its ends.
  double crossing(std::size_t i, double level) const {
    return strain[i - 1] + (strain[i] - strain[i - 1]) * (level - stress[i - 1]) / (stress[i] - stress[i - 1]);
  }

  std::vector<double> strain;
  std::vector<double> stress;
  std::vector<double> energy;
};

std::optional<double> first_maximum_of(const Polyline& line) {
  double greatest = line.stress.front();
  for (const double stress : line.stress) {
    greatest = std::max(greatest, stress);
    if (greatest > 0 && stress < (1 - first_maximum_fall) * greatest) {
      return greatest;
    }
  }
  return std::nullopt;
}

/// First strain at which the stress comes up to a level that the curve starts below; absent when it never gets there.
std::optional<double> first_rise_to(const Polyline& line, double level) {
  for (std::size_t i = 1; i < line.strain.size(); ++i) {
    if (line.stress[i] >= level) {
      return line.crossing(i, level);
    }
  }
  return std::nullopt;
}

std::optional<double> quasi_elastic_gradient_of(const Polyline& line, double plateau_stress) {
  const double start = line.stress.front();
  const double low = std::max(gradient_from * plateau_stress, start);
  const double high = gradient_to * plateau_stress;
  if (start >= high) {
    return std::nullopt;
  }
  const std::optional<double> from = start < low ? first_rise_to(line, low) : 0.0;
  const std::optional<double> to = first_rise_to(line, high);
  if (!from || !to) {
    return std::nullopt;
  }
  return (high - low) / (*to - *from);
}

std::optional<double> plateau_end_of(const Polyline& line, double plateau_stress, double plateau_to) {
  const double level = plateau_end_factor * plateau_stress;
  const std::size_t next = line.first_from(plateau_to);
  if (line.stress_at(plateau_to) < level) {
    for (std::size_t i = next; i < line.strain.size(); ++i) {
      if (line.stress[i] >= level) {
        return line.crossing(i, level);
      }
    }
    return std::nullopt;
  }
  // The stress is above the level at the window's end but its mean is not, so it came up somewhere before.
  for (std::size_t i = next; i > 0; --i) {
    if (line.stress[i - 1] < level) {
      return line.crossing(i, level);
    }
  }
  return std::nullopt;
}

// On a straight segment W/σ has no inner maximum while σ and W are positive, so points are enough (coupon.md).
void find_efficiency(const Polyline& line, CompressionQuantities& found) {
  found.greatest_efficiency = -std::numeric_limits<double>::infinity();
  const auto offer = [&found](double strain, double stress, double energy) {
    if (!(stress > 0)) {
      throw OutOfDomain(fmt::format("stress at strain {} is {} Pa; from strain {} on it must be positive, so cut the "
                                    "end of the record or correct its zero",
                                    strain, stress, found.plateau_from));
    }
    if (energy / stress > found.greatest_efficiency) {
      found.greatest_efficiency = energy / stress;
      found.efficiency_strain = strain;
      found.energy_to_efficiency_strain = energy;
    }
  };
  offer(found.plateau_from, line.stress_at(found.plateau_from), line.energy_at(found.plateau_from));
  for (std::size_t i = line.first_from(found.plateau_from); i < line.strain.size(); ++i) {
    offer(line.strain[i], line.stress[i], line.energy[i]);
  }
  found.efficiency_still_rising = found.efficiency_strain == line.strain.back();
}

} // namespace

double energy_to(const StressStrain& curve, double strain) {
  const Polyline line(curve);
  line.must_reach(strain);
  return line.energy_at(strain);
}

double energy_absorption_efficiency(const StressStrain& curve, double strain) {
  const Polyline line(curve);
  line.must_reach(strain);
  double greatest = line.stress_at(strain);
  for (std::size_t i = 0; i < line.first_from(strain); ++i) {
    greatest = std::max(greatest, line.stress[i]);
  }
  if (!(strain > 0) || !(greatest > 0)) {
    throw OutOfDomain(
        fmt::format("the energy absorption efficiency needs a strain above 0 and a positive stress up to "
                    "it; strain is {}, greatest stress {} Pa",
                    strain, greatest));
  }
  return line.energy_at(strain) / (greatest * strain);
}

CompressionQuantities reduce_compression_test(const StressStrain& curve, double plateau_from, double plateau_to) {
  const Polyline line(curve);
  if (!(plateau_from >= 0 && plateau_from < plateau_to)) {
    throw OutOfDomain(fmt::format("the plateau goes from strain {} to {}; it must start at 0 or above and end later",
                                  plateau_from, plateau_to));
  }
  line.must_reach(plateau_to);

  CompressionQuantities found;
  found.plateau_from = plateau_from;
  found.plateau_to = plateau_to;
  found.plateau_stress = (line.energy_at(plateau_to) - line.energy_at(plateau_from)) / (plateau_to - plateau_from);
  if (!(found.plateau_stress > 0)) {
    throw OutOfDomain(fmt::format("mean stress between strain {} and {} is {} Pa; compression is positive here",
                                  plateau_from, plateau_to, found.plateau_stress));
  }
  find_efficiency(line, found);
  found.plateau_end = plateau_end_of(line, found.plateau_stress, plateau_to);
  found.first_maximum = first_maximum_of(line);
  found.quasi_elastic_gradient = quasi_elastic_gradient_of(line, found.plateau_stress);
  return found;
}

} // namespace crushwright
