#include "review_pack/page.hpp"

#include "review_pack/bibliography.hpp"
#include "review_pack/browser_bundles.hpp"
#include "review_pack/html.hpp"
#include "review_pack/verdict_words.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include <fmt/format.h>

namespace crushwright {

namespace {

const std::vector<std::string>& assumptions() {
  static const std::vector<std::string> list = {
      "Each structure is a column of layers in series: one force runs through all of them, the weakest crushes "
      "first, and "
      "the crush is the sum of the layers' shortenings.",
      "A layer follows the crush curve of its cell at its own relative density, times its area; the skin folds in "
      "parallel "
      "with the lattice, and what the two gain on each other is one interaction factor with an interval.",
      "The first peak stands for starting the first layer; it assumes the trigger of the case.",
      "The usable stroke ends where the force reaches the lowest force that the attachment or an acceleration limit "
      "allows, or where the last layer is used up; length is never stroke.",
      "The bodies move on one line and do not turn. Where the case states shares, each structure stops its share of "
      "the "
      "effective mass; where it describes a face, all that it meets share one motion, with face blocks, attachments "
      "and "
      "the rest of the body in series without mass.",
      "Strength is quasi-static times the rate factor: energy checks take its low end, force checks its high end. "
      "Inertia "
      "of the lattice itself is left out of the verdict; at road speeds it adds well under 1 MPa, and `resolved: "
      "true` shows it.",
      "Independent scatters of law, build and skin are combined by the root of the sum of squares of their "
      "logarithms; "
      "interval quantities and tolerances are set, check by check, at the end that worsens the check.",
      "The stated length of a structure includes its end plates; the layers run over all of it, so the plates' "
      "thickness is not taken off the stroke.",
      "Mass uses the true relative density of the cell's own solid, never the sum of strut volumes.",
      "Columns are taken to crush straight; whether they do is told beside the curve, by the plastic section under "
      "force "
      "and bending together and by the stability of what stands."};
  return list;
}

using SourceCounts = std::map<std::string, std::pair<Source, int>>;

void count(SourceCounts& counts, const Source& source) {
  if (!source.text.empty()) {
    auto& [kept, times] = counts[source.text + standing_text(source)];
    kept = source;
    ++times;
  }
}

void count_cell(SourceCounts& counts, const CellProperties& cell) {
  for (const CellProperty* property : {&cell.elastic_modulus, &cell.plateau_stress, &cell.first_peak_ratio,
                                       &cell.locking_strain, &cell.efficiency_strain, &cell.plateau_end_strain}) {
    for (const PropertyEvidence& evidence : property->all) {
      count(counts, evidence.source);
    }
  }
}

void count_material(SourceCounts& counts, const BaseMaterial& material) {
  for (const std::optional<Quantity>* quantity :
       {&material.density, &material.youngs_modulus, &material.poissons_ratio, &material.proof_stress,
        &material.ultimate_stress, &material.uniform_elongation, &material.fracture_elongation,
        &material.hardening_exponent, &material.rate_factor}) {
    if (*quantity) {
      count(counts, (*quantity)->source);
    }
  }
  count(counts, material.temperature_factor_source);
}

SourceCounts all_sources(const PageContent& content) {
  SourceCounts counts;
  for (const Quantity& quantity : content.crash_case.all_quantities) {
    count(counts, quantity.source);
  }
  for (const std::size_t i : own_structures(content.estimate)) {
    for (const CellAtStation& cell : content.estimate.structures[i].cells) {
      count_cell(counts, cell.properties);
    }
  }
  for (const BaseMaterial& material : content.materials) {
    count_material(counts, material);
  }
  return counts;
}

/// The works that the sources cite by their key, in full.
std::string cited_works(const SourceCounts& counts) {
  std::map<std::string, std::string> cited;
  for (const auto& [key, counted] : counts) {
    for (const std::string& work : cited_keys(counted.first.text)) {
      const auto entry = bibliography().find(work);
      if (entry != bibliography().end()) {
        cited.insert(*entry);
      }
    }
  }
  if (cited.empty()) {
    return {};
  }
  std::vector<std::vector<std::string>> rows;
  for (const auto& [key, text] : cited) {
    rows.push_back({element("span", escape_html(key), "id"), escape_html(text)});
  }
  return "<h3>Works cited</h3>\n" + table({{"Key"}, {"Work"}}, rows);
}

} // namespace

std::string assumption_section(const PageContent& content) {
  std::string html = "<section id=\"assumptions\">\n<h2>Assumptions</h2>\n" + bullet_list(assumptions());
  html += element("p", escape_html(scatter_sentence(content.crash_case, content.estimate.deciding.scatter_set)));
  return html + "\n</section>\n";
}

std::string warning_section(const PageContent& content) {
  std::vector<std::string> warnings = content.estimate.warnings;
  for (const StructureModel& structure : content.estimate.structures) {
    for (const std::string& warning : structure.warnings) {
      const bool said = std::any_of(warnings.begin(), warnings.end(), [&](const std::string& other) {
        return other.find(warning) != std::string::npos;
      });
      if (!said) {
        warnings.push_back(fmt::format("{}: {}", structure.id, warning));
      }
    }
  }
  return "<section id=\"warnings\">\n<h2>Warnings</h2>\n" +
         (warnings.empty() ? std::string("<p>None.</p>\n") : bullet_list(warnings)) + "</section>\n";
}

std::string caution_section() {
  return fmt::format("<section id=\"cautions\">\n<h2>Limits of use</h2>\n<p>{}</p>\n<p>{}</p>\n</section>\n",
                     escape_html(caution_not_claimed()), escape_html(caution_defer()));
}

std::string reference_section(const PageContent& content) {
  std::vector<std::vector<std::string>> rows;
  const SourceCounts counts = all_sources(content);
  for (const auto& [key, counted] : counts) {
    rows.push_back(
        {escape_html(counted.first.text), standing_text(counted.first), fmt::format("{}", counted.second)});
  }
  std::string html = "<section id=\"references\">\n<h2>Sources</h2>\n";
  html += rows.empty() ? "<p>No source is given for any value.</p>\n"
                       : table({{"Source"}, {"Standing"}, {"Values that rest on it", true}}, rows);
  html +=
      "<p class=\"small quiet\">Read: seen in a copy of the source. From memory: recalled, to be confirmed before it "
      "becomes a limit. Derived: arithmetic that anyone can repeat. Common practice: a fact of the trade without a "
      "source.</p>\n";
  return html + cited_works(counts) + "</section>\n";
}

std::string provenance_section(const PageContent& content) {
  const Provenance& provenance = content.provenance;
  std::string html = "<section id=\"provenance\">\n<h2>Provenance</h2>\n";
  html +=
      fmt::format("<p>crushwright {}. Input hash (SHA-256 over the case and the catalogue files used): "
                  "<span class=\"id\">{}</span>. The same numbers are in <span class=\"id\">result.json</span> and "
                  "<span class=\"id\">curves/</span> beside this page.</p>\n",
                  escape_html(provenance.program_version), escape_html(provenance.input_hash));
  html += fmt::format("<details><summary>Licence notices of the chart scripts in this page</summary><pre>{}</pre>"
                      "</details>\n",
                      escape_html(bundle_notices()));
  return html + "</section>\n";
}

} // namespace crushwright
