#include "test_record/cut_line.hpp"

#include <algorithm>
#include <cstddef>

namespace crushwright {

namespace {

bool is_blank(char letter) {
  return letter == ' ' || letter == '\t';
}

/// Walks over one line; every step takes one cell.
class Cutter {
public:
  Cutter(std::string_view line, char separator) : line_(line), separator_(separator) {}

  bool next(Cell& cell) {
    skip_blanks();
    cell = {};
    return at_ < line_.size() && line_[at_] == '"' ? quoted(cell) : plain(cell);
  }
  /// Steps over the separator behind a cell; false at the end of the line.
  bool step() {
    skip_blanks();
    if (at_ >= line_.size())
      return false;
    if (separator_ != ' ')
      ++at_;
    return true;
  }

private:
  bool ends_cell(char letter) const { return separator_ == ' ' ? is_blank(letter) : letter == separator_; }

  void skip_blanks() {
    while (at_ < line_.size() && is_blank(line_[at_]) && (separator_ == ' ' || line_[at_] != separator_))
      ++at_;
  }

  bool plain(Cell& cell) {
    const std::size_t begin = at_;
    while (at_ < line_.size() && !ends_cell(line_[at_]))
      ++at_;
    cell.text = trimmed(line_.substr(begin, at_ - begin));
    return cell.text.find('"') == std::string::npos;
  }

  bool quoted(Cell& cell) {
    cell.quoted = true;
    for (++at_; at_ < line_.size(); ++at_) {
      if (line_[at_] != '"') {
        cell.text += line_[at_];
      } else if (at_ + 1 < line_.size() && line_[at_ + 1] == '"') {
        cell.text += line_[at_++];
      } else {
        ++at_;
        cell.text = std::string(trimmed(cell.text));
        const std::size_t behind = at_;
        skip_blanks();
        return at_ >= line_.size() || ends_cell(line_[at_]) || (separator_ == ' ' && at_ > behind);
      }
    }
    return false;
  }

  std::string_view line_;
  char separator_;
  std::size_t at_ = 0;
};

} // namespace

bool cut_line(std::string_view line, char separator, std::vector<Cell>& cells) {
  cells.clear();
  Cutter cutter(separator == ' ' ? trimmed(line) : line, separator);
  Cell cell;
  do {
    if (!cutter.next(cell))
      return false;
    cells.push_back(cell);
  } while (cutter.step());
  return true;
}

std::string_view trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t");
  if (begin == std::string_view::npos)
    return {};
  return text.substr(begin, text.find_last_not_of(" \t") + 1 - begin);
}

std::string lower_case(std::string_view text) {
  std::string lower(text);
  std::transform(lower.begin(), lower.end(), lower.begin(), [](char letter) {
    return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter + ('a' - 'A')) : letter;
  });
  return lower;
}

} // namespace crushwright
