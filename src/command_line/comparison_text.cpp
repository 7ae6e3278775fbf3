#include "command_line/comparison_text.hpp"

#include "command_line/candidate_table.hpp"
#include "quantities/units.hpp"
#include "review_pack/html.hpp"
#include "review_pack/text_table.hpp"
#include "review_pack/verdict_words.hpp"

#include <fmt/format.h>

namespace crushwright {

namespace {

const Candidate* lightest_pass(const std::vector<Candidate>& candidates) {
  const Candidate* lightest = nullptr;
  for (const Candidate& candidate : candidates) {
    if (candidate.feasible && (lightest == nullptr || candidate.mass < lightest->mass)) {
      lightest = &candidate;
    }
  }
  return lightest;
}

const Candidate* nearest_miss(const std::vector<Candidate>& candidates) {
  const Candidate* nearest = nullptr;
  for (const Candidate& candidate : candidates) {
    if (candidate.mass > 0 && (nearest == nullptr || candidate.governing_margin > nearest->governing_margin)) {
      nearest = &candidate;
    }
  }
  return nearest;
}

std::vector<Candidate> with_lattice(const ComparisonResult& comparison) {
  std::vector<Candidate> all = comparison.sized;
  all.insert(all.end(), comparison.fixed.begin(), comparison.fixed.end());
  return all;
}

std::string named(const Candidate& candidate) {
  return fmt::format("{}, {}", candidate.label, show(candidate.mass, Dimension::mass));
}

/// Whether the lattice earns its mass against the best design without one.
std::string against_baseline(const Candidate& best, const Candidate* baseline) {
  if (baseline == nullptr) {
    return "None of the designs without a printed lattice passes.";
  }
  const double lighter = (baseline->mass - best.mass) / baseline->mass;
  return fmt::format("The lightest pass without a printed lattice is {}: the lattice is {} {} than that.",
                     named(*baseline), show(lighter < 0 ? -lighter : lighter, Dimension::fraction),
                     lighter < 0 ? "heavier" : "lighter");
}

std::string headline(const ComparisonResult& comparison) {
  const std::vector<Candidate> lattices = with_lattice(comparison);
  const Candidate* best = lightest_pass(lattices);
  const Candidate* baseline = lightest_pass(comparison.baselines);
  if (best != nullptr) {
    return fmt::format("The lightest lattice that passes every limit on every side: {}. {}", named(*best),
                       against_baseline(*best, baseline));
  }
  if (baseline != nullptr) {
    return fmt::format("No lattice passes, but a design without one does: {}.", named(*baseline));
  }
  const Candidate* nearest = nearest_miss(lattices);
  if (nearest == nullptr) {
    return "No design could be judged.";
  }
  return fmt::format("No design passes. The nearest: {}; {} has a margin of {}.", named(*nearest),
                     nearest->governing_limit, margin_text(nearest->governing_margin));
}

std::string part(const std::string& heading, const std::string& table) {
  return table.empty() ? "" : '\n' + heading + '\n' + table;
}

std::string remarks(const ComparisonResult& comparison) {
  std::vector<Candidate> all = with_lattice(comparison);
  all.insert(all.end(), comparison.baselines.begin(), comparison.baselines.end());
  std::string text = remark_lines(all);
  for (const std::string& note : comparison.notes) {
    text += wrapped("- " + note, text_width, 2);
  }
  return text.empty() ? "" : "\nRemarks\n" + text;
}

std::string next_step(const ComparisonResult& comparison) {
  if (lightest_pass(with_lattice(comparison)) != nullptr) {
    return "Write the design's cell, material, edge and size into the case and run `crushwright estimate`; then "
           "`crushwright size` for its exact least size. Test coupons of it before anything else.";
  }
  return "Look at the limit that governs: more section or length for stroke and force, another material, or coupon "
         "tests that narrow the scatter. Then compare again.";
}

} // namespace

std::string comparison_text(const CrashCase& crash_case, const ComparisonResult& comparison) {
  const bool found =
      lightest_pass(with_lattice(comparison)) != nullptr || lightest_pass(comparison.baselines) != nullptr;
  std::string text = fmt::format("{}  {}\n", found ? "FOUND" : "NOT FOUND", crash_case.title);
  text += wrapped(headline(comparison), text_width, 0);
  text +=
      wrapped(scatter_sentence(crash_case, crash_case.scatter_sets.at(crash_case.deciding_set).id), text_width, 0);
  text += part("Each cell and material at its own least mass (margin on the side that hurts)",
               candidate_table(comparison.sized));
  text += part("At the stated relative densities", density_table(comparison.fixed));
  text += part("Without a printed lattice, for the same case and limits", baseline_table(comparison.baselines));
  text += remarks(comparison);
  text += "\nNext\n" + wrapped(next_step(comparison), text_width, 2);
  text += '\n' + wrapped(caution_not_claimed(), text_width, 0) + wrapped(caution_defer(), text_width, 0);
  return text;
}

} // namespace crushwright
