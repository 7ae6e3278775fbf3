#include "yaml_input/syntax_tree.hpp"

#include "crushwright/errors.hpp"
#include "quantities/value_error.hpp"
#include "yaml_input/syntax_message.hpp"

#include <algorithm>
#include <istream>
#include <map>
#include <sstream>
#include <utility>

#include <fmt/format.h>
#include <yaml-cpp/anchor.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>
#include <yaml-cpp/parser.h>

namespace crushwright {

namespace {

// Cases nest about 8 levels. The limit stops a hostile file before recursion does.
constexpr std::size_t deepest_nesting = 32;

constexpr const char* reused_advice =
    "Anchors (&name) and aliases (*name) are not read: write the values out where they are needed.";

std::size_t offset_of(const YAML::Mark& mark) {
  return mark.pos < 0 ? 0 : static_cast<std::size_t>(mark.pos);
}

std::size_t line_of(std::string_view text, std::size_t offset) {
  const auto end = text.begin() + static_cast<std::ptrdiff_t>(std::min(offset, text.size()));
  return 1 + static_cast<std::size_t>(std::count(text.begin(), end, '\n'));
}

/// False when the text begins with a quote whose partner is missing.
bool quote_is_closed(std::string_view text) {
  if (text.empty() || (text.front() != '"' && text.front() != '\'')) {
    return true;
  }
  const char quote = text.front();
  for (std::size_t at = 1; at < text.size(); ++at) {
    const bool doubled = quote == '\'' && text.substr(at, 2) == "''";
    if (doubled || (text[at] == '\\' && quote == '"')) {
      ++at;
    } else if (text[at] == quote) {
      return true;
    }
  }
  return false;
}

/// Builds the tree from the parser's events, and refuses at the event what a file may not contain.
class TreeBuilder : public YAML::EventHandler {
public:
  explicit TreeBuilder(const SourceText& source) : source_(source) {}

  TreeNode take_root() { return std::move(root_); }
  bool has_document() const { return documents_ > 0; }

  void OnDocumentStart(const YAML::Mark& mark) override {
    if (documents_++ > 0) {
      source_.fail_at(offset_of(mark), "a second document begins here; a file holds one",
                      "Delete what follows, or move it to a file of its own.");
    }
  }
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    add({Kind::nothing, offset_of(mark), {}, {}, {}});
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    source_.fail_at(offset_of(mark), "an alias", reused_advice);
  }

  void OnAnchor(const YAML::Mark& mark, const std::string& name) override {
    source_.fail_at(offset_of(mark), fmt::format("an anchor, {}", in_quotes("&" + name)), reused_advice);
  }

  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t /*anchor*/,
                const std::string& value) override {
    refuse_tag(mark, tag);
    refuse_open_quote(mark);
    add({Kind::scalar, offset_of(mark), value, {}, {}});
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t /*anchor*/,
                       YAML::EmitterStyle::value /*style*/) override {
    refuse_tag(mark, tag);
    open({Kind::list, offset_of(mark), {}, {}, {}});
  }
  void OnSequenceEnd() override { close(); }

  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t /*anchor*/,
                  YAML::EmitterStyle::value /*style*/) override {
    refuse_tag(mark, tag);
    open({Kind::mapping, offset_of(mark), {}, {}, {}});
  }
  void OnMapEnd() override { close(); }

private:
  using Kind = TreeNode::Kind;

  struct OpenNode {
    TreeNode node;
    bool key_waits = false;
    std::string key;
    std::size_t key_offset = 0;
    std::map<std::string, std::size_t> offsets_of_keys;
  };

  // A quoted scalar comes with the tag "!", a lone "!" in the text too: only the text tells them apart.
  void refuse_tag(const YAML::Mark& mark, const std::string& tag) const {
    const std::size_t at = offset_of(mark);
    const bool written = at < source_.text().size() && source_.text()[at] == '!';
    if (written || (!tag.empty() && tag != "?" && tag != "!")) {
      source_.fail_at(at, "a tag", "Tags (!name) are not read: delete it and write the plain value.");
    }
  }

  // The library lets a quoted text run to the end of the file without its closing quote.
  void refuse_open_quote(const YAML::Mark& mark) const {
    if (!quote_is_closed(source_.text().substr(std::min(offset_of(mark), source_.text().size())))) {
      source_.fail_at(offset_of(mark), "a quoted text is not closed", "Close the quotes on the same line.");
    }
  }

  bool at_key() const { return !open_.empty() && open_.back().node.kind == Kind::mapping && !open_.back().key_waits; }

  void add(TreeNode node) {
    if (open_.empty()) {
      root_ = std::move(node);
    } else if (at_key()) {
      take_key(node);
    } else if (open_.back().node.kind == Kind::mapping) {
      OpenNode& parent = open_.back();
      parent.node.entries.push_back({std::move(parent.key), parent.key_offset, std::move(node)});
      parent.key_waits = false;
    } else {
      open_.back().node.items.push_back(std::move(node));
    }
  }

  void take_key(const TreeNode& key) {
    if (key.kind != Kind::scalar || key.scalar.empty()) {
      source_.fail_at(key.offset, "a key is empty", "Write a word before the colon.");
    }
    OpenNode& parent = open_.back();
    const auto [first, is_new] = parent.offsets_of_keys.emplace(key.scalar, key.offset);
    if (!is_new) {
      source_.fail_at(key.offset, fmt::format("the key {} stands twice in one mapping", in_quotes(key.scalar)),
                      fmt::format("It was first given in line {}. Delete one of the two.",
                                  line_of(source_.text(), first->second)));
    }
    parent.key = key.scalar;
    parent.key_offset = key.offset;
    parent.key_waits = true;
  }

  void open(TreeNode node) {
    if (at_key()) {
      source_.fail_at(node.offset, "a key is a list or a mapping; a word was expected",
                      "Write `key: value` with a plain word as the key.");
    }
    if (open_.size() == deepest_nesting) {
      source_.fail_at(node.offset, fmt::format("nested deeper than {} levels", deepest_nesting),
                      "Check the brackets and the indentation.");
    }
    open_.push_back({std::move(node), false, {}, 0, {}});
  }

  void close() {
    TreeNode node = std::move(open_.back().node);
    open_.pop_back();
    add(std::move(node));
  }

  const SourceText& source_;
  int documents_ = 0;
  TreeNode root_;
  std::vector<OpenNode> open_;
};

} // namespace

TreeNode read_tree(const SourceText& source) {
  TreeBuilder builder(source);
  try {
    std::istringstream stream{std::string(source.text())};
    YAML::Parser parser(stream);
    while (parser.HandleNextDocument(builder)) {
    }
  } catch (const YAML::Exception& error) {
    fail_syntax(source, offset_of(error.mark), error.msg);
  }
  if (!builder.has_document()) {
    source.fail_whole("the file is empty", "Begin it with the line `schema: 1`.");
  }
  return builder.take_root();
}

} // namespace crushwright
