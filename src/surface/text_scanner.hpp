#pragma once
#include <array>
#include <cstddef>
#include <string>
#include <string_view>

namespace crushwright {

/// A word of a file for a message: a damaged one may be long, or hold bytes that no terminal should get.
std::string shown_word(std::string_view word);

/// Walks through the words of a mesh file in text form, and knows the line it is in.
class TextScanner {
public:
  explicit TextScanner(std::string_view text, std::size_t first_line = 1) : text_(text), line_(first_line) {}

  /// The next word, across lines; empty at the end of the text.
  std::string_view word();
  /// The next word of this line; empty at its end.
  std::string_view word_of_line();
  /// The next word without taking it; empty at the end of the text.
  std::string_view coming();
  /// The rest of this line is passed over.
  void leave_line();
  bool at_end();

  /// @param what  for the message: "the x of a vertex"
  /// @throws BrokenMeshFile when the text ends, or the word is no finite number.
  double number(std::string_view what);
  std::array<double, 3> point(std::string_view what);
  /// @throws BrokenMeshFile when the text ends, or the word is no whole number of 0 or more.
  std::size_t count(std::string_view what);
  /// @throws BrokenMeshFile with the line of the last word.
  [[noreturn]] void fail(std::string_view found, std::string_view expected) const;

  std::size_t line() const { return line_; }
  std::size_t bytes_left() const { return text_.size() - at_; }

private:
  void pass_blanks(bool across_lines);

  std::string_view text_;
  std::size_t at_ = 0;
  std::size_t line_ = 1;
};

} // namespace crushwright
