#include "result_file/catalogue_entry.hpp"

#include "crushwright/errors.hpp"
#include "unit_cell/unit_cell_reader.hpp"

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <optional>
#include <string_view>
#include <system_error>

#include <fmt/format.h>
#include <unistd.h>

namespace crushwright {

namespace fs = std::filesystem;

namespace {

/// Lines with their line feeds, so that joined again they are the text.
std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t feed = text.find('\n', begin);
    const std::size_t end = feed == std::string::npos ? text.size() : feed + 1;
    lines.push_back(text.substr(begin, end - begin));
    begin = end;
  }
  return lines;
}

bool says_nothing(const std::string& line) {
  const std::size_t first = line.find_first_not_of(" \t\r\n");
  return first == std::string::npos || line[first] == '#';
}

bool opens_key(const std::string& line) {
  return !says_nothing(line) && line.find_first_of(" \t-") != 0;
}

/// Where a top-level list lies: its key's line, its items, and the line behind the last one that says something.
struct ListPlace {
  std::size_t key = 0;
  std::vector<std::size_t> items; ///< first lines
  std::size_t end = 0;
  std::size_t indent = 0;
};

std::size_t key_line(const std::vector<std::string>& lines, std::string_view key) {
  const std::string start = std::string(key) + ":";
  return static_cast<std::size_t>(
      std::find_if(lines.begin(), lines.end(), [&](const std::string& line) { return line.rfind(start, 0) == 0; }) -
      lines.begin());
}

/// Behind the last line of a block that says something: remarks below it belong to what follows.
std::size_t end_of(const std::vector<std::string>& lines, std::size_t from, std::size_t to) {
  while (to > from && says_nothing(lines[to - 1])) {
    --to;
  }
  return to;
}

std::optional<ListPlace> place_of(const std::vector<std::string>& lines, std::string_view key) {
  ListPlace place;
  place.key = key_line(lines, key);
  if (place.key == lines.size()) {
    return std::nullopt;
  }
  std::size_t next = place.key + 1;
  while (next < lines.size() && !opens_key(lines[next])) {
    ++next;
  }
  place.end = end_of(lines, place.key + 1, next);
  for (std::size_t line = place.key + 1; line < place.end; ++line) {
    const std::size_t first = lines[line].find_first_not_of(' ');
    const bool dash = !says_nothing(lines[line]) && lines[line][first] == '-';
    if (dash && place.items.empty()) {
      place.indent = first;
    }
    if (dash && first == place.indent) {
      place.items.push_back(line);
    }
  }
  return place;
}

/// What was wrong with a list's layout, with what to do about it.
[[noreturn]] void refuse_layout(const std::string& shown_name, std::string_view key, std::size_t line) {
  throw InputError(fmt::format("{}:{}: {}: the laws stand in one line, so that none can be put in or taken out by "
                               "lines\n   Write each law of the list below the key, beginning with a dash "
                               "(docs/catalogue_format.md).",
                               shown_name, line + 1, key));
}

void append_items(std::vector<std::string>& lines, const std::vector<PowerLaw>& laws, bool has_stress_basis,
                  std::size_t indent) {
  if (!lines.empty() && !laws.empty() && lines.back().back() != '\n') {
    lines.back() += '\n';
  }
  for (const PowerLaw& law : laws) {
    lines.push_back(law_item(law, has_stress_basis, indent));
  }
}

std::vector<std::string> part_of(const std::vector<std::string>& lines, std::size_t from, std::size_t to) {
  return {lines.begin() + static_cast<std::ptrdiff_t>(from), lines.begin() + static_cast<std::ptrdiff_t>(to)};
}

/// The list's items less the computed ones, each with the remarks below it.
std::vector<std::string> kept_items(const std::vector<std::string>& lines, const ListPlace& place,
                                    const std::vector<PowerLaw>& old_laws) {
  std::vector<std::string> kept =
      part_of(lines, place.key + 1, place.items.empty() ? place.end : place.items.front());
  for (std::size_t item = 0; item < place.items.size(); ++item) {
    const std::size_t to = item + 1 < place.items.size() ? place.items[item + 1] : place.end;
    const bool computed = old_laws[item].origin.evidence == Evidence::computed;
    const std::size_t from = computed ? end_of(lines, place.items[item], to) : place.items[item];
    const std::vector<std::string> part = part_of(lines, from, to);
    kept.insert(kept.end(), part.begin(), part.end());
  }
  return kept;
}

