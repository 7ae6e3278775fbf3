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

/// Greatest mean over any window of `duration`, exact for the polyline [same unit].
/// @throws OutOfDomain when the signal is shorter than the duration.
double greatest_moving_average(const Signal& signal, double duration);

/// Area under a body's acceleration [m/s^2]: its change of speed over the signal [m/s].
double speed_change_by(const Signal& acceleration);

/// Twice integrated: how far a body of this acceleration [m/s^2] is, at the signal's end, behind one that keeps its
/// first speed [m].
double displacement_by(const Signal& acceleration);

/// Ways of an occupant in the body that holds it, as the occupant load criterion takes them (memory) [m].
struct OccupantTravel {
  double free = 0.065;       ///< before the belt holds it, > 0
  double restrained = 0.235; ///< while the belt holds it, > 0
};

/// Occupant load criterion: the constant deceleration [m/s^2] that a belt needs for an occupant who keeps the first
/// speed over the free way, so that after the restrained way occupant and body have one speed. The first such moment
/// counts. Exact for the polyline; after the signal the body keeps its speed, so that a body that has lost any speed
/// has a value, and one that has not has 0. Made for frontal hits with belted occupants; in a rear hit the seat back
/// carries the occupant at once. For comparing pulses, no prediction of injury. docs/method/pulse_metric.md.
/// @param acceleration  magnitude of the body's [m/s^2], from contact to the end.
/// @throws OutOfDomain for a signal without samples.
double occupant_load(const Signal& acceleration, const OccupantTravel& travel = {});

/// Belt of the pulse index; values of ISO/TR 12353-3.
struct BeltSpring {
  double stiffness = 2500; ///< over the occupant's mass [N/m per kg], > 0
  double slack = 0.03;     ///< [m], >= 0
};

/// Pulse index after ISO/TR 12353-3: greatest acceleration [m/s^2] of an occupant's mass on a spring with slack, in a
/// body of this acceleration. In closed form over each straight piece of the polyline, greatest value between samples
/// included; after the signal the body keeps its speed. The spring pulls only. 0 when the slack is never used up. Use
/// and errors as for the occupant load criterion.
double pulse_index(const Signal& acceleration, const BeltSpring& spring = {});

} // namespace crushwright
