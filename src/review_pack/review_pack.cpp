#include "review_pack/review_pack.hpp"

#include "result_file/curve_files.hpp"
#include "result_file/file_set.hpp"
#include "result_file/result_document.hpp"
#include "review_pack/browser_bundles.hpp"
#include "review_pack/html.hpp"
#include "review_pack/page_style.hpp"

#include <utility>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string sections(const PageContent& content, ChartSet& charts) {
  std::string html = title_section(content);
  html += verdict_section(content);
  html += beyond_section(content);
  html += structure_section(content);
  html += crush_section(content, charts);
  html += impact_section(content, charts);
  html += cell_section(content, charts);
  html += axis_section(content, charts);
  html += mass_section(content);
  html += alternatives_section(content, charts);
  html += input_section(content);
  html += property_section(content);
  html += material_section(content);
  html += assumption_section(content);
  html += warning_section(content);
  html += caution_section();
  html += reference_section(content);
  html += provenance_section(content);
  return html;
}

/// The page may run its own scripts and fetch nothing; the chart library compiles its expressions, hence unsafe-eval.
std::string head(const CrashCase& crash_case) {
  return fmt::format("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                     "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
                     "'unsafe-inline'; script-src 'unsafe-inline' 'unsafe-eval'; img-src data:\">\n"
                     "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                     "<link rel=\"icon\" href=\"data:,\">\n<title>{}</title>\n<style>{}</style>\n</head>\n",
                     escape_html(crash_case.title), page_style());
}

std::string script(std::string_view code) {
  std::string html = "<script>";
  html += code;
  html += "</script>\n";
  return html;
}

} // namespace

std::string review_page(const CrashCase& crash_case, const Estimate& estimate, const Provenance& provenance,
                        const std::vector<BaseMaterial>& materials, const Alternatives& alternatives) {
  const PageContent content{crash_case, estimate, provenance, materials, alternatives};
  ChartSet charts;
  std::string html = head(crash_case);
  html += "<body>\n<main>\n" + sections(content, charts);
  html +=
      "<noscript><p>The charts need the scripts of this page; tables and drawings do not.</p></noscript>\n</main>\n";
  html += fmt::format("<script type=\"application/json\" id=\"chart-specs\">{}</script>\n",
                      escape_script_json(charts.specs_json()));
  html += script(vega_script()) + script(vega_lite_script()) + script(page_script());
  html += "</body>\n</html>\n";
  return html;
}

void write_review_pack(const std::filesystem::path& folder, const CrashCase& crash_case, const Estimate& estimate,
                       const Provenance& provenance, const std::vector<BaseMaterial>& materials,
                       const Alternatives& alternatives) {
  std::vector<PackFile> files = curve_files(estimate);
  files.push_back({"result.json", result_document(crash_case, estimate, provenance)});
  files.push_back({"review.html", review_page(crash_case, estimate, provenance, materials, alternatives)});
  write_pack_folder(folder, files);
}

} // namespace crushwright
