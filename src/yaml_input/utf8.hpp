#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace crushwright {

/// Offset of the first byte that begins no UTF-8 letter (overlong forms, surrogates and letters past U+10FFFF
/// refused); npos when there is none.
std::size_t first_bad_utf8(std::string_view text);

/// The letters of one line as messages show them: control letters as a blank, bytes that are not UTF-8 as "?".
std::vector<std::string> shown_letters(std::string_view line);

} // namespace crushwright
