#include "quantities/dimension_table.hpp"
#include "yaml_input/mapping.hpp"
#include "yaml_input/mapping_node.hpp"

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string item_path(const std::string& list_path, std::size_t index) {
  return fmt::format("{}[{}]", list_path, index);
}

void require_kind(const SourceText& source, const TreeNode& item, const std::string& path, TreeNode::Kind kind,
                  std::string_view what_to_do) {
  const bool empty_text = item.kind == TreeNode::Kind::scalar && item.scalar.empty();
  if (item.kind != kind || empty_text) {
    const TreeNode::Kind found = empty_text ? TreeNode::Kind::nothing : item.kind;
    source.fail_at(item.offset, fmt::format("{} is {}; {} was expected", path, kind_name(found), kind_name(kind)),
                   what_to_do);
  }
}

constexpr std::string_view single_advice = "Write one value per item.";

void check_row(const SourceText& source, const TreeNode& row, const std::string& path, std::size_t columns) {
  const std::string advice = fmt::format("Write each row as a list of {} values in brackets.", columns);
  require_kind(source, row, path, TreeNode::Kind::list, advice);
  if (row.items.size() != columns) {
    source.fail_at(row.offset, fmt::format("{} has length {}; {} was expected", path, row.items.size(), columns),
                   advice);
  }
}

} // namespace

const std::vector<TreeNode>& Mapping::items_of(std::string_view key) const {
  static const std::vector<TreeNode> none;
  const TreeEntry* entry = known_entry(key);
  if (entry == nullptr) {
    return none;
  }
  if (entry->value.kind != TreeNode::Kind::list) {
    node_->fail_kind(*entry, "a list",
                     "Write one item per line, each behind `- `, or all in brackets: [first, second].");
  }
  return entry->value.items;
}

std::vector<std::string> Mapping::text_list(std::string_view key) const {
  std::vector<std::string> texts;
  for (const TreeNode& item : items_of(key)) {
    require_kind(node_->document->source, item, item_path(node_->path_to(key), texts.size()), TreeNode::Kind::scalar,
                 single_advice);
    texts.push_back(item.scalar);
  }
  return texts;
}

std::vector<Quantity> Mapping::quantity_list(std::string_view key, Dimension dimension, const Bounds& bounds) const {
  std::vector<Quantity> quantities;
  for (const TreeNode& item : items_of(key)) {
    Quantity read;
    read.dimension = dimension;
    read.path = item_path(node_->path_to(key), quantities.size());
    require_kind(node_->document->source, item, read.path, TreeNode::Kind::scalar, single_advice);
    read.value = node_->value(item.scalar, read.path, item.offset, dimension, bounds);
    quantities.push_back(read);
  }
  return quantities;
}

std::vector<std::vector<double>> Mapping::number_rows(std::string_view key, std::size_t columns) const {
  return quantity_rows(key, columns, Dimension::number);
}

std::vector<std::vector<double>> Mapping::quantity_rows(std::string_view key, std::size_t columns,
                                                        Dimension dimension) const {
  std::vector<std::vector<double>> rows;
  for (const TreeNode& row : items_of(key)) {
    const std::string row_path = item_path(node_->path_to(key), rows.size());
    check_row(node_->document->source, row, row_path, columns);
    std::vector<double> values;
    for (const TreeNode& item : row.items) {
      const std::string path = item_path(row_path, values.size());
      require_kind(node_->document->source, item, path, TreeNode::Kind::scalar, single_advice);
      values.push_back(node_->value(item.scalar, path, item.offset, dimension, Bounds::any()));
    }
    rows.push_back(values);
  }
  return rows;
}

} // namespace crushwright
