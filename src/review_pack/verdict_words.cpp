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
    return "The case states no limit, so nothing can be judged.";
  }
  switch (verdict.word) {
  case Word::pass:
    return all == 1 ? "The one limit holds on the weak, the nominal and the strong side."
                    : fmt::format("All {} limits hold on the weak, the nominal and the strong side.", all);
  case Word::open:
    return fmt::format("No limit fails at nominal, but {} of {} {} not shown to hold on every side.", open, all,
                       open == 1 ? "is" : "are");
  case Word::fail:
    return fmt::format("{} of {} limits {} at nominal{}.", failing, all, failing == 1 ? "fails" : "fail",
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
  const std::string side = same_on_every_side(check) ? "" : fmt::format(" on the {} side", name_of(check.worst_side));
  const std::string nominal =
      check.worst_side == Side::nominal || same_on_every_side(check) || !check.combined.nominal
          ? ""
          : fmt::format(" ({} at nominal)", margin_text(check.nominal_margin));
  return fmt::format("Governing: {}, {} against {}{}; margin {}{}.", limited_thing(check.limit),
                     show(check.worst_value, dimension_of(check.limit.quantity)), limit_text(check.limit), side,
                     margin_text(check.margin), nominal);
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

namespace {

/// " Counted: law 4 % from 5 specimens, factor 4.20; ...": empty when every scatter is taken as known.
std::string counted_sentence(const CrashCase& crash_case, const std::string& scatter_set) {
  std::string text;
  for (const ScatterSet& set : crash_case.scatter_sets) {
    if (set.id != scatter_set) {
      continue;
    }
    const std::pair<const char*, std::pair<const CountedScatter*, const Quantity*>> all[] = {
        {"law", {&set.counted_law, &set.law}},
        {"build", {&set.counted_build, &set.build}},
        {"skin", {&set.counted_skin, &set.skin}},
        {"efficiency strain", {&set.counted_efficiency_strain, &set.efficiency_strain}}};
    for (const auto& [name, scatter] : all) {
      if (scatter.first->specimens > 0) {
        text += fmt::format("{} {} {} from {} specimens (factor {:.2f})", text.empty() ? " Counted:" : ",", name,
                            show(scatter.second->value, Dimension::fraction), scatter.first->specimens,
                            scatter.first->factor);
      }
    }
  }
  return text.empty() ? text
                      : fmt::format("{}, confidence {}.", text, show(crash_case.confidence, Dimension::fraction));
}

} // namespace

std::string scatter_sentence(const CrashCase& crash_case, const std::string& scatter_set) {
  std::string described = scatter_set;
  for (const ScatterSet& set : crash_case.scatter_sets) {
    if (set.id == scatter_set && !set.description.empty()) {
      described += fmt::format(" ({})", set.description);
    }
  }
  return fmt::format("Judged with the scatter set {} at {} one-sided.{}", described,
                     show(crash_case.level, Dimension::fraction), counted_sentence(crash_case, scatter_set));
}

std::vector<OutcomeGroup> grouped_outcomes(const RunOutcome& run) {
  const auto same = [](const StructureOutcome& a, const StructureOutcome& b) {
    return a.peak_crush == b.peak_crush && a.peak_force == b.peak_force && a.usable_stroke == b.usable_stroke &&
           a.reserve == b.reserve && a.bottomed == b.bottomed && a.first_lock_station == b.first_lock_station;
  };
  std::vector<OutcomeGroup> groups;
  for (std::size_t i = 0; i < run.structures.size(); ++i) {
    const StructureOutcome& outcome = run.structures[i];
    const auto known = std::find_if(groups.begin(), groups.end(),
                                    [&](const OutcomeGroup& group) { return same(*group.outcome, outcome); });
    if (known == groups.end()) {
      groups.push_back({outcome.structure, &outcome, i});
    } else {
      known->structures += ", " + outcome.structure;
    }
  }
  return groups;
}

std::vector<std::string> stroke_ends(const Estimate& estimate) {
  std::vector<std::string> sentences;
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    for (const StructureOutcome& outcome : run_on(impact, Side::nominal).structures) {
      const std::string sentence =
          fmt::format("{}: the stroke ends by {}.", outcome.structure, outcome.what_ends_stroke);
      if (std::find(sentences.begin(), sentences.end(), sentence) == sentences.end()) {
        sentences.push_back(sentence);
      }
    }
  }
  return sentences;
}

namespace {

std::string without_tests_sentence(const Verdict& verdict) {
  return verdict.checks.empty()
             ? "Without the measured laws nothing in the catalogue carries this case."
             : fmt::format("Without the measured laws, on published, computed or generic ones: {}. {}",
                           name_of(verdict.word), verdict_sentence(verdict));
}

} // namespace

std::vector<std::string> other_set_sentences(const Estimate& estimate) {
  std::vector<std::string> sentences;
  for (const JudgedSet& set : estimate.others) {
    sentences.push_back(fmt::format("With the scatter set {}: {}. {}", set.scatter_set, name_of(set.verdict.word),
                                    verdict_sentence(set.verdict)));
  }
  if (estimate.without_measured) {
    sentences.push_back(without_tests_sentence(*estimate.without_measured));
  }
  return sentences;
}

std::optional<double> worst_stacked(const Check& check) {
  const SideValues& sides = check.stacked;
  if (!sides.weak || !sides.nominal || !sides.strong) {
    return std::nullopt;
  }
  const auto [least, greatest] = std::minmax({*sides.weak, *sides.nominal, *sides.strong});
  return check.limit.at_most ? greatest : least;
}

std::string stacked_word(const Check& check) {
  return !worst_stacked(check) ? "none" : check.stacked_holds ? "holds" : "misses";
}

std::string stacked_meaning() {
  return "Stacked: every independent scatter at its worst together; shown beside, it does not decide.";
}

bool same_on_every_side(const Check& check) {
  const SideValues& sides = check.combined;
  return sides.nominal && sides.weak == sides.nominal && sides.strong == sides.nominal;
}

bool has_value(const Check& check) {
  return check.combined.weak || check.combined.nominal || check.combined.strong;
}

std::string stroke_sentence(const StructureOutcome& outcome) {
  std::string text = outcome.stroke_left >= 0
                         ? fmt::format("{} of usable stroke left", show(outcome.stroke_left, Dimension::length))
                         : fmt::format("{} beyond the usable stroke", show(-outcome.stroke_left, Dimension::length));
  text += outcome.first_lock_station < 0 ? "; no layer is used up"
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
  return "An estimate for choosing a concept before detailed analysis and tests: crush along one axis, bodies "
         "that do not turn, no override, no injury prediction.";
}

std::string caution_defer() {
  return "It replaces no test and no approval: defer to the regulations in force, the type-approval authority or the "
         "series' scrutineer, a qualified test laboratory and licensed engineers.";
}

} // namespace crushwright
