#include "review_pack/review_pack.hpp"

#include "result_file/curve_files.hpp"
#include "result_file/file_set.hpp"
#include "result_file/result_document.hpp"

#include <utility>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string sections(const PageContent& content, ChartSet& charts) {
  std::string html = title_section(content);
  html += verdict_section(content);
  html += beyond_section(content);
  html += structure_section(content);
  html += picture_section(content);
  html += packaging_section(content);
  html += crush_section(content, charts);
  html += impact_section(content, charts);
  html += column_section(content);
  html += cell_section(content, charts);
  html += axis_section(content, charts);
  html += row_section(content);
  html += mass_section(content);
  html += print_section(content);
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

} // namespace

std::string review_page(const CrashCase& crash_case, const Estimate& estimate, const Provenance& provenance,
                        const std::vector<BaseMaterial>& materials, const Alternatives& alternatives,
                        const std::vector<UnitCell>& cells, const std::vector<FilledStructure>& filled) {
  const PageContent content{crash_case, estimate, provenance, materials, alternatives, cells, filled};
  ChartSet charts;
  const std::string html = sections(content, charts);
  return self_contained_page(crash_case.title, html, charts);
}

void write_review_pack(const std::filesystem::path& folder, const CrashCase& crash_case, const Estimate& estimate,
                       const Provenance& provenance, const std::vector<BaseMaterial>& materials,
                       const Alternatives& alternatives, const std::vector<UnitCell>& cells,
                       const std::vector<FilledStructure>& filled) {
  std::vector<PackFile> files = curve_files(estimate);
  files.push_back({"result.json", result_document(crash_case, estimate, provenance)});
  files.push_back(
      {"review.html", review_page(crash_case, estimate, provenance, materials, alternatives, cells, filled)});
  write_pack_folder(folder, files);
}

} // namespace crushwright
