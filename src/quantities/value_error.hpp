#pragma once
#include "crushwright/errors.hpp"

#include <string>
#include <string_view>

namespace crushwright {

/// A value's text cannot be read. Keeps what is wrong and what to do apart, so that yaml_input can lay them out below
/// the line of the file.
class ValueError : public InputError {
public:
  ValueError(const std::string& what_is_wrong, const std::string& what_to_do);
  const std::string& what_is_wrong() const { return what_is_wrong_; }
  const std::string& what_to_do() const { return what_to_do_; }

private:
  std::string what_is_wrong_;
  std::string what_to_do_;
};

/// A text as messages show it: one line, in backquotes, cut when long.
std::string in_quotes(std::string_view text);

} // namespace crushwright
