#pragma once
#include "crushwright/errors.hpp"
#include "crushwright/quantity.hpp"

#include <filesystem>
#include <initializer_list>
#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace crushwright {

struct TreeEntry;
struct TreeNode;

/// The values a key accepts. Ends are included unless the flag says otherwise.
struct Bounds {
  double lowest = -std::numeric_limits<double>::infinity();
  double highest = std::numeric_limits<double>::infinity();
  bool lowest_excluded = false;
  bool highest_excluded = false;

  static Bounds any() { return {}; }
  static Bounds positive() { return {0, std::numeric_limits<double>::infinity(), true, false}; }
  static Bounds not_negative() { return {0, std::numeric_limits<double>::infinity(), false, false}; }
  static Bounds closed(double low, double high) { return {low, high, false, false}; }
  static Bounds open(double low, double high) { return {low, high, true, true}; }
};

/// One YAML mapping, read strictly. The one way in which the program reads a mapping.
///
/// Every failure throws InputError with a whole message: file, line, column, the line with a caret, what was
/// expected, the known keys, the nearest spelling, what to do. Reading a file refuses: not UTF-8, over the size
/// limit, a tag, an alias, duplicate keys (all levels), an empty file, a root that is not a mapping, `schema` absent
/// or not 1.
class Mapping {
public:
  /// Reads a catalogue or case file; `schema: 1` is checked and taken as known.
  static Mapping read_file(const std::filesystem::path& file);
  /// The same from text already in memory; `shown_name` stands for the file in messages.
  static Mapping read_text(const std::string& text, const std::string& shown_name);

  /// States every key this mapping may have. Any other key is an error, with the nearest spelling.
  /// Call it first; asking for a key not stated here is a programming error (std::logic_error).
  void allow(std::initializer_list<std::string_view> known_keys);
  /// The same for keys known only at run time.
  void allow_keys(const std::vector<std::string>& known_keys);

  bool has(std::string_view key) const;
  /// True when the key's value is a mapping (a quantity in long form counts as one).
  bool is_mapping(std::string_view key) const;
  bool is_list(std::string_view key) const;

  /// A quantity as scalar ("35 km/h") or in long form {value, low, high, coefficient_of_variation, source, standing};
  /// `low <= value <= high`, all inside the bounds.
  Quantity quantity(std::string_view key, Dimension dimension, const Bounds& bounds = {}) const;
  std::optional<Quantity> optional_quantity(std::string_view key, Dimension dimension,
                                            const Bounds& bounds = {}) const;
  /// A bare number, no unit, no long form.
  double number(std::string_view key, const Bounds& bounds = {}) const;
  std::optional<double> optional_number(std::string_view key, const Bounds& bounds = {}) const;
  int integer(std::string_view key, int lowest, int highest) const;
  std::optional<int> optional_integer(std::string_view key, int lowest, int highest) const;
  bool flag_or(std::string_view key, bool fallback) const;
  std::string text(std::string_view key) const;
  std::string text_or(std::string_view key, const std::string& fallback) const;
  /// One of the stated words; anything else is an error that lists them and the nearest spelling.
  std::string choice(std::string_view key, const std::vector<std::string>& words) const;
  std::string choice_or(std::string_view key, const std::vector<std::string>& words,
                        const std::string& fallback) const;

  /// `source:` and `standing:` of this mapping, both optional (allow them).
  Source source() const;
  /// `source:` must be there (allow source and standing).
  Source required_source() const;

  Mapping mapping(std::string_view key) const;
  std::optional<Mapping> optional_mapping(std::string_view key) const;
  /// A list of mappings; absent gives an empty list, as for every list below. Paths count items from 0: "limits[0]".
  std::vector<Mapping> list(std::string_view key) const;
  /// A mapping of mappings by the user's own ids, in file order; absent gives an empty list. An id is made of
  /// letters, digits, `_` and `-`, so that paths stay unambiguous.
  std::vector<std::pair<std::string, Mapping>> entries(std::string_view key) const;
  /// The keys of a mapping by the user's own ids whose values are plain quantities or words, in file order.
  std::vector<std::string> keys_of(std::string_view key) const;
  std::vector<std::string> text_list(std::string_view key) const;
  std::vector<Quantity> quantity_list(std::string_view key, Dimension dimension, const Bounds& bounds = {}) const;
  /// A list of equal-length lists of bare numbers, for instance node coordinates; shape = (rows, columns).
  std::vector<std::vector<double>> number_rows(std::string_view key, std::size_t columns) const;
  /// A list of equal-length lists of values with a unit each, for instance polygon corners [[0 mm, 10 mm], ...].
  std::vector<std::vector<double>> quantity_rows(std::string_view key, std::size_t columns,
                                                 Dimension dimension) const;

  /// Throws InputError "file:line:column: path.key: what" pointing at the key's value (at the key where the value is
  /// a mapping or list, at the mapping itself where the key is absent or empty), and below the line what to do.
  [[noreturn]] void fail(std::string_view key, const std::string& what, const std::string& what_to_do) const;

  /// The same for a value found wrong after reading, by its path ("structures.left.lattice.wall") in this file.
  [[noreturn]] void fail_at_path(std::string_view value_path, const std::string& what,
                                 const std::string& what_to_do) const;

  /// Every quantity read from the file so far, in reading order, each with its path.
  const std::vector<Quantity>& quantities_read() const;

  const std::string& path() const; ///< "structures.left.lattice"; empty at the root
  const std::string& file_name() const;
  const std::string& bytes() const; ///< the whole file as read, for the input hash

private:
  struct Node;
  explicit Mapping(std::shared_ptr<const Node> node);
  const TreeEntry* known_entry(std::string_view key) const;
  const std::vector<TreeNode>& items_of(std::string_view key) const;
  std::shared_ptr<const Node> node_;
  std::vector<std::string> known_keys_;
};

} // namespace crushwright
