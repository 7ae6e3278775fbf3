#pragma once
#include "command_line/command_input.hpp"
#include "command_line/exit_code.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// What the user wrote behind `coupon`; values as written.
struct CouponOptions {
  std::vector<std::string> files; ///< one description (.yaml), or data files
  std::optional<std::string> test, cell, direction, material;
  std::optional<std::string> area, height, mass, relative_density, speed, strain_rate, machine_stiffness;
  std::vector<std::string> plateau;        ///< two strains, or none
  std::optional<std::string> write_folder; ///< catalogue folder that takes what was measured
  std::optional<std::string> case_file;    ///< judged without and with it
};

/// Reduces tests of lattices or of the metal, says what may be claimed, and carries it on into the catalogue.
ExitCode command_coupon(const CommandOptions& options, const CouponOptions& coupon_options);

} // namespace crushwright
