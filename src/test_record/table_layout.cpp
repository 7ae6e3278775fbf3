#include "test_record/table_layout.hpp"

#include "quantities/nearest_spelling.hpp"
#include "test_record/column_choice.hpp"
#include "test_record/number_cell.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace crushwright {

namespace {

/// Blanks part the cells of the line but not of a heading: "Force [kN]" and "Force / kN" are one cell each.
void join_units(std::vector<Cell>& cells) {
  std::vector<Cell> joined;
  bool slash = false;
  for (const Cell& cell : cells) {
    const bool begins_unit = !cell.quoted && !cell.text.empty() &&
                             (cell.text.front() == '[' || cell.text.front() == '(' || cell.text.front() == '/');
    if (!joined.empty() && (slash || begins_unit))
      joined.back().text += " " + cell.text;
    else
      joined.push_back(cell);
    slash = !cell.quoted && cell.text == "/";
  }
  cells = joined;
}

/// Headings with such a mark are not parted by blanks.
bool has_mark_that_parts(const std::vector<Cell>& cells) {
  return std::any_of(cells.begin(), cells.end(), [](const Cell& cell) {
    return !cell.quoted && cell.text.find_first_of(",;") != std::string::npos;
  });
}

/// "Crosshead displacement [mm]   Load [kN]": two blanks or a tab part the headings, one blank stands inside.
bool cut_at_wide_blanks(std::string_view line, std::vector<Cell>& cells) {
  std::string marked;
  for (const char letter : trimmed(line)) {
    if (letter == ' ' && !marked.empty() && (marked.back() == ' ' || marked.back() == '\t'))
      marked.back() = '\t';
    else
      marked += letter;
  }
  return cut_line(marked, '\t', cells);
}

/// A line without the mark of a comment.
std::string_view content(std::string_view line) {
  return is_comment(line) ? without_comment_mark(line) : line;
}

bool cut_content(std::string_view line, char separator, std::vector<Cell>& cells) {
  return cut_line(content(line), separator, cells);
}

void drop_empty_ends(std::vector<Cell>& cells) {
  while (!cells.empty() && cells.back().text.empty() && !cells.back().quoted)
    cells.pop_back();
}

std::vector<Heading> headings_in(const std::vector<Cell>& cells) {
  std::vector<Heading> headings;
  for (const Cell& cell : cells)
    headings.push_back(read_heading(cell.text));
  return headings;
}

bool holds(const std::vector<Heading>& headings, const std::string& name, bool load) {
  if (const auto number = column_by_number(name))
    return *number < headings.size();
  return std::any_of(headings.begin(), headings.end(), [&](const Heading& heading) {
    if (!name.empty())
      return is_named(heading, name);
    return load ? is_load(heading.role) : is_along(heading.role);
  });
}

bool holds_columns(const std::vector<Heading>& headings, const TableOptions& options) {
  const bool has_words = std::any_of(headings.begin(), headings.end(), [](const Heading& heading) {
    return !heading.words.empty() && form_of(heading.shown) == NumberForm::none;
  });
  return has_words && holds(headings, options.along_column, false) && holds(headings, options.load_column, true);
}

/// Reads the line of units, when one follows; moves `begins` behind it. Below headings in a comment it is one as
/// well.
void read_unit_line(const TableText& text, char separator, bool in_comment, std::vector<Heading>& headings,
                    std::size_t& begins) {
  std::size_t at = begins;
  const auto skipped = [&](std::string_view line) {
    return is_blank_line(line) || (!in_comment && is_comment(line));
  };
  while (at < text.lines().size() && skipped(text.lines()[at]))
    ++at;
  std::vector<Cell> cells;
  if (at >= text.lines().size() || !cut_content(text.lines()[at], separator, cells) ||
      !is_unit_line(cells, headings.size()))
    return;
  for (std::size_t i = 0; i < std::min(cells.size(), headings.size()); ++i) {
    const std::string unit(without_brackets(cells[i].text));
    if (unit.empty() || unit == headings[i].unit)
      continue;
    if (!headings[i].unit.empty())
      text.fail_at(at,
                   fmt::format("the unit of `{}` is `{}` in its heading and `{}` in the line of units; one unit was "
                               "expected",
                               headings[i].shown, headings[i].unit, unit),
                   "Correct the one that is wrong.");
    give_unit(headings[i], unit);
    headings[i].shown += fmt::format(" [{}]", unit);
  }
  begins = at + 1;
}

std::string bracketed_example(ColumnRole role) {
  switch (role) {
  case ColumnRole::force:
    return "kN";
  case ColumnRole::stress:
    return "MPa";
  case ColumnRole::displacement:
    return "mm";
  case ColumnRole::time:
    return "s";
  default:
    return "%";
  }
}

/// The unit of a column from its heading, else as told.
void settle_unit(const TableText& text, std::size_t line, const Heading& heading, const std::string& told,
                 RecordColumns::Column& column) {
  if (!heading.unit.empty() && !told.empty() && heading.unit != told)
    text.fail_at(line,
                 fmt::format("the unit of `{}` is stated as `{}` in the file and as `{}` beside it; one unit was "
                             "expected",
                             heading.shown, heading.unit, told),
                 "Correct `units`, or leave it out where the file states its units.");
  column.unit = heading.unit.empty() ? told : heading.unit;
  const std::string units = units_for(column.role);
  if (column.unit.empty())
    text.fail_at(line,
                 fmt::format("the column `{}` has no unit; {} was expected ({})", heading.shown,
                             column.role == ColumnRole::strain
                                 ? std::string("- for a bare fraction or % for per cent")
                                 : fmt::format("a unit of {}", name_of(column.role)),
                             units),
                 fmt::format("Write it into the heading, for instance `{} [{}]`, into a line of units below, or into "
                             "`units`.",
                             heading.shown, bracketed_example(column.role)));
  if (!is_unit_of(column.unit, column.role)) {
    const auto meant = nearest_spelling(column.unit, accepted_units_of(column.role));
    text.fail_at(line,
                 fmt::format("`{}`, the unit of `{}`, is not an accepted unit of {}; one of {} was expected",
                             column.unit, heading.shown, name_of(column.role), units),
                 fmt::format("{}Units are spelt exactly so. Correct the heading, or convert the column.",
                             meant ? fmt::format("Did you mean `{}`? ", *meant) : ""));
  }
  if (heading.unit.empty())
    column.heading += fmt::format(" [{}]", column.unit);
}

void settle_units(const TableText& text, std::size_t line, const std::vector<Heading>& headings,
                  const TableOptions& options, TableHead& head) {
  for (RecordColumns& columns : head.records) {
    settle_unit(text, line, headings[columns.along.index], options.along_unit, columns.along);
    settle_unit(text, line, headings[columns.load.index], options.load_unit, columns.load);
    if (!columns.time)
      continue;
    const Heading& time = headings[columns.time->index];
    const std::string& unit = time.unit.empty() ? options.time_unit : time.unit;
    // Nothing needs a time, so a clock beside the data does no harm.
    if (!is_unit_of(unit, ColumnRole::time) && options.time_unit.empty() && options.time_column.empty()) {
      head.remarks.push_back(
          fmt::format("line {}: the column `{}` has no accepted unit of time and is left out", line + 1, time.shown));
      columns.time.reset();
    } else {
      settle_unit(text, line, time, options.time_unit, *columns.time);
    }
  }
}

void settle_columns(const TableText& text, std::size_t line, const std::vector<Heading>& headings,
                    const TableOptions& options, TableHead& head) {
  head.width = headings.size();
  head.records = chosen_columns(text, line, headings, options);
  head.specimen_column = chosen_specimen_column(text, line, headings, options);
  settle_units(text, line, headings, options, head);
}

} // namespace