struct NamedList {
  std::string_view key;
  const std::vector<PowerLaw>& old_laws;
  const std::vector<PowerLaw>& new_laws;
  bool has_stress_basis;
};

std::vector<std::string> with_list_added(const std::vector<std::string>& lines, const NamedList& list) {
  if (list.new_laws.empty()) {
    return lines;
  }
  const std::size_t before = key_line(lines, "densification");
  std::vector<std::string> text = part_of(lines, 0, before);
  if (!text.empty() && text.back().back() != '\n') {
    text.back() += '\n';
  }
  text.push_back(std::string(list.key) + ":\n");
  append_items(text, list.new_laws, list.has_stress_basis, 2);
  const std::vector<std::string> rest = part_of(lines, before, lines.size());
  text.insert(text.end(), rest.begin(), rest.end());
  return text;
}

std::vector<std::string> with_list(const std::vector<std::string>& lines, const NamedList& list,
                                   const std::string& shown_name) {
  const std::optional<ListPlace> place = place_of(lines, list.key);
  if (!place) {
    return with_list_added(lines, list);
  }
  if (place->items.size() != list.old_laws.size()) {
    refuse_layout(shown_name, list.key, place->key);
  }
  const auto computed = [](const PowerLaw& law) { return law.origin.evidence == Evidence::computed; };
  const bool none_left = list.new_laws.empty() && std::all_of(list.old_laws.begin(), list.old_laws.end(), computed);
  std::vector<std::string> text = part_of(lines, 0, place->key);
  // "key: []" has no laws; the key alone then opens the list.
  if (!none_left) {
    text.push_back(list.old_laws.empty() ? std::string(list.key) + ":\n" : lines[place->key]);
  }
  const std::vector<std::string> kept = kept_items(lines, *place, list.old_laws);
  text.insert(text.end(), kept.begin(), kept.end());
  append_items(text, list.new_laws, list.has_stress_basis, place->items.empty() ? 2 : place->indent);
  const std::vector<std::string> rest = part_of(lines, place->end, lines.size());
  text.insert(text.end(), rest.begin(), rest.end());
  return text;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) {
    text += line;
  }
  return text;
}

/// Rounded up in its last digit, so that what is stated is never below what was found.
std::string rounded_up(double value) {
  return value > 0 ? fmt::format("{:.4f}", std::max(0.0, std::ceil(value * 1e4 - 1e-9) / 1e4)) : "0";
}

std::string quoted(const std::string& text) {
  std::string safe;
  for (const char letter : text) {
    if (letter == '"' || letter == '\\') {
      safe += '\\';
    }
    safe += letter;
  }
  return '"' + safe + '"';
}

} // namespace

std::string law_item(const PowerLaw& law, bool has_stress_basis, std::size_t indent) {
  const LawOrigin& origin = law.origin;
  const Computation& computation = origin.computation.value();
  std::vector<std::string> lines = {
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
  std::string item;
  for (const std::string& line : lines) {
    item += fmt::format("{:{}}{} {}\n", "", indent, item.empty() ? "-" : " ", line);
  }
  return item;
}

std::string with_computed_laws(const std::string& entry, const LawLists& laws, const std::string& shown_name) {
  const UnitCell cell = read_unit_cell(Mapping::read_text(entry, shown_name));
  std::vector<std::string> lines = lines_of(entry);
  for (const NamedList& list : {NamedList{"elastic_modulus", cell.elastic_modulus, laws.elastic_modulus, false},
                                NamedList{"plateau_stress", cell.plateau_stress, laws.plateau_stress, true},
                                NamedList{"first_peak_ratio", cell.first_peak_ratio, laws.first_peak_ratio, false}}) {
    lines = with_list(lines, list, shown_name);
  }
  std::string text = joined(lines);
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
