#include "result_file/law_list_text.hpp"

#include "crushwright/errors.hpp"

#include <algorithm>
#include <optional>
#include <string_view>

#include <fmt/format.h>

namespace crushwright {

namespace {

/// Lines with their line feeds, so that joined again they are the text.
std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t feed = text.find('\n', begin);
    const std::size_t end = feed == std::string::npos ? text.size() : feed + 1;
    lines.push_back(text.substr(begin, end - begin));
    begin = end;
  }
  return lines;
}

bool says_nothing(const std::string& line) {
  const std::size_t first = line.find_first_not_of(" \t\r\n");
  return first == std::string::npos || line[first] == '#';
}

bool opens_key(const std::string& line) {
  return !says_nothing(line) && line.find_first_of(" \t-") != 0;
}

/// Where a top-level list lies: its key's line, its items, and the line behind the last one that says something.
struct ListPlace {
  std::size_t key = 0;
  std::vector<std::size_t> items; ///< first lines
  std::size_t end = 0;
  std::size_t indent = 0;
};

std::size_t key_line(const std::vector<std::string>& lines, std::string_view key) {
  const std::string start = std::string(key) + ":";
  return static_cast<std::size_t>(
      std::find_if(lines.begin(), lines.end(), [&](const std::string& line) { return line.rfind(start, 0) == 0; }) -
      lines.begin());
}

/// Behind the last line of a block that says something: remarks below it belong to what follows.
std::size_t end_of(const std::vector<std::string>& lines, std::size_t from, std::size_t to) {
  while (to > from && says_nothing(lines[to - 1])) {
    --to;
  }
  return to;
}

std::optional<ListPlace> place_of(const std::vector<std::string>& lines, std::string_view key) {
  ListPlace place;
  place.key = key_line(lines, key);
  if (place.key == lines.size()) {
    return std::nullopt;
  }
  std::size_t next = place.key + 1;
  while (next < lines.size() && !opens_key(lines[next])) {
    ++next;
  }
  place.end = end_of(lines, place.key + 1, next);
  for (std::size_t line = place.key + 1; line < place.end; ++line) {
    const std::size_t first = lines[line].find_first_not_of(' ');
    const bool dash = !says_nothing(lines[line]) && lines[line][first] == '-';
    if (dash && place.items.empty()) {
      place.indent = first;
    }
    if (dash && first == place.indent) {
      place.items.push_back(line);
    }
  }
  return place;
}

/// What was wrong with a list's layout, with what to do about it.
[[noreturn]] void refuse_layout(const std::string& shown_name, std::string_view key, std::size_t line) {
  throw InputError(fmt::format("{}:{}: {}: the laws stand in one line, so that none can be put in or taken out by "
                               "lines\n   Write each law of the list below the key, beginning with a dash "
                               "(docs/catalogue_format.md).",
                               shown_name, line + 1, key));
}

void append_items(std::vector<std::string>& lines, const std::vector<LawText>& laws, std::size_t indent) {
  if (!lines.empty() && !laws.empty() && lines.back().back() != '\n') {
    lines.back() += '\n';
  }
  for (const LawText& law : laws) {
    lines.push_back(item_text(law, indent));
  }
}

std::vector<std::string> part_of(const std::vector<std::string>& lines, std::size_t from, std::size_t to) {
  return {lines.begin() + static_cast<std::ptrdiff_t>(from), lines.begin() + static_cast<std::ptrdiff_t>(to)};
}

/// The list's items less those that go, each with the remarks below it.
std::vector<std::string> kept_items(const std::vector<std::string>& lines, const ListPlace& place,
                                    const std::vector<bool>& goes) {
  std::vector<std::string> kept =
      part_of(lines, place.key + 1, place.items.empty() ? place.end : place.items.front());
  for (std::size_t item = 0; item < place.items.size(); ++item) {
    const std::size_t to = item + 1 < place.items.size() ? place.items[item + 1] : place.end;
    const std::size_t from = goes[item] ? end_of(lines, place.items[item], to) : place.items[item];
    const std::vector<std::string> part = part_of(lines, from, to);
    kept.insert(kept.end(), part.begin(), part.end());
  }
  return kept;
}

