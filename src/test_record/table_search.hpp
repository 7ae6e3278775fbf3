#pragma once
#include "test_record/table_layout.hpp"

namespace crushwright {

/// Where the data of a file begin, and what parts their cells.
struct TableStart {
  char separator = ',';
  TableHead head;
};

/// Finds the first line of headings and the separator under which it can be read.
///
/// @throws InputError when there is none, saying what is missing.
TableStart find_table(const TableText& text, const TableOptions& options);

} // namespace crushwright
