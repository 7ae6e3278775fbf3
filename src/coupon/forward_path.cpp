#include "coupon/forward_path.hpp"

#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

namespace crushwright {
namespace {

constexpr double loop_fall = 1e-4;      ///< strain that a loop falls by at least [-]
constexpr double loop_depth = 0.3;      ///< share of its stress that it takes off at least [-]
constexpr double least_stress = 0.3;    ///< of the level: below that, depths are measured against this
constexpr double closes_with = 0.5;     ///< share of the left stress with which it must come back [-]
constexpr double largest_jitter = 0.01; ///< [-]
constexpr double gone_for_good = 0.1;   ///< of the greatest stress so far
constexpr double flank = 0.7;           ///< of the point before: part of the fall to the end

/// Samples that do not pass the strain of `leaves`; `returns` is the first that does.
struct Excursion {
  std::size_t leaves = 0, returns = 0;
  double fall = 0;            ///< of strain [-]
  double lowest = 0;          ///< stress [Pa]
  double returned_stress = 0; ///< at the strain left [Pa]
  bool deep = false;          ///< stress taken off as in a loop
};

Excursion excursion_from(const std::vector<TestPoint>& samples, std::size_t leaves, double level) {
  Excursion found;
  found.leaves = leaves;
  const TestPoint& left = samples[leaves];
  double least_strain = left.strain;
  found.lowest = left.stress;
  std::size_t i = leaves + 1;
  for (; i < samples.size() && samples[i].strain <= left.strain; ++i) {
    least_strain = std::min(least_strain, samples[i].strain);
    found.lowest = std::min(found.lowest, samples[i].stress);
  }
  found.returns = i;
  found.fall = left.strain - least_strain;
  found.deep =
      left.stress > 0 && left.stress - found.lowest >= loop_depth * std::max(left.stress, least_stress * level);
  if (i < samples.size()) {
    const TestPoint& before = samples[i - 1];
    const double step = samples[i].strain - before.strain;
    found.returned_stress =
        before.stress + (samples[i].stress - before.stress) * (left.strain - before.strain) / step;
  }
  return found;
}

/// What was merged on the way, for one remark.
struct Merged {
  std::size_t count = 0, first_line = 0, last_line = 0;
  double largest_fall = 0;
  void add(const Excursion& excursion, const std::vector<TestPoint>& samples) {
    first_line = count == 0 ? samples[excursion.leaves + 1].line : first_line;
    last_line = samples[excursion.returns - 1].line;
    count += excursion.returns - excursion.leaves - 1;
    largest_fall = std::max(largest_fall, excursion.fall);
  }
};

void merge(const Excursion& excursion, const std::vector<TestPoint>& samples, TestPoint& kept) {
  if (excursion.deep) {
    return; // a collapse: the mean of its top and its bottom is a stress that was never there
  }
  double sum = 0;
  for (std::size_t i = excursion.leaves; i < excursion.returns; ++i) {
    sum += samples[i].stress;
  }
  kept.stress = sum / static_cast<double>(excursion.returns - excursion.leaves);
}

[[noreturn]] void refuse(const TestRecord& record, const Excursion& excursion,
                         const std::vector<TestPoint>& samples) {
  const TestPoint& left = samples[excursion.leaves];
  const std::size_t back = samples[excursion.returns].line;
  if (excursion.deep) {
    throw InputError(fmt::format("{}: the loop does not close: unloading begins at strain {:.4g}, and line {} is "
                                 "back at that strain with {:.0f} "
                                 "% of the stress; the displacement has shifted, or two tests stand in one record. "
                                 "Split the record, or end it "
                                 "at line {}",
                                 place_in(record, left.line), left.strain, back,
                                 100 * std::max(0.0, excursion.returned_stress / left.stress), left.line));
  }
  throw InputError(fmt::format("{}: strain falls by {:.3g} % up to line {} while the load stays; that is no "
                               "unloading. Put the lines in order, "
                               "or take the wrong ones out",
                               place_in(record, left.line), 100 * excursion.fall, back));
}

UnloadLoop loop_of(const Excursion& excursion, const std::vector<TestPoint>& samples, double level) {
  const TestPoint& left = samples[excursion.leaves];
  UnloadLoop loop;
  loop.strain = left.strain;
  loop.depth = (left.stress - excursion.lowest) / left.stress;
  loop.gradient = loop_gradient(samples, excursion.leaves, excursion.returns, level);
  loop.first_line = left.line;
  loop.last_line = samples[excursion.returns - 1].line;
  return loop;
}

std::string loop_remark(const UnloadLoop& loop) {
  const std::string gradient = loop.gradient > 0 ? fmt::format("elastic gradient {:.4g} MPa", loop.gradient / 1e6)
                                                 : "no elastic gradient from it";
  return fmt::format("{}: unload loop at strain {:.4g}, {:.0f} % of the stress taken off, cut out; {}",
                     lines_text(loop.first_line, loop.last_line), loop.strain, 100 * loop.depth, gradient);
}

/// Mean strain of both branches at one stress; the branches fall to and rise from the lowest sample.
std::optional<double> axis_strain(const std::vector<TestPoint>& samples, std::size_t leaves, std::size_t lowest,
                                  std::size_t returns, double stress) {
  const auto crossing = [&samples, stress](std::size_t i) {
    const TestPoint& a = samples[i - 1];
    const TestPoint& b = samples[i];
    return a.stress == b.stress ? b.strain
                                : a.strain + (b.strain - a.strain) * (stress - a.stress) / (b.stress - a.stress);
  };
  std::optional<double> down;
  for (std::size_t i = leaves + 1; i <= lowest && !down; ++i) {
    if (samples[i].stress <= stress) {
      down = crossing(i);
    }
  }
  std::optional<double> up;
  for (std::size_t i = lowest + 1; i <= returns && i < samples.size() && !up; ++i) {
    if (samples[i].stress >= stress) {
      up = crossing(i);
    }
  }
  return down && up ? std::optional((*down + *up) / 2) : std::nullopt;
}

/// Step 5: the index behind the last sample that stays.
std::size_t end_of_load(const std::vector<TestPoint>& samples) {
  std::vector<double> greatest_after(samples.size() + 1, -HUGE_VAL);
  for (std::size_t i = samples.size(); i > 0; --i) {
    greatest_after[i - 1] = std::max(greatest_after[i], samples[i - 1].stress);
  }
  double greatest = 0;
  std::size_t end = samples.size();
  for (std::size_t i = 0; i < samples.size(); ++i) {
    if (greatest > 0 && greatest_after[i] < gone_for_good * greatest) {
      end = i;
      break;
    }
    greatest = std::max(greatest, samples[i].stress);
  }
  if (end == samples.size()) {
    return end;
  }
  while (end > 1 && samples[end - 1].stress < flank * samples[end - 2].stress) {
    --end;
  }
  return end;
}

void cut_end_of_load(ForwardPath& path) {
  const std::size_t end = end_of_load(path.samples);
  if (end == path.samples.size()) {
    return;
  }
  path.remarks.push_back(fmt::format("{}: the load falls away for good at strain {:.4g}; cut",
                                     lines_text(path.samples[end].line, path.samples.back().line),
                                     path.samples[end - 1].strain));
  path.samples.resize(end);
}

} // namespace

double loop_gradient(const std::vector<TestPoint>& samples, std::size_t leaves, std::size_t returns, double level) {
  std::size_t lowest = leaves;
  double returned = 0;
  for (std::size_t i = leaves; i <= returns && i < samples.size(); ++i) {
    lowest = samples[i].stress < samples[lowest].stress ? i : lowest;
  }
  for (std::size_t i = lowest; i <= returns && i < samples.size(); ++i) {
    returned = std::max(returned, samples[i].stress);
  }
  const double top = std::min(samples[leaves].stress, returned);
  const double bottom = samples[lowest].stress;
  const double reference = bottom < 0.7 * level ? level : samples[leaves].stress;
  const double high = std::min(0.7 * reference, top);
  const double low = std::max(0.2 * reference, bottom);
  if (high - low < 0.1 * reference) {
    return 0;
  }
  const std::optional<double> strain_high = axis_strain(samples, leaves, lowest, returns, high);
  const std::optional<double> strain_low = axis_strain(samples, leaves, lowest, returns, low);
  if (!strain_high || !strain_low || !(*strain_high > *strain_low)) {
    return 0;
  }
  return (high - low) / (*strain_high - *strain_low);
}

ForwardPath forward_path(const TestRecord& record, const std::vector<TestPoint>& samples, double level) {
  ForwardPath path;
  path.samples.reserve(samples.size());
  path.samples.push_back(samples.front());
  Merged merged;
  for (std::size_t i = 1; i < samples.size();) {
    if (samples[i].strain > path.samples.back().strain) {
      path.samples.push_back(samples[i++]);
      continue;
    }
    const Excursion excursion = excursion_from(samples, i - 1, level);
    i = excursion.returns;
    if (i == samples.size()) {
      if (excursion.deep || excursion.fall >= loop_fall) {
        path.remarks.push_back(fmt::format("{}: the load is taken off at strain {:.4g} and the record ends; cut",
                                           lines_text(samples[excursion.leaves + 1].line, samples.back().line),
                                           samples[excursion.leaves].strain));
      } else {
        merged.add(excursion, samples);
      }
      break;
    }
    const bool closes = excursion.returned_stress >= closes_with * samples[excursion.leaves].stress;
    if (excursion.deep && closes && excursion.fall >= loop_fall) {
      path.loops.push_back(loop_of(excursion, samples, level));
      path.remarks.push_back(loop_remark(path.loops.back()));
    } else if (excursion.fall >= largest_jitter) {
      refuse(record, excursion, samples);
    } else {
      merge(excursion, samples, path.samples.back());
      merged.add(excursion, samples);
    }
  }
  if (merged.count > 0) {
    path.remarks.push_back(fmt::format("{}: {} {} not go on, strain falling by up to {:.2g}; merged with {}",
                                       lines_text(merged.first_line, merged.last_line), merged.count,
                                       merged.count == 1 ? "reading does" : "readings do", merged.largest_fall,
                                       merged.count == 1 ? "the one before it" : "the ones before them"));
  }
  cut_end_of_load(path);
  return path;
}

} // namespace crushwright
