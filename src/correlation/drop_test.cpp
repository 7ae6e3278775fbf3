#include "correlation/common_grid.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr std::size_t fewest_samples = 20;
constexpr double contact_level = 0.05;   ///< of the greatest reading
constexpr double quiet_level = 0.02;     ///< of the record's range
constexpr double speed_agreement = 0.03; ///< between height and measured speed
constexpr double crush_agreement = 0.05; ///< between record and specimen
constexpr double widest_bias = 0.05;     ///< of the greatest reading
constexpr std::size_t fewest_quiet = 5;

using Series = std::vector<double>;

void require(bool holds, const std::string& what) {
  if (!holds) {
    throw OutOfDomain(what);
  }
}

void require_record(const DropRecord& record) {
  require_curve({record.time, record.acceleration}, "acceleration");
  require(record.time.size() >= fewest_samples,
          fmt::format("the record has {} samples; {} or more are needed", record.time.size(), fewest_samples));
  require(record.mass > 0 && std::isfinite(record.mass), fmt::format("the falling mass is {} kg", record.mass));
  require(record.gravity >= 0, fmt::format("gravity is {} m/s^2", record.gravity));
  require(record.drop_height || record.impact_speed, "neither the drop height nor the impact speed is stated");
  require(!record.drop_height || *record.drop_height > 0, "the drop height is not above 0");
  require(!record.impact_speed || *record.impact_speed > 0, "the impact speed is not above 0");
  require(!record.lasting_crush || *record.lasting_crush > 0, "the measured crush is not above 0");
}

/// Samples before the reading first leaves the level of the start: by 2 % of the record's range, and by 5 times the
/// scatter seen so far.
std::size_t quiet_count(const Series& reading) {
  const auto [low, high] = std::minmax_element(reading.begin(), reading.end());
  const double step = quiet_level * (*high - *low);
  double sum = 0, squares = 0;
  for (std::size_t i = 0; i < reading.size(); ++i) {
    const auto count = static_cast<double>(i);
    if (i >= fewest_quiet) {
      const double mean = sum / count;
      const double scatter = std::sqrt(std::max(0.0, squares / count - mean * mean));
      if (std::abs(reading[i] - mean) > std::max(step, 5 * scatter)) {
        return i;
      }
    }
    sum += reading[i];
    squares += reading[i] * reading[i];
  }
  return reading.size();
}

double mean_of_first(const Series& values, std::size_t count) {
  double sum = 0;
  for (std::size_t i = 0; i < count; ++i) {
    sum += values[i];
  }
  return count > 0 ? sum / static_cast<double>(count) : 0;
}

Series less(const Series& values, double bias) {
  Series result = values;
  for (double& value : result) {
    value -= bias;
  }
  return result;
}

/// Last sample at or below 0 before the reading passes 5 % of its greatest value.
std::size_t contact_index(const Series& reading) {
  const double greatest = *std::max_element(reading.begin(), reading.end());
  require(greatest > 0, "the record shows no push against the fall: is its sign right?");
  std::size_t i = 0;
  while (reading[i] < contact_level * greatest) {
    ++i;
  }
  while (i > 0 && reading[i] > 0) {
    --i;
  }
  return i;
}

/// Motion of the mass from contact on; each series has one value a sample.
struct Fall {
  Series time, reading, speed, crush;
  std::size_t stop = 0;  ///< last sample before the mass stands still, or the last one
  double stop_share = 0; ///< of the step after it, at which it stands still
  bool stops = false;
};

double speed_after(double speed, double reading, double slope, double gravity, double time) {
  return speed + (gravity - reading) * time - 0.5 * slope * time * time;
}

double travel_after(double speed, double reading, double slope, double gravity, double time) {
  return speed * time + 0.5 * (gravity - reading) * time * time - slope * time * time * time / 6;
}

