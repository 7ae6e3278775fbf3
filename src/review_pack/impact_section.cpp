#include "review_pack/page.hpp"

#include "quantities/units.hpp"
#include "result_file/curve_files.hpp"
#include "review_pack/html.hpp"
#include "review_pack/loading_parts.hpp"
#include "review_pack/verdict_words.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr double to_ms = 1e3, to_mm = 1e3;
constexpr int chart_height = 220;

std::vector<ChartPoint> points(const std::vector<double>& time, const std::vector<double>& values, double factor) {
  std::vector<ChartPoint> result;
  result.reserve(time.size());
  for (std::size_t i = 0; i < time.size(); ++i) {
    result.push_back({time[i] * to_ms, values.at(i) * factor});
  }
  return result;
}

bool same(const std::vector<ChartPoint>& a, const std::vector<ChartPoint>& b) {
  double greatest = 0, apart = 0;
  for (std::size_t i = 0; i < a.size() && i < b.size(); ++i) {
    greatest = std::max(greatest, std::abs(a[i].y));
    apart = std::max(apart, std::abs(a[i].y - b[i].y));
  }
  return a.size() == b.size() && apart <= 1e-6 * greatest;
}

/// Adds a line, or its name to a line that it lies on.
void add_line(LineChart& chart, const std::string& label, std::vector<ChartPoint> line_points, double label_at) {
  for (ChartLine& line : chart.lines) {
    if (same(line.points, line_points)) {
      line.label += ", " + label;
      return;
    }
  }
  const Dash dashes[] = {Dash::solid, Dash::dashed, Dash::dotted, Dash::dash_dot};
  const Dash dash = dashes[chart.lines.size() % 4];
  chart.lines.push_back({label, std::move(line_points), dash, label_at, chart.lines.size() % 2 == 1});
}

void set_ranges(LineChart& chart) {
  double low = 0, high = 0, end = 0;
  for (const ChartLine& line : chart.lines) {
    for (const ChartPoint& point : line.points) {
      low = std::min(low, point.y);
      high = std::max(high, point.y);
      end = std::max(end, point.x);
    }
  }
  for (const ChartLevel& level : chart.levels) {
    high = std::max(high, level.value);
  }
  chart.x_high = end > 0 ? end : 1;
  chart.y_high = rounded_up(1.14 * high);
  chart.y_low = low < 0 ? -rounded_up(1.14 * -low) : 0;
}

LineChart chart_of(const ImpactOutcome& impact, std::size_t index, const char* what, const std::string& title,
                   const std::string& y_title) {
  LineChart chart;
  chart.id = fmt::format("{}-{}", what, index);
  chart.title = fmt::format("{}, {}", title, impact.id);
  chart.x_title = "time [ms]";
  chart.y_title = y_title;
  chart.height = chart_height;
  chart.narrowest = 230; // three beside each other on a wide screen
  return chart;
}

/// Limits on a body's acceleration; one far above the curve is named below the chart instead of flattening it.
void add_acceleration_limits(LineChart& chart, const Estimate& estimate, const ImpactOutcome& impact) {
  double greatest = 0;
  for (const ChartLine& line : chart.lines) {
    for (const ChartPoint& point : line.points) {
      greatest = std::max(greatest, point.y);
    }
  }
  for (const Check& check : estimate.deciding.verdict.checks) {
    const Limit& limit = check.limit;
    if (limit.quantity != LimitedQuantity::acceleration || limit.impact != impact.id) {
      continue;
    }
    const double value = in_display_unit(limit.value.value, Dimension::acceleration);
    if (value > 2.5 * greatest) {
      chart.caption += fmt::format(" The limit {} of {} lies above the chart.", limit.id,
                                   show(limit.value.value, Dimension::acceleration));
    } else {
      chart.levels.push_back(
          {fmt::format("{}, {}", limit.id, show(limit.value.value, Dimension::acceleration)), value, true});
    }
  }
}

std::string acceleration_figure(const Estimate& estimate, const ImpactOutcome& impact, const ImpactHistory& history,
                                std::size_t index, ChartSet& charts) {
  LineChart chart = chart_of(impact, index, "acceleration", "Acceleration", "acceleration [g]");
  const double to_g = in_display_unit(1, Dimension::acceleration);
  chart.caption = "Magnitude, unfiltered.";
  if (!impact.striker.held) {
    add_line(chart, impact.striker.id, points(history.time, history.striker_acceleration, to_g), 0.65);
  }
  if (!impact.struck.held) {
    add_line(chart, impact.struck.id, points(history.time, history.struck_acceleration, to_g), 0.4);
  }
  add_acceleration_limits(chart, estimate, impact);
  set_ranges(chart);
  return charts.figure(chart);
}

std::string speed_figure(const ImpactOutcome& impact, const ImpactHistory& history, std::size_t index,
                         ChartSet& charts) {
  LineChart chart = chart_of(impact, index, "speed", "Speed", "speed [km/h]");
  const double to_kmh = in_display_unit(1, Dimension::speed);
  chart.caption = "Positive from the striker towards the struck body.";
  add_line(chart, impact.striker.id, points(history.time, history.striker_speed, to_kmh), 0.25);
  add_line(chart, impact.struck.id, points(history.time, history.struck_speed, to_kmh), 0.3);
  set_ranges(chart);
  return charts.figure(chart);
}

