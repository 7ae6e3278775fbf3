#pragma once
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace crushwright {

/// One entry of docs/references.bib as a line of text: authors, title, where it appeared, year, what was seen of it.
/// Reads the plain form in which that file is kept: fields in braces, names joined by "and".
std::map<std::string, std::string> read_bibliography(std::string_view bibtex);

/// The project's own bibliography, read once.
const std::map<std::string, std::string>& bibliography();

/// Keys that a source's text cites in brackets, "[gibson1997cellular] ch. 5", in their order.
std::vector<std::string> cited_keys(std::string_view source_text);

} // namespace crushwright
