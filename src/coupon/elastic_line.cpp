#include "coupon/elastic_line.hpp"

#include <algorithm>
#include <cmath>

namespace crushwright {

namespace {

constexpr double proof_offset = 0.002;
constexpr double from_share = 0.1, to_share = 0.5; ///< of the proof stress
constexpr std::size_t fewest_points = 5;
constexpr int most_rounds = 20;
constexpr double settled = 1e-6;

/// Least-squares line through the points of the first rise whose stress lies between the two.
std::optional<ElasticLine> line_between(const StressStrain& curve, double low, double high) {
  double count = 0, strain = 0, stress = 0, cross = 0, square = 0;
  for (int pass = 0; pass < 2; ++pass) {
    const double mean_strain = count > 0 ? strain / count : 0, mean_stress = count > 0 ? stress / count : 0;
    for (std::size_t i = 0; i < curve.strain.size() && curve.stress[i] <= high; ++i) {
      if (curve.stress[i] < low) {
        continue;
      }
      if (pass == 0) {
        ++count;
        strain += curve.strain[i];
        stress += curve.stress[i];
      } else {
        cross += (curve.strain[i] - mean_strain) * (curve.stress[i] - mean_stress);
        square += (curve.strain[i] - mean_strain) * (curve.strain[i] - mean_strain);
      }
    }
  }
  if (count < static_cast<double>(fewest_points) || !(square > 0) || !(cross > 0)) {
    return std::nullopt;
  }
  ElasticLine line;
  line.points = static_cast<std::size_t>(count);
  line.modulus = cross / square;
  line.offset = strain / count - stress / count / line.modulus;
  return line;
}

/// First stress at which the curve lies on or right of the offset line.
std::optional<double> proof_stress(const StressStrain& curve, const ElasticLine& line) {
  const auto beyond = [&](std::size_t i) {
    return curve.strain[i] - line.offset - curve.stress[i] / line.modulus - proof_offset;
  };
  for (std::size_t i = 1; i < curve.strain.size(); ++i) {
    const double before = beyond(i - 1), after = beyond(i);
    if (before < 0 && after >= 0) {
      const double share = -before / (after - before);
      return curve.stress[i - 1] + share * (curve.stress[i] - curve.stress[i - 1]);
    }
  }
  return std::nullopt;
}

} // namespace

std::optional<ElasticLine> elastic_line(const StressStrain& curve) {
  const double greatest = *std::max_element(curve.stress.begin(), curve.stress.end());
  double level = 0.6 * greatest;
  std::optional<ElasticLine> line;
  for (int round = 0; round < most_rounds; ++round) {
    line = line_between(curve, from_share * level, to_share * level);
    if (!line) {
      return std::nullopt;
    }
    const std::optional<double> proof = proof_stress(curve, *line);
    if (!proof) {
      return std::nullopt;
    }
    line->proof_stress = *proof;
    if (std::abs(*proof - level) <= settled * greatest) {
      break;
    }
    level = *proof;
  }
  return line;
}

} // namespace crushwright
