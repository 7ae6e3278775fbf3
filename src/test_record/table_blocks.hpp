#pragma once
#include "test_record/table_search.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// Lines of data under one line of headings.
struct TableBlock {
  TableHead head;
  std::vector<std::size_t> rows; ///< indices of lines, from 0
  std::string label;             ///< of a line "specimen: A2" above it; else empty
};

/// A data file cut into blocks, its decimal mark settled.
struct TableBlocks {
  std::vector<TableBlock> blocks; ///< at least one; one of them may lack rows
  char separator = ',';
  char decimal_mark = '.';
};

/// @throws InputError for a line that is neither data nor anything else that may stand there, and when the decimal
///         mark cannot be told.
TableBlocks find_blocks(const TableText& text, const TableOptions& options);

/// "separator" as messages name it.
std::string_view separator_name(char separator);

} // namespace crushwright
