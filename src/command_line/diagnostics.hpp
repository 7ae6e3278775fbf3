#pragma once

namespace crushwright {

/// Sends the program's diagnostics to stderr: warnings alone, or everything.
void set_up_diagnostics(bool everything);

} // namespace crushwright
