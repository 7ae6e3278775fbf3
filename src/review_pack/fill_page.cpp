#include "review_pack/fill_page.hpp"

#include "review_pack/html.hpp"
#include "review_pack/page.hpp"
#include "review_pack/verdict_words.hpp"

#include <fmt/format.h>

namespace crushwright {
namespace {

std::string heading(const CrashCase& crash_case) {
  return fmt::format("<h1>{}: lattice in place</h1>\n<p class=\"lead\">case <span class=\"id\">{}</span>{}</p>\n",
                     escape_html(crash_case.title), escape_html(crash_case.id),
                     crash_case.invented ? "; the data of this case are invented" : "");
}

std::string facts_table(const std::vector<Fact>& facts) {
  std::vector<std::vector<std::string>> rows;
  for (const Fact& fact : facts)
    rows.push_back({escape_html(fact.name), escape_html(fact.value)});
  return table({{""}, {"", true}}, rows);
}

std::string part(const char* title, const std::string& html) {
  return html.empty() ? "" : fmt::format("<h3>{}</h3>\n", title) + html;
}

std::string structure(const FillReview& review) {
  std::string html = fmt::format("<section>\n<h2>{}</h2>\n", escape_html(review.filled.id));
  html += body_pictures_html(body_drawing(review.filled, review.layers));
  html += part("Lattice", facts_table(lattice_facts(review.filled)));
  html += part("Mass", facts_table(mass_facts(review.filled)));
  html += part("Printing", review.print ? facts_table(print_facts(review)) : std::string());
  html += part("Notes", bullet_list(fill_notes(review)));
  html += part("Files beside this page", bullet_list(review.written_files));
  return html + "</section>\n";
}

std::string cautions() {
  return "<section id=\"cautions\">\n<h2>Cautions</h2>\n" +
         bullet_list(
             {"The files hold the lattice as drawn. What is printed is thicker or thinner by the process; weigh "
              "a part and put it under `as_built` in the case before you rely on its mass or force.",
              "Overhangs, spans and openings are judged by stated limits of the machine, and no support "
              "structure is laid out here. Ask whoever runs the machine.",
              "Metal powder burns and harms the lungs: handle it, and parts that may still hold it, by the "
              "maker's sheet and the local rules."}) +
         element("p", escape_html(caution_not_claimed())) + "\n" + element("p", escape_html(caution_defer())) +
         "\n</section>\n";
}

} // namespace

std::string fill_page(const CrashCase& crash_case, const std::vector<FillReview>& reviews,
                      const std::string& program_version) {
  const ChartSet charts;
  std::string html = heading(crash_case);
  for (const FillReview& review : reviews)
    html += structure(review);
  html += cautions();
  html += fmt::format("<p class=\"small quiet\">crushwright {}</p>\n", escape_html(program_version));
  return self_contained_page(crash_case.title, html, charts);
}

} // namespace crushwright
