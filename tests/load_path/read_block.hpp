#pragma once
#include "crushwright/errors.hpp"
#include "yaml_input/mapping.hpp"

#include <string>

/// A block under one key of a small file, for tests of readers.
namespace read_block {

inline crushwright::Mapping block(const std::string& key, const std::string& text) {
  crushwright::Mapping root = crushwright::Mapping::read_text("schema: 1\n" + key + ": " + text + "\n", "case.yaml");
  root.allow_keys({key});
  return root.mapping(key);
}

/// The whole of what the user is told when a reader refuses the block.
template <class Reader>
std::string refusal(Reader reader, const std::string& key, const std::string& text) {
  try {
    reader(block(key, text));
  } catch (const crushwright::InputError& error) {
    return error.what();
  }
  return "no error";
}

/// Its first line, from the key on, and its last, without the picture of the line between them.
template <class Reader>
std::string told(Reader reader, const std::string& key, const std::string& text) {
  const std::string whole = refusal(reader, key, text);
  if (whole == "no error")
    return whole;
  const std::size_t begin = whole.find(key), line_end = whole.find('\n'), last = whole.rfind("\n   ");
  return begin > line_end ? whole : whole.substr(begin, line_end - begin) + " |" + whole.substr(last + 3);
}

} // namespace read_block
