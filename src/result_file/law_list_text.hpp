#pragma once
#include <string>
#include <vector>

namespace crushwright {

/// One law of a catalogue entry, a line a key, without dash and indent.
using LawText = std::vector<std::string>;

/// What happens to one list of laws in an entry's text.
struct LawListEdit {
  std::string key;            ///< "plateau_stress"
  std::vector<bool> goes;     ///< of each law that is there, in order
  std::vector<LawText> added; ///< stand at the end of the list
};

/// The text with its lists edited; every other byte is as it was, remarks between laws stay. A list left without a
/// law goes with its key; one that is not there is put before `densification`, or at the end.
/// @throws InputError when a list is written in one line, so that laws cannot be put into it line by line.
std::string with_law_lists(const std::string& entry, const std::vector<LawListEdit>& edits,
                           const std::string& shown_name);

/// One law as a list item; ends with a line feed.  @param indent  blanks before the dash
std::string item_text(const LawText& law, std::size_t indent);

/// The text with a top-level key and all below it replaced by `block`, which ends with a line feed; put at the end
/// when the key is not there. Every other byte is as it was.
std::string with_block(const std::string& entry, const std::string& key, const std::string& block);

/// A text as YAML scalar in double quotes.
std::string quoted(const std::string& text);

} // namespace crushwright
