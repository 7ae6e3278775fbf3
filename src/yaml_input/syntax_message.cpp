#include "yaml_input/syntax_message.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include <yaml-cpp/exceptions.h>

namespace crushwright {

namespace {

struct Rewording {
  std::string_view library_message;
  std::string_view what_is_wrong;
  std::string_view what_to_do;
};

constexpr std::string_view indentation_advice =
    "Give all keys of one mapping the same indentation, and put a space behind each colon.\n"
    "Put a text that holds `: ` or ` #` in quotes.";
constexpr std::string_view bracket_advice =
    "Close every [ with ] and every { with }, and part the items with commas.";
constexpr std::string_view quote_advice =
    "Close the quotes, and use only escapes that YAML knows (\\n, \\t, \\\", \\\\).";
constexpr std::string_view reused_advice =
    "Anchors (&name) and aliases (*name) are not read: write the values out where they are needed.";
constexpr std::string_view tag_advice = "Tags (!name) are not read: delete it and write the plain value.";
constexpr std::string_view directive_advice = "Delete the line that begins with %: no directive is needed.";

namespace words = YAML::ErrorMsg;

const std::array<Rewording, 31> rewordings{{
    {words::END_OF_MAP, "the mapping ends unexpectedly here", indentation_advice},
    {words::MAP_VALUE, "a `: ` stands where no key and value can be", indentation_advice},
    {words::MAP_KEY, "a key stands where none can be", indentation_advice},
    {words::BLOCK_ENTRY, "a list item `- ` stands where none can be", indentation_advice},
    {words::END_OF_SEQ, "the list ends unexpectedly here", indentation_advice},
    {words::TAB_IN_INDENTATION, "a tab in the indentation", "Indent with spaces."},
    {words::END_OF_MAP_FLOW, "a { is not closed", bracket_advice},
    {words::END_OF_SEQ_FLOW, "a [ is not closed", bracket_advice},
    {words::FLOW_END, "a closing bracket without an opening one", bracket_advice},
    {words::EOF_IN_SCALAR, "a quoted text is not closed", quote_advice},
    {words::DOC_IN_SCALAR, "a quoted text is not closed", quote_advice},
    {words::CHAR_IN_SCALAR, "a character that cannot stand in this text", quote_advice},
    {words::SINGLE_QUOTED_CHAR, "a character that cannot stand in this text", quote_advice},
    {words::INVALID_HEX, "a bad escape in a quoted text", quote_advice},
    {words::INVALID_UNICODE, "a bad escape in a quoted text", quote_advice},
    {words::INVALID_ESCAPE, "a bad escape in a quoted text", quote_advice},
    {words::UNKNOWN_TOKEN, "a character that cannot begin a value", "Put the value in quotes."},
    {words::ZERO_INDENT_IN_BLOCK, "a bad indentation mark of a text block", "Write only | or > behind the colon."},
    {words::CHAR_IN_BLOCK, "a bad indentation mark of a text block", "Write only | or > behind the colon."},
    {words::UNKNOWN_ANCHOR, "an alias", reused_advice},
    {words::ALIAS_NOT_FOUND, "an alias", reused_advice},
    {words::ALIAS_CONTENT, "an alias", reused_advice},
    {words::CHAR_IN_ALIAS, "an alias", reused_advice},
    {words::ANCHOR_NOT_FOUND, "an anchor", reused_advice},
    {words::CHAR_IN_ANCHOR, "an anchor", reused_advice},
    {words::MULTIPLE_ANCHORS, "an anchor", reused_advice},
    {words::CHAR_IN_TAG_HANDLE, "a tag", tag_advice},
    {words::TAG_WITH_NO_SUFFIX, "a tag", tag_advice},
    {words::END_OF_VERBATIM_TAG, "a tag", tag_advice},
    {words::MULTIPLE_TAGS, "a tag", tag_advice},
    {words::YAML_DIRECTIVE_ARGS, "a bad directive", directive_advice},
}};

const std::array<std::string_view, 5> directive_messages{words::YAML_VERSION, words::YAML_MAJOR_VERSION,
                                                         words::REPEATED_YAML_DIRECTIVE, words::TAG_DIRECTIVE_ARGS,
                                                         words::REPEATED_TAG_DIRECTIVE};

bool begins_with(std::string_view text, std::string_view begin) {
  return text.substr(0, begin.size()) == begin;
}

/// Offset of a tab in the indentation of the line around `offset`; npos when there is none.
std::size_t tab_in_indentation(std::string_view text, std::size_t offset) {
  const std::size_t before = offset == 0 ? std::string_view::npos : text.rfind('\n', offset - 1);
  const std::size_t begin = before == std::string_view::npos ? 0 : before + 1;
  const std::size_t content = std::min(text.find_first_not_of(" \t", begin), text.size());
  const std::size_t tab = text.find('\t', begin);
  return tab < content ? tab : std::string_view::npos;
}

} // namespace

void fail_syntax(const SourceText& source, std::size_t offset, const std::string& library_message) {
  const std::size_t tab = tab_in_indentation(source.text(), offset);
  if (tab != std::string_view::npos) {
    source.fail_at(tab, "a tab in the indentation", "Indent with spaces.");
  }
  for (const Rewording& rewording : rewordings) {
    if (begins_with(library_message, rewording.library_message)) {
      source.fail_at(offset, rewording.what_is_wrong, rewording.what_to_do);
    }
  }
  for (std::string_view message : directive_messages) {
    if (begins_with(library_message, message)) {
      source.fail_at(offset, "a bad directive", directive_advice);
    }
  }
  source.fail_at(offset, "this is not YAML", indentation_advice);
}

} // namespace crushwright
