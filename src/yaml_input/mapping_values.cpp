#include "quantities/dimension_table.hpp"
#include "quantities/nearest_spelling.hpp"
#include "quantities/units.hpp"
#include "quantities/value_error.hpp"
#include "yaml_input/mapping.hpp"
#include "yaml_input/mapping_node.hpp"

#include <charconv>
#include <stdexcept>
#include <system_error>

#include <fmt/format.h>

namespace crushwright {

namespace {

const std::vector<Standing>& all_standings() {
  static const std::vector<Standing> all{Standing::read, Standing::memory, Standing::derived,
                                         Standing::common_practice};
  return all;
}

std::vector<std::string> standing_words() {
  std::vector<std::string> words;
  for (Standing standing : all_standings()) {
    words.emplace_back(name_of(standing));
  }
  return words;
}

Standing standing_named(const std::string& word) {
  for (Standing standing : all_standings()) {
    if (name_of(standing) == word) {
      return standing;
    }
  }
  throw std::logic_error("a standing without a name");
}

std::string_view example_of(Dimension dimension) {
  return row_of(dimension).example;
}

Quantity long_form(Mapping mapping, Dimension dimension, const Bounds& bounds) {
  mapping.allow({"value", "low", "high", "coefficient_of_variation", "source", "standing"});
  for (std::string_view key : {"value", "low", "high", "coefficient_of_variation"}) {
    if (mapping.is_mapping(key)) {
      mapping.fail(key, "this is a mapping; a single value was expected", "Write the value itself behind the colon.");
    }
  }
  Quantity read = mapping.quantity("value", dimension, bounds);
  if (const auto low = mapping.optional_quantity("low", dimension, bounds)) {
    read.low = low->value;
  }
  if (const auto high = mapping.optional_quantity("high", dimension, bounds)) {
    read.high = high->value;
  }
  if (const auto spread =
          mapping.optional_quantity("coefficient_of_variation", Dimension::fraction, Bounds::not_negative())) {
    read.coefficient_of_variation = spread->value;
  }
  read.source = mapping.source();
  read.path = mapping.path();
  return read;
}

void check_order(const Mapping& mapping, const Quantity& read) {
  const std::string value = show(read.value, read.dimension);
  if (read.low && *read.low > read.value) {
    mapping.fail("low", fmt::format("{} is above the value, {}", show(*read.low, read.dimension), value),
                 "Order them low <= value <= high.");
  }
  if (read.high && *read.high < read.value) {
    mapping.fail("high", fmt::format("{} is below the value, {}", show(*read.high, read.dimension), value),
                 "Order them low <= value <= high.");
  }
}

} // namespace

Quantity Mapping::quantity(std::string_view key, Dimension dimension, const Bounds& bounds) const {
  known_entry(key);
  const std::string_view example = example_of(dimension);
  const TreeEntry& entry = node_->require(key, example);
  if (entry.value.kind == TreeNode::Kind::mapping) {
    Mapping below = mapping(key);
    std::vector<Quantity>& record = node_->document->quantities_read;
    const std::size_t before = record.size();
    Quantity read = long_form(below, dimension, bounds);
    check_order(below, read);
    // The parts of the long form recorded themselves on the way; one entry stands for them all.
    record.resize(before);
    record.push_back(read);
    return read;
  }
  const std::string& text = node_->scalar(key, row_of(dimension).with_article, example);
  Quantity read;
  read.dimension = dimension;
  read.path = node_->path_to(key);
  read.value = node_->value(text, read.path, entry.value.offset, dimension, bounds);
  node_->document->quantities_read.push_back(read);
  return read;
}

const std::vector<Quantity>& Mapping::quantities_read() const {
  return node_->document->quantities_read;
}

std::optional<Quantity> Mapping::optional_quantity(std::string_view key, Dimension dimension,
                                                   const Bounds& bounds) const {
  return has(key) ? std::optional<Quantity>(quantity(key, dimension, bounds)) : std::nullopt;
}

double Mapping::number(std::string_view key, const Bounds& bounds) const {
  known_entry(key);
  const std::string& text = node_->scalar(key, "a bare number", example_of(Dimension::number));
  return node_->value(text, node_->path_to(key), node_->find(key)->value.offset, Dimension::number, bounds);
}

std::optional<double> Mapping::optional_number(std::string_view key, const Bounds& bounds) const {
  return has(key) ? std::optional<double>(number(key, bounds)) : std::nullopt;
}

int Mapping::integer(std::string_view key, int lowest, int highest) const {
  known_entry(key);
  const std::string& text = node_->scalar(key, "a whole number", fmt::format("{}", lowest));
  int read = 0;
  const std::from_chars_result result = std::from_chars(text.data(), text.data() + text.size(), read);
  const bool whole = result.ec == std::errc() && result.ptr == text.data() + text.size();
  if (!whole || read < lowest || read > highest) {
    node_->fail_at(node_->find(key)->value.offset,
                   fmt::format("{} must be a whole number from {} to {}, not {}", node_->path_to(key), lowest,
                               highest, in_quotes(text)),
                   "Write it in digits alone.");
  }
  return read;
}

std::optional<int> Mapping::optional_integer(std::string_view key, int lowest, int highest) const {
  return has(key) ? std::optional<int>(integer(key, lowest, highest)) : std::nullopt;
}

bool Mapping::flag_or(std::string_view key, bool fallback) const {
  return has(key) ? choice(key, {"true", "false"}) == "true" : fallback;
}

std::string Mapping::text(std::string_view key) const {
  known_entry(key);
  return node_->scalar(key, "a text", "some words");
}

std::string Mapping::text_or(std::string_view key, const std::string& fallback) const {
  return has(key) ? text(key) : fallback;
}

std::string Mapping::choice(std::string_view key, const std::vector<std::string>& words) const {
  known_entry(key);
  const std::string& word = node_->scalar(key, "one word", words.empty() ? "" : words.front());
  for (const std::string& known : words) {
    if (known == word) {
      return word;
    }
  }
  const auto meant = nearest_spelling(word, words);
  node_->fail_at(
      node_->find(key)->value.offset, fmt::format("{} cannot be {}", node_->path_to(key), in_quotes(word)),
      fmt::format("{}Write one of: {}.", meant ? fmt::format("Did you mean `{}`? ", *meant) : "", comma_list(words)));
}

std::string Mapping::choice_or(std::string_view key, const std::vector<std::string>& words,
                               const std::string& fallback) const {
  return has(key) ? choice(key, words) : fallback;
}

Source Mapping::source() const {
  Source read;
  read.text = text_or("source", "");
  if (has("standing")) {
    read.standing = standing_named(choice("standing", standing_words()));
  }
  return read;
}

Source Mapping::required_source() const {
  text("source");
  return source();
}

} // namespace crushwright
