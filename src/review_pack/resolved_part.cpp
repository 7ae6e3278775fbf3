#include "review_pack/loading_parts.hpp"

#include "quantities/units.hpp"
#include "review_pack/html.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::vector<ChartPoint> force_points(const Signal& signal) {
  std::vector<ChartPoint> points;
  double greatest = 0;
  for (std::size_t n = 0; n < signal.values.size(); ++n) {
    points.push_back({1e3 * signal.step * static_cast<double>(n), 1e-3 * signal.values[n]});
    greatest = std::max(greatest, points.back().y);
  }
  return thinned(points, 2e-3 * greatest);
}

std::string force_figure(const ImpactOutcome& impact, const ResolvedChain& chain, const std::string& id,
                         ChartSet& charts) {
  LineChart chart;
  chart.id = id;
  chart.title = fmt::format("Force with own inertia, {}, {}", chain.structure, impact.id);
  chart.caption =
      "Struck end and attachment of the chain of layers; dotted: the quasi-static curve between the same bodies.";
  chart.x_title = "time [ms]";
  chart.y_title = "force [kN]";
  chart.lines.push_back({"struck end", force_points(chain.struck_end_force), Dash::dashed, 0.25, false});
  chart.lines.push_back({"attachment", force_points(chain.attachment_force), Dash::solid, 0.6, true});
  if (!chain.quasi_static_force.values.empty()) {
    chart.lines.push_back({"quasi-static", force_points(chain.quasi_static_force), Dash::dotted, 0.4, false});
  }
  for (const ChartLine& line : chart.lines) {
    for (const ChartPoint& point : line.points) {
      chart.x_high = std::max(chart.x_high, point.x);
      chart.y_high = std::max(chart.y_high, point.y);
    }
  }
  chart.y_high = rounded_up(1.14 * chart.y_high);
  return charts.figure(chart);
}

std::vector<std::string> chain_row(const ResolvedChain& chain) {
  return {element("span", escape_html(chain.structure), "id"),
          value_html(chain.peak_crush, Dimension::length),
          value_html(chain.quasi_static_crush, Dimension::length),
          value_html(chain.struck_end_peak_force, Dimension::force),
          value_html(chain.attachment_peak_force, Dimension::force),
          value_html(chain.quasi_static_peak_force, Dimension::force),
          value_html(chain.inertia_energy, Dimension::energy),
          chain.front_from_struck_end ? "in order" : "not in order"};
}

/// Chains that did the same are drawn once.
bool same(const ResolvedChain& a, const ResolvedChain& b) {
  return a.peak_crush == b.peak_crush && a.attachment_peak_force == b.attachment_peak_force;
}

} // namespace

std::string resolved_part(const ImpactOutcome& impact, std::size_t index, ChartSet& charts) {
  if (!impact.resolved) {
    return {};
  }
  const ResolvedImpact& resolved = *impact.resolved;
  std::string html = "<h4>With the structures' own inertia</h4>\n";
  html += element(
      "p",
      escape_html(fmt::format(
          "A chain of layer masses with the same curves, integrated in steps of {}. At class 60 the force at the "
          "attachment differs from the quasi-static one by at most {} of its peak: the quasi-static curve {}. The "
          "verdict rests on the quasi-static runs.",
          show(resolved.step, Dimension::time), show(resolved.greatest_difference, Dimension::fraction),
          resolved.quasi_static_is_enough ? "is good enough here" : "is not good enough here")),
      "small");
  std::vector<std::vector<std::string>> rows;
  for (const ResolvedChain& chain : resolved.chains) {
    rows.push_back(chain_row(chain));
  }
  html += table({{"Structure"},
                 {"Crush", true},
                 {"Quasi-static", true},
                 {"Peak, struck end", true},
                 {"Peak, attachment", true},
                 {"Quasi-static", true},
                 {"Lost at touch", true},
                 {"From the struck end"}},
                rows);
  html += "<div class=\"charts two\">\n";
  for (std::size_t i = 0; i < resolved.chains.size(); ++i) {
    const auto before = resolved.chains.begin() + static_cast<std::ptrdiff_t>(i);
    if (std::none_of(resolved.chains.begin(), before,
                     [&](const ResolvedChain& other) { return same(other, resolved.chains[i]); })) {
      html += force_figure(impact, resolved.chains[i], fmt::format("resolved-{}-{}", index, i), charts);
    }
  }
  return html + "</div>\n";
}

} // namespace crushwright