bool is_unit_line(const std::vector<Cell>& cells, std::size_t width) {
  if (cells.size() < 2 || cells.size() > width + 1)
    return false;
  bool any = false;
  for (const Cell& cell : cells) {
    if (cell.text.empty())
      continue;
    if (form_of(cell.text) != NumberForm::none || !meant_as_unit(without_brackets(cell.text)))
      return false;
    any = true;
  }
  return any;
}

bool is_blank_line(std::string_view line) {
  return line.find_first_not_of(" \t") == std::string_view::npos;
}

bool is_comment(std::string_view line) {
  const std::string_view text = trimmed(line);
  return !text.empty() && (text.front() == '#' || text.front() == '%' || text.substr(0, 2) == "//");
}

std::string_view without_comment_mark(std::string_view line) {
  const std::string_view text = trimmed(line);
  return trimmed(text.substr(std::min(text.find_first_not_of("#%/"), text.size())));
}

bool has_words(std::string_view line) {
  return std::any_of(line.begin(), line.end(), [](char letter) {
    const bool of_a_number = letter == 'e' || letter == 'E';
    return (letter >= 'a' && letter <= 'z' && !of_a_number) || (letter >= 'A' && letter <= 'Z' && !of_a_number) ||
           static_cast<unsigned char>(letter) >= 0x80U;
  });
}

std::vector<Heading> headings_on(const TableText& text, std::size_t line, char separator,
                                 const TableOptions& options) {
  const std::string_view shown = content(text.lines()[line]);
  if (!has_words(shown))
    return {};
  std::vector<Cell> cells;
  if (!cut_line(shown, separator, cells))
    return {};
  if (separator == ' ' && !options.separator && has_mark_that_parts(cells))
    return {};
  if (separator == ' ')
    join_units(cells);
  drop_empty_ends(cells);
  std::vector<Heading> headings = headings_in(cells);
  if (separator == ' ' && cut_at_wide_blanks(shown, cells) && cells.size() > 1 && cells.size() < headings.size()) {
    std::vector<Heading> wide = headings_in(cells);
    if (holds_columns(wide, options))
      headings = wide;
  }
  return headings.size() > 1 && holds_columns(headings, options) ? headings : std::vector<Heading>();
}

TableHead read_head(const TableText& text, std::size_t line, const std::vector<Heading>& found, char separator,
                    const TableOptions& options) {
  std::vector<Heading> headings = found;
  TableHead head;
  head.line = line;
  head.in_comment = is_comment(text.lines()[line]);
  head.data_begins = line + 1;
  read_unit_line(text, separator, head.in_comment, headings, head.data_begins);
  settle_columns(text, line, headings, options, head);
  return head;
}

TableHead read_head_without_line(const TableText& text, std::size_t line, const std::vector<Heading>& headings,
                                 const TableOptions& options) {
  TableHead head;
  head.data_begins = line;
  settle_columns(text, line, headings, options, head);
  return head;
}

} // namespace crushwright
