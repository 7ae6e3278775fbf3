#pragma once
#include "crushwright/test_record.hpp"
#include "test_record/number_cell.hpp"
#include "test_record/table_text.hpp"

namespace crushwright {

/// The decimal mark of a file after all its cells were seen.
///
/// @throws InputError when two readings are possible or the file uses both.
char decimal_mark_of(const TableText& text, const DecimalMarkSearch& search, char separator,
                     const TableOptions& options);

} // namespace crushwright
