#pragma once
#include <vector>

namespace crushwright {

/// Uniform samples, the first at time 0; the signal is linear between samples.
struct Signal {
  double step = 0;            ///< [s], > 0
  std::vector<double> values; ///< any unit
};

/// Channel frequency classes of SAE J211-1 and ISO 6487.
enum class ChannelClass { class_60 = 60, class_180 = 180, class_600 = 600, class_1000 = 1000 };

/// Two-pole Butterworth filter run forward and backward, so without phase shift; the ends are padded by at least 10
/// ms of the end values so that they stay sound. docs/method/pulse_metric.md.
/// @throws OutOfDomain when the sampling rate is below ten times the class.
Signal filtered(const Signal& signal, ChannelClass channel_class);

/// Largest value [same unit].
double peak(const Signal& signal);

/// Mean over the signal's whole time [same unit].
double mean_over_time(const Signal& signal);

/// Greatest level that the signal is at or above for a total of `duration`, exact for the polyline (the "3 ms
/// cumulative" value for duration = 0.003 s).
/// @throws OutOfDomain when the signal is shorter than the duration.
double level_exceeded_for(const Signal& signal, double duration);

/// Greatest level that one unbroken stretch of `duration` stays at or above. Errors as above.
double level_exceeded_without_break_for(const Signal& signal, double duration);

/// Total time that the signal is at or above a level [s].
double time_above(const Signal& signal, double level);

} // namespace crushwright
