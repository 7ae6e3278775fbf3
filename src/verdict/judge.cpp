#include "crushwright/verdict.hpp"

#include "quantities/units.hpp"

#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace crushwright {
namespace {

/// What is left to the limit over the limit; positive holds. A limit of zero is measured on the value itself.
double margin_of(const Limit& limit, double value) {
  const double bound = limit.value.value;
  const double left = limit.at_most ? bound - value : value - bound;
  return std::abs(bound) > 0 ? left / std::abs(bound) : left;
}

bool holds(const Limit& limit, const std::optional<double>& value) {
  return value && margin_of(limit, *value) >= 0;
}

/// How far a limit is missed, for a sentence: a share of the limit, or the amount itself past a limit of zero.
std::string missed_by(const Limit& limit, double margin) {
  return std::abs(limit.value.value) > 0 ? fmt::format("{:.1f} %", -100 * margin)
                                         : show(-margin, dimension_of(limit.quantity));
}

struct SideValue {
  Side side;
  const std::optional<double>* value;
  bool bottomed;
};

std::string sentence(const Check& check, const SideValues& values) {
  const bool bottomed = (check.worst_side == Side::weak && values.weak_bottomed) ||
                        (check.worst_side == Side::nominal && values.nominal_bottomed) ||
                        (check.worst_side == Side::strong && values.strong_bottomed);
  const std::string with_bottoming = bottomed ? ", where the structure bottoms out" : "";
  switch (check.word) {
  case Word::pass:
    return "";
  case Word::fail:
    return fmt::format("missed at nominal by {}; worst on the {} side{}",
                       missed_by(check.limit, check.nominal_margin), name_of(check.worst_side), with_bottoming);
  case Word::open:
    return fmt::format("holds at nominal, missed by {} on the {} side{}", missed_by(check.limit, check.margin),
                       name_of(check.worst_side), with_bottoming);
  }
  return "";
}

int rank(Word word) {
  return word == Word::fail ? 2 : word == Word::open ? 1 : 0;
}

} // namespace

Check judge(const Limit& limit, const SideValues& combined, const SideValues& stacked) {
  Check check;
  check.limit = limit;
  check.combined = combined;
  check.stacked = stacked;
  if (combined.missed) {
    check.word = Word::fail;
    check.margin = check.nominal_margin = -1;
    check.note = combined.reason;
    return check;
  }
  if (!combined.weak || !combined.nominal || !combined.strong) {
    check.word = Word::open;
    check.margin = check.nominal_margin = 0;
    check.note = combined.reason.empty() ? "could not be had" : combined.reason;
    return check;
  }
  check.nominal_margin = margin_of(limit, *combined.nominal);
  check.margin = std::numeric_limits<double>::infinity();
  for (const SideValue& each : {SideValue{Side::nominal, &combined.nominal, combined.nominal_bottomed},
                                SideValue{Side::weak, &combined.weak, combined.weak_bottomed},
                                SideValue{Side::strong, &combined.strong, combined.strong_bottomed}}) {
    const double margin = margin_of(limit, **each.value);
    if (margin < check.margin) {
      check.margin = margin;
      check.worst_side = each.side;
      check.worst_value = **each.value;
    }
  }
  check.word = check.nominal_margin < 0 ? Word::fail : check.margin < 0 ? Word::open : Word::pass;
  check.stacked_holds = holds(limit, stacked.weak) && holds(limit, stacked.nominal) && holds(limit, stacked.strong);
  check.note = sentence(check, combined);
  return check;
}

Verdict conclude(std::vector<Check> checks) {
  Verdict verdict;
  verdict.checks = std::move(checks);
  if (verdict.checks.empty())
    return verdict;
  verdict.word = Word::pass;
  for (std::size_t i = 0; i < verdict.checks.size(); ++i) {
    const Check& check = verdict.checks[i];
    const Check& governing = verdict.checks[verdict.governing];
    const bool worse =
        rank(check.word) > rank(governing.word) || (check.word == governing.word && check.margin < governing.margin);
    if (i == 0 || worse)
      verdict.governing = i;
  }
  verdict.word = verdict.checks[verdict.governing].word;
  return verdict;
}

} // namespace crushwright
