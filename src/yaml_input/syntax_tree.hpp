#pragma once
#include "yaml_input/source_text.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace crushwright {

struct TreeEntry;

/// One node of a YAML file with its place in the text. Offsets are bytes of SourceText::text().
struct TreeNode {
  enum class Kind { nothing, scalar, list, mapping };
  Kind kind = Kind::nothing;
  std::size_t offset = 0;
  std::string scalar;             ///< of a scalar, quotes removed
  std::vector<TreeNode> items;    ///< of a list
  std::vector<TreeEntry> entries; ///< of a mapping, in file order, keys unique
};

struct TreeEntry {
  std::string key;
  std::size_t key_offset = 0;
  TreeNode value;
};

/// Reads the one document of a file. The only place that knows the YAML library.
///
/// @throws InputError at the first syntax error, tag, anchor, alias, duplicate key, key that is not a word, nesting
///                    deeper than 32 levels, second document, or when there is no document at all.
TreeNode read_tree(const SourceText& source);

} // namespace crushwright
