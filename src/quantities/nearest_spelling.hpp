#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace crushwright {

/// Number of single-byte insertions, deletions, replacements and swaps of neighbours that turn one word into the
/// other (Damerau-Levenshtein distance, optimal string alignment).
std::size_t spelling_distance(std::string_view one, std::string_view other);

/// The known word that the given one was probably meant to be: at most 2 slips away, or a third of the longer word's
/// length, and less than half of it. Ties go to the word that stands first.
std::optional<std::string> nearest_spelling(std::string_view given, const std::vector<std::string>& known);

/// "a, b, c".
std::string comma_list(const std::vector<std::string>& words);

} // namespace crushwright
