#pragma once
#include <string>

#include <CLI/App.hpp>
#include <CLI/Error.hpp>

namespace crushwright {

/// "crushwright size: what is wrong", and below it what to do.
std::string usage_text(const std::string& command, const std::string& what, const std::string& what_to_do);

/// What is wrong with a command line that could not be read: the word, the nearest known one, where help is.
std::string usage_message(const CLI::App& program, const CLI::ParseError& error);

} // namespace crushwright
