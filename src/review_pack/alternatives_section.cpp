#include "review_pack/page.hpp"

#include "quantities/units.hpp"
#include "review_pack/html.hpp"

#include <algorithm>
#include <filesystem>
#include <iterator>

#include <fmt/format.h>

namespace crushwright {

namespace {

/// Writes candidates as rows, each with the number that names it in the chart.
class CandidateTable {
public:
  void add(const std::string& heading, const std::vector<Candidate>& candidates) {
    if (candidates.empty()) {
      return;
    }
    rows_.push_back({element("b", escape_html(heading))});
    for (const Candidate& candidate : candidates) {
      add(candidate);
    }
  }

  std::string html() const {
    return table({{"No.", true},
                  {"Design"},
                  {"Mass", true},
                  {"Word"},
                  {"Governing"},
                  {"Peak force", true},
                  {"Crush", true},
                  {"Energy over mass", true}},
                 rows_);
  }

  ScatterChart chart(const std::string& id, const std::string& title) const {
    ScatterChart result;
    result.id = id;
    result.title = title;
    result.caption = "The shape tells the word; numbers as in the table. Peak force: greatest of one structure at "
                     "nominal.";
    result.x_title = "mass of all structures [kg]";
    result.y_title = "peak force [kN]";
    result.points = points_;
    return result;
  }

private:
  void add(const Candidate& candidate) {
    const std::string number = fmt::format("{}", ++count_);
    if (candidate.mass > 0) {
      points_.push_back({candidate.mass, candidate.peak_force * 1e-3, std::string(name_of(candidate.word)), number});
    }
    std::string design = escape_html(candidate.label);
    if (!candidate.remark.empty()) {
      design += fmt::format("<br><span class=\"quiet\">{}</span>", escape_html(candidate.remark));
    }
    rows_.push_back({number, design, value_html(candidate.mass, Dimension::mass), word_badge(candidate.word),
                     fmt::format("<span class=\"id\">{}</span><br>{}", escape_html(candidate.governing_limit),
                                 escape_html(margin_text(candidate.governing_margin))),
                     value_html(candidate.peak_force, Dimension::force),
                     value_html(candidate.peak_crush, Dimension::length),
                     value_html(candidate.specific_energy_absorption, Dimension::specific_energy)});
  }

  int count_ = 0;
  std::vector<std::vector<std::string>> rows_;
  std::vector<ScatterPoint> points_;
};

/// The lowest peak-force limit on a structure, to draw across the charts.
std::vector<ChartLevel> force_limit(const Verdict& verdict) {
  const Limit* lowest = nullptr;
  for (const Check& check : verdict.checks) {
    const Limit& limit = check.limit;
    if (limit.quantity == LimitedQuantity::force && limit.at_most && limit.of != "structures" &&
        (lowest == nullptr || limit.value.value < lowest->value.value)) {
      lowest = &limit;
    }
  }
  if (lowest == nullptr) {
    return {};
  }
  return {{fmt::format("limit {} ({})", show(lowest->value.value, Dimension::force), lowest->id),
           lowest->value.value * 1e-3, true}};
}

/// The commands that would fill the section, for this case file by its name alone: where it lies is not said.
std::string not_run(const CrashCase& crash_case) {
  const std::string file = std::filesystem::path(crash_case.file_name).filename().generic_string();
  return fmt::format(
      "<p>Not run for this pack. <code>crushwright compare {0}</code> sets materials and cells against "
      "each other on this case; <code>crushwright size {0}</code> finds the lightest strut or wall{1}.</p>\n",
      escape_html(file), crash_case.sizing ? "" : ", once the case has a <code>size</code> block");
}

std::string comparison_html(const ComparisonResult& comparison, const Verdict& verdict, ChartSet& charts) {
  CandidateTable candidates;
  candidates.add("Each cell and material at its own least mass", comparison.sized);
  candidates.add("At the stated relative densities", comparison.fixed);
  candidates.add("Without a lattice, or with another filler, at the same task", comparison.baselines);
  ScatterChart chart = candidates.chart("alternatives", "Mass against peak force");
  chart.levels = force_limit(verdict);
  return "<h3>Cells and materials compared</h3>\n" + charts.figure(chart) + candidates.html() +
         bullet_list(comparison.notes);
}

std::string sizing_html(const SizingResult& sizing, const Verdict& verdict, ChartSet& charts) {
  CandidateTable candidates;
  candidates.add(sizing.found ? "The lightest that passes" : "None passes; this one misses by least", {sizing.best});
  std::vector<Candidate> other_choices;
  std::copy_if(sizing.per_choice.begin(), sizing.per_choice.end(), std::back_inserter(other_choices),
               [&](const Candidate& choice) { return choice.cell_edge != sizing.best.cell_edge; });
  candidates.add("Best of the other cell edges", other_choices);
  ScatterChart chart = candidates.chart("sizing", "Designs tried in sizing");
  chart.levels = force_limit(verdict);
  for (const Candidate& tried : sizing.scanned) {
    if (tried.mass > 0) {
      chart.points.push_back({tried.mass, tried.peak_force * 1e-3, std::string(name_of(tried.word)), ""});
    }
  }
  return "<h3>Sizing</h3>\n" + element("p", escape_html(sizing.binding)) + "\n" + charts.figure(chart) +
         candidates.html();
}

} // namespace

std::string alternatives_section(const PageContent& content, ChartSet& charts) {
  std::string html = "<section id=\"alternatives\">\n<h2>Alternatives</h2>\n";
  const Alternatives& alternatives = content.alternatives;
  if (!alternatives.comparison && !alternatives.sizing) {
    return "<section id=\"alternatives\">\n<h2>Alternatives</h2>\n" + not_run(content.crash_case) + "</section>\n";
  }
  if (alternatives.sizing) {
    html += sizing_html(*alternatives.sizing, content.estimate.deciding.verdict, charts);
  }
  if (alternatives.comparison) {
    html += comparison_html(*alternatives.comparison, content.estimate.deciding.verdict, charts);
  }
  return html + "</section>\n";
}

} // namespace crushwright
