#pragma once
#include "crushwright/cell_curve.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// A curve as samples: x rising.
struct SampledCurve {
  std::vector<double> x;
  std::vector<double> y;
};

/// A drop test known only by its accelerometer.
struct DropRecord {
  std::vector<double> time;            ///< [s], rising
  std::vector<double> acceleration;    ///< of the falling mass [m/s^2], positive against the fall, 0 while it falls
  double mass = 0;                     ///< [kg], > 0
  std::optional<double> drop_height;   ///< [m], > 0
  std::optional<double> impact_speed;  ///< measured [m/s], > 0; either this or the height must be there
  std::optional<double> lasting_crush; ///< of the specimen, measured after the test [m], > 0
  double gravity = 9.80665;            ///< [m/s^2], >= 0
};

/// What such a record gives; docs/method/drop_test.md.
struct DropTest {
  double bias = 0;           ///< taken off, from the quiet stretch before contact [m/s^2]
  double contact_time = 0;   ///< [s]
  double impact_speed = 0;   ///< used [m/s]
  SampledCurve force;        ///< force on the specimen [N] over crush [m], up to the greatest crush
  double greatest_crush = 0; ///< [m]
  double rebound_speed = 0;  ///< where the force has gone [m/s]; 0 when the record ends before
  double lasting_crush = 0;  ///< where the force has gone [m]; the greatest crush when the record ends before
  double absorbed = 0;       ///< ∫ F dx to the greatest crush [J]
  double energy_in = 0;      ///< kinetic energy plus gravity's work over that crush [J]
  double energy_left = 0;    ///< kinetic, at the greatest crush: not 0 only when the record ends in motion [J]
  double closure = 0;        ///< (absorbed + energy_left) / energy_in - 1 [-]: checks the integration alone
  std::optional<double> crush_closure; ///< lasting crush over the measured one, - 1 [-]: checks the record
  std::optional<double> closing_bias;  ///< further bias that would close it [m/s^2]
  std::vector<std::string> warnings;
};

/// @throws OutOfDomain for fewer than 20 samples, times that do not rise, no contact, no mass, neither height nor
///         speed.
DropTest reduced_drop(const DropRecord& record);

/// Rating of two curves after the scheme of ISO/TS 18571 (corridor, phase, magnitude, slope), each 0 to 1; the parts
/// and weights as far as they can be read or recalled, said in docs/method/correlation.md.
struct CurveRating {
  double corridor = 0, phase = 0, magnitude = 0, slope = 0;
  double overall = 0;
  std::string word; ///< the standard's word for the range it lies in
};

/// Predicted against measured.
struct Correlation {
  SampledCurve predicted, measured;    ///< on one grid, both filtered alike
  double from = 0, to = 0;             ///< range of x in both
  std::optional<double> plateau_error; ///< predicted over measured mean load between the window's ends, - 1 [-]
  double energy_error = 0;             ///< area up to `to` [-]
  double peak_error = 0;               ///< [-]
  double normalised_error = 0;         ///< sqrt(∫(p-m)²)/sqrt(∫m²) [-]
  double cross_correlation = 0;        ///< greatest normalised cross-correlation over shifts [-]
  double shift = 0;                    ///< at which it stands [x]
  CurveRating rating;
  std::vector<std::string> warnings;
};

struct CorrelationOptions {
  std::optional<double> plateau_from, plateau_to; ///< [x]
  std::optional<double> filter_width;             ///< moving mean over x [x], for both alike; absent: none
  std::size_t samples = 1000;
};

/// @throws OutOfDomain when the ranges of x overlap by less than a tenth of the measured range, or curves are not as
///         stated.
Correlation correlate(const SampledCurve& predicted, const SampledCurve& measured,
                      const CorrelationOptions& options = {});

} // namespace crushwright
