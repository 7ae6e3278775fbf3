#include "yaml_input/mapping.hpp"

#include "quantities/nearest_spelling.hpp"
#include "quantities/value_error.hpp"
#include "yaml_input/mapping_node.hpp"

#include <algorithm>
#include <stdexcept>
#include <utility>

#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr const char* accepted_schema = "1";

bool is_id(const std::string& key) {
  return std::all_of(key.begin(), key.end(), [](char letter) {
    return (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z') || (letter >= '0' && letter <= '9') ||
           letter == '_' || letter == '-';
  });
}

void check_ids(const SourceText& source, const TreeEntry& holder) {
  for (const TreeEntry& entry : holder.value.entries) {
    if (!is_id(entry.key)) {
      source.fail_at(entry.key_offset, fmt::format("{} is not a usable name", in_quotes(entry.key)),
                     "Make names of letters (a to z), digits, `_` and `-`.");
    }
  }
}

void check_root(const SourceText& source, const TreeNode& root) {
  if (root.kind == TreeNode::Kind::nothing) {
    source.fail_whole("the file is empty", "Begin it with the line `schema: 1`.");
  }
  if (root.kind != TreeNode::Kind::mapping) {
    source.fail_at(root.offset, fmt::format("the file holds {}; a mapping was expected", kind_name(root.kind)),
                   "Begin the file with the line `schema: 1` and write its keys below it as `key: value`.");
  }
}

void check_schema(const SourceText& source, const TreeNode& root) {
  const auto found = std::find_if(root.entries.begin(), root.entries.end(),
                                  [](const TreeEntry& entry) { return entry.key == "schema"; });
  if (found == root.entries.end()) {
    source.fail_at(root.offset, "`schema` is missing at the top level",
                   fmt::format("Add the line `schema: {}` at the top of the file.", accepted_schema));
  }
  if (found->value.kind != TreeNode::Kind::scalar || found->value.scalar != accepted_schema) {
    source.fail_at(
        value_offset(*found),
        fmt::format("`schema` must be {}, the only edition of the format that this version reads", accepted_schema),
        fmt::format("Bring the file to that edition and write `schema: {}`.", accepted_schema));
  }
}

std::shared_ptr<const YamlDocument> make_document(SourceText source) {
  TreeNode root = read_tree(source);
  check_root(source, root);
  check_schema(source, root);
  return std::make_shared<const YamlDocument>(YamlDocument{std::move(source), std::move(root)});
}

std::string place(const std::string& path) {
  return path.empty() ? std::string("at the top level") : fmt::format("in {}", path);
}

} // namespace

Mapping::Mapping(std::shared_ptr<const Node> node) : node_(std::move(node)) {}

Mapping Mapping::read_file(const std::filesystem::path& file) {
  const auto document = make_document(SourceText::from_file(file));
  return Mapping(std::make_shared<const Node>(Node{document, &document->root, "", document->root.offset}));
}

Mapping Mapping::read_text(const std::string& text, const std::string& shown_name) {
  const auto document = make_document(SourceText::from_bytes(text, shown_name));
  return Mapping(std::make_shared<const Node>(Node{document, &document->root, "", document->root.offset}));
}

void Mapping::allow(std::initializer_list<std::string_view> known_keys) {
  allow_keys(std::vector<std::string>(known_keys.begin(), known_keys.end()));
}

void Mapping::allow_keys(const std::vector<std::string>& known_keys) {
  known_keys_.clear();
  if (node_->path.empty()) {
    known_keys_.emplace_back("schema");
  }
  for (const std::string& key : known_keys) {
    known_keys_.push_back(key);
  }
  for (const TreeEntry& entry : node_->tree->entries) {
    if (std::find(known_keys_.begin(), known_keys_.end(), entry.key) != known_keys_.end()) {
      continue;
    }
    // "{value: 1,100 kg}" is read as two entries, the second of them "100 kg".
    if (entry.key.front() >= '0' && entry.key.front() <= '9') {
      node_->fail_at(entry.key_offset,
                     fmt::format("{} stands where a key should {}", in_quotes(entry.key), place(node_->path)),
                     "Inside braces a comma ends a value: write a number without one, 1100 kg or 1.5 mm.");
    }
    const auto meant = nearest_spelling(entry.key, known_keys_);
    node_->fail_at(entry.key_offset, fmt::format("unknown key {} {}", in_quotes(entry.key), place(node_->path)),
                   fmt::format("{}Known keys: {}.\nCorrect the spelling or delete the line.",
                               meant ? fmt::format("Did you mean `{}`? ", *meant) : "", comma_list(known_keys_)));
  }
}

