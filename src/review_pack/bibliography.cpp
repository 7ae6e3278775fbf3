#include "review_pack/bibliography.hpp"

#include "review_pack/references.hpp"

#include <algorithm>
#include <array>
#include <cctype>

#include <fmt/format.h>

namespace crushwright {

namespace {

using Fields = std::map<std::string, std::string>;

/// Position after the brace that closes the one at `open`.
std::size_t past_closing_brace(std::string_view text, std::size_t open) {
  int depth = 0;
  for (std::size_t i = open; i < text.size(); ++i) {
    depth += text[i] == '{' ? 1 : text[i] == '}' ? -1 : 0;
    if (depth == 0) {
      return i + 1;
    }
  }
  return text.size();
}

std::string trimmed_word(std::string_view text) {
  std::string word;
  for (const char c : text) {
    if (std::isspace(static_cast<unsigned char>(c)) == 0 && c != ',') {
      word += c;
    }
  }
  return word;
}

/// Inner braces only guard capitals; "--" is a range.
std::string plain(std::string_view value) {
  std::string text;
  for (std::size_t i = 0; i < value.size(); ++i) {
    if (value.substr(i, 2) == "--") {
      text += "\u2013";
      ++i;
    } else if (value[i] != '{' && value[i] != '}') {
      text += value[i] == '\n' ? ' ' : value[i];
    }
  }
  return text;
}

Fields fields_of(std::string_view body) {
  Fields fields;
  std::size_t at = 0;
  while (true) {
    const std::size_t equals = body.find('=', at);
    const std::size_t open = equals == std::string_view::npos ? equals : body.find('{', equals);
    if (open == std::string_view::npos) {
      return fields;
    }
    const std::size_t end = past_closing_brace(body, open);
    fields[trimmed_word(body.substr(at, equals - at))] = plain(body.substr(open + 1, end - open - 2));
    at = end;
  }
}

std::string authors(std::string names) {
  for (std::size_t at = names.find(" and "); at != std::string::npos; at = names.find(" and ")) {
    names.replace(at, 5, "; ");
  }
  return names;
}

std::string line_of(const Fields& fields) {
  constexpr std::array<const char*, 12> order = {"title",     "edition",      "journal", "booktitle",
                                                 "volume",    "number",       "pages",   "institution",
                                                 "publisher", "howpublished", "year",    "doi"};
  const auto author = fields.find("author");
  std::string text = author == fields.end() ? "" : authors(author->second) + ": ";
  std::string joint;
  for (const char* name : order) {
    const auto field = fields.find(name);
    if (field != fields.end()) {
      text += joint + field->second;
      joint = ", ";
    }
  }
  const auto note = fields.find("note");
  return note == fields.end() ? text : fmt::format("{} ({})", text, note->second);
}

} // namespace

std::map<std::string, std::string> read_bibliography(std::string_view bibtex) {
  std::map<std::string, std::string> entries;
  std::size_t at = bibtex.find("\n@");
  while (at != std::string_view::npos) {
    const std::size_t open = bibtex.find('{', at);
    if (open == std::string_view::npos) {
      break;
    }
    const std::size_t end = past_closing_brace(bibtex, open);
    const std::size_t comma = std::min(bibtex.find(',', open), end - 1);
    entries[trimmed_word(bibtex.substr(open + 1, comma - open - 1))] =
        line_of(fields_of(bibtex.substr(comma + 1, end - comma - 1)));
    at = bibtex.find("\n@", end - 1);
  }
  return entries;
}

const std::map<std::string, std::string>& bibliography() {
  static const std::map<std::string, std::string> entries = read_bibliography(references_bib());
  return entries;
}

std::vector<std::string> cited_keys(std::string_view source_text) {
  std::vector<std::string> keys;
  for (std::size_t open = source_text.find('['); open != std::string_view::npos;
       open = source_text.find('[', open + 1)) {
    const std::size_t close = source_text.find(']', open);
    if (close == std::string_view::npos) {
      break;
    }
    keys.emplace_back(source_text.substr(open + 1, close - open - 1));
  }
  return keys;
}

} // namespace crushwright
