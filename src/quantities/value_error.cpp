#include "quantities/value_error.hpp"

#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr std::size_t longest_shown = 60;

bool starts_inside_character(char byte) {
  return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

} // namespace

ValueError::ValueError(const std::string& what_is_wrong, const std::string& what_to_do)
    : InputError(fmt::format("{}. {}", what_is_wrong, what_to_do)), what_is_wrong_(what_is_wrong),
      what_to_do_(what_to_do) {}

std::string in_quotes(std::string_view text) {
  std::size_t length = text.size();
  if (length > longest_shown) {
    length = longest_shown;
    while (length > 0 && starts_inside_character(text[length])) {
      --length;
    }
  }
  std::string shown;
  for (char letter : text.substr(0, length)) {
    shown += static_cast<unsigned char>(letter) < 0x20U ? ' ' : letter;
  }
  return fmt::format("`{}{}`", shown, length < text.size() ? "..." : "");
}

} // namespace crushwright
