#include "review_pack/html.hpp"
#include "review_pack/page.hpp"
#include "review_pack/print_words.hpp"

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string figures_html(const CrashCase& crash_case, const StructureModel& structure) {
  std::vector<std::vector<std::string>> rows;
  for (const PrintLine& line : print_lines(crash_case, structure)) {
    rows.push_back({escape_html(line.what), escape_html(line.value), escape_html(line.against)});
  }
  return table({{""}, {"Figure"}, {"The machine asks"}}, rows);
}

std::string structure_html(const PageContent& content, std::size_t index) {
  const StructureModel& structure = content.estimate.structures[index];
  std::string html = fmt::format("<h3>{}</h3>\n", escape_html(with_mirrors(content.estimate, index)));
  html += figures_html(content.crash_case, structure);
  html += element("p", escape_html(direction_sentence(structure))) + "\n";
  html += bullet_list(split_sentences(structure));
  if (!structure.printing->faults.empty()) {
    html += "<p><b>Not kept</b></p>\n" + bullet_list(structure.printing->faults);
  }
  return html;
}

} // namespace

std::string print_section(const PageContent& content) {
  if (!has_printing(content.estimate)) {
    return {};
  }
  std::string html = "<section id=\"printing\">\n<h2>Printing</h2>\n";
  for (const std::size_t i : own_structures(content.estimate)) {
    html += structure_html(content, i);
  }
  html += element("p", escape_html(caution_printing()), "small quiet") + "\n";
  html += element("p", escape_html(caution_powder())) + "\n";
  return html + "</section>\n";
}

} // namespace crushwright
