#pragma once
#include <string>

namespace crushwright {

/// "0.1.0", as the build states it.
std::string program_version();

} // namespace crushwright
