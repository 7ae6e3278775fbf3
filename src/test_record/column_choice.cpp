#include "test_record/column_choice.hpp"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <set>
#include <system_error>

namespace crushwright {

namespace {

using Indices = std::vector<std::size_t>;

std::string listed(const std::vector<Heading>& headings, const Indices& which) {
  std::vector<std::string> shown;
  for (const std::size_t index : which)
    shown.push_back(fmt::format("`{}` (#{})", headings[index].shown, index + 1));
  return fmt::format("{}", fmt::join(shown, ", "));
}

std::string all_listed(const std::vector<Heading>& headings) {
  Indices all;
  for (std::size_t i = 0; i < headings.size(); ++i)
    all.push_back(i);
  return listed(headings, all);
}

/// One line of headings, being searched.
struct Search {
  const TableText& text;
  std::size_t line;
  const std::vector<Heading>& headings;

  Indices with(const auto& fits) const {
    Indices found;
    for (std::size_t i = 0; i < headings.size(); ++i)
      if (fits(headings[i].role))
        found.push_back(i);
    return found;
  }

  std::size_t named(const std::string& name) const {
    if (const auto number = column_by_number(name)) {
      if (*number >= headings.size())
        text.fail_at(line, fmt::format("there is no column {}; the headings are {}", name, all_listed(headings)),
                     "Correct the number in `columns`; the first column is #1.");
      return *number;
    }
    Indices found;
    for (std::size_t i = 0; i < headings.size(); ++i)
      if (is_named(headings[i], name))
        found.push_back(i);
    if (found.empty())
      text.fail_at(line, fmt::format("no heading is `{}`; the headings are {}", name, all_listed(headings)),
                   "Correct the name in `columns`, or write the column's number, for instance #2.");
    if (found.size() > 1)
      text.fail_at(line, fmt::format("more than one heading is `{}`: {}", name, listed(headings, found)),
                   "Name the column by its number in `columns`, for instance #2.");
    return found.front();
  }

  [[noreturn]] void fail_two(std::string_view what, const Indices& found) const {
    text.fail_at(line, fmt::format("more than one column could be the {}: {}", what, listed(headings, found)),
                 "Say in `columns` which one counts, by its heading or its number (#2).");
  }
};

/// What a named column holds when its heading does not say it: its unit, found later, will.
ColumnRole role_by_unit(const Heading& heading, const std::string& told, bool load) {
  const std::string& unit = heading.unit.empty() ? told : heading.unit;
  const ColumnRole first = load ? ColumnRole::force : ColumnRole::displacement;
  const ColumnRole second = load ? ColumnRole::stress : ColumnRole::strain;
  if (load ? is_load(heading.role) : is_along(heading.role))
    return heading.role;
  if (!unit.empty() && is_unit_of(unit, first))
    return first;
  return !unit.empty() && is_unit_of(unit, second) ? second : ColumnRole::other;
}

/// Candidates of one kind, with what they hold.
struct Candidates {
  Indices indices;
  std::vector<ColumnRole> roles;

