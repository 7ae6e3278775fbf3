#include "review_pack/verdict_text.hpp"

#include "quantities/units.hpp"
#include "review_pack/column_text.hpp"
#include "review_pack/html.hpp"
#include "review_pack/packaging_words.hpp"
#include "review_pack/print_words.hpp"
#include "review_pack/text_table.hpp"
#include "review_pack/verdict_words.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr std::size_t columns = 100;

std::string capitals(std::string_view word) {
  std::string text(word);
  for (char& letter : text) {
    letter = static_cast<char>(letter >= 'a' && letter <= 'z' ? letter - 'a' + 'A' : letter);
  }
  return text;
}

std::string number_or_bottomed(const std::optional<double>& value, bool bottomed, LimitedQuantity quantity) {
  const std::string text = value ? show(*value, dimension_of(quantity)) : "none";
  return bottomed ? text + "*" : text;
}

std::vector<std::string> check_row(const Check& check) {
  const Limit& limit = check.limit;
  const SideValues& sides = check.combined;
  return {std::string(name_of(check.word)),
          limit.id,
          limit.impact,
          fmt::format("{} {}", limit.at_most ? "\u2264" : "\u2265",
                      show(limit.value.value, dimension_of(limit.quantity))),
          number_or_bottomed(sides.weak, sides.weak_bottomed, limit.quantity),
          number_or_bottomed(sides.nominal, sides.nominal_bottomed, limit.quantity),
          number_or_bottomed(sides.strong, sides.strong_bottomed, limit.quantity),
          has_value(check) ? margin_text(check.margin) : "none",
          stacked_word(check)};
}

bool any_bottomed(const Verdict& verdict) {
  return std::any_of(verdict.checks.begin(), verdict.checks.end(), [](const Check& check) {
    return check.combined.weak_bottomed || check.combined.nominal_bottomed || check.combined.strong_bottomed;
  });
}

std::string check_lines(const Verdict& verdict) {
  std::vector<std::vector<std::string>> rows = {
      {"", "limit", "impact", "", "weak", "nominal", "strong", "margin", "stacked"}};
  for (const Check& check : verdict.checks) {
    rows.push_back(check_row(check));
  }
  std::string text = "Checks (margin on the side that hurts)\n";
  text += text_table({false, false, false, false, true, true, true, true, false}, rows);
  text += "  " + stacked_meaning() + "\n";
  if (any_bottomed(verdict)) {
    text += "  * bottoms out\n";
  }
  for (const Check& check : verdict.checks) {
    if (!check.note.empty()) {
      text += wrapped(fmt::format("{}: {}", check.limit.id, check.note), columns, 2);
    }
  }
  return text;
}

std::string structure_lines(const Estimate& estimate) {
  std::vector<std::vector<std::string>> rows = {
      {"structure", "mass", "usable stroke", "of length", "energy/mass", "force efficiency"}};
  for (std::size_t i = 0; i < estimate.structures.size(); ++i) {
    const StructureCurves& curves = estimate.deciding.curves.at(i);
    rows.push_back({estimate.structures[i].id, show(estimate.structures[i].mass.total, Dimension::mass),
                    show(curves.usable_stroke, Dimension::length),
                    show(curves.stroke_efficiency, Dimension::fraction),
                    show(curves.specific_energy_absorption, Dimension::specific_energy),
                    show(curves.crush_force_efficiency, Dimension::fraction)});
  }
  return "Structures (nominal)\n" + text_table({false, true, true, true, true, true}, rows);
}

std::string impact_lines(const Estimate& estimate) {
  std::vector<std::vector<std::string>> rows = {
      {"impact", "structure", "energy", "crush", "of stroke", "peak force", "striker", "struck"}};
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    const RunOutcome& run = run_on(impact, Side::nominal);
    for (const OutcomeGroup& group : grouped_outcomes(run)) {
      const StructureOutcome& outcome = *group.outcome;
      rows.push_back({impact.id, group.structures, show(outcome.energy, Dimension::energy),
                      show(outcome.peak_crush, Dimension::length), show(outcome.stroke_used, Dimension::fraction),
                      show(outcome.peak_force, Dimension::force),
                      show(run.striker_peak_acceleration, Dimension::acceleration),
                      show(run.struck_peak_acceleration, Dimension::acceleration)});
    }
  }
  return "Impacts (nominal; used: of the usable stroke; peak accelerations unfiltered)\n" +
         text_table({false, false, true, true, true, true, true, true}, rows);
}

