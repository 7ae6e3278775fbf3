#pragma once
#include "crushwright/quantity.hpp"

#include <string>
#include <string_view>

namespace crushwright {

/// Ends a command for a faulty option. @throws InputError "crushwright COMMAND: what", and what to do below it
[[noreturn]] void refuse_option(std::string_view command, const std::string& what, const std::string& what_to_do);

/// A value of the command line [SI]; "15%" and "10mm" are taken as well as "15 %", because a shell splits at blanks.
/// @throws InputError that names the option
double option_value(std::string_view command, std::string_view option, const std::string& text, Dimension dimension);

} // namespace crushwright
