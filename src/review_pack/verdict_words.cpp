#include "review_pack/verdict_words.hpp"

#include "quantities/units.hpp"
#include "review_pack/html.hpp"

#include <algorithm>
#include <stdexcept>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::ptrdiff_t count(const Verdict& verdict, Word word) {
  return std::count_if(verdict.checks.begin(), verdict.checks.end(),
                       [&](const Check& check) { return check.word == word; });
}

} // namespace

std::string verdict_sentence(const Verdict& verdict) {
  const std::size_t all = verdict.checks.size();
  const auto failing = count(verdict, Word::fail), open = count(verdict, Word::open);
  if (all == 0) {
    return "Open: the case states no limit, so nothing can be judged.";
  }
  switch (verdict.word) {
  case Word::pass:
    return all == 1 ? "Pass: the one limit holds on the weak, the nominal and the strong side."
                    : fmt::format("Pass: all {} limits hold on the weak, the nominal and the strong side.", all);
  case Word::open:
    return fmt::format("Open: no limit fails at nominal, but {} of {} {} not shown to hold on every side.", open, all,
                       open == 1 ? "is" : "are");
  case Word::fail:
    return fmt::format("Fail: {} of {} limits {} at nominal{}.", failing, all, failing == 1 ? "fails" : "fail",
                       open == 0 ? "" : fmt::format("; {} more {} open", open, open == 1 ? "is" : "are"));
  }
  return {};
}

std::string governing_sentence(const Verdict& verdict) {
  if (verdict.checks.empty()) {
    return {};
  }
  const Check& check = verdict.checks.at(verdict.governing);
  if (!has_value(check)) {
    return fmt::format("Governing: {}, which could not be computed ({}).", limited_thing(check.limit),
                       check.combined.reason);
  }
  return fmt::format("Governing: {}, {} against {} on the {} side; margin {} ({} at nominal).",
                     limited_thing(check.limit), show(check.worst_value, dimension_of(check.limit.quantity)),
                     limit_text(check.limit), name_of(check.worst_side), margin_text(check.margin),
                     margin_text(check.nominal_margin));
}

std::string limited_thing(const Limit& limit) {
  return limit.impact.empty() ? describe(limit) : fmt::format("{} in {}", describe(limit), limit.impact);
}

std::string limit_text(const Limit& limit) {
  return fmt::format("{} {}", limit.at_most ? "at most" : "at least",
                     show(limit.value.value, dimension_of(limit.quantity)));
}

std::string side_text(const std::optional<double>& value, bool bottomed, LimitedQuantity quantity) {
  const std::string text = value ? show(*value, dimension_of(quantity)) : "none";
  return bottomed ? text + ", bottoms out" : text;
}

std::string scatter_sentence(const CrashCase& crash_case, const std::string& scatter_set) {
  std::string described = scatter_set;
  for (const ScatterSet& set : crash_case.scatter_sets) {
    if (set.id == scatter_set && !set.description.empty()) {
      described += fmt::format(" ({})", set.description);
    }
  }
  return fmt::format("Judged with the scatter set {} at {} one-sided.", described,
                     show(crash_case.level, Dimension::fraction));
}

bool has_value(const Check& check) {
  return check.combined.weak || check.combined.nominal || check.combined.strong;
}

std::string stroke_sentence(const StructureOutcome& outcome) {
  std::string text = outcome.stroke_left >= 0
                         ? fmt::format("{} of usable stroke left", show(outcome.stroke_left, Dimension::length))
                         : fmt::format("{} beyond the usable stroke", show(-outcome.stroke_left, Dimension::length));
  text += fmt::format("; the stroke ends by {}", outcome.what_ends_stroke);
  text += outcome.first_lock_station < 0
              ? "; no layer is used up"
              : fmt::format("; the layer at station {} is used up first",
                            show(outcome.first_lock_station, Dimension::length));
  return text;
}

const RunOutcome& run_on(const ImpactOutcome& impact, Side side) {
  for (const RunOutcome& run : impact.sides) {
    if (run.side == side && !run.stacked) {
      return run;
    }
  }
  throw std::out_of_range(fmt::format("impact {} has no {} run", impact.id, name_of(side)));
}

std::string caution_not_claimed() {
  return "An estimate for choosing a concept before detailed analysis and tests: crush along one axis, the rest of the "
         "vehicle rigid, no override, no injury prediction.";
}

std::string caution_defer() {
  return "It replaces no test and no approval: defer to the regulations in force, the type-approval authority or the "
         "series' scrutineer, a qualified test laboratory and licensed engineers.";
}

} // namespace crushwright