std::string stroke_lines(const Estimate& estimate) {
  std::string text;
  for (const std::string& sentence : stroke_ends(estimate)) {
    text += wrapped(sentence, columns, 2);
  }
  return text;
}

std::string inversion_lines(const Estimate& estimate) {
  std::string text;
  for (const StructureModel& structure : estimate.structures) {
    if (!structure.mirror_of.empty()) {
      continue;
    }
    for (const Inversion& inversion : structure.inversions) {
      text += wrapped(fmt::format("{}: inversion at station {}: it crushes at {}, its outer neighbour at {}",
                                  structure.id, show(inversion.station, Dimension::length),
                                  show(inversion.collapse_force, Dimension::force),
                                  show(inversion.outer_collapse_force, Dimension::force)),
                      columns, 2);
    }
  }
  return text;
}

std::string beyond_lines(const Estimate& estimate) {
  std::vector<std::vector<std::string>> rows = {
      {"impact", "more energy", "missed first", "structure", "stroke left"}};
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    const MoreEnergy& more = impact.more_energy;
    for (const OutcomeGroup& group : grouped_outcomes(run_on(impact, Side::nominal))) {
      rows.push_back({impact.id,
                      fmt::format("+{}: {}", show(more.factor - 1, Dimension::fraction), name_of(more.word)),
                      more.first_limit_missed.empty() ? "none" : more.first_limit_missed, group.structures,
                      show(group.outcome->stroke_left, Dimension::length)});
    }
  }
  return "Beyond a pass (stroke left at nominal, as asked)\n" + text_table({false, false, false, false, true}, rows) +
         stroke_lines(estimate) + inversion_lines(estimate);
}

/// The room of the drawn structures; empty without a block `packaging`.
std::string packaging_text(const Estimate& estimate) {
  std::string text;
  for (const StructureModel& structure : estimate.structures) {
    if (!structure.mirror_of.empty()) {
      continue;
    }
    for (const std::string& line : packaging_lines(estimate, structure)) {
      text += wrapped("- " + line, columns, 2);
    }
  }
  return text.empty() ? text : "\nPackaging\n" + text;
}

/// Printability of the drawn structures; empty without a block `printing`.
std::string print_text(const CrashCase& crash_case, const Estimate& estimate) {
  std::string text;
  for (const StructureModel& structure : estimate.structures) {
    if (!structure.printing || !structure.mirror_of.empty()) {
      continue;
    }
    text += fmt::format("\nPrinting of {}\n", structure.id);
    for (const PrintLine& line : print_lines(crash_case, structure)) {
      const std::string against = line.against.empty() ? "" : fmt::format(" ({})", line.against);
      text += wrapped(fmt::format("- {}: {}{}", line.what, line.value, against), columns, 2);
    }
    text += wrapped(direction_sentence(structure), columns, 0);
    for (const std::string& sentence : split_sentences(structure)) {
      text += wrapped(sentence, columns, 0);
    }
  }
  if (!text.empty()) {
    text += wrapped(caution_printing(), columns, 0) + wrapped(caution_powder(), columns, 0);
  }
  return text;
}

std::string other_sets(const Estimate& estimate) {
  std::string text;
  for (const std::string& sentence : other_set_sentences(estimate)) {
    text += wrapped(sentence, columns, 0);
  }
  return text;
}

} // namespace

std::string verdict_text(const CrashCase& crash_case, const Estimate& estimate) {
  const Verdict& verdict = estimate.deciding.verdict;
  std::string text = fmt::format("{}  {}\n", capitals(name_of(verdict.word)), crash_case.title);
  text += wrapped(verdict_sentence(verdict), columns, 0);
  text += wrapped(governing_sentence(verdict), columns, 0);
  text += wrapped(scatter_sentence(crash_case, estimate.deciding.scatter_set), columns, 0);
  text += other_sets(estimate);
  text += '\n' + check_lines(verdict) + '\n' + structure_lines(estimate) + '\n' + impact_lines(estimate) + '\n' +
          beyond_lines(estimate) + column_text(estimate) + packaging_text(estimate) +
          print_text(crash_case, estimate);
  if (!estimate.warnings.empty()) {
    text += "\nWarnings\n";
    for (const std::string& warning : estimate.warnings) {
      text += wrapped("- " + warning, columns, 2);
    }
  }
  text += '\n' + wrapped(beside_the_verdict(estimate), columns, 0) + wrapped(caution_not_claimed(), columns, 0) +
          wrapped(caution_defer(), columns, 0);
  return text;
}

} // namespace crushwright
