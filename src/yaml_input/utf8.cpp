#include "yaml_input/utf8.hpp"

namespace crushwright {

namespace {

/// What may follow a lead byte: the count of further bytes and the range of the first of them (Unicode, table 3-7).
struct Sequence {
  std::size_t further;
  unsigned char lowest;
  unsigned char highest;
};

constexpr std::size_t no_lead = 99;

Sequence sequence_of(unsigned char lead) {
  if (lead < 0x80U) {
    return {0, 0, 0};
  }
  if (lead >= 0xC2U && lead <= 0xDFU) {
    return {1, 0x80, 0xBF};
  }
  if (lead >= 0xE0U && lead <= 0xEFU) {
    return {2, static_cast<unsigned char>(lead == 0xE0U ? 0xA0 : 0x80),
            static_cast<unsigned char>(lead == 0xEDU ? 0x9F : 0xBF)};
  }
  if (lead >= 0xF0U && lead <= 0xF4U) {
    return {3, static_cast<unsigned char>(lead == 0xF0U ? 0x90 : 0x80),
            static_cast<unsigned char>(lead == 0xF4U ? 0x8F : 0xBF)};
  }
  return {no_lead, 0, 0};
}

/// Bytes of the letter that begins at `at`; 0 when none does.
std::size_t letter_length(std::string_view text, std::size_t at) {
  const Sequence sequence = sequence_of(static_cast<unsigned char>(text[at]));
  if (sequence.further >= text.size() - at) {
    return 0;
  }
  for (std::size_t i = 1; i <= sequence.further; ++i) {
    const auto byte = static_cast<unsigned char>(text[at + i]);
    const unsigned char lowest = i == 1 ? sequence.lowest : 0x80;
    const unsigned char highest = i == 1 ? sequence.highest : 0xBF;
    if (byte < lowest || byte > highest) {
      return 0;
    }
  }
  return sequence.further + 1;
}

} // namespace

std::size_t first_bad_utf8(std::string_view text) {
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t length = letter_length(text, at);
    if (length == 0) {
      return at;
    }
    at += length;
  }
  return std::string_view::npos;
}

std::vector<std::string> shown_letters(std::string_view line) {
  std::vector<std::string> letters;
  std::size_t at = 0;
  while (at < line.size()) {
    const std::size_t length = letter_length(line, at);
    const auto byte = static_cast<unsigned char>(line[at]);
    if (length == 0) {
      letters.emplace_back("?");
    } else if (byte < 0x20U || byte == 0x7FU) {
      letters.emplace_back(" ");
    } else {
      letters.emplace_back(line.substr(at, length));
    }
    at += length == 0 ? 1 : length;
  }
  return letters;
}

} // namespace crushwright
