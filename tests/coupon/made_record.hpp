#pragma once
#include "crushwright/test_record.hpp"

#include <cmath>
#include <string>
#include <utility>
#include <vector>

/// Records made by formula, for tests: a cube of 20 mm, force in N over displacement in m. All numbers are invented.
namespace made_record {

constexpr double edge = 0.020;
constexpr double area = edge * edge;

inline crushwright::SpecimenFacts cube(const std::string& id = "A1") {
  crushwright::SpecimenFacts facts;
  facts.id = id;
  facts.width = edge;
  facts.depth = edge;
  facts.height = edge;
  return facts;
}

/// From pairs of strain and stress; lines count from 2, behind a heading.
inline crushwright::TestRecord of(const std::vector<std::pair<double, double>>& strain_stress) {
  crushwright::TestRecord record;
  record.specimen = cube();
  record.file_name = "made.csv";
  for (const auto& [strain, stress] : strain_stress) {
    record.points.push_back({strain * edge, stress * area, 0, record.points.size() + 2});
  }
  return record;
}

/// Straight rise to 10 MPa at 2 % strain, flat to 60 %, then up; `steps` per percent of strain.
inline double flat(double strain) {
  return strain < 0.02 ? 500e6 * strain : strain < 0.6 ? 10e6 : 10e6 + 200e6 * (strain - 0.6);
}

inline std::vector<std::pair<double, double>> flat_points(int steps = 4, double to = 0.70) {
  std::vector<std::pair<double, double>> points;
  const int last = static_cast<int>(std::lround(to * 100 * steps));
  for (int i = 0; i <= last; ++i) {
    const double strain = i / (100.0 * steps);
    points.emplace_back(strain, flat(strain));
  }
  return points;
}

/// Puts `extra` behind the first point at or after a strain.
inline std::vector<std::pair<double, double>> with_after(std::vector<std::pair<double, double>> points, double strain,
                                                         const std::vector<std::pair<double, double>>& extra) {
  auto at = points.begin();
  while (at->first < strain - 1e-12) {
    ++at;
  }
  points.insert(at + 1, extra.begin(), extra.end());
  return points;
}

} // namespace made_record
