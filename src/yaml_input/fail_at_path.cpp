#include "yaml_input/mapping.hpp"
#include "yaml_input/mapping_node.hpp"

#include <algorithm>
#include <cstdlib>
#include <string>

#include <fmt/format.h>

namespace crushwright {
namespace {

/// The next step of a path, cut off its front: a key, or an item number in "[3]".
std::string take_step(std::string_view& rest) {
  if (rest.front() == '.') {
    rest.remove_prefix(1);
  }
  const std::size_t end = rest.front() == '[' ? rest.find(']') + 1 : std::min(rest.find_first_of(".["), rest.size());
  std::string step(rest.substr(0, end));
  rest.remove_prefix(end);
  return step;
}

/// Offset of the deepest node on the path that the file has.
std::size_t offset_of(const TreeNode& root, std::string_view path) {
  const TreeNode* node = &root;
  std::size_t offset = root.offset;
  while (!path.empty()) {
    const std::string step = take_step(path);
    if (step.front() == '[') {
      const auto index = static_cast<std::size_t>(std::strtoul(step.c_str() + 1, nullptr, 10));
      if (index >= node->items.size()) {
        return offset;
      }
      node = &node->items[index];
      offset = node->offset;
      continue;
    }
    const auto entry = std::find_if(node->entries.begin(), node->entries.end(),
                                    [&](const TreeEntry& candidate) { return candidate.key == step; });
    if (entry == node->entries.end()) {
      return offset;
    }
    node = &entry->value;
    offset = value_offset(*entry);
  }
  return offset;
}

} // namespace

void Mapping::fail_at_path(std::string_view value_path, const std::string& what,
                           const std::string& what_to_do) const {
  node_->fail_at(offset_of(node_->document->root, value_path), fmt::format("{}: {}", value_path, what), what_to_do);
}

} // namespace crushwright
