#include "review_pack/text_table.hpp"

#include <algorithm>
#include <sstream>

namespace crushwright {

namespace {

std::size_t characters(const std::string& text) {
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

} // namespace

std::string text_table(const std::vector<bool>& figures, const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths(figures.size(), 0);
  for (const std::vector<std::string>& row : rows) {
    for (std::size_t c = 0; c < row.size(); ++c) {
      widths.at(c) = std::max(widths.at(c), characters(row[c]));
    }
  }
  std::string text;
  for (const std::vector<std::string>& row : rows) {
    std::string line = "  ";
    for (std::size_t c = 0; c < row.size(); ++c) {
      const std::string gap(widths[c] - characters(row[c]), ' ');
      line += figures[c] ? gap : "";
      line += row[c];
      line += figures[c] ? "" : gap;
      line += "  ";
    }
    line.erase(line.find_last_not_of(' ') + 1);
    text += line;
    text += '\n';
  }
  return text;
}

std::string wrapped(const std::string& text, std::size_t width, std::size_t indent) {
  std::istringstream words(text);
  std::string result, line(indent, ' '), word;
  bool empty = true;
  while (words >> word) {
    if (!empty && characters(line) + 1 + characters(word) > width) {
      result += line;
      result += '\n';
      line = std::string(indent + 2, ' ');
      empty = true;
    }
    line += empty ? "" : " ";
    line += word;
    empty = false;
  }
  result += line;
  result += '\n';
  return result;
}

} // namespace crushwright
