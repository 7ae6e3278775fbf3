#include "review_pack/coupon_page.hpp"

#include "quantities/units.hpp"
#include "review_pack/coupon_words.hpp"
#include "review_pack/html.hpp"
#include "review_pack/page.hpp"
#include "review_pack/verdict_words.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace crushwright {

namespace {

using Rows = std::vector<std::vector<std::string>>;

std::string stress_html(const std::optional<double>& value) {
  return value ? value_html(*value, Dimension::stress) : "none";
}

std::string percent_html(const std::optional<double>& value) {
  return value ? value_html(*value, Dimension::fraction) : "none";
}

std::string id_html(const std::string& text) {
  return element("span", escape_html(text), "id");
}

std::string summary_section(const std::vector<PropertySummary>& summaries) {
  Rows rows;
  for (const PropertySummary& each : summaries) {
    const SampleSummary& seen = each.summary;
    const auto value = [&](const std::optional<double>& number) {
      return number ? value_text(each, *number) : std::string("none");
    };
    rows.push_back({escape_html(short_name(each.property)), fmt::format("{}", seen.count),
                    value_text(each, seen.mean), percent_html(seen.coefficient_of_variation),
                    seen.mean_low ? fmt::format("{} to {}", value(seen.mean_low), value(seen.mean_high)) : "none",
                    each.factor > 0 ? fmt::format("{:.2f}", each.factor) : "none", value(each.claimable_low),
                    value(each.claimable_high)});
  }
  if (rows.empty()) {
    return {};
  }
  return "<section id=\"claims\">\n<h2>What may be claimed</h2>\n" +
         table({{"Property"},
                {"n", true},
                {"Mean", true},
                {"Scatter", true},
                {"Mean, 95 % interval", true},
                {"k", true},
                {"At least", true},
                {"Up to", true}},
               rows) +
         "<p class=\"small quiet\">At least: mean − k s lies below 90 % of all specimens of this build with 95 % "
         "confidence, "
         "one-sided: the strength that may be claimed. Up to: mean + k s, the force that has to be survived. Few "
         "specimens "
         "make k large.</p>\n</section>\n";
}

/// Points thinned to what a chart can show.
std::vector<ChartPoint> curve_points(const StressStrain& curve) {
  std::vector<ChartPoint> points;
  double greatest = 0;
  for (std::size_t i = 0; i < curve.strain.size(); ++i) {
    points.push_back({100 * curve.strain[i], 1e-6 * curve.stress[i]});
    greatest = std::max(greatest, points.back().y);
  }
  return thinned(points, 1e-3 * greatest);
}

Dash dash_of(std::size_t i) {
  constexpr Dash dashes[] = {Dash::solid, Dash::dashed, Dash::dotted, Dash::dash_dot};
  return dashes[i % 4];
}

/// @param y_top  highest stress shown [MPa]; a densifying coupon rises far above its plateau
LineChart curve_chart(const std::string& title, const std::string& caption, double x_top, double y_top) {
  LineChart chart;
  chart.id = "curves";
  chart.title = title;
  chart.caption = caption;
  chart.x_title = "strain [%]";
  chart.y_title = "stress [MPa]";
  chart.x_high = x_top;
  chart.y_high = rounded_up(y_top);
  chart.height = 360;
  return chart;
}

std::string lattice_curves(const CouponReport& report, ChartSet& charts) {
  double strain = 0, plateau = 0;
  for (const ReducedSpecimen& each : report.specimens) {
    strain = std::max(strain, 100 * each.test.curve.strain.back());
    plateau =
        std::max({plateau, 1e-6 * each.quantities.plateau_stress, 1e-6 * each.quantities.first_maximum.value_or(0)});
  }
  LineChart chart =
      curve_chart("Stress against strain",
                  "Conditioned curves, toe and loops out. Dots: efficiency strain, where the lattice counts as "
                  "used up. Between the upright lines the plateau is averaged. Cut at three times the highest "
                  "plateau.",
                  rounded_up(strain), 3 * plateau);
  chart.verticals = {{"", 100 * report.plateau_from, false}, {"", 100 * report.plateau_to, false}};
  for (std::size_t i = 0; i < report.specimens.size(); ++i) {
    const ReducedSpecimen& each = report.specimens[i];
    const double at = 0.12 + 0.5 * static_cast<double>(i) / static_cast<double>(report.specimens.size());
    chart.lines.push_back({each.facts.id, curve_points(each.test.curve), dash_of(i), at, i % 2 == 1});
    const double strain_used = each.quantities.efficiency_strain;
    const auto& curve = each.test.curve;
    const auto next = std::lower_bound(curve.strain.begin(), curve.strain.end(), strain_used);
    const auto place = static_cast<std::size_t>(
        std::min(next - curve.strain.begin(), static_cast<std::ptrdiff_t>(curve.strain.size() - 1)));
    chart.markers.push_back({"", {100 * strain_used, 1e-6 * curve.stress[place]}});
  }
  return charts.figure(chart);
}

std::string specimen_table(const CouponReport& report) {
  Rows rows;
  for (const ReducedSpecimen& each : report.specimens) {
    const CompressionQuantities& found = each.quantities;
    rows.push_back({id_html(each.facts.id), percent_html(each.relative_density), stress_html(found.plateau_stress),
                    stress_html(each.offset_stress), stress_html(found.first_maximum),
                    stress_html(found.quasi_elastic_gradient), stress_html(each.elastic_gradient),
                    percent_html(found.efficiency_strain) + (found.efficiency_still_rising ? " or later" : ""),
                    percent_html(found.plateau_end),
                    each.specific_energy ? value_html(*each.specific_energy, Dimension::specific_energy) : "none"});
  }
  return fmt::format(
             "<p class=\"small quiet\">Quantities of ISO 13314 (definitions from memory: confirm in the edition); "
             "plateau: mean from {:.0f} to {:.0f} % strain. Rise: quasi-elastic gradient, which holds seating and "
             "machine. Unload: elastic gradient of an unloading loop.</p>\n",
             100 * report.plateau_from, 100 * report.plateau_to) +
         table({{"Specimen"},
                {"Density", true},
                {"Plateau", true},
                {"1 % offset", true},
                {"First max", true},
                {"Rise", true},
                {"Unload", true},
                {"Used up", true},
                {"Plateau end", true},
                {"Energy/mass", true}},
               rows);
}

std::string law_chart(const CouponReport& report, const MeasuredLaw& law, ChartSet& charts) {
  if (!law.line || law.property != "plateau stress") {
    return {};
  }
  LineChart chart;
  chart.id = "plateau-law";
  chart.title = "Plateau stress over relative density, logarithms";
  chart.caption =
      "Dots: specimens, stress over the metal's proof stress. Line: the law; shaded: 95 % band of its mean.";
  chart.x_title = "ln of relative density [-]";
  chart.y_title = "ln of plateau over proof stress [-]";
  const double low = std::log(law.density_low), high = std::log(law.density_high);
  ChartBand band;
  ChartLine line{"law", {}, Dash::solid, 0.5, true};
  for (int i = 0; i <= 20; ++i) {
    const double x = low + (high - low) * i / 20.0;
    const double y = law.line->intercept + law.line->slope * x, half = band_of_mean(*law.line, x);
    line.points.push_back({x, y});
    band.x.push_back(x);
    band.low.push_back(y - half);
    band.high.push_back(y + half);
  }
  chart.lines.push_back(line);
  const double scale = std::log(law.coefficient) - law.line->intercept; // 0: the line is of these very logarithms
  double bottom = *std::min_element(band.low.begin(), band.low.end());
  double top = *std::max_element(band.high.begin(), band.high.end());
  for (const ReducedSpecimen& each : report.specimens) {
    if (each.relative_density && report.proof_stress) {
      const double y = std::log(each.quantities.plateau_stress / *report.proof_stress) + scale;
      chart.markers.push_back({"", {std::log(*each.relative_density), y}});
      bottom = std::min(bottom, y);
      top = std::max(top, y);
    }
  }
  chart.bands.push_back(band);
  const double margin = 0.05 * (high - low) + 1e-6;
  chart.x_low = low - margin;
  chart.x_high = high + margin;
  chart.y_low = bottom - 0.1 * (top - bottom);
  chart.y_high = top + 0.1 * (top - bottom);
  return charts.figure(chart);
}

std::string law_section(const CouponReport& report, ChartSet& charts) {
  Rows rows;
  std::string figures;
  for (const MeasuredLaw& law : report.laws) {
    if (!law.refusal.empty()) {
      rows.push_back({escape_html(law.property), "no law", "", "", "", ""});
      rows.push_back({escape_html(law.refusal) + "."});
      continue;
    }
    rows.push_back({escape_html(law.property),
                    fmt::format("{:.4g}<br><span class=\"quiet\">{:.3g} to {:.3g}</span>", law.coefficient,
                                law.coefficient_low, law.coefficient_high),
                    law.exponent_assumed ? fmt::format("{:.3g}<br><span class=\"quiet\">assumed</span>", law.exponent)
                                         : fmt::format("{:.3g}<br><span class=\"quiet\">{:.3g} to {:.3g}</span>",
                                                       law.exponent, law.exponent_low, law.exponent_high),
                    fmt::format("{} to {}", value_html(law.density_low, Dimension::fraction),
                                value_html(law.density_high, Dimension::fraction)),
                    value_html(law.scatter, Dimension::fraction),
                    value_html(law.leave_one_out_error, Dimension::fraction)});
    figures += law_chart(report, law, charts);
  }
  return "<section id=\"laws\">\n<h2>Laws over relative density</h2>\n" +
         table({{"Property"},
                {"C, or strain at no density", true},
                {"Exponent, or slope", true},
                {"Densities", true},
                {"Scatter", true},
                {"Left-out points missed by", true}},
               rows) +
         "<p class=\"small quiet\">Stress over the metal's proof stress and gradient over its Young's modulus: C "
         "times density "
         "to the exponent. Efficiency strain: a strain less slope times density. Intervals 95 %.</p>\n" +
         figures + "</section>\n";
}

/// One row for what several specimens share.
std::string condition_section(const CouponReport& report) {
  std::vector<std::pair<TestCondition, std::vector<std::string>>> kinds;
  for (const ReducedSpecimen& specimen : report.specimens) {
    for (const TestCondition& condition : specimen.conditions) {
      const auto same = std::find_if(kinds.begin(), kinds.end(), [&](const auto& kind) {
        const TestCondition& other = kind.first;
        return other.what == condition.what && other.found == condition.found && other.asked == condition.asked &&
               other.holds == condition.holds;
      });
      (same == kinds.end() ? kinds.emplace_back(condition, std::vector<std::string>{}) : *same)
          .second.push_back(specimen.facts.id);
    }
  }
  std::stable_sort(kinds.begin(), kinds.end(),
                   [](const auto& one, const auto& other) { return one.first.what < other.first.what; });
  Rows rows;
  for (const auto& [condition, specimens] : kinds) {
    rows.push_back({escape_html(condition.what), escape_html(condition.found), escape_html(condition.asked),
                    !condition.holds   ? "cannot be told"
                    : *condition.holds ? "holds"
                                       : element("span", "not met", "used"),
                    specimens.size() == report.specimens.size()
                        ? "all"
                        : id_html(fmt::format("{}", fmt::join(specimens, ", ")))});
  }
  return "<section id=\"conditions\">\n<h2>Conditions of the standard</h2>\n<p class=\"small quiet\">ISO 13314, from "
         "memory: "
         "confirm in the edition that binds you.</p>\n" +
         table({{"What"}, {"Found", true}, {"Asked", true}, {""}, {"Specimens"}}, rows) + "</section>\n";
}

std::string sentences(const std::string& heading, const std::vector<std::string>& texts) {
  if (texts.empty()) {
    return {};
  }
  std::string html = "<h2>" + heading + "</h2>\n<ul>\n";
  for (const std::string& text : texts) {
    html += element("li", escape_html(text)) + "\n";
  }
  return html + "</ul>\n";
}

template <class Test>
std::vector<std::string> handled(const std::vector<Test>& tests) {
  std::vector<std::string> texts;
  for (const Test& test : tests) {
    for (const std::string& remark : test.test.remarks) {
      texts.push_back(test.facts.id + ": " + remark);
    }
  }
  return texts;
}

std::string lattice_part(const CouponReport& report, ChartSet& charts) {
  std::string html = fmt::format(
      "<h1>{}</h1>\n<p class=\"lead\">{}</p>\n", escape_html(report.title),
      escape_html(fmt::format("{}, load along {}, {}. {}", report.cell.empty() ? "cell not stated" : report.cell,
                              report.direction.empty() ? "a direction not stated" : report.direction,
                              report.material.empty() ? "metal not stated" : report.material, report.source.text)));
  html += summary_section(report.summaries);
  html += "<section id=\"curves-section\">\n<h2>Specimens</h2>\n" + lattice_curves(report, charts) +
          specimen_table(report) + "</section>\n";
  html += law_section(report, charts) + condition_section(report);
  std::vector<std::string> warnings = report.warnings;
  for (const ReducedSpecimen& specimen : report.specimens) {
    for (const std::string& warning : specimen.warnings) {
      warnings.push_back(specimen.facts.id + ": " + warning);
    }
  }
  return html + sentences("Handled on the way", handled(report.specimens)) + sentences("Warnings", warnings);
}

std::string metal_curves(const MetalReport& report, ChartSet& charts) {
  double strain = 0, stress = 0;
  for (const MetalTest& each : report.tests) {
    const StressStrain& curve = each.test.curve;
    strain = std::max(strain, 100 * curve.strain.back());
    stress = std::max(stress, 1e-6 * *std::max_element(curve.stress.begin(), curve.stress.end()));
  }
  LineChart chart = curve_chart("Stress against strain", "Engineering values, toe and loops out.", rounded_up(strain),
                                1.1 * stress);
  for (std::size_t i = 0; i < report.tests.size(); ++i) {
    const double at = 0.2 + 0.6 * static_cast<double>(i) / static_cast<double>(report.tests.size());
    chart.lines.push_back(
        {report.tests[i].facts.id, curve_points(report.tests[i].test.curve), dash_of(i), at, i % 2 == 0});
  }
  return charts.figure(chart);
}

std::string rate_part(const RateFit& rate) {
  if (!rate.refusal.empty()) {
    return "<p>No rate law: " + escape_html(rate.refusal) + ".</p>\n";
  }
  std::string text =
      fmt::format("Johnson-Cook C {:.3g} ({:.2g} to {:.2g}, 95 %) over {:.3g} 1/s", rate.johnson_cook_C,
                  rate.johnson_cook_C_low, rate.johnson_cook_C_high, rate.reference_rate);
  if (rate.cowper_symonds_D) {
    text += fmt::format("; Cowper-Symonds D {:.3g} 1/s, q {:.3g}", *rate.cowper_symonds_D, *rate.cowper_symonds_q);
  }
  return "<p>" + escape_html(text) +
         fmt::format("; largest miss of the better one {:.1f} %. Constants of the yield point "
                     "overstate what a crushing lattice gains.</p>\n",
                     100 * rate.largest_miss);
}

std::string metal_part(const MetalReport& report, ChartSet& charts) {
  std::string html = fmt::format(
      "<h1>{}</h1>\n<p class=\"lead\">{}</p>\n", escape_html(report.title),
      escape_html(fmt::format("{}, {}. {}", report.kind == TestKind::metal_tension ? "pulled" : "pressed",
                              report.material.empty() ? "metal not stated" : report.material, report.source.text)));
  Rows rows;
  for (const MetalTest& each : report.tests) {
    rows.push_back({id_html(each.facts.id), stress_html(each.youngs_modulus), stress_html(each.proof_stress),
                    stress_html(each.ultimate_stress), percent_html(each.uniform_elongation),
                    percent_html(each.fracture_elongation),
                    each.hardening_exponent ? fmt::format("{:.3f}", *each.hardening_exponent) : "none",
                    each.strain_rate ? fmt::format("{:.3g} 1/s", *each.strain_rate) : "none"});
  }
  html += summary_section(report.summaries);
  html += "<section>\n<h2>Specimens</h2>\n" + metal_curves(report, charts) +
          table({{"Specimen"},
                 {"Modulus", true},
                 {"0.2 % proof", true},
                 {"Ultimate", true},
                 {"Uniform", true},
                 {"Fracture", true},
                 {"Hardening n", true},
                 {"Rate", true}},
                rows) +
          "</section>\n<section>\n<h2>Strain rate</h2>\n" + rate_part(report.rate) + "</section>\n";
  return html + sentences("Handled on the way", handled(report.tests)) + sentences("Warnings", report.warnings);
}

LineChart prediction_chart(const SpecimenPrediction& prediction, std::size_t i) {
  LineChart chart;
  chart.id = fmt::format("prediction-{}", i);
  chart.title = fmt::format("{}, density {:.1f} %", prediction.specimen, 100 * prediction.relative_density);
  chart.x_title = "strain [%]";
  chart.y_title = "stress [MPa]";
  const auto line = [&](const char* label, const SampledCurve& curve, Dash dash, bool below) {
    ChartLine drawn{label, curve_points({curve.x, curve.y}), dash, 0.6, below};
    for (const ChartPoint& point : drawn.points) {
      chart.x_high = std::max(chart.x_high, point.x);
      chart.y_high = std::max(chart.y_high, point.y);
    }
    chart.lines.push_back(drawn);
  };
  line("measured", prediction.correlation.measured, Dash::solid, true);
  line("predicted", prediction.correlation.predicted, Dash::dashed, false);
  chart.y_high = rounded_up(1.1 * chart.y_high);
  return chart;
}

std::string prediction_section(const std::vector<SpecimenPrediction>& predictions, ChartSet& charts) {
  if (predictions.empty()) {
    return {};
  }
  Rows rows;
  std::string figures = "<div class=\"charts two\">\n";
  for (std::size_t i = 0; i < predictions.size(); ++i) {
    const Correlation& found = predictions[i].correlation;
    const CurveRating& rating = found.rating;
    rows.push_back({id_html(predictions[i].specimen), id_html(predictions[i].law),
                    std::string(name_of(predictions[i].evidence)),
                    found.plateau_error ? margin_text(*found.plateau_error) : "none", margin_text(found.energy_error),
                    margin_text(found.peak_error), fmt::format("{:.2f}", found.normalised_error),
                    fmt::format("{:.2f}<br><span class=\"quiet\">{:.2f} {:.2f} {:.2f} {:.2f}</span>", rating.overall,
                                rating.corridor, rating.phase, rating.magnitude, rating.slope),
                    rating.word});
    figures += charts.figure(prediction_chart(predictions[i], i));
  }
  return "<section id=\"predictions\">\n<h2>Predicted against measured</h2>\n<p class=\"small quiet\">What the "
         "catalogue says "
         "of these specimens without measured laws, up to the strain at which each is used up; errors are predicted "
         "over "
         "measured, less 1. Rating after ISO/TS 18571 (corridor, phase, magnitude, slope below it), made for time "
         "histories; "
         "parameters read in public implementations, not in the standard.</p>\n" +
         table({{"Specimen"},
                {"Law"},
                {"Evidence"},
                {"Plateau", true},
                {"Energy", true},
                {"Peak", true},
                {"Normalised error", true},
                {"Rating", true},
                {"Word"}},
               rows) +
         figures + "</div>\n</section>\n";
}

std::string change_part(const std::optional<VerdictChange>& change) {
  if (!change) {
    return {};
  }
  const auto row = [](const char* when, const VerdictInShort& verdict) {
    return std::vector<std::string>{when, word_badge(verdict.word), escape_html(verdict.text)};
  };
  return fmt::format("<section id=\"verdict-change\">\n<h2>Verdict on {}</h2>\n", escape_html(change->title)) +
         table({{""}, {"Word"}, {"What governs"}},
               {row("without these tests", change->before), row("with them", change->after)}) +
         (change->coupons_to_pass.empty() ? "" : "<p>" + escape_html(change->coupons_to_pass) + "</p>\n") +
         "</section>\n";
}

} // namespace

std::string coupon_page(const CouponResult& result, const std::string& program_version) {
  ChartSet charts;
  std::string html = result.lattice ? lattice_part(*result.lattice, charts)
                     : result.metal ? metal_part(*result.metal, charts)
                                    : std::string();
  html += prediction_section(result.predictions, charts) + change_part(result.change);
  html +=
      "<section>\n<h2>Cautions</h2>\n<p>A coupon says what its build, batch and machine gave; another build may "
      "not. " +
      escape_html(caution_defer()) +
      fmt::format("</p>\n</section>\n<p class=\"small quiet\">crushwright {}</p>\n", escape_html(program_version));
  const std::string title = result.lattice ? result.lattice->title : result.metal ? result.metal->title : "Tests";
  return self_contained_page(title, html, charts);
}

} // namespace crushwright
