#pragma once
#include "crushwright/test_record.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// One sample as stress and strain, with its line in the file.
struct TestPoint {
  double strain = 0, stress = 0;
  std::size_t line = 0;
};

/// Stress and strain of every point of a record, in its order, both upwards.
struct TestCurve {
  std::vector<TestPoint> samples;
  double machine_modulus = 0; ///< stress over strain of the machine alone, h/(cA) [Pa]; 0: stiff or not stated
  std::vector<std::string> remarks;
};

/// @throws InputError when area or height is missing or not positive, or fewer than ten points are there.
TestCurve test_curve(const TestRecord& record);

/// The stress that thresholds are set against [Pa]: mean from 20 to 40 % strain past contact along the way forward,
/// else the greatest stress. Contact is the first point of 2 % of the greatest stress.
double stress_level(const std::vector<TestPoint>& samples);

/// "tests.csv:12" or, without a line, "tests.csv", then the specimen: the start of every message on a record.
std::string place_in(const TestRecord& record, std::size_t line = 0);

/// "line 7" or "lines 7 to 12".
std::string lines_text(std::size_t first, std::size_t last);

} // namespace crushwright
