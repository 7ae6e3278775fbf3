#pragma once
#include <string>
#include <vector>

namespace crushwright {

/// Columns in a terminal, aligned by characters (not bytes). Text columns are flush left, figures flush right.
/// @param figures  one flag per column.  @param rows  the first is the heading; all as long as `figures`.
std::string text_table(const std::vector<bool>& figures, const std::vector<std::vector<std::string>>& rows);

/// Breaks a text at spaces so that no line is longer than `width`; continued lines are indented.
std::string wrapped(const std::string& text, std::size_t width, std::size_t indent);

} // namespace crushwright
