#pragma once
#include "yaml_input/mapping.hpp"
#include "yaml_input/source_text.hpp"
#include "yaml_input/syntax_tree.hpp"

#include <memory>
#include <string>
#include <string_view>

namespace crushwright {

/// A file as read; shared by every Mapping inside it.
struct YamlDocument {
  SourceText source;
  TreeNode root;
  mutable std::vector<Quantity> quantities_read{}; ///< in reading order
};

/// Where a Mapping stands in its document.
struct Mapping::Node {
  std::shared_ptr<const YamlDocument> document;
  const TreeNode* tree = nullptr; ///< inside `document`
  std::string path;
  std::size_t offset = 0; ///< of the key that holds the mapping, of the mapping itself in a list and at the root

  const TreeEntry* find(std::string_view key) const;
  /// The entry; throws when it is absent, with an example of what to add.
  const TreeEntry& require(std::string_view key, std::string_view example) const;
  /// The text of the key's value; throws when it is not a single, non-empty value.
  const std::string& scalar(std::string_view key, std::string_view expected, std::string_view example) const;
  std::string path_to(std::string_view key) const;
  /// The mapping under one of this one's keys, or in one of its lists.
  Mapping below(const TreeNode& below_tree, std::string below_path, std::size_t below_offset) const;
  /// A value's text read as a number of the dimension, bounds checked; errors point at `offset_of_value`.
  double value(const std::string& text, const std::string& value_path, std::size_t offset_of_value,
               Dimension dimension, const Bounds& bounds) const;
  [[noreturn]] void fail_at(std::size_t at, std::string_view what, std::string_view what_to_do) const {
    document->source.fail_at(at, what, what_to_do);
  }
  [[noreturn]] void fail_kind(const TreeEntry& entry, std::string_view expected, std::string_view what_to_do) const;
};

/// Where a message about an entry's value points: at a single value itself, else at the key.
std::size_t value_offset(const TreeEntry& entry);

/// "a list", "a mapping", "a single value", "nothing".
std::string_view kind_name(TreeNode::Kind kind);

} // namespace crushwright
