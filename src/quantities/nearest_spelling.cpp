#include "quantities/nearest_spelling.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace crushwright {

namespace {

// A word of a damaged file can be megabytes long, and the distance costs the product of both lengths.
constexpr std::size_t longest_word_compared = 100;

} // namespace

std::size_t spelling_distance(std::string_view one, std::string_view other) {
  const std::size_t width = other.size() + 1;
  std::vector<std::size_t> before_last(width);
  std::vector<std::size_t> last(width);
  std::vector<std::size_t> row(width);
  for (std::size_t j = 0; j < width; ++j) {
    row[j] = j;
  }
  for (std::size_t i = 1; i <= one.size(); ++i) {
    before_last.swap(last);
    last.swap(row);
    row[0] = i;
    for (std::size_t j = 1; j < width; ++j) {
      const std::size_t replaced = last[j - 1] + (one[i - 1] == other[j - 1] ? 0U : 1U);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, replaced});
      const bool swapped = i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1];
      if (swapped) {
        row[j] = std::min(row[j], before_last[j - 2] + 1);
      }
    }
  }
  return row[other.size()];
}

std::optional<std::string> nearest_spelling(std::string_view given, const std::vector<std::string>& known) {
  if (given.size() > longest_word_compared) {
    return std::nullopt;
  }
  std::optional<std::string> nearest;
  std::size_t nearest_distance = 0;
  for (const std::string& word : known) {
    const std::size_t distance = spelling_distance(given, word);
    const std::size_t longer = std::max(given.size(), word.size());
    const bool near = distance <= std::max<std::size_t>(2, longer / 3) && 2 * distance < longer;
    if (near && (!nearest || distance < nearest_distance)) {
      nearest = word;
      nearest_distance = distance;
    }
  }
  return nearest;
}

std::string comma_list(const std::vector<std::string>& words) {
  return fmt::format("{}", fmt::join(words, ", "));
}

} // namespace crushwright
