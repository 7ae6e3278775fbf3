#pragma once
#include "crushwright/pulse_metric.hpp"

#include <algorithm>
#include <cstddef>

namespace crushwright {

/// Step of the signals of a resolved run [s].
inline constexpr double resolved_sampling_step = 1e-5;

/// Samples a force as its mean over one sampling step around each sample, so that nothing is folded down from above
/// and the impulse is kept.
class MeanRecorder {
public:
  /// The force runs linearly from one value to the other over a step that begins at `time`.
  void add(double time, double step, double from, double to) {
    const double end = time + step;
    double at = time, value = from;
    while (at < end) {
      const auto bin = static_cast<std::size_t>(std::max(0.0, at / resolved_sampling_step + 0.5));
      const double edge = (static_cast<double>(bin) + 0.5) * resolved_sampling_step;
      const double stop = edge <= at ? end : std::min(end, edge);
      const double reached = from + (to - from) * (stop - time) / step;
      if (bin >= signal_.values.size())
        signal_.values.resize(bin + 1, 0.0);
      // The first bin is only half a step wide.
      signal_.values[bin] += 0.5 * (value + reached) * (stop - at) / resolved_sampling_step * (bin == 0 ? 2 : 1);
      at = stop;
      value = reached;
    }
  }
  const Signal& signal() const { return signal_; }

private:
  Signal signal_{resolved_sampling_step, {}};
};

} // namespace crushwright
