#include "result_file/measured_entry.hpp"

#include "material/base_material_reader.hpp"
#include "result_file/law_list_text.hpp"
#include "result_file/provenance.hpp"
#include "unit_cell/unit_cell_reader.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string range_text(const Range& range) {
  return fmt::format("[{:.6g}, {:.6g}]", range.low, range.high);
}

void add_measurement(const Measurement& measurement, LawText& lines) {
  lines.emplace_back("measured_by:");
  lines.push_back(fmt::format("  specimens: {}", measurement.specimens));
  const auto add = [&](const char* key, const std::optional<Range>& range) {
    if (range) {
      lines.push_back(fmt::format("  {}: {}", key, range_text(*range)));
    }
  };
  add("plateau_window", measurement.plateau_window);
  add("strain_rate", measurement.strain_rate);
  add("coefficient_range", measurement.coefficient_range);
  add("exponent_range", measurement.exponent_range);
  if (measurement.leave_one_out_error) {
    lines.push_back(fmt::format("  leave_one_out_error: {:.4g}", *measurement.leave_one_out_error));
  }
  if (measurement.exponent_assumed) {
    lines.emplace_back("  exponent_assumed: true");
  }
  lines.emplace_back("  files:");
  for (const TestedFile& file : measurement.files) {
    lines.push_back(fmt::format("    - {{name: {}, sha256: {}}}", quoted(file.name), file.sha256));
  }
}

LawText head_of(const LawOrigin& origin) {
  LawText lines = {
      fmt::format("id: {}", origin.id), "evidence: measured", fmt::format("direction: \"{}\"", origin.direction),
      fmt::format("material: {}", quoted(origin.material)), fmt::format("process: {}", quoted(origin.process))};
  return lines;
}

void add_tail(const LawOrigin& origin, LawText& lines) {
  lines.push_back("fitted_relative_density: " + range_text(origin.fitted_relative_density));
  lines.push_back(fmt::format("density_basis: {}", name_of(origin.density_basis)));
  if (origin.coefficient_of_variation) {
    lines.push_back(fmt::format("coefficient_of_variation: {:.4g}", *origin.coefficient_of_variation));
  }
  if (origin.measurement) {
    add_measurement(*origin.measurement, lines);
  }
  if (!origin.remark.empty()) {
    lines.push_back("remark: " + quoted(origin.remark));
  }
  lines.push_back("source: " + quoted(origin.source.text));
  if (origin.source.standing) {
    lines.push_back(fmt::format("standing: {}", name_of(*origin.source.standing)));
  }
}

LawText text_of(const PowerLaw& law, bool has_stress_basis) {
  LawText lines = head_of(law.origin);
  lines.push_back(fmt::format("coefficient: {:.7g}", law.coefficient));
  lines.push_back(fmt::format("exponent: {:.6g}", law.exponent));
  if (has_stress_basis) {
    lines.push_back(fmt::format("stress_basis: {}", name_of(law.stress_basis)));
  }
  add_tail(law.origin, lines);
  return lines;
}

LawText text_of(const DensificationLaw& law) {
  LawText lines = head_of(law.origin);
  lines.push_back(fmt::format("definition: {}", name_of(law.definition)));
  lines.push_back(fmt::format("intercept: {:.6g}", law.intercept));
  lines.push_back(fmt::format("slope: {:.6g}", law.slope));
  add_tail(law.origin, lines);
  return lines;
}

template <class Law, class Text>
LawListEdit edit_of(const std::string& key, const std::vector<Law>& old_laws, const std::vector<Law>& new_laws,
                    Text text) {
  LawListEdit edit{key, {}, {}};
  for (const Law& old : old_laws) {
    edit.goes.push_back(std::any_of(new_laws.begin(), new_laws.end(),
                                    [&](const Law& law) { return law.origin.id == old.origin.id; }));
  }
  for (const Law& law : new_laws) {
    edit.added.push_back(text(law));
  }
  return edit;
}

std::string property_block(const MeasuredProperty& property) {
  std::string block = fmt::format("{}:\n  value: {}\n", property.key, property.value);
  const auto add = [&](const char* key, const std::string& value) {
    if (!value.empty()) {
      block += fmt::format("  {}: {}\n", key, value);
    }
  };
  add("low", property.low);
  add("high", property.high);
  if (property.coefficient_of_variation) {
    block += fmt::format("  coefficient_of_variation: {:.4g}\n", *property.coefficient_of_variation);
  }
  block += fmt::format("  source: {}\n  standing: read\n", quoted(property.source));
  return block;
}

} // namespace

std::vector<TestedFile> tested_files(const std::vector<std::pair<std::string, std::string>>& name_and_bytes) {
  std::vector<TestedFile> files;
  for (const auto& [name, bytes] : name_and_bytes) {
    files.push_back({name, sha256(bytes)});
  }
  return files;
}

std::string with_measured_laws(const std::string& entry, const MeasuredLawLists& laws,
                               const std::string& shown_name) {
  const UnitCell cell = read_unit_cell(Mapping::read_text(entry, shown_name));
  std::vector<LawListEdit> edits = {edit_of("elastic_modulus", cell.elastic_modulus, laws.elastic_modulus,
                                            [](const PowerLaw& law) { return text_of(law, false); }),
                                    edit_of("plateau_stress", cell.plateau_stress, laws.plateau_stress,
                                            [](const PowerLaw& law) { return text_of(law, true); }),
                                    edit_of("densification", cell.densification, laws.densification,
                                            [](const DensificationLaw& law) { return text_of(law); })};
  const std::string text = with_law_lists(entry, edits, shown_name);
  read_unit_cell(Mapping::read_text(text, shown_name)); // what is written must be readable
  return text;
}

std::string with_measured_properties(const std::string& entry, const std::vector<MeasuredProperty>& properties,
                                     const std::string& shown_name) {
  read_base_material(Mapping::read_text(entry, shown_name));
  std::string text = entry;
  for (const MeasuredProperty& property : properties) {
    text = with_block(text, property.key, property_block(property));
  }
  read_base_material(Mapping::read_text(text, shown_name)); // what is written must be readable
  return text;
}

} // namespace crushwright
