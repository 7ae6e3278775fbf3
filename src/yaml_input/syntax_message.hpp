#pragma once
#include "yaml_input/source_text.hpp"

#include <cstddef>
#include <string>

namespace crushwright {

/// Throws InputError for a syntax error of the YAML library in our layout and words.
///
/// @param library_message  the library's own message, which only selects ours.
[[noreturn]] void fail_syntax(const SourceText& source, std::size_t offset, const std::string& library_message);

} // namespace crushwright
