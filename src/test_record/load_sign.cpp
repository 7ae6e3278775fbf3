#include "test_record/load_sign.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {

namespace {

// Noise about zero before contact and after the end, over the greatest load.
constexpr double noise_share = 0.01;
// Displacements before contact, over the greatest one.
constexpr double slack_share = 0.05;

struct Signs {
  std::size_t below = 0, above = 0; ///< counts
  double lowest = 0, highest = 0;
  std::size_t first_below = 0; ///< line of the first value below zero, from 1

  bool mostly_below() const { return below > above; }
  bool one_sided(double share) const { return std::min(-lowest, highest) <= share * std::max(-lowest, highest); }
  void see(double value, std::size_t line) {
    if (value < 0 && below++ == 0)
      first_below = line;
    above += value > 0 ? 1U : 0U;
    lowest = std::min(lowest, value);
    highest = std::max(highest, value);
  }
};

double turned(double value) {
  return value == 0 ? 0 : -value; // no negative zero
}

/// A displacement counted from another zero, -10 mm to -5 mm, would run backwards when turned.
void refuse_falling(const TableText& text, const TestRecord& record) {
  const auto greatest = std::max_element(record.points.begin(), record.points.end(),
                                         [](const RecordPoint& a, const RecordPoint& b) { return a.load < b.load; });
  const RecordPoint& first = record.points.front();
  if (first.along > greatest->along && first.load < greatest->load / 2)
    text.fail_at(greatest->line - 1,
                 fmt::format("`{}` is negative and grows towards zero while the load rises; values from zero on were "
                             "expected",
                             record.along_column),
                 "Set its zero to the beginning of the test.");
}

void turn(TestRecord& record, bool along, bool load) {
  for (RecordPoint& point : record.points) {
    point.along = along ? turned(point.along) : point.along;
    point.load = load ? turned(point.load) : point.load;
  }
}

std::string turned_columns(const TestRecord& record, bool along, bool load) {
  if (along && load)
    return fmt::format("`{}` and `{}` are mostly negative; both were", record.along_column, record.load_column);
  return fmt::format("`{}` alone is mostly negative; it was", along ? record.along_column : record.load_column);
}

} // namespace

void turn_signs(const TableText& text, bool compression_is_negative, TestRecord& record) {
  Signs along, load;
  for (const RecordPoint& point : record.points) {
    along.see(point.along, point.line);
    load.see(point.load, point.line);
  }
  const std::size_t first = record.points.front().line;
  if (compression_is_negative) {
    if (!along.mostly_below() || !load.mostly_below())
      text.fail_at(first - 1,
                   fmt::format("compression is stated to be negative, but `{}` is mostly not",
                               along.mostly_below() ? record.load_column : record.along_column),
                   "Leave `compression_is_negative` out, or correct the columns.");
    turn(record, true, true);
    return;
  }
  if (!along.mostly_below() && !load.mostly_below())
    return;
  const bool both = along.mostly_below() && load.mostly_below();
  if (along.mostly_below() && !along.one_sided(slack_share))
    text.fail_at(
        along.first_below - 1,
        fmt::format("`{}` is mostly negative, but also well above zero; one sign was expected", record.along_column),
        "Set its zero to the beginning of the test.");
  if (!both && !load.one_sided(noise_share)) {
    const std::size_t line = along.mostly_below() ? along.first_below : load.first_below;
    text.fail_at(line - 1,
                 fmt::format("`{}` is mostly negative and `{}` is not, and the loads have both signs; one sign was "
                             "expected",
                             along.mostly_below() ? record.along_column : record.load_column,
                             along.mostly_below() ? record.load_column : record.along_column),
                 "Turn the sign of one column, or cut off what does not belong to the test.");
  }
  record.remarks.push_back(fmt::format("line {}: {} turned",
                                       along.mostly_below() ? along.first_below : load.first_below,
                                       turned_columns(record, along.mostly_below(), load.mostly_below())));
  turn(record, along.mostly_below(), load.mostly_below());
  if (along.mostly_below())
    refuse_falling(text, record);
}

} // namespace crushwright
