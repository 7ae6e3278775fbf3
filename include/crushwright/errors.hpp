#pragma once
#include <stdexcept>
#include <string>

namespace crushwright {

/// What the user gave cannot be used: a file, a key, a value. The message is complete: file, line, column, the line
/// with a caret, what was expected and what to do. The program ends with exit code 2.
class InputError : public std::runtime_error {
public:
  using std::runtime_error::runtime_error;
};

/// A function was asked for a value outside the physical domain of its law. The message carries the value.
class OutOfDomain : public std::domain_error {
public:
  using std::domain_error::domain_error;
};

} // namespace crushwright
