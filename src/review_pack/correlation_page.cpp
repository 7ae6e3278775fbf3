#include "review_pack/correlation_page.hpp"

#include "quantities/units.hpp"
#include "review_pack/html.hpp"
#include "review_pack/page.hpp"
#include "review_pack/verdict_words.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr double to_mm = 1e3, to_kn = 1e-3, to_kj = 1e-3;

std::vector<ChartPoint> chart_points(const SampledCurve& curve, double factor) {
  std::vector<ChartPoint> points;
  double greatest = 0;
  for (std::size_t i = 0; i < curve.x.size(); ++i) {
    points.push_back({to_mm * curve.x[i], factor * curve.y[i]});
    greatest = std::max(greatest, points.back().y);
  }
  return thinned(points, 1e-3 * greatest);
}

/// Absorbed from the start of the common range, trapezoids on its grid.
SampledCurve energy_of(const SampledCurve& force) {
  SampledCurve energy{force.x, std::vector<double>(force.x.size(), 0.0)};
  for (std::size_t i = 1; i < force.x.size(); ++i) {
    energy.y[i] = energy.y[i - 1] + 0.5 * (force.y[i] + force.y[i - 1]) * (force.x[i] - force.x[i - 1]);
  }
  return energy;
}

/// Every few samples, the last one included.
ChartBand band_of(const SampledCurve& one, const SampledCurve& other, double factor) {
  constexpr std::size_t step = 5;
  ChartBand band;
  for (std::size_t i = 0; i < one.x.size(); i = i + 1 < one.x.size() ? std::min(i + step, one.x.size() - 1) : i + 1) {
    band.x.push_back(to_mm * one.x[i]);
    band.low.push_back(factor * std::min(one.y[i], other.y[i]));
    band.high.push_back(factor * std::max(one.y[i], other.y[i]));
  }
  return band;
}

struct Curves {
  SampledCurve measured, nominal, weak, strong;
};

LineChart overlay(const char* id, const char* title, const char* y_title, const Curves& curves, double factor) {
  LineChart chart;
  chart.id = id;
  chart.title = title;
  chart.caption = "Solid: measured; dashed: predicted, nominal; shaded: between the predicted weak and strong side.";
  chart.x_title = "crush [mm]";
  chart.y_title = y_title;
  chart.height = 340;
  chart.bands.push_back(band_of(curves.weak, curves.strong, factor));
  chart.lines.push_back({"measured", chart_points(curves.measured, factor), Dash::solid, 0.4, true});
  chart.lines.push_back({"nominal", chart_points(curves.nominal, factor), Dash::dashed, 0.7, false});
  for (const ChartLine& line : chart.lines) {
    for (const ChartPoint& point : line.points) {
      chart.x_high = std::max(chart.x_high, point.x);
      chart.y_high = std::max(chart.y_high, point.y);
    }
  }
  chart.y_high = rounded_up(1.25 * chart.y_high);
  return chart;
}

std::string errors_table(const Correlation& found) {
  const CurveRating& rating = found.rating;
  const auto part = [](double value) { return fmt::format("{:.2f}", value); };
  return table({{"Energy", true},
                {"Peak", true},
                {"Normalised error", true},
                {"Correlation", true},
                {"Shift", true},
                {"Corridor", true},
                {"Phase", true},
                {"Magnitude", true},
                {"Slope", true},
                {"Rating", true},
                {"Word"}},
               {{margin_text(found.energy_error), margin_text(found.peak_error), part(found.normalised_error),
                 part(found.cross_correlation), value_html(found.shift, Dimension::length), part(rating.corridor),
                 part(rating.phase), part(rating.magnitude), part(rating.slope), part(rating.overall), rating.word}});
}

std::string list_html(const std::vector<std::string>& sentences) {
  std::string html = "<ul>\n";
  for (const std::string& sentence : sentences) {
    html += element("li", escape_html(sentence)) + "\n";
  }
  return html + "</ul>\n";
}

} // namespace

std::vector<std::string> correlation_sentences(const ComponentComparison& comparison) {
  const Correlation& found = comparison.correlation;
  std::vector<std::string> sentences = {
      fmt::format("Compared from {} to {} of crush; errors are predicted over measured, less 1.",
                  show(found.from, Dimension::length), show(found.to, Dimension::length)),
      fmt::format("Energy {}, peak force {}; rating {:.2f}, {}.", margin_text(found.energy_error),
                  margin_text(found.peak_error), found.rating.overall, found.rating.word),
      fmt::format(
          "The test lies between the weak and the strong side over {:.0f} % of the crush, under both over {:.0f} %, "
          "over both over {:.0f} %.",
          100 * comparison.share_inside, 100 * comparison.share_below, 100 * comparison.share_above)};
  if (found.energy_error > 0) {
    sentences.emplace_back(
        "The prediction absorbs more than the test did: stroke and bottoming are worse than estimated.");
  } else {
    sentences.emplace_back(
        "The prediction absorbs less than the test did: force on the attachment and acceleration are worse "
        "than estimated.");
  }
  return sentences;
}

std::string correlation_page(const CrashCase& crash_case, const ComponentComparison& comparison,
                             const std::string& program_version) {
  ChartSet charts;
  const Correlation& found = comparison.correlation;
  const Curves forces{found.measured, found.predicted, comparison.weak, comparison.strong};
  const Curves energies{energy_of(forces.measured), energy_of(forces.nominal), energy_of(forces.weak),
                        energy_of(forces.strong)};
  std::string html =
      fmt::format("<h1>{} beside its test</h1>\n<p class=\"lead\">{} <span class=\"id quiet\">{}</span>, test "
                  "{}</p>\n",
                  escape_html(comparison.structure), escape_html(crash_case.title), escape_html(crash_case.id),
                  escape_html(comparison.specimen));
  html += list_html(correlation_sentences(comparison));
  html += "<section>\n<h2>Predicted over measured</h2>\n" + errors_table(found) +
          "<p class=\"small quiet\">Rating after ISO/TS 18571, made for time histories; on force over crush its "
          "phase is a shift "
          "in crush. Parameters read in public implementations, not in the standard.</p>\n" +
          charts.figure(overlay("force", "Force against crush", "force [kN]", forces, to_kn)) +
          charts.figure(overlay("energy", "Energy against crush", "energy [kJ]", energies, to_kj)) + "</section>\n";
  std::vector<std::string> notes = comparison.remarks;
  notes.insert(notes.end(), found.warnings.begin(), found.warnings.end());
  if (!notes.empty()) {
    html += "<section>\n<h2>Handled on the way</h2>\n" + list_html(notes) + "</section>\n";
  }
  html +=
      "<section>\n<h2>Cautions</h2>\n<p>One test is one specimen of one build. A press says nothing of strain "
      "rate. " +
      escape_html(caution_defer()) +
      fmt::format("</p>\n</section>\n<p class=\"small quiet\">crushwright {}</p>\n", escape_html(program_version));
  return self_contained_page(comparison.structure + " beside its test", html, charts);
}

} // namespace crushwright
