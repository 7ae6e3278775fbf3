#include "command_line/option_value.hpp"

#include "crushwright/errors.hpp"
#include "quantities/units.hpp"

#include <fmt/format.h>

namespace crushwright {

void refuse_option(std::string_view command, const std::string& what, const std::string& what_to_do) {
  throw InputError(fmt::format("crushwright {}: {}\n   {}", command, what, what_to_do));
}

double option_value(std::string_view command, std::string_view option, const std::string& text, Dimension dimension) {
  std::string spaced = text;
  const std::size_t unit = spaced.find_first_not_of("0123456789.+-");
  if (unit != std::string::npos && unit > 0 && spaced[unit] != ' ' && spaced[unit] != 'e') {
    spaced = fmt::format("{} {}", text.substr(0, unit), text.substr(unit));
  }
  try {
    return parse_value(spaced, dimension);
  } catch (const InputError& fault) {
    refuse_option(command, fmt::format("{} {}: {}", option, text, fault.what()), "Correct that option.");
  }
}

} // namespace crushwright
