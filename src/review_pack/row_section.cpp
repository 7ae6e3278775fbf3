#include "review_pack/page.hpp"

#include "quantities/units.hpp"
#include "review_pack/html.hpp"
#include "review_pack/rate_part.hpp"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

namespace crushwright {

namespace {

using Rows = std::vector<std::vector<std::string>>;

std::string start_part(const Estimate& estimate) {
  Rows rows;
  for (const std::size_t i : own_structures(estimate)) {
    const StructureModel& structure = estimate.structures[i];
    for (std::size_t k = 0; k < structure.later_peaks.size(); ++k) {
      const LaterPeak& peak = structure.later_peaks[k];
      const RowStart& start = structure.row_starts.at(k);
      rows.push_back({escape_html(with_mirrors(estimate, i)), value_html(start.station, Dimension::length),
                      value_html(start.crush, Dimension::length), value_html(peak.start_force, Dimension::force),
                      value_html(peak.ratio * peak.start_force, Dimension::force), fmt::format("{:.2f}", peak.ratio),
                      value_html(peak.fall_crush, Dimension::length)});
    }
  }
  if (rows.empty()) {
    return {};
  }
  return "<div class=\"keep\"><h3>Rows that start afresh</h3>\n"
         "<p class=\"small quiet\">The weaker rows have folded up before the force reaches these, so nothing leads "
         "the "
         "crush into them and they take a peak of their own.</p>\n" +
         table({{"Structure"},
                {"Row from station", true},
                {"After a crush of", true},
                {"Force just before", true},
                {"Peak", true},
                {"Peak over it", true},
                {"Dies out over", true}},
               rows) +
         "</div>\n";
}

/// What the trigger does to the highest force that a row takes to start, in words.
std::string trigger_sentence(const StructureModel& structure) {
  const TriggerEffect& effect = *structure.trigger_effect;
  const std::string start =
      fmt::format("The first {} are weakened and start at {}. ", show(structure.trigger_length, Dimension::length),
                  show(effect.first_peak_with, Dimension::force));
  if (effect.peak_with < effect.peak_without * (1 - 1e-6)) {
    return start + fmt::format("No row takes more than {} to start, {} less than without the trigger.",
                               show(effect.peak_with, Dimension::force),
                               show(1 - effect.peak_with / effect.peak_without, Dimension::fraction));
  }
  return start +
         "A row behind them starts afresh at as high a force as without the trigger: the peak comes later, it "
         "does not fall.";
}

std::vector<std::string> change_row(const char* name, double without, double with, Dimension dimension) {
  return {name, value_html(without, dimension), value_html(with, dimension),
          without > 0 ? escape_html(margin_text(with / without - 1)) : std::string()};
}

std::string trigger_part(const Estimate& estimate) {
  std::string html;
  for (const std::size_t i : own_structures(estimate)) {
    const StructureModel& structure = estimate.structures[i];
    if (!structure.trigger_effect) {
      continue;
    }
    const TriggerEffect& effect = *structure.trigger_effect;
    const double mass = structure.mass.total;
    const double energy = structure.curve.energy_at(structure.curve.bottoming_crush);
    html += fmt::format("<div class=\"keep\"><h3>Trigger of {}</h3>\n", escape_html(with_mirrors(estimate, i)));
    html += element("p", escape_html(trigger_sentence(structure)), "small") + "\n";
    html += table({{""}, {"Without trigger", true}, {"With it", true}, {"Change", true}},
                  {change_row("greatest force that a row takes to start", effect.peak_without, effect.peak_with,
                              Dimension::force),
                   change_row("mean crush force until all rows are used up", effect.plateau_without,
                              effect.plateau_with, Dimension::force),
                   change_row("energy until then", energy + effect.energy_cost, energy, Dimension::energy),
                   change_row("mass", mass - effect.mass_change, mass, Dimension::mass)});
    html += "</div>\n";
  }
  return html;
}

/// Whether the temperatures of a structure say more than its one strength factor does.
bool tells_more(const LayerHeat& heat) {
  const auto [coolest, hottest] = std::minmax_element(heat.temperature.begin(), heat.temperature.end());
  return *coolest < *hottest ||
         std::any_of(heat.factor.begin(), heat.factor.end(), [](double factor) { return factor != 1; });
}

std::string place_html(const StructureModel& structure, std::size_t layer) {
  const Layer& at = structure.layers.at(layer);
  return fmt::format("{} at {}", value_html(structure.heat->temperature[layer], Dimension::temperature),
                     value_html(at.station + 0.5 * at.height, Dimension::length));
}

std::string heat_part(const Estimate& estimate) {
  Rows rows;
  for (const std::size_t i : own_structures(estimate)) {
    const StructureModel& structure = estimate.structures[i];
    if (!structure.heat || !tells_more(*structure.heat)) {
      continue;
    }
    const std::vector<double>& temperature = structure.heat->temperature;
    const auto index = [&](auto place) {
      return static_cast<std::size_t>(std::distance(temperature.begin(), place));
    };
    const std::size_t coolest = index(std::min_element(temperature.begin(), temperature.end()));
    const std::size_t hottest = index(std::max_element(temperature.begin(), temperature.end()));
    const auto strength = [&](std::size_t layer) {
      return value_html(structure.heat->factor[layer], Dimension::fraction);
    };
    rows.push_back({escape_html(with_mirrors(estimate, i)), place_html(structure, coolest), strength(coolest),
                    place_html(structure, hottest), strength(hottest),
                    value_html(structure.temperature_factor, Dimension::fraction)});
  }
  if (rows.empty()) {
    return {};
  }
  return "<div class=\"keep\"><h3>Temperature</h3>\n"
         "<p class=\"small quiet\">Crush force over that at room temperature, by layer. A metal that states no "
         "factor "
         "at a layer's temperature counts there with its full strength; the warnings name it.</p>\n" +
         table({{"Structure"},
                {"Coolest layer", true},
                {"Force left", true},
                {"Hottest layer", true},
                {"Force left", true},
                {"All layers", true}},
               rows) +
         "</div>\n";
}

} // namespace

std::string row_section(const PageContent& content) {
  const Estimate& estimate = content.estimate;
  const std::string as_made = start_part(estimate) + trigger_part(estimate);
  const std::string rest = heat_part(estimate) + rate_part(estimate);
  if (as_made.empty() && rest.empty()) {
    return {};
  }
  std::string html = "<section id=\"rows\">\n<h2>What the rows meet</h2>\n";
  if (!as_made.empty()) {
    html += "<p class=\"small quiet\">Forces of peaks and trigger are those of lattice and skin added up, at rest: "
            "without what both gain together, without strain rate and scatter.</p>\n";
  }
  return html + as_made + rest + "</section>\n";
}

} // namespace crushwright