  bool any(ColumnRole role) const { return std::find(roles.begin(), roles.end(), role) != roles.end(); }
  void keep(ColumnRole role) {
    Candidates kept;
    for (std::size_t i = 0; i < indices.size(); ++i)
      if (roles[i] == role)
        kept.add(indices[i], role);
    *this = kept;
  }
  void add(std::size_t index, ColumnRole role) {
    indices.push_back(index);
    roles.push_back(role);
  }
};

Candidates candidates(const Search& search, const std::string& name, const std::string& unit, bool load) {
  Candidates found;
  if (!name.empty()) {
    const std::size_t index = search.named(name);
    found.add(index, role_by_unit(search.headings[index], unit, load));
    if (found.roles.front() == ColumnRole::other)
      search.text.fail_at(
          search.line,
          fmt::format("the column `{}` (#{}) is named for the {}, but neither its heading nor its unit tells {}",
                      search.headings[index].shown, index + 1, load ? "load" : "displacement or strain",
                      load ? "a force or a stress" : "a displacement or a strain"),
          fmt::format("Correct `columns`, or give its unit in the heading, for instance `[{}]`, or in `units`.",
                      load ? "kN" : "mm"));
    return found;
  }
  found.indices = search.with(load ? is_load : is_along);
  for (const std::size_t index : found.indices)
    found.roles.push_back(search.headings[index].role);
  if (found.indices.empty())
    search.text.fail_at(
        search.line,
        fmt::format("no column of {} was found among the headings {}",
                    load ? "force or stress" : "displacement or strain", all_listed(search.headings)),
        fmt::format("Write `{}` into its heading, or name the column in `columns`, by heading or number (#2). "
                    "Engineering values are meant; true ones are not read.",
                    load ? "Force [kN]` or `Stress [MPa]" : "Displacement [mm]` or `Strain [%]"));
  return found;
}

/// Force goes with displacement, stress with strain.
void keep_one_kind(const Search& search, Candidates& along, Candidates& load) {
  const bool forces = along.any(ColumnRole::displacement) && load.any(ColumnRole::force);
  const bool stresses = along.any(ColumnRole::strain) && load.any(ColumnRole::stress);
  Indices all = along.indices;
  all.insert(all.end(), load.indices.begin(), load.indices.end());
  if (forces && stresses)
    search.text.fail_at(search.line,
                        fmt::format("force over displacement and stress over strain are both there: {}",
                                    listed(search.headings, all)),
                        "Say in `columns` which two count. Force and displacement keep more of what was measured.");
  if (!forces && !stresses)
    search.text.fail_at(
        search.line,
        fmt::format("the columns do not go together: {}; force with displacement or stress with strain "
                    "was expected",
                    listed(search.headings, all)),
        "Export the other column, or name it in `columns`.");
  along.keep(forces ? ColumnRole::displacement : ColumnRole::strain);
  load.keep(forces ? ColumnRole::force : ColumnRole::stress);
}

bool labels_differ(const Search& search, const Indices& columns) {
  std::set<std::string> labels;
  for (const std::size_t index : columns)
    labels.insert(search.headings[index].label);
  return labels.size() == columns.size();
}

std::optional<std::size_t> labelled(const Search& search, const Indices& columns, const std::string& label) {
  for (const std::size_t index : columns)
    if (search.headings[index].label == label)
      return index;
  return std::nullopt;
}

/// "Force A, Displacement A, Force B, Displacement B": partners by label.
std::optional<std::vector<std::size_t>> partners_by_label(const Search& search, const Indices& loads,
                                                          const Indices& others) {
  if (others.size() != loads.size() || !labels_differ(search, loads) || !labels_differ(search, others))
    return std::nullopt;
  std::vector<std::size_t> partners;
  for (const std::size_t load : loads) {
    const auto partner = labelled(search, others, search.headings[load].label);
    if (!partner)
      return std::nullopt;
    partners.push_back(*partner);
  }
  return partners;
}

/// "Force, Displacement, Force, Displacement", word for word the same and in turn: the n-th goes with the n-th.
std::optional<std::vector<std::size_t>> partners_in_turn(const Search& search, const Indices& loads,
                                                         const Indices& others) {
  if (others.size() != loads.size())
    return std::nullopt;
  for (std::size_t i = 0; i < loads.size(); ++i) {
    const bool same = search.headings[loads[i]].words == search.headings[loads[0]].words &&
                      search.headings[others[i]].words == search.headings[others[0]].words;
    const bool in_turn = (loads[i] < others[i]) == (loads[0] < others[0]) &&
                         (i == 0 || std::max(loads[i - 1], others[i - 1]) < std::min(loads[i], others[i]));
    if (!same || !in_turn)
      return std::nullopt;
  }
  return others;
}

std::vector<std::size_t> partners(const Search& search, const Indices& loads, const Indices& others,
                                  std::string_view what) {
  if (const auto found = partners_by_label(search, loads, others))
    return *found;
  if (const auto found = partners_in_turn(search, loads, others))
    return *found;
  if (others.size() > 1)
    search.fail_two(what, others);
  search.fail_two("load", loads);
}

void add_times(const Search& search, const std::string& name, const Indices& loads,
               std::vector<RecordColumns>& records) {
  Indices times = search.with([](ColumnRole role) { return role == ColumnRole::time; });
  if (!name.empty())
    times = {search.named(name)};
  if (times.empty())
    return;
  const std::vector<std::size_t> own =
      times.size() == 1 ? std::vector<std::size_t>(loads.size(), times[0]) : partners(search, loads, times, "time");
  for (std::size_t i = 0; i < records.size(); ++i)
    records[i].time = RecordColumns::Column{own[i], ColumnRole::time, "", search.headings[own[i]].shown};
}

} // namespace

std::optional<std::size_t> column_by_number(const std::string& name) {
  if (name.empty() || name.front() != '#')
    return std::nullopt;
  std::size_t number = 0;
  const std::from_chars_result result = std::from_chars(name.data() + 1, name.data() + name.size(), number);
  if (result.ec != std::errc() || result.ptr != name.data() + name.size() || number == 0)
    return std::nullopt;
  return number - 1;
}

bool is_named(const Heading& heading, const std::string& name) {
  const std::string wanted = plain_words(name);
  return !wanted.empty() && (wanted == heading.words || wanted == plain_words(heading.shown));
}

std::vector<RecordColumns> chosen_columns(const TableText& text, std::size_t line,
                                          const std::vector<Heading>& headings, const TableOptions& options) {
  const Search search{text, line, headings};
  Candidates along = candidates(search, options.along_column, options.along_unit, false);
  Candidates load = candidates(search, options.load_column, options.load_unit, true);
  if (along.indices == load.indices)
    text.fail_at(line,
                 fmt::format("one column, {}, is named for both load and displacement or strain",
                             listed(headings, along.indices)),
                 "Correct `columns`.");
  keep_one_kind(search, along, load);
  const bool several = along.indices.size() > 1 || load.indices.size() > 1;
  const Indices own =
      several ? partners(search, load.indices, along.indices, "displacement or strain") : along.indices;
  std::vector<RecordColumns> records;
  for (std::size_t i = 0; i < own.size(); ++i) {
    const Heading& of_load = headings[load.indices[i]];
    RecordColumns columns;
    columns.along = {own[i], along.roles.front(), "", headings[own[i]].shown};
    columns.load = {load.indices[i], load.roles.front(), "", of_load.shown};
    if (several)
      columns.label = labels_differ(search, load.indices) ? of_load.label : fmt::format("{}", i + 1);
    records.push_back(columns);
  }
  add_times(search, options.time_column, load.indices, records);
  return records;
}

std::optional<std::size_t> chosen_specimen_column(const TableText& text, std::size_t line,
                                                  const std::vector<Heading>& headings, const TableOptions& options) {
  const Search search{text, line, headings};
  if (!options.specimen_column.empty())
    return search.named(options.specimen_column);
  const Indices found = search.with([](ColumnRole role) { return role == ColumnRole::specimen; });
  if (found.size() > 1)
    search.fail_two("specimen", found);
  return found.empty() ? std::nullopt : std::optional<std::size_t>(found.front());
}

} // namespace crushwright
