#pragma once
#include "crushwright/errors.hpp"

#include <string>

namespace crushwright {

/// The message of the InputError that the action throws; "accepted" when it throws none.
template <class Action>
std::string message_of(Action action) {
  try {
    action();
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}

} // namespace crushwright