/// Share of a step at which a speed that changes its sign inside it is 0, by bisection.
double share_at_rest(double speed, double reading, double slope, double gravity, double step) {
  double low = 0, high = 1;
  for (int n = 0; n < 60; ++n) {
    const double middle = 0.5 * (low + high);
    (speed_after(speed, reading, slope, gravity, middle * step) > 0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

Fall fall_of(const Series& time, const Series& reading, std::size_t contact, double speed, double gravity) {
  Fall fall;
  const auto first = static_cast<std::ptrdiff_t>(contact);
  fall.time.assign(time.begin() + first, time.end());
  fall.reading.assign(reading.begin() + first, reading.end());
  fall.speed.push_back(speed);
  fall.crush.push_back(0);
  for (std::size_t i = 0; i + 1 < fall.time.size(); ++i) {
    const double step = fall.time[i + 1] - fall.time[i];
    const double slope = (fall.reading[i + 1] - fall.reading[i]) / step;
    const double now = fall.speed[i], a = fall.reading[i];
    fall.speed.push_back(speed_after(now, a, slope, gravity, step));
    fall.crush.push_back(fall.crush[i] + travel_after(now, a, slope, gravity, step));
    if (!fall.stops && now > 0 && fall.speed.back() <= 0) {
      fall.stops = true;
      fall.stop = i;
      fall.stop_share = share_at_rest(now, a, slope, gravity, step);
    }
  }
  if (!fall.stops) {
    fall.stop = fall.time.size() - 1;
  }
  return fall;
}

/// First sample after the stop at which the push has gone; the last one when it never goes.
std::size_t parting(const Fall& fall) {
  for (std::size_t i = fall.stop + 1; i < fall.reading.size(); ++i) {
    if (fall.reading[i] <= 0) {
      return i;
    }
  }
  return fall.reading.size() - 1;
}

double lasting_crush(const Fall& fall) {
  return fall.crush[fall.stops ? parting(fall) : fall.stop];
}

/// ∫ F dx over a step of length `time`: force linear in time, speed quadratic, so Simpson's rule on their product
/// (a cubic) is exact.
double work_over(const Fall& fall, std::size_t i, double time, double mass, double gravity) {
  const double step = fall.time[i + 1] - fall.time[i];
  const double slope = (fall.reading[i + 1] - fall.reading[i]) / step;
  const auto power = [&](double t) {
    return (fall.reading[i] + slope * t) * speed_after(fall.speed[i], fall.reading[i], slope, gravity, t);
  };
  return mass * time / 6 * (power(0) + 4 * power(0.5 * time) + power(time));
}

double speed_used(const DropRecord& record, DropTest& test) {
  if (!record.impact_speed) {
    return std::sqrt(2 * record.gravity * *record.drop_height);
  }
  if (record.drop_height) {
    const double free = std::sqrt(2 * record.gravity * *record.drop_height);
    if (std::abs(*record.impact_speed / free - 1) > speed_agreement) {
      test.warnings.push_back(
          fmt::format("the measured speed of {:.4g} m/s is not that of a free fall from the stated "
                      "height, {:.4g} m/s: friction of the guide, or a wrong height",
                      *record.impact_speed, free));
    }
  }
  return *record.impact_speed;
}

void add_force_curve(const Fall& fall, double mass, DropTest& test) {
  const auto add = [&](double crush, double reading) {
    if (test.force.x.empty() || crush > test.force.x.back()) {
      test.force.x.push_back(crush);
      test.force.y.push_back(mass * reading);
    }
  };
  for (std::size_t i = 0; i <= fall.stop; ++i) {
    add(fall.crush[i], fall.reading[i]);
  }
  if (fall.stops) {
    add(test.greatest_crush,
        fall.reading[fall.stop] + fall.stop_share * (fall.reading[fall.stop + 1] - fall.reading[fall.stop]));
  }
}

void add_energy(const Fall& fall, const DropRecord& record, DropTest& test) {
  for (std::size_t i = 0; i < fall.stop; ++i) {
    test.absorbed += work_over(fall, i, fall.time[i + 1] - fall.time[i], record.mass, record.gravity);
  }
  test.greatest_crush = fall.crush[fall.stop];
  double speed = fall.speed[fall.stop];
  if (fall.stops) {
    const std::size_t i = fall.stop;
    const double step = fall.time[i + 1] - fall.time[i], time = fall.stop_share * step;
    const double slope = (fall.reading[i + 1] - fall.reading[i]) / step;
    test.absorbed += work_over(fall, i, time, record.mass, record.gravity);
    test.greatest_crush += travel_after(fall.speed[i], fall.reading[i], slope, record.gravity, time);
    speed = 0;
  }
  test.energy_in =
      0.5 * record.mass * test.impact_speed * test.impact_speed + record.mass * record.gravity * test.greatest_crush;
  test.energy_left = 0.5 * record.mass * speed * speed;
  test.closure = (test.absorbed + test.energy_left) / test.energy_in - 1;
}

/// Lasting crush of the record if its readings were lower by a further bias.
double crush_with(const DropRecord& record, const Series& reading, std::size_t contact, double speed, double bias) {
  return lasting_crush(fall_of(record.time, less(reading, bias), contact, speed, record.gravity));
}

/// A higher bias is taken off: the mass is slowed less and crushes farther, so the crush rises with it.
std::optional<double> closing_bias(const DropRecord& record, const Series& reading, std::size_t contact,
                                   double speed) {
  const double reach = widest_bias * *std::max_element(reading.begin(), reading.end());
  const auto gap = [&](double bias) {
    return crush_with(record, reading, contact, speed, bias) - *record.lasting_crush;
  };
  double low = -reach, high = reach;
  if (gap(low) > 0 || gap(high) < 0) {
    return std::nullopt;
  }
  for (int n = 0; n < 50; ++n) {
    const double middle = 0.5 * (low + high);
    (gap(middle) < 0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

void add_crush_closure(const DropRecord& record, const Series& reading, std::size_t contact, DropTest& test) {
  if (!record.lasting_crush) {
    test.warnings.emplace_back(
        "nothing but the record itself tells whether it is right: measure the specimen after the "
        "test and state its lasting crush");
    return;
  }
  test.crush_closure = test.lasting_crush / *record.lasting_crush - 1;
  test.closing_bias = closing_bias(record, reading, contact, test.impact_speed);
  if (std::abs(*test.crush_closure) > crush_agreement) {
    test.warnings.push_back(fmt::format("the record's lasting crush of {:.4g} mm misses the measured {:.4g} mm by "
                                        "{:+.1f} %: bias, a wrong speed, or a specimen that slid",
                                        1e3 * test.lasting_crush, 1e3 * *record.lasting_crush,
                                        100 * *test.crush_closure));
  }
}

} // namespace

DropTest reduced_drop(const DropRecord& record) {
  require_record(record);
  DropTest test;
  const std::size_t quiet = quiet_count(record.acceleration);
  require(quiet < record.time.size(), "the record never leaves its level at the start: no contact in it");
  if (quiet <= fewest_quiet) {
    test.warnings.emplace_back("no quiet stretch before contact: no bias is taken off");
  } else {
    // The first half: where a slow rise leaves the quiet level is not known to a sample.
    test.bias = mean_of_first(record.acceleration, quiet / 2);
  }
  const Series reading = less(record.acceleration, test.bias);
  const std::size_t contact = contact_index(reading);
  test.contact_time = record.time[contact];
  test.impact_speed = speed_used(record, test);
  const Fall fall = fall_of(record.time, reading, contact, test.impact_speed, record.gravity);
  add_energy(fall, record, test);
  add_force_curve(fall, record.mass, test);
  test.lasting_crush = fall.stops ? lasting_crush(fall) : test.greatest_crush;
  if (fall.stops && fall.reading[parting(fall)] <= 0) {
    test.rebound_speed = -fall.speed[parting(fall)];
  } else if (fall.stops) {
    test.lasting_crush = test.greatest_crush;
    test.warnings.emplace_back(
        "the record ends before the specimen lets go: rebound and lasting crush are not known");
  } else {
    test.warnings.push_back(
        fmt::format("the record ends while the mass still moves at {:.3g} m/s: the greatest crush is "
                    "not in it",
                    fall.speed.back()));
  }
  add_crush_closure(record, reading, contact, test);
  return test;
}

} // namespace crushwright
