#include "command_line/command_line.hpp"

#include "command_line/command_compare.hpp"
#include "command_line/command_estimate.hpp"
#include "command_line/command_input.hpp"
#include "command_line/command_size.hpp"
#include "command_line/diagnostics.hpp"
#include "command_line/exit_code.hpp"
#include "command_line/program_version.hpp"
#include "command_line/usage_message.hpp"

#include <CLI/CLI.hpp>
#include <cstdio>

#include <fmt/format.h>

namespace crushwright {

namespace {

using Command = ExitCode (*)(const CommandOptions&);

struct CommandRow {
  const char* name;
  const char* what;
  const char* example;
  Command run;
};

constexpr CommandRow commands[] = {{"estimate", "Judge a case: weak, nominal and strong against its limits.",
                                    "crushwright estimate cases/twin_rear_cones.yaml", command_estimate},
                                   {"size", "Find the lightest strut or wall, and cell edge, that passes a case.",
                                    "crushwright size cases/student_attenuator.yaml --no-pack", command_size},
                                   {"compare", "Set cells, materials and densities beside each other on a case.",
                                    "crushwright compare cases/twin_rear_cones.yaml --pack comparison",
                                    command_compare}};

constexpr const char* exit_codes =
    "Exit code: 0 pass (size, compare: a design passes), 1 fail or open, 2 bad input,\n"
    "3 internal error.";

void add_options(CLI::App& command, CommandOptions& options) {
  command.set_help_flag("-h,--help", "Show this help.");
  command.add_option("CASE", options.case_file, "The case, a YAML file (docs/case_format.md).")->required();
  command.add_flag("--json", options.json, "Print the result as one JSON document instead of text.");
  command
      .add_option("--pack", options.pack_folder,
                  "Folder of the review pack; one that is there is replaced.\n"
                  "Without this option: CASE_pack in the current folder.")
      ->type_name("FOLDER");
  command.add_flag("--no-pack", options.no_pack, "Write no review pack.");
  command
      .add_option("--catalogue", options.catalogue_folders,
                  "Folder with unit_cells/ or base_materials/ of your own; its\n"
                  "files are added, one of the same name replaces. Repeatable.")
      ->type_name("FOLDER")
      ->take_all()
      ->expected(1);
  command.add_flag("-v,--verbose", options.verbose, "Say on the error output what is read and written.");
}

void add_commands(CLI::App& program, CommandOptions& options) {
  program.set_help_flag("-h,--help", "Show this help.");
  program.set_version_flag("--version", "crushwright " + program_version(), "Show the version.");
  program.require_subcommand(1);
  program.footer(fmt::format("`crushwright COMMAND --help` shows a command's options.\nExample: {}\n{}",
                             commands[0].example, exit_codes));
  for (const CommandRow& row : commands) {
    CLI::App* command = program.add_subcommand(row.name, row.what);
    add_options(*command, options);
    command->footer(fmt::format("Example: {}\n{}", row.example, exit_codes));
  }
}

ExitCode run(CLI::App& program, const CommandOptions& options) {
  set_up_diagnostics(options.verbose);
  const std::string name = program.get_subcommands().front()->get_name();
  if (options.no_pack && options.pack_folder) {
    fmt::print(
        stderr, "{}",
        usage_text("crushwright " + name, "`--pack` and `--no-pack` contradict each other", "Keep one of the two."));
    return ExitCode::bad_input;
  }
  for (const CommandRow& row : commands) {
    if (name == row.name) {
      return guarded([&] { return row.run(options); });
    }
  }
  return ExitCode::internal_error;
}

} // namespace

int run_command_line(int count, const char* const* words) {
  CLI::App program("Estimates impact structures with a lattice inside, before detailed crash analysis.",
                   "crushwright");
  CommandOptions options;
  add_commands(program, options);
  try {
    program.parse(count, words);
  } catch (const CLI::Success& asked) {
    return program.exit(asked);
  } catch (const CLI::ParseError& error) {
    fmt::print(stderr, "{}", usage_message(program, error));
    return static_cast<int>(ExitCode::bad_input);
  }
  return static_cast<int>(run(program, options));
}

} // namespace crushwright
