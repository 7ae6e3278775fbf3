#include "test_record/table_search.hpp"

#include "test_record/column_choice.hpp"
#include "test_record/number_cell.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace crushwright {

namespace {

// A tab or semicolon stands in a line for nothing else; a comma may, and blanks even more so.
constexpr std::string_view all_separators = "\t;, ";

std::string separators_to_try(const TableOptions& options) {
  return options.separator ? std::string(1, *options.separator) : std::string(all_separators);
}

std::size_t numbers_in(const std::vector<Cell>& cells) {
  return static_cast<std::size_t>(std::count_if(
      cells.begin(), cells.end(), [](const Cell& cell) { return form_of(cell.text) != NumberForm::none; }));
}

bool is_row(std::string_view line, char separator) {
  std::vector<Cell> cells;
  return cut_line(line, separator, cells) && numbers_in(cells) >= 2;
}

bool carries_nothing(std::string_view line) {
  return is_blank_line(line) || is_comment(line);
}

/// The next line that is neither blank nor a comment, from `at` on; the number of lines when there is none.
std::size_t next_content(const TableText& text, std::size_t at) {
  while (at < text.lines().size() && carries_nothing(text.lines()[at]))
    ++at;
  return at;
}

bool followed_by_data(const TableText& text, std::size_t line, char separator, std::size_t width) {
  std::size_t at = next_content(text, line + 1);
  std::vector<Cell> cells;
  if (at < text.lines().size() && cut_line(text.lines()[at], separator, cells) && is_unit_line(cells, width))
    at = next_content(text, at + 1);
  return at < text.lines().size() && is_row(text.lines()[at], separator);
}

struct HeadingLine {
  std::size_t line = 0;
  char separator = ',';
  std::vector<Heading> headings;
};

std::optional<HeadingLine> find_headings(const TableText& text, const TableOptions& options, bool in_comments,
                                         bool with_data) {
  for (const char separator : separators_to_try(options)) {
    for (std::size_t line = 0; line < text.lines().size(); ++line) {
      if (is_blank_line(text.lines()[line]) || is_comment(text.lines()[line]) != in_comments)
        continue;
      std::vector<Heading> headings = headings_on(text, line, separator, options);
      if (!headings.empty() && (!with_data || followed_by_data(text, line, separator, headings.size())))
        return HeadingLine{line, separator, std::move(headings)};
    }
  }
  return std::nullopt;
}

/// The headings that stand in for those of a file without any.
std::vector<Heading> numbered_headings(std::size_t width) {
  std::vector<Heading> headings(width);
  for (std::size_t i = 0; i < width; ++i)
    headings[i].shown = fmt::format("column {}", i + 1);
  return headings;
}

void require_told_separator(const TableText& text, std::size_t line, char separator, const TableOptions& options) {
  if (separator == ',' && !options.separator && text.lines()[line].find('.') == std::string_view::npos)
    text.fail_at(line,
                 "without headings, a comma on this line may part two cells or a number's decimals; one reading was "
                 "expected",
                 "Write a line of headings above, or state `separator`: comma, semicolon, tab or blank.");
}

/// A file of numbers alone, its columns named by number.
std::optional<TableStart> start_without_headings(const TableText& text, const TableOptions& options) {
  const auto along = column_by_number(options.along_column), load = column_by_number(options.load_column);
  if (!along || !load)
    return std::nullopt;
  const std::size_t line = next_content(text, 0);
  for (const char separator : separators_to_try(options)) {
    std::vector<Cell> cells;
    if (line >= text.lines().size() || !cut_line(text.lines()[line], separator, cells) ||
        std::max(*along, *load) >= cells.size() || form_of(cells[*along].text) == NumberForm::none ||
        form_of(cells[*load].text) == NumberForm::none)
      continue;
    require_told_separator(text, line, separator, options);
    while (cells.size() > 1 && cells.back().text.empty())
      cells.pop_back();
    TableStart start;
    start.separator = separator;
    start.head = read_head_without_line(text, line, numbered_headings(cells.size()), options);
    return start;
  }
  return std::nullopt;
}

/// Says what is missing, at the line where the headings should be.
[[noreturn]] void fail_without_headings(const TableText& text, const TableOptions& options) {
  std::size_t before = text.lines().size();
  for (std::size_t line = next_content(text, 0); line < text.lines().size(); line = next_content(text, line + 1)) {
    for (const char separator : separators_to_try(options)) {
      if (!is_row(text.lines()[line], separator))
        continue;
      if (before == text.lines().size() || !has_words(text.lines()[before]))
        text.fail_at(line, "numbers stand here without a line of headings above them",
                     "Write the headings above, for instance `Displacement [mm]` and `Force [kN]`, or name both "
                     "columns by number in `columns` (#1, #2) and give their `units`.");
      std::vector<Cell> cells;
      cut_line(text.lines()[before], separator, cells);
      std::vector<Heading> headings;
      for (const Cell& cell : cells)
        headings.push_back(read_heading(cell.text));
      chosen_columns(text, before, headings, options);
      text.fail_at(before, "this line cannot be read as headings", "Give every column one heading.");
    }
    before = line;
  }
  text.fail_at(
      std::min(next_content(text, 0), text.lines().size() - 1),
      "no line of data was found; lines with at least two numbers below a line of headings were expected",
      "Check that this is the file of a test, and state `separator` when its cells are parted by another mark "
      "than a comma, semicolon, tab or blank.");
}

} // namespace

TableStart find_table(const TableText& text, const TableOptions& options) {
  std::optional<HeadingLine> found = find_headings(text, options, false, true);
  if (!found)
    found = find_headings(text, options, true, true);
  if (!found) {
    if (auto start = start_without_headings(text, options))
      return *start;
    found = find_headings(text, options, false, false);
  }
  if (!found)
    fail_without_headings(text, options);
  TableStart start;
  start.separator = found->separator;
  start.head = read_head(text, found->line, found->headings, found->separator, options);
  if (start.head.in_comment)
    start.head.remarks.push_back(fmt::format("line {}: the headings were taken from a comment", found->line + 1));
  return start;
}

} // namespace crushwright
