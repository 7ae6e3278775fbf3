#include "review_pack/root_strengths.hpp"

#include "review_pack/html.hpp"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

namespace crushwright {

namespace {

/// A stated strength, and what it is of.
struct Stated {
  std::string whose; ///< structure, or surface under cycles
  std::string what;
  const Quantity* strength;
};

std::vector<Stated> stated_strengths(const PageContent& content) {
  const Estimate& estimate = content.estimate;
  std::vector<Stated> all;
  for (const std::size_t i : own_structures(estimate)) {
    const StructureModel& structure = estimate.structures[i];
    const std::string whose = with_mirrors(estimate, i);
    if (structure.attachment) {
      all.push_back({whose, "what carries it crushes at", &structure.attachment->capacity});
    }
    if (structure.bolts) {
      all.push_back({whose, "one bolt, tension", &structure.bolts->proof_load});
      if (structure.bolts->shear_load) {
        all.push_back({whose, "one bolt, shear", &*structure.bolts->shear_load});
      }
    }
  }
  for (const FatigueStrength& strength : content.crash_case.fatigue_strengths) {
    const std::string of = strength.of == "root" ? "one bolt" : strength.of;
    all.push_back({"all", fmt::format("{} under cycles, amplitude at {:.3g} cycles", of, strength.cycles.value),
                   &strength.amplitude});
  }
  return all;
}

std::vector<std::string> row(const Stated& stated) {
  const Quantity& strength = *stated.strength;
  const bool interval = strength.low || strength.high;
  const std::string source = source_html(strength.source);
  return {escape_html(stated.whose), escape_html(stated.what), value_html(strength.value, strength.dimension),
          interval ? fmt::format("{} to {}", value_html(strength.low_end(), strength.dimension),
                                 value_html(strength.high_end(), strength.dimension))
                   : std::string(),
          source.empty() ? element("span", "no source stated", "quiet") : source};
}

bool is_from_memory(const Stated& stated) {
  return stated.strength->source.standing == Standing::memory;
}

} // namespace

std::string root_strengths(const PageContent& content) {
  const std::vector<Stated> all = stated_strengths(content);
  if (all.empty()) {
    return {};
  }
  std::vector<std::vector<std::string>> rows;
  for (const Stated& stated : all) {
    rows.push_back(row(stated));
  }
  std::string html = "<div class=\"keep\"><h3>Strengths that these figures rest on</h3>\n";
  if (std::any_of(all.begin(), all.end(), is_from_memory)) {
    html += "<p class=\"small\">A strength from memory is recalled, not looked up: confirm it before a use of bolts, "
            "root or life is relied on.</p>\n";
  }
  return html + table({{"Structure"}, {"Strength of"}, {"Value", true}, {"Interval", true}, {"Source"}}, rows) +
         "</div>\n";
}

} // namespace crushwright
