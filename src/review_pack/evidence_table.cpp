#include "review_pack/evidence_table.hpp"

#include "review_pack/html.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

namespace crushwright {

namespace {

// The same 30 % from which the cell's warnings speak of disagreement (docs/method/cell_property.md).
constexpr double notable_disagreement = 0.30;

constexpr Evidence always_shown[] = {Evidence::measured, Evidence::published, Evidence::computed, Evidence::generic};

bool has_prior(const CellProperties& properties) {
  return std::any_of(shown_properties.begin(), shown_properties.end(), [&](const ShownProperty& shown) {
    const std::vector<PropertyEvidence>& all = (properties.*shown.member).all;
    return std::any_of(all.begin(), all.end(),
                       [](const PropertyEvidence& evidence) { return evidence.evidence == Evidence::prior; });
  });
}

std::string difference_mark(const PropertyEvidence& evidence, const PropertyEvidence& used) {
  const double difference = used.value == 0 ? 0 : evidence.value / used.value - 1;
  if (std::abs(difference) <= notable_disagreement) {
    return {};
  }
  return fmt::format("<br><span class=\"differs\">\u26a0\u00a0{} off the one used</span>", margin_text(difference));
}

std::string value_block(const PropertyEvidence& evidence, const PropertyEvidence& used, Dimension dimension) {
  std::string html = value_html(evidence.value, dimension);
  if (&evidence == &used) {
    html = fmt::format("<span class=\"chosen\">{}</span> <span class=\"used\">used</span>", html);
  } else {
    html += difference_mark(evidence, used);
  }
  html += fmt::format("<br><span class=\"id quiet\">{}</span>", escape_html(evidence.law));
  if (!evidence.inside_fitted_range) {
    html += "<br><span class=\"quiet\">outside its fitted range</span>";
  }
  return fmt::format("<div class=\"evidence\">{}</div>", html);
}

std::string kind_cell(const CellProperty& property, Evidence kind, Dimension dimension) {
  std::string html;
  for (const PropertyEvidence& evidence : property.all) {
    if (evidence.evidence == kind) {
      html += value_block(evidence, property.all.front(), dimension);
    }
  }
  return html.empty() ? element("span", "none", "quiet") : html;
}

} // namespace

std::string evidence_table(const CellProperties& properties) {
  std::vector<Evidence> kinds(std::begin(always_shown), std::end(always_shown));
  std::vector<TableColumn> columns = {{"Property"}, {"Measured"}, {"Published"}, {"Computed"}, {"Generic"}};
  if (has_prior(properties)) {
    kinds.push_back(Evidence::prior);
    columns.push_back({"Prior"});
  }
  std::vector<std::vector<std::string>> rows;
  for (const ShownProperty& shown : shown_properties) {
    const CellProperty& property = properties.*shown.member;
    if (property.all.empty()) {
      continue;
    }
    std::vector<std::string> row = {element("span", escape_html(shown.name), "used")};
    for (const Evidence kind : kinds) {
      row.push_back(kind_cell(property, kind, shown.dimension));
    }
    rows.push_back(std::move(row));
    if (!property.reason.empty()) {
      rows.push_back({fmt::format("Why this one: {}.", escape_html(property.reason))});
    }
  }
  return rows.empty() ? std::string() : element("div", table(columns, rows), "side-by-side");
}

} // namespace crushwright
