#include "command_line/program_version.hpp"

namespace crushwright {

std::string program_version() {
  return CRUSHWRIGHT_VERSION;
}

} // namespace crushwright
