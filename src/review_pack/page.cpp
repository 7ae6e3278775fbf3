#include "review_pack/page.hpp"

#include "review_pack/html.hpp"

#include <fmt/format.h>

namespace crushwright {

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
    html += fmt::format("<li>{}</li>\n", escape_html(sentence));
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
