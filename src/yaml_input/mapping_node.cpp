#include "yaml_input/mapping_node.hpp"

#include "quantities/units.hpp"
#include "quantities/value_error.hpp"
#include "yaml_input/bounds_text.hpp"

#include <utility>

#include <fmt/format.h>

namespace crushwright {

std::size_t value_offset(const TreeEntry& entry) {
  return entry.value.kind == TreeNode::Kind::scalar ? entry.value.offset : entry.key_offset;
}

std::string_view kind_name(TreeNode::Kind kind) {
  switch (kind) {
  case TreeNode::Kind::nothing:
    return "empty";
  case TreeNode::Kind::scalar:
    return "a single value";
  case TreeNode::Kind::list:
    return "a list";
  case TreeNode::Kind::mapping:
    return "a mapping";
  }
  return "";
}

const TreeEntry* Mapping::Node::find(std::string_view key) const {
  for (const TreeEntry& entry : tree->entries) {
    if (entry.key == key) {
      return &entry;
    }
  }
  return nullptr;
}

const TreeEntry& Mapping::Node::require(std::string_view key, std::string_view example) const {
  const TreeEntry* entry = find(key);
  if (entry == nullptr) {
    fail_at(offset, fmt::format("`{}` is missing {}", key, path.empty() ? "at the top level" : "in " + path),
            example.empty() ? fmt::format("Add `{}:` with its own keys below it.", key)
                            : fmt::format("Add a line, for instance `{}: {}`.", key, example));
  }
  return *entry;
}

const std::string& Mapping::Node::scalar(std::string_view key, std::string_view expected,
                                         std::string_view example) const {
  const TreeEntry& entry = require(key, example);
  if (entry.value.kind != TreeNode::Kind::scalar || entry.value.scalar.empty()) {
    fail_kind(entry, expected, fmt::format("Write it behind the colon, for instance `{}: {}`.", key, example));
  }
  return entry.value.scalar;
}

std::string Mapping::Node::path_to(std::string_view key) const {
  return path.empty() ? std::string(key) : fmt::format("{}.{}", path, key);
}

Mapping Mapping::Node::below(const TreeNode& below_tree, std::string below_path, std::size_t below_offset) const {
  return Mapping(std::make_shared<const Node>(Node{document, &below_tree, std::move(below_path), below_offset}));
}

double Mapping::Node::value(const std::string& text, const std::string& value_path, std::size_t offset_of_value,
                            Dimension dimension, const Bounds& bounds) const {
  double read = 0;
  try {
    read = parse_value(text, dimension);
  } catch (const ValueError& error) {
    fail_at(offset_of_value, fmt::format("{}: {}", value_path, error.what_is_wrong()), error.what_to_do());
  }
  if (!contains(bounds, read)) {
    fail_at(offset_of_value, fmt::format("{} must be {}, not {}", value_path, text_of(bounds, dimension), text),
            "Correct the value or its unit.");
  }
  return read;
}

void Mapping::Node::fail_kind(const TreeEntry& entry, std::string_view expected, std::string_view what_to_do) const {
  const bool empty_text = entry.value.kind == TreeNode::Kind::scalar && entry.value.scalar.empty();
  fail_at(value_offset(entry),
          fmt::format("{} is {}; {} was expected", path_to(entry.key),
                      empty_text ? kind_name(TreeNode::Kind::nothing) : kind_name(entry.value.kind), expected),
          what_to_do);
}

} // namespace crushwright
