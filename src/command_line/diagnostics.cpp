#include "command_line/diagnostics.hpp"

#include <spdlog/sinks/stdout_sinks.h>
#include <spdlog/spdlog.h>

namespace crushwright {

void set_up_diagnostics(bool everything) {
  auto logger = std::make_shared<spdlog::logger>("crushwright", std::make_shared<spdlog::sinks::stderr_sink_mt>());
  logger->set_pattern("crushwright: %l: %v");
  logger->set_level(everything ? spdlog::level::debug : spdlog::level::warn);
  spdlog::set_default_logger(logger);
}

} // namespace crushwright
