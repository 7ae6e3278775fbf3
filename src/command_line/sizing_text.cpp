#include "command_line/sizing_text.hpp"

#include "command_line/candidate_table.hpp"
#include "quantities/units.hpp"
#include "review_pack/html.hpp"
#include "review_pack/text_table.hpp"
#include "review_pack/verdict_words.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace crushwright {

namespace {

const StructureInput* sized_structure(const CrashCase& crash_case) {
  const auto found = std::find_if(crash_case.structures.begin(), crash_case.structures.end(),
                                  [](const StructureInput& each) { return each.lattice && each.mirror_of.empty(); });
  return found == crash_case.structures.end() ? nullptr : &*found;
}

std::string size_key(const CrashCase& crash_case) {
  const StructureInput* structure = sized_structure(crash_case);
  return structure == nullptr ? "size" : structure->lattice->size_key;
}

std::string least_of(const CrashCase& crash_case) {
  switch (crash_case.sizing->objective) {
  case Objective::mass:
    return "The lightest design";
  case Objective::build_time:
    return "The design of the shortest build";
  case Objective::build_cost:
    return "The cheapest design to build";
  }
  return "";
}

/// Build time and cost, where the case states what they come from.
std::string effort_text(const CrashCase& crash_case, const Candidate& best) {
  std::string text;
  if (best.build_time) {
    text += ", " + show(*best.build_time, Dimension::duration) + " to build";
  }
  if (best.build_cost) {
    text += fmt::format(" for {:.0f} {}", *best.build_cost, crash_case.printing->rates->currency);
  }
  return text;
}

std::string headline(const CrashCase& crash_case, const SizingResult& sizing) {
  const Candidate& best = sizing.best;
  if (sizing.found) {
    return fmt::format("{} that passes every limit on every side: cell edge {}, {} {}, {} in all.",
                       least_of(crash_case), show(best.cell_edge, Dimension::length), size_key(crash_case),
                       size_text(best), show(best.mass, Dimension::mass) + effort_text(crash_case, best));
  }
  if (!(best.mass > 0)) {
    return "No design of the range could be judged.";
  }
  return fmt::format("No size of the range passes. The nearest: cell edge {}, {} {}, {} in all; {} has a margin of "
                     "{}.",
                     show(best.cell_edge, Dimension::length), size_key(crash_case), size_text(best),
                     show(best.mass, Dimension::mass), best.governing_limit, margin_text(best.governing_margin));
}

/// A strut or wall with the digits that a printer can follow, never less than what was found to pass.
std::string rounded_up(double size) {
  constexpr double step = 1e-7; // a tenth of a micrometre
  return fmt::format("{:.4f} mm", std::ceil(size / step * (1 - 1e-12)) * step * 1e3);
}

std::string lines_for_the_case(const CrashCase& crash_case, const Candidate& best) {
  const StructureInput* structure = sized_structure(crash_case);
  if (structure == nullptr) {
    return "";
  }
  return fmt::format("  To take it over, write into structures.{}.lattice of {}:\n"
                     "    cell_edge: {}\n"
                     "    {}: {{tip: {}, root: {}}}\n"
                     "  and run `crushwright estimate` for its verdict and review pack.\n",
                     structure->id, crash_case.file_name, show(best.cell_edge, Dimension::length),
                     structure->lattice->size_key, rounded_up(best.size_tip), rounded_up(best.size_root));
}

std::string next_step(const CrashCase& crash_case, const SizingResult& sizing) {
  if (sizing.found) {
    return lines_for_the_case(crash_case, sizing.best);
  }
  return wrapped(
      "Widen `smallest`, `largest` or `cell_edges` of the block `size`, give the structure more section or "
      "length, narrow the scatter by coupon tests, or take another cell or material (`crushwright "
      "compare`).",
      text_width, 2);
}

} // namespace

std::string sizing_text(const CrashCase& crash_case, const SizingResult& sizing) {
  std::string text = fmt::format("{}  {}\n", sizing.found ? "FOUND" : "NOT FOUND", crash_case.title);
  text += wrapped(headline(crash_case, sizing), text_width, 0);
  if (!sizing.binding.empty()) {
    text += wrapped(sizing.binding, text_width, 0);
  }
  text +=
      wrapped(scatter_sentence(crash_case, crash_case.scatter_sets.at(crash_case.deciding_set).id), text_width, 0);
  if (!sizing.per_choice.empty()) {
    text += "\nThe best of each cell edge (margin on the side that hurts)\n" + sizing_table(sizing.per_choice) +
            remark_lines(sizing.per_choice);
  }
  text += "\nNext\n" + next_step(crash_case, sizing);
  text += '\n' + wrapped(caution_not_claimed(), text_width, 0) + wrapped(caution_defer(), text_width, 0);
  return text;
}

} // namespace crushwright
