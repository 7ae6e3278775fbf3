#include "review_pack/page.hpp"

#include "quantities/units.hpp"
#include "review_pack/column_text.hpp"
#include "review_pack/html.hpp"
#include "review_pack/verdict_words.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string requirement_html(const Limit& limit) {
  std::string text = std::string(name_of(limit.status));
  for (char& letter : text) {
    letter = letter == '_' ? ' ' : letter;
  }
  const Requirement& requirement = limit.requirement;
  std::string html = escape_html(text);
  if (!requirement.identifier.empty()) {
    html = fmt::format("{}<br><span class=\"quiet\">{}</span>", escape_html(requirement.identifier), html);
  }
  std::string place = requirement.edition;
  if (!requirement.clause.empty()) {
    place += (place.empty() ? "clause " : ", clause ") + requirement.clause;
  }
  return place.empty() ? html : fmt::format("{}<br><span class=\"quiet\">{}</span>", html, escape_html(place));
}

std::string side_html(const std::optional<double>& value, bool bottomed, LimitedQuantity quantity, bool worst) {
  std::string html = escape_html(value ? show(*value, dimension_of(quantity)) : "none");
  if (worst) {
    html = element("span", html, "used");
  }
  return bottomed ? html + "<br><span class=\"quiet\">bottoms out</span>" : html;
}

std::string margin_html(const Check& check) {
  if (!has_value(check)) {
    return "none";
  }
  return fmt::format("{}<br><span class=\"quiet\">{}</span>", escape_html(margin_text(check.margin)),
                     same_on_every_side(check) ? "" : name_of(check.worst_side));
}

std::string stacked_html(const Check& check) {
  const std::optional<double> worst = worst_stacked(check);
  const std::string word = element("span", stacked_word(check), "quiet");
  return !worst ? word : fmt::format("{}<br>{}", value_html(*worst, dimension_of(check.limit.quantity)), word);
}

std::vector<std::string> check_row(const Check& check) {
  const Limit& limit = check.limit;
  const SideValues& sides = check.combined;
  const auto side = [&](Side which, const std::optional<double>& value, bool bottomed) {
    return side_html(value, bottomed, limit.quantity,
                     has_value(check) && !same_on_every_side(check) && check.worst_side == which);
  };
  return {word_badge(check.word),
          fmt::format("{}<br><span class=\"id quiet\">{}</span>", escape_html(limited_thing(limit)),
                      escape_html(limit.id)),
          requirement_html(limit),
          escape_html(limit_text(limit)),
          side(Side::weak, sides.weak, sides.weak_bottomed),
          side(Side::nominal, sides.nominal, sides.nominal_bottomed),
          side(Side::strong, sides.strong, sides.strong_bottomed),
          margin_html(check),
          stacked_html(check)};
}

std::string check_table(const Verdict& verdict) {
  const std::vector<TableColumn> columns = {{"Word"},         {"Limit"},        {"Requirement"},
                                            {"Value", true},  {"Weak", true},   {"Nominal", true},
                                            {"Strong", true}, {"Margin", true}, {"Stacked", true}};
  std::vector<std::vector<std::string>> rows;
  for (const Check& check : verdict.checks) {
    rows.push_back(check_row(check));
    if (const std::string note = check.note; !note.empty()) {
      rows.push_back({escape_html(note)});
    }
  }
  return table(columns, rows);
}

/// How to read the table of checks.
std::string check_key(const Verdict& verdict) {
  std::string text =
      "Weak, nominal and strong are the crush force with its scatters combined; tolerances and interval quantities "
      "stand at the end that worsens each check. The worst side is in bold; the margin is on that side, over the "
      "limit. <b>pass</b> holds on every side, <b>fail</b> fails at nominal, <b>open</b> holds at nominal and is not "
      "shown to hold on a side. " +
      escape_html(stacked_meaning());
  const bool of_part = std::any_of(verdict.checks.begin(), verdict.checks.end(),
                                   [](const Check& check) { return limits_collapse_of_part(check.limit); });
  if (of_part) {
    text +=
        " Collapse of a part is what its layers shorten beyond the start of their own collapse: a part that stays "
        "below may still have yielded locally and must be inspected after the hit.";
  }
  return element("p", text, "small quiet") + "\n";
}

std::string limit_name(const Limit& limit) {
  return fmt::format(
      "<span class=\"id\">{}</span>{}", escape_html(limit.id),
      limit.impact.empty() ? "" : fmt::format(" <span class=\"quiet\">in {}</span>", escape_html(limit.impact)));
}

std::string set_cell(const Check& check) {
  return fmt::format("{} {}", word_badge(check.word),
                     !has_value(check) ? "no value"
                                       : fmt::format("{} {}", escape_html(margin_text(check.margin)),
                                                     same_on_every_side(check) ? "" : name_of(check.worst_side)));
}

/// Words of every scatter set side by side: what better knowledge of the same design would change.
std::string set_table(const Estimate& estimate) {
  std::vector<TableColumn> columns = {{"Limit"}, {fmt::format("{} (decides)", estimate.deciding.scatter_set)}};
  std::vector<std::vector<std::string>> rows = {{"whole verdict", word_badge(estimate.deciding.verdict.word)}};
  for (const JudgedSet& set : estimate.others) {
    columns.push_back({set.scatter_set});
    rows[0].push_back(word_badge(set.verdict.word));
  }
  for (std::size_t i = 0; i < estimate.deciding.verdict.checks.size(); ++i) {
    const Check& check = estimate.deciding.verdict.checks[i];
    std::vector<std::string> row = {limit_name(check.limit), set_cell(check)};
    for (const JudgedSet& set : estimate.others) {
      row.push_back(i < set.verdict.checks.size() ? set_cell(set.verdict.checks[i]) : "");
    }
    rows.push_back(row);
  }
  return "<div class=\"keep\"><h3>The same design with the other scatter sets</h3>\n" + table(columns, rows) +
         "</div>\n";
}

