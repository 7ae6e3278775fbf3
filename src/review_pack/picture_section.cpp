#include "review_pack/fill_facts.hpp"
#include "review_pack/html.hpp"
#include "review_pack/page.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace crushwright {

namespace {

const std::vector<Layer>& layers_of(const PageContent& content, const std::string& id) {
  return std::find_if(content.estimate.structures.begin(), content.estimate.structures.end(),
                      [&](const StructureModel& each) { return each.id == id; })
      ->layers;
}

std::string figures(const FilledStructure& filled) {
  std::vector<std::vector<std::string>> rows;
  for (const std::vector<Fact>& facts : {lattice_facts(filled), mass_facts(filled)}) {
    for (const Fact& fact : facts) {
      rows.push_back({escape_html(fact.name), escape_html(fact.value)});
    }
  }
  return table({{""}, {"", true}}, rows);
}

} // namespace

std::string picture_section(const PageContent& content) {
  if (content.filled.empty()) {
    return "";
  }
  std::string html = "<section id=\"pictures\">\n<h2>Body and lattice</h2>\n";
  for (const FilledStructure& filled : content.filled) {
    BodyDrawing drawing = body_drawing(filled, layers_of(content, filled.id));
    drawing.turned = false; // the page of `fill` turns it
    html += body_pictures_html(drawing);
    html += figures(filled);
    html += bullet_list(filled.notes);
  }
  return html +
         "<p class=\"small quiet\">Sizes as drawn. <code>crushwright fill</code> writes the lattice for printer "
         "and analysis and judges the body as it lies in the machine.</p>\n</section>\n";
}

} // namespace crushwright
