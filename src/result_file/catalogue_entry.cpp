#include "result_file/catalogue_entry.hpp"

#include "crushwright/errors.hpp"
#include "result_file/law_list_text.hpp"
#include "unit_cell/unit_cell_reader.hpp"

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <system_error>

#include <fmt/format.h>
#include <unistd.h>

namespace crushwright {

namespace fs = std::filesystem;

namespace {

/// Rounded up in its last digit, so that what is stated is never below what was found.
std::string rounded_up(double value) {
  return value > 0 ? fmt::format("{:.4f}", std::max(0.0, std::ceil(value * 1e4 - 1e-9) / 1e4)) : "0";
}

LawText law_text(const PowerLaw& law, bool has_stress_basis) {
  const LawOrigin& origin = law.origin;
  const Computation& computation = origin.computation.value();
  LawText lines = {
      fmt::format("id: {}", origin.id),
      fmt::format("evidence: {}", name_of(origin.evidence)),
      fmt::format("direction: \"{}\"", origin.direction),
      fmt::format("coefficient: {:.7g}", law.coefficient),
      fmt::format("exponent: {:.6g}", law.exponent),
  };
  if (has_stress_basis) {
    lines.push_back(fmt::format("stress_basis: {}", name_of(law.stress_basis)));
  }
  lines.push_back(fmt::format("fitted_relative_density: [{:.6g}, {:.6g}]", origin.fitted_relative_density.low,
                              origin.fitted_relative_density.high));
  lines.push_back(fmt::format("density_basis: {}", name_of(origin.density_basis)));
  lines.push_back(fmt::format("computed_by: {{method: {}, grid: {}, spread: {}, largest_residual: {}, version: {}}}",
                              computation.method, computation.grid, rounded_up(computation.spread),
                              rounded_up(computation.largest_residual), quoted(computation.version)));
  lines.push_back(fmt::format("remark: {}", quoted(origin.remark)));
  lines.push_back(fmt::format("source: {}", quoted(origin.source.text)));
  lines.push_back(fmt::format("standing: {}", name_of(origin.source.standing.value())));
  return lines;
}

LawListEdit computed_edit(const std::string& key, const std::vector<PowerLaw>& old_laws,
                          const std::vector<PowerLaw>& new_laws, bool has_stress_basis) {
  LawListEdit edit{key, {}, {}};
  for (const PowerLaw& law : old_laws) {
    edit.goes.push_back(law.origin.evidence == Evidence::computed);
  }
  for (const PowerLaw& law : new_laws) {
    edit.added.push_back(law_text(law, has_stress_basis));
  }
  return edit;
}

} // namespace

std::string law_item(const PowerLaw& law, bool has_stress_basis, std::size_t indent) {
  return item_text(law_text(law, has_stress_basis), indent);
}

std::string with_computed_laws(const std::string& entry, const LawLists& laws, const std::string& shown_name) {
  const UnitCell cell = read_unit_cell(Mapping::read_text(entry, shown_name));
  const std::string text =
      with_law_lists(entry,
                     {computed_edit("elastic_modulus", cell.elastic_modulus, laws.elastic_modulus, false),
                      computed_edit("plateau_stress", cell.plateau_stress, laws.plateau_stress, true),
                      computed_edit("first_peak_ratio", cell.first_peak_ratio, laws.first_peak_ratio, false)},
                     shown_name);
  read_unit_cell(Mapping::read_text(text, shown_name)); // what is written must be readable
  return text;
}

void replace_file(const fs::path& file, const std::string& bytes) {
  const auto refuse = [&](const std::string& why) {
    throw InputError(
        fmt::format("{}: the file cannot be written: {}\n   Name a file that you may write to, on a disk "
                    "with room. It is as it was.",
                    file.string(), why));
  };
  // A file reached through a link is replaced itself, and keeps its permissions.
  std::error_code failed;
  const fs::path target = fs::weakly_canonical(file, failed);
  std::string beside = (target.parent_path() / fmt::format(".{}.XXXXXX", target.filename().string())).string();
  const int descriptor = failed ? -1 : ::mkstemp(beside.data());
  if (descriptor < 0) {
    refuse(failed ? failed.message() : std::generic_category().message(errno));
  }
  ::close(descriptor);
  std::ofstream stream(beside, std::ios::binary | std::ios::trunc);
  stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  stream.close();
  bool done = static_cast<bool>(stream);
  if (done && fs::exists(target)) {
    fs::permissions(beside, fs::status(target).permissions(), failed);
  }
  if (done) {
    fs::rename(beside, target, failed);
    done = !failed;
  }
  if (!done) {
    std::error_code ignored;
    fs::remove(beside, ignored);
    refuse(failed ? failed.message() : "no room, or no permission");
  }
}

} // namespace crushwright