const TreeEntry* Mapping::known_entry(std::string_view key) const {
  if (std::find(known_keys_.begin(), known_keys_.end(), key) == known_keys_.end()) {
    throw std::logic_error(fmt::format("the key `{}` of `{}` is read without being allowed", key, node_->path));
  }
  return node_->find(key);
}

bool Mapping::has(std::string_view key) const {
  return known_entry(key) != nullptr;
}

bool Mapping::is_mapping(std::string_view key) const {
  const TreeEntry* entry = known_entry(key);
  return entry != nullptr && entry->value.kind == TreeNode::Kind::mapping;
}

bool Mapping::is_list(std::string_view key) const {
  const TreeEntry* entry = known_entry(key);
  return entry != nullptr && entry->value.kind == TreeNode::Kind::list;
}

Mapping Mapping::mapping(std::string_view key) const {
  known_entry(key);
  const TreeEntry& entry = node_->require(key, "");
  if (entry.value.kind != TreeNode::Kind::mapping) {
    node_->fail_kind(entry, "a mapping", "Write its keys below it, indented, each as `key: value`.");
  }
  return node_->below(entry.value, node_->path_to(key), entry.key_offset);
}

std::optional<Mapping> Mapping::optional_mapping(std::string_view key) const {
  return has(key) ? std::optional<Mapping>(mapping(key)) : std::nullopt;
}

std::vector<Mapping> Mapping::list(std::string_view key) const {
  std::vector<Mapping> mappings;
  const std::vector<TreeNode>& items = items_of(key);
  for (std::size_t i = 0; i < items.size(); ++i) {
    const std::string item_path = fmt::format("{}[{}]", node_->path_to(key), i);
    if (items[i].kind != TreeNode::Kind::mapping) {
      node_->fail_at(items[i].offset,
                     fmt::format("{} is {}; a mapping was expected", item_path, kind_name(items[i].kind)),
                     "Write the item as `- key: value`, with its further keys below, indented alike.");
    }
    mappings.push_back(node_->below(items[i], item_path, items[i].offset));
  }
  return mappings;
}

std::vector<std::pair<std::string, Mapping>> Mapping::entries(std::string_view key) const {
  std::vector<std::pair<std::string, Mapping>> found;
  if (!has(key)) {
    return found;
  }
  const Mapping holder = mapping(key);
  check_ids(node_->document->source, *node_->find(key));
  for (const TreeEntry& entry : holder.node_->tree->entries) {
    if (entry.value.kind != TreeNode::Kind::mapping) {
      holder.node_->fail_kind(entry, "a mapping", "Write its keys below it, indented, each as `key: value`.");
    }
    found.emplace_back(entry.key,
                       holder.node_->below(entry.value, holder.node_->path_to(entry.key), entry.key_offset));
  }
  return found;
}

std::vector<std::string> Mapping::keys_of(std::string_view key) const {
  std::vector<std::string> keys;
  if (!has(key)) {
    return keys;
  }
  const Mapping holder = mapping(key);
  check_ids(node_->document->source, *node_->find(key));
  for (const TreeEntry& entry : holder.node_->tree->entries) {
    keys.push_back(entry.key);
  }
  return keys;
}

void Mapping::fail(std::string_view key, const std::string& what, const std::string& what_to_do) const {
  const TreeEntry* entry = node_->find(key);
  const std::string subject = key.empty() ? node_->path : node_->path_to(key);
  node_->fail_at(entry == nullptr ? node_->offset : value_offset(*entry),
                 subject.empty() ? what : fmt::format("{}: {}", subject, what), what_to_do);
}

const std::string& Mapping::path() const {
  return node_->path;
}
const std::string& Mapping::file_name() const {
  return node_->document->source.shown_name();
}
const std::string& Mapping::bytes() const {
  return node_->document->source.bytes();
}

} // namespace crushwright
