#pragma once
#include "crushwright/estimate.hpp"
#include "crushwright/filling.hpp"
#include "crushwright/study.hpp"
#include "result_file/provenance.hpp"
#include "review_pack/chart.hpp"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace crushwright {

/// Studies to show beside the estimate, where they were run.
struct Alternatives {
  std::optional<SizingResult> sizing;
  std::optional<ComparisonResult> comparison;
};

/// Everything a page is made from.
struct PageContent {
  const CrashCase& crash_case;
  const Estimate& estimate;
  const Provenance& provenance;
  const std::vector<BaseMaterial>& materials;
  const Alternatives& alternatives;
  const std::vector<UnitCell>& cells; ///< catalogue entries of the structures' cells, to be drawn; may be empty
  const std::vector<FilledStructure>& filled; ///< own structures with their lattice in place; may be empty
};

/// Charts of a page by id, gathered while its sections are written.
class ChartSet {
public:
  /// Figure element that the page's script fills with the chart.
  std::string figure(const LineChart& chart);
  std::string figure(const ScatterChart& chart);
  /// {"id": specification, ...} as JSON text.
  std::string specs_json() const;

private:
  std::string add(const std::string& id, const std::string& title, const std::string& caption, std::string spec);
  std::vector<std::pair<std::string, std::string>> specs_;
};

/// A whole HTML document about sections that are HTML already: its style, the charts and the scripts that draw them
/// inside it, nothing fetched. @param title  plain text.
std::string self_contained_page(const std::string& title, const std::string& sections, const ChartSet& charts);

// The sections, in the page's order; each is HTML.
std::string title_section(const PageContent& content);
std::string verdict_section(const PageContent& content);
std::string beyond_section(const PageContent& content);
std::string structure_section(const PageContent& content);
/// Body, lattice and cut of each filled structure; empty where none is.
std::string picture_section(const PageContent& content);
/// Empty for a case without a block `packaging` or a surface.
std::string packaging_section(const PageContent& content);
std::string crush_section(const PageContent& content, ChartSet& charts);
std::string impact_section(const PageContent& content, ChartSet& charts);
/// The structures as columns: section use, map, service loads, fatigue; empty where no beam was built.
std::string column_section(const PageContent& content);
std::string cell_section(const PageContent& content, ChartSet& charts);
std::string axis_section(const PageContent& content, ChartSet& charts);
/// Rows that start afresh, trigger, temperature, strain rate; empty where a case uses none of them.
std::string row_section(const PageContent& content);
std::string mass_section(const PageContent& content);
/// Empty for a case without a block `printing`.
std::string print_section(const PageContent& content);
std::string alternatives_section(const PageContent& content, ChartSet& charts);
std::string input_section(const PageContent& content);
std::string property_section(const PageContent& content);
std::string material_section(const PageContent& content);
std::string assumption_section(const PageContent& content);
std::string warning_section(const PageContent& content);
std::string caution_section();
std::string reference_section(const PageContent& content);
std::string provenance_section(const PageContent& content);

/// A list of sentences; empty text when there are none.
std::string bullet_list(const std::vector<std::string>& sentences);

/// Structures that are not mirrors of another.
std::vector<std::size_t> own_structures(const Estimate& estimate);

/// "left" or, with mirrors, "left and its mirror right".
std::string with_mirrors(const Estimate& estimate, std::size_t structure);

/// Whether an id names this structure or a mirror of it.
bool is_same_body(const Estimate& estimate, std::size_t structure, const std::string& id);

} // namespace crushwright