std::string more_energy_table(const Estimate& estimate) {
  const std::vector<TableColumn> columns = {
      {"Impact"},    {"With more energy"},          {"First limit missed"},
      {"Structure"}, {"Greatest crush then", true}, {"Stroke left as asked", true}};
  std::vector<std::vector<std::string>> rows;
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    const MoreEnergy& more = impact.more_energy;
    const RunOutcome& nominal = run_on(impact, Side::nominal);
    for (const OutcomeGroup& group : grouped_outcomes(more.nominal)) {
      const bool first = group.first == 0;
      const std::string left = group.first < nominal.structures.size()
                                   ? value_html(nominal.structures[group.first].stroke_left, Dimension::length)
                                   : std::string();
      rows.push_back(
          {first ? element("span", escape_html(impact.id), "id") : "",
           first ? fmt::format("+{} {}", value_html(more.factor - 1, Dimension::fraction), word_badge(more.word))
                 : "",
           !first                            ? ""
           : more.first_limit_missed.empty() ? "none"
                                             : element("span", escape_html(more.first_limit_missed), "id"),
           element("span", escape_html(group.structures), "id"),
           value_html(group.outcome->peak_crush, Dimension::length) +
               (group.outcome->bottomed ? ", bottoms out" : ""),
           left});
    }
  }
  return table(columns, rows);
}

std::vector<std::string> stroke_sentences(const Estimate& estimate) {
  std::vector<std::string> sentences;
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    for (const OutcomeGroup& group : grouped_outcomes(run_on(impact, Side::nominal))) {
      sentences.push_back(fmt::format("{}, {}: {}.", impact.id, group.structures, stroke_sentence(*group.outcome)));
    }
  }
  return sentences;
}

std::vector<std::string> inversion_sentences(const Estimate& estimate) {
  std::vector<std::string> sentences;
  for (const std::size_t i : own_structures(estimate)) {
    for (const Inversion& inversion : estimate.structures[i].inversions) {
      sentences.push_back(fmt::format("{}: the layer at station {} collapses at {}, before its neighbour towards the "
                                      "struck end, which needs {}.",
                                      with_mirrors(estimate, i), show(inversion.station, Dimension::length),
                                      show(inversion.collapse_force, Dimension::force),
                                      show(inversion.outer_collapse_force, Dimension::force)));
    }
  }
  return sentences;
}

} // namespace

std::string title_section(const PageContent& content) {
  const CrashCase& crash_case = content.crash_case;
  std::string html = element("h1", escape_html(crash_case.title)) + "\n";
  html += fmt::format("<p class=\"quiet\">{}{}Case <span class=\"id\">{}</span>.{}</p>\n",
                      escape_html(crash_case.vehicle), crash_case.vehicle.empty() ? "" : ". ",
                      escape_html(crash_case.id), crash_case.invented ? " The data of this case are invented." : "");
  if (!crash_case.description.empty()) {
    html += element("p", escape_html(crash_case.description)) + "\n";
  }
  return html;
}

std::string verdict_section(const PageContent& content) {
  const Estimate& estimate = content.estimate;
  const Verdict& verdict = estimate.deciding.verdict;
  std::string html = "<section id=\"verdict\">\n<div class=\"verdict\">";
  html +=
      fmt::format("<p class=\"lead\">{} {}</p>\n", word_badge(verdict.word), escape_html(verdict_sentence(verdict)));
  html += element("p", escape_html(governing_sentence(verdict)));
  html += element("p", escape_html(scatter_sentence(content.crash_case, estimate.deciding.scatter_set)), "quiet");
  for (const std::string& sentence : other_set_sentences(estimate)) {
    html += element("p", escape_html(sentence));
  }
  html += fmt::format("<p>{} See the <a href=\"#columns\">column checks</a> and the <a "
                      "href=\"#assumptions\">assumptions</a>.</p>",
                      prose_html(beside_the_verdict(estimate)));
  if (!estimate.warnings.empty()) {
    html += fmt::format("<p class=\"quiet\"><a href=\"#warnings\">{} warning{}</a> further down.</p>",
                        estimate.warnings.size(), estimate.warnings.size() == 1 ? "" : "s");
  }
  html += "</div>\n<h2>Checks</h2>\n";
  html += check_table(verdict);
  html += check_key(verdict);
  if (!estimate.others.empty()) {
    html += set_table(estimate);
  }
  return html + "</section>\n";
}

std::string beyond_section(const PageContent& content) {
  std::string html = "<section id=\"beyond\">\n<h2>Beyond a pass</h2>\n";
  html += more_energy_table(content.estimate);
  html += bullet_list(stroke_sentences(content.estimate));
  html += bullet_list(stroke_ends(content.estimate));
  const std::vector<std::string> inversions = inversion_sentences(content.estimate);
  html += inversions.empty()
              ? "<p>No inversion: every layer is stronger than its neighbour towards the struck end.</p>\n"
              : "<h3>Inversions</h3>\n" + bullet_list(inversions);
  return html + "</section>\n";
}

} // namespace crushwright
