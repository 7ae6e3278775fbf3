#include "review_pack/rate_part.hpp"

#include "quantities/units.hpp"
#include "review_pack/html.hpp"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string law_text(const RateLaw& law) {
  if (law.form == RateForm::cowper_symonds) {
    return fmt::format("1 + (rate / {})^(1 / {:.4g})", show(law.first, Dimension::strain_rate), law.second);
  }
  return fmt::format("1 + {:.4g} ln(rate / {}), at least 1", law.first, show(law.second, Dimension::strain_rate));
}

using Rows = std::vector<std::vector<std::string>>;

void add_law(Rows& rows, const std::string& whose, const std::string& part, const char* purpose,
             const std::optional<RateLaw>& law) {
  rows.push_back({escape_html(whose), part, purpose, law ? escape_html(law_text(*law)) : "1, none stated",
                  law ? source_html(law->source) : ""});
}

void add_metal(Rows& rows, const std::string& whose, const std::string& part, const MetalRate& metal) {
  if (!metal.peak) {
    return;
  }
  if (metal.energy == metal.peak) {
    add_law(rows, whose, part, "energy and force", metal.energy);
    return;
  }
  add_law(rows, whose, part, "energy", metal.energy);
  add_law(rows, whose, part, "force", metal.peak);
}

std::string law_table(const Estimate& estimate) {
  Rows rows;
  for (const std::size_t i : own_structures(estimate)) {
    const StructureModel& structure = estimate.structures[i];
    const std::string whose = with_mirrors(estimate, i);
    if (structure.lattice_rate == structure.skin_rate) {
      add_metal(rows, whose, "lattice and skin", structure.lattice_rate);
    } else {
      add_metal(rows, whose, "lattice", structure.lattice_rate);
      add_metal(rows, whose, "skin", structure.skin_rate);
    }
  }
  return table({{"Structure"}, {"Metal of"}, {"Checks on"}, {"Force over that at rest"}, {"Source"}}, rows);
}

/// Structures of an impact whose layers met the same rates.
struct AlikeRates {
  std::string structures;
  const LayerRates* rates;
};

std::vector<AlikeRates> alike_rates(const ImpactOutcome& impact) {
  std::vector<AlikeRates> groups;
  for (const LayerRates& rates : impact.layer_rates) {
    const auto alike = std::find_if(groups.begin(), groups.end(), [&](const AlikeRates& group) {
      return group.rates->strain_rate == rates.strain_rate && group.rates->energy_factor == rates.energy_factor &&
             group.rates->peak_factor == rates.peak_factor;
    });
    if (alike == groups.end()) {
      groups.push_back({rates.structure, &rates});
    } else {
      alike->structures += ", " + rates.structure;
    }
  }
  return groups;
}

std::string rate_html(double strain_rate) {
  return strain_rate > 0 ? value_html(strain_rate, Dimension::strain_rate) : "at rest before";
}

void add_rates(Rows& rows, const ImpactOutcome& impact, const AlikeRates& group) {
  const LayerRates& rates = *group.rates;
  const std::size_t last = rates.strain_rate.size() - 1;
  const std::pair<const char*, std::size_t> places[] = {
      {"at the struck end", 0}, {"at mid length", last / 2}, {"at the attachment", last}};
  for (const auto& [where, layer] : places) {
    const bool first = layer == 0;
    rows.push_back({first ? element("span", escape_html(impact.id), "id") : "",
                    first ? element("span", escape_html(group.structures), "id") : "", where,
                    rate_html(rates.strain_rate[layer]), fmt::format("{:.3f}", rates.energy_factor[layer]),
                    fmt::format("{:.3f}", rates.peak_factor[layer])});
  }
}

} // namespace

std::string rate_part(const Estimate& estimate) {
  const bool any = std::any_of(estimate.structures.begin(), estimate.structures.end(),
                               [](const StructureModel& each) { return each.has_rate_law; });
  if (!any) {
    return {};
  }
  std::string html = "<div class=\"keep\"><h3>Strain rate</h3>\n";
  html +=
      "<p class=\"small quiet\">Each layer crushes at the speed that is left when its turn comes; the strain rate "
      "is that speed over the height that crushes at once. Weak and nominal runs take the gain for energy, the "
      "strong run the larger of both. result.json holds every layer.</p>\n";
  html += law_table(estimate);
  Rows rows;
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    for (const AlikeRates& group : alike_rates(impact)) {
      add_rates(rows, impact, group);
    }
  }
  if (!rows.empty()) {
    html += table({{"Impact"},
                   {"Structure"},
                   {"Layer"},
                   {"Strain rate", true},
                   {"Gain for energy", true},
                   {"Gain for force", true}},
                  rows);
  }
  return html + "</div>\n";
}

} // namespace crushwright
