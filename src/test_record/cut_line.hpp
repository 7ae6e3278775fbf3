#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace crushwright {

/// One cell of a line, without the blanks around it and without its quotes.
struct Cell {
  std::string text;
  bool quoted = false;
};

/// Cuts a line at a separator; ' ' stands for any run of blanks and tabs. A cell that begins with a double quote ends
/// at the next one; a doubled quote inside it is one quote.
///
/// @param cells  filled; unspecified when the result is false.
/// @return       false when a quote does not close, or text stands beside a quoted cell.
bool cut_line(std::string_view line, char separator, std::vector<Cell>& cells);

std::string_view trimmed(std::string_view text);

/// ASCII letters in lower case; all else as it is.
std::string lower_case(std::string_view text);

} // namespace crushwright