std::vector<std::string> with_list_added(const std::vector<std::string>& lines, const LawListEdit& edit) {
  if (edit.added.empty()) {
    return lines;
  }
  const std::size_t before = key_line(lines, "densification");
  std::vector<std::string> text = part_of(lines, 0, before);
  if (!text.empty() && text.back().back() != '\n') {
    text.back() += '\n';
  }
  text.push_back(edit.key + ":\n");
  append_items(text, edit.added, 2);
  const std::vector<std::string> rest = part_of(lines, before, lines.size());
  text.insert(text.end(), rest.begin(), rest.end());
  return text;
}

std::vector<std::string> with_list(const std::vector<std::string>& lines, const LawListEdit& edit,
                                   const std::string& shown_name) {
  const std::optional<ListPlace> place = place_of(lines, edit.key);
  if (!place) {
    return with_list_added(lines, edit);
  }
  if (place->items.size() != edit.goes.size()) {
    refuse_layout(shown_name, edit.key, place->key);
  }
  const bool none_left =
      edit.added.empty() && std::all_of(edit.goes.begin(), edit.goes.end(), [](bool goes) { return goes; });
  std::vector<std::string> text = part_of(lines, 0, place->key);
  // "key: []" has no laws; the key alone then opens the list.
  if (!none_left) {
    text.push_back(edit.goes.empty() ? edit.key + ":\n" : lines[place->key]);
  }
  const std::vector<std::string> kept = kept_items(lines, *place, edit.goes);
  text.insert(text.end(), kept.begin(), kept.end());
  append_items(text, edit.added, place->items.empty() ? 2 : place->indent);
  const std::vector<std::string> rest = part_of(lines, place->end, lines.size());
  text.insert(text.end(), rest.begin(), rest.end());
  return text;
}

/// Where a top-level block ends; its trailing remarks belong to what follows.
std::size_t block_end(const std::vector<std::string>& lines, std::size_t key) {
  std::size_t next = key + 1;
  while (next < lines.size() && !opens_key(lines[next])) {
    ++next;
  }
  return end_of(lines, key + 1, next);
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) {
    text += line;
  }
  return text;
}

} // namespace

std::string item_text(const LawText& law, std::size_t indent) {
  std::string item;
  for (const std::string& line : law) {
    item += fmt::format("{:{}}{} {}\n", "", indent, item.empty() ? "-" : " ", line);
  }
  return item;
}

std::string with_block(const std::string& entry, const std::string& key, const std::string& block) {
  std::vector<std::string> lines = lines_of(entry);
  const std::size_t place = key_line(lines, key);
  if (place == lines.size()) {
    const bool open = !lines.empty() && lines.back().back() != '\n';
    return entry + (open ? "\n" : "") + block;
  }
  const std::size_t end = block_end(lines, place);
  lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(place), lines.begin() + static_cast<std::ptrdiff_t>(end));
  lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(place), block);
  return joined(lines);
}

std::string with_law_lists(const std::string& entry, const std::vector<LawListEdit>& edits,
                           const std::string& shown_name) {
  std::vector<std::string> lines = lines_of(entry);
  for (const LawListEdit& edit : edits) {
    // Parts of several lines were put in: lines again, so that the next list finds its place.
    lines = lines_of(joined(with_list(lines, edit, shown_name)));
  }
  return joined(lines);
}

std::string quoted(const std::string& text) {
  std::string safe;
  for (const char letter : text) {
    if (letter == '"' || letter == '\\') {
      safe += '\\';
    }
    safe += letter;
  }
  return '"' + safe + '"';
}

} // namespace crushwright
