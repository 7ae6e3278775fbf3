#include "review_pack/page.hpp"

#include "review_pack/browser_bundles.hpp"
#include "review_pack/html.hpp"
#include "review_pack/page_style.hpp"

#include <fmt/format.h>

namespace crushwright {

namespace {

/// The page may run its own scripts and fetch nothing; the chart library compiles its expressions, hence unsafe-eval.
std::string head(const std::string& title) {
  return fmt::format("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                     "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
                     "'unsafe-inline'; script-src 'unsafe-inline' 'unsafe-eval'; img-src data:\">\n"
                     "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                     "<link rel=\"icon\" href=\"data:,\">\n<title>{}</title>\n<style>{}</style>\n</head>\n",
                     escape_html(title), page_style());
}

std::string script(std::string_view code) {
  std::string html = "<script>";
  html += code;
  html += "</script>\n";
  return html;
}

} // namespace

std::string self_contained_page(const std::string& title, const std::string& sections, const ChartSet& charts) {
  std::string html = head(title);
  html += "<body>\n<main>\n" + sections;
  html +=
      "<noscript><p>The charts need the scripts of this page; tables and drawings do not.</p></noscript>\n</main>\n";
  html += fmt::format("<script type=\"application/json\" id=\"chart-specs\">{}</script>\n",
                      escape_script_json(charts.specs_json()));
  html += script(vega_script()) + script(vega_lite_script()) + script(page_script());
  html += "</body>\n</html>\n";
  return html;
}

std::string ChartSet::add(const std::string& id, const std::string& title, const std::string& caption,
                          std::string spec) {
  specs_.emplace_back(id, std::move(spec));
  return fmt::format("<figure><b>{}</b><div data-chart=\"{}\" role=\"img\" aria-label=\"{}\"></div>{}</figure>\n",
                     escape_html(title), escape_html(id), escape_html(title),
                     caption.empty() ? "" : element("figcaption", escape_html(caption)));
}

std::string ChartSet::figure(const LineChart& chart) {
  return add(chart.id, chart.title, chart.caption, chart_spec(chart));
}

std::string ChartSet::figure(const ScatterChart& chart) {
  return add(chart.id, chart.title, chart.caption, chart_spec(chart));
}

std::string ChartSet::specs_json() const {
  std::string text = "{";
  for (const auto& [id, spec] : specs_) {
    fmt::format_to(std::back_inserter(text), "{}\"{}\":{}", text.size() > 1 ? ",\n" : "", id, spec);
  }
  text += '}';
  return text;
}

std::string bullet_list(const std::vector<std::string>& sentences) {
  if (sentences.empty()) {
    return {};
  }
  std::string html = "<ul>\n";
  for (const std::string& sentence : sentences) {
    html += fmt::format("<li>{}</li>\n", prose_html(sentence));
  }
  html += "</ul>\n";
  return html;
}

std::vector<std::size_t> own_structures(const Estimate& estimate) {
  std::vector<std::size_t> own;
  for (std::size_t i = 0; i < estimate.structures.size(); ++i) {
    if (estimate.structures[i].mirror_of.empty()) {
      own.push_back(i);
    }
  }
  return own;
}

std::string with_mirrors(const Estimate& estimate, std::size_t structure) {
  const std::string& id = estimate.structures.at(structure).id;
  std::string text = id;
  for (const StructureModel& other : estimate.structures) {
    if (other.mirror_of == id) {
      text += fmt::format(" and its mirror {}", other.id);
    }
  }
  return text;
}

bool is_same_body(const Estimate& estimate, std::size_t structure, const std::string& id) {
  const std::string& own = estimate.structures.at(structure).id;
  if (id == own) {
    return true;
  }
  for (const StructureModel& other : estimate.structures) {
    if (other.id == id && other.mirror_of == own) {
      return true;
    }
  }
  return false;
}

} // namespace crushwright
