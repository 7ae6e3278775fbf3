#pragma once
#include <string>

namespace crushwright {

/// Text for an attribute or between tags: the five marks of XML replaced, control characters left out.
std::string xml_escaped(const std::string& text);

} // namespace crushwright