std::string crush_figure(const ImpactOutcome& impact, const ImpactHistory& history, std::size_t index,
                         ChartSet& charts) {
  LineChart chart = chart_of(impact, index, "crush", "Crush", "crush [mm]");
  for (std::size_t i = 0; i < impact.motion.columns.size(); ++i) {
    add_line(chart, impact.motion.columns[i].structure, points(history.time, history.column_crush.at(i), to_mm), 0.6);
  }
  set_ranges(chart);
  return charts.figure(chart);
}

std::string body_text(const Body& body) {
  return body.held ? fmt::format("{} (held)", body.id)
                   : fmt::format("{} of {}", body.id, show(body.mass, Dimension::mass));
}

std::string impact_sentence(const ImpactOutcome& impact) {
  std::string text =
      fmt::format("{} meets {} at {}; effective mass {}, {} to absorb", body_text(impact.striker),
                  body_text(impact.struck), show(impact.closing_speed, Dimension::speed),
                  show(impact.effective_mass, Dimension::mass), show(impact.available_energy, Dimension::energy));
  for (std::size_t i = 0; i < impact.shares.size(); ++i) {
    text += fmt::format("{}{} {}", i == 0 ? "; shares: " : ", ", impact.shares[i].structure,
                        show(impact.shares[i].share, Dimension::fraction));
  }
  return text + ".";
}

std::string run_table(const ImpactOutcome& impact) {
  const std::vector<TableColumn> columns = {{"Side"},
                                            {"Structure"},
                                            {"Crush", true},
                                            {"Usable stroke", true},
                                            {"Used", true},
                                            {"Peak force", true},
                                            {"Reserve", true},
                                            {impact.striker.id + " peak", true},
                                            {impact.struck.id + " peak", true}};
  std::vector<std::vector<std::string>> rows;
  for (const RunOutcome& run : impact.sides) {
    if (run.stacked) {
      continue;
    }
    for (const OutcomeGroup& group : grouped_outcomes(run)) {
      const StructureOutcome& outcome = *group.outcome;
      const auto once = [&](const std::string& text) { return group.first == 0 ? text : std::string(); };
      rows.push_back(
          {once(std::string(name_of(run.side))), escape_html(group.structures),
           value_html(outcome.peak_crush, Dimension::length) + (outcome.bottomed ? ", bottoms out" : ""),
           value_html(outcome.usable_stroke, Dimension::length), value_html(outcome.stroke_used, Dimension::fraction),
           value_html(outcome.peak_force, Dimension::force), value_html(outcome.reserve, Dimension::fraction),
           once(impact.striker.held ? "held" : value_html(run.striker_peak_acceleration, Dimension::acceleration)),
           once(impact.struck.held ? "held" : value_html(run.struck_peak_acceleration, Dimension::acceleration))});
    }
  }
  return table(columns, rows);
}

std::string ledger_sentence(const ImpactMotion& motion) {
  const EnergyLedger& ledger = motion.ledger;
  std::string elsewhere;
  if (ledger.elsewhere > 0) {
    elsewhere = fmt::format(" {} in what stands in series with them,", show(ledger.elsewhere, Dimension::energy));
  }
  if (ledger.released > 0) {
    elsewhere +=
        fmt::format(" {} lost where a falling force let go at once,", show(ledger.released, Dimension::energy));
  }
  return fmt::format("Energy ledger at nominal: {} in, {} absorbed by the structures,{} {} given back as rebound; "
                     "the sum closes to {:.1e} "
                     "of the input.",
                     show(ledger.input, Dimension::energy), show(ledger.absorbed, Dimension::energy), elsewhere,
                     show(ledger.returned, Dimension::energy),
                     ledger.input > 0 ? std::abs(ledger.residual) / ledger.input : 0.0);
}

} // namespace

std::string impact_section(const PageContent& content, ChartSet& charts) {
  std::string html = "<section id=\"impacts\">\n<h2>Impacts</h2>\n";
  html += "<p class=\"small quiet\">A weak or strong row holds several runs: tolerances of mass and speed at their "
          "ends, layers used up early or late. Each cell is the worst of them by itself, so crush over usable stroke "
          "need not be the share used. Nominal is one run.</p>\n";
  const std::vector<ImpactOutcome>& impacts = content.estimate.deciding.impacts;
  for (std::size_t i = 0; i < impacts.size(); ++i) {
    const ImpactOutcome& impact = impacts[i];
    html += fmt::format("<div class=\"keep\"><h3>Impact {}</h3>\n", escape_html(impact.id));
    html += impact.description.empty() ? "" : element("p", escape_html(impact.description)) + "\n";
    html += element("p", escape_html(impact_sentence(impact)), "small") + "\n";
    if (impact.motion.columns.empty()) {
      html += bullet_list(impact.notes) + "</div>\n";
      continue;
    }
    html += contact_part(impact);
    html += impact.notes.empty() ? "" : bullet_list(impact.notes);
    html += run_table(impact);
    const ImpactHistory history = sample(impact.motion, history_step(impact.motion));
    html += "<div class=\"charts\">\n";
    html += acceleration_figure(content.estimate, impact, history, i, charts);
    html += speed_figure(impact, history, i, charts);
    html += crush_figure(impact, history, i, charts);
    html += "</div>\n" + element("p", escape_html(ledger_sentence(impact.motion)), "small quiet");
    html += yaw_part(impact) + after_hit_part(impact) + "</div>\n";
    html += element_part(impact) + resolved_part(impact, i, charts);
  }
  return html + "</section>\n";
}

} // namespace crushwright
