#pragma once
#include "crushwright/test_record.hpp"
#include "test_record/cut_line.hpp"
#include "test_record/heading.hpp"
#include "test_record/table_text.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// The columns of one specimen, or of all where a column tells them apart. Indices count from 0.
struct RecordColumns {
  struct Column {
    std::size_t index = 0;
    ColumnRole role = ColumnRole::other;
    std::string unit;
    std::string heading; ///< as shown, with its unit
  };
  Column along, load;
  std::optional<Column> time;
  std::string label; ///< of pairs of columns side by side; else empty
};

/// A line of headings and what it says about the lines below it.
struct TableHead {
  std::optional<std::size_t> line; ///< index from 0; absent when columns are named by number and nothing stands above
  bool in_comment = false;
  std::size_t data_begins = 0; ///< index of the first line behind headings and units
  std::size_t width = 0;       ///< number of columns
  std::vector<RecordColumns> records;
  std::optional<std::size_t> specimen_column;
  std::vector<std::string> remarks;
};

/// Lines that carry nothing.
bool is_blank_line(std::string_view line);
/// #, % or // at the beginning.
bool is_comment(std::string_view line);
std::string_view without_comment_mark(std::string_view line);
/// False for a line of numbers and marks alone, which cannot be a line of headings.
bool has_words(std::string_view line);

/// A line of units: every cell is one or is empty.
///
/// @param width  number of headings above.
bool is_unit_line(const std::vector<Cell>& cells, std::size_t width);

/// The headings on a line; empty when the line cannot be cut or does not hold the columns that are needed.
std::vector<Heading> headings_on(const TableText& text, std::size_t line, char separator,
                                 const TableOptions& options);

/// Columns and units below a line of headings.
///
/// @throws InputError where a column cannot be told from another, is absent, or has no unit or two.
TableHead read_head(const TableText& text, std::size_t line, const std::vector<Heading>& headings, char separator,
                    const TableOptions& options);

/// The same for a file without headings whose first line of data is `line`.
TableHead read_head_without_line(const TableText& text, std::size_t line, const std::vector<Heading>& headings,
                                 const TableOptions& options);

} // namespace crushwright
