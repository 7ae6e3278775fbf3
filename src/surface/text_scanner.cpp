#include "surface/text_scanner.hpp"

#include "surface/mesh_file.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <cstdlib>
#include <string>

namespace crushwright {
namespace {

bool is_blank(char letter) {
  return letter == ' ' || letter == '\t' || letter == '\r' || letter == '\n' || letter == '\f' || letter == '\v';
}

} // namespace

std::string shown_word(std::string_view word) {
  std::string text;
  for (char letter : word.substr(0, 24))
    text += letter >= ' ' && letter <= '~' ? letter : '?';
  return word.size() > 24 ? text + "..." : text;
}

void TextScanner::pass_blanks(bool across_lines) {
  while (at_ < text_.size() && is_blank(text_[at_])) {
    if (text_[at_] == '\n') {
      if (!across_lines)
        return;
      ++line_;
    }
    ++at_;
  }
}

std::string_view TextScanner::word_of_line() {
  pass_blanks(false);
  const std::size_t begin = at_;
  while (at_ < text_.size() && !is_blank(text_[at_]))
    ++at_;
  return text_.substr(begin, at_ - begin);
}

std::string_view TextScanner::word() {
  pass_blanks(true);
  return word_of_line();
}

std::string_view TextScanner::coming() {
  pass_blanks(true);
  const std::size_t here = at_;
  const std::string_view found = word_of_line();
  at_ = here;
  return found;
}

void TextScanner::leave_line() {
  while (at_ < text_.size() && text_[at_] != '\n')
    ++at_;
}

bool TextScanner::at_end() {
  pass_blanks(true);
  return at_ == text_.size();
}

void TextScanner::fail(std::string_view found, std::string_view expected) const {
  if (found.empty())
    throw BrokenMeshFile(line_, fmt::format("the file breaks off; {} was expected", expected));
  throw BrokenMeshFile(line_, fmt::format("'{}' stands where {} was expected", shown_word(found), expected));
}

double TextScanner::number(std::string_view what) {
  const std::string_view found = word();
  std::string_view digits = found;
  if (digits.size() > 1 && digits[0] == '+' && digits[1] != '-')
    digits.remove_prefix(1);
  double value = 0;
  const auto [end, fault] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  // Below the smallest number it is 0; from_chars says "out of range" there as it does beyond the largest.
  if (fault == std::errc::result_out_of_range && end == digits.data() + digits.size() &&
      std::abs(std::strtod(std::string(digits).c_str(), nullptr)) < 1)
    return 0;
  if (fault != std::errc{} || end != digits.data() + digits.size() || !std::isfinite(value))
    fail(found, what);
  return value;
}

std::array<double, 3> TextScanner::point(std::string_view what) {
  std::array<double, 3> place{};
  for (double& coordinate : place)
    coordinate = number(what);
  return place;
}

std::size_t TextScanner::count(std::string_view what) {
  const std::string_view found = word();
  std::size_t value = 0;
  const auto [end, fault] = std::from_chars(found.data(), found.data() + found.size(), value);
  if (found.empty() || fault != std::errc{} || end != found.data() + found.size())
    fail(found, what);
  return value;
}

} // namespace crushwright
