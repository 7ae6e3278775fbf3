#include "command_line/command_line.hpp"

#include "command_line/command_cell.hpp"
#include "command_line/command_compare.hpp"
#include "command_line/command_correlate.hpp"
#include "command_line/command_coupon.hpp"
#include "command_line/command_estimate.hpp"
#include "command_line/command_fill.hpp"
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

constexpr const char* cell_name = "cell";
constexpr const char* cell_what = "Compute a cell's stiffness and collapse from its own geometry.";
constexpr const char* cell_example = "crushwright cell octet --relative-density 0.15 --material AlSi10Mg-T6";

constexpr const char* fill_name = "fill";
constexpr const char* fill_what = "Place the lattice in its body: struts, true mass, printing, files.";
constexpr const char* fill_example = "crushwright fill cases/twin_rear_cones.yaml --structure left_cone";
constexpr const char* fill_exit_codes = "Exit code: 0 filled, 2 bad input, 3 internal error.";

constexpr const char* coupon_name = "coupon";
constexpr const char* coupon_what = "Reduce tests of lattices or of the metal: what may be claimed.";
constexpr const char* coupon_example = "crushwright coupon cases/coupons/kelvin_plates.yaml";
constexpr const char* coupon_exit_codes = "Exit code: 0 done, 2 bad input, 3 internal error.";

constexpr const char* correlate_name = "correlate";
constexpr const char* correlate_what = "Set a crush test of a whole structure beside its prediction.";
constexpr const char* correlate_example = "crushwright correlate cases/twin_rear_cones.yaml "
                                          "cases/left_cone.csv --structure left_cone";

constexpr const char* exit_codes =
    "Exit code: 0 pass (size, compare: a design passes), 1 fail or open, 2 bad input,\n"
    "3 internal error.";
constexpr const char* cell_exit_codes = "Exit code: 0 computed, 2 bad input, 3 internal error.";

void add_shared_options(CLI::App& command, CommandOptions& options, const char* pack_help) {
  command.set_help_flag("-h,--help", "Show this help.");
  command.add_flag("--json", options.json, "Print the result as one JSON document instead of text.");
  command.add_option("--pack", options.pack_folder, pack_help)->type_name("FOLDER");
  command.add_flag("--no-pack", options.no_pack, "Write no pack.");
  command
      .add_option("--catalogue", options.catalogue_folders,
                  "Folder with unit_cells/ or base_materials/ of your own; its\n"
                  "files are added, one of the same name replaces. Repeatable.")
      ->type_name("FOLDER")
      ->take_all()
      ->expected(1);
  command.add_flag("-v,--verbose", options.verbose, "Say on the error output what is read and written.");
}

void add_case_options(CLI::App& command, CommandOptions& options) {
  command.add_option("CASE", options.case_file, "The case, a YAML file (docs/case_format.md).")->required();
  add_shared_options(command, options,
                     "Folder of the review pack; one that is there is replaced.\n"
                     "Without this option: CASE_pack in the current folder.");
}

void add_histories_option(CLI::App& command, CommandOptions& options) {
  command
      .add_option("--histories", options.histories_folder,
                  "Folder for the histories of each impact as ISO/TS 13499\n"
                  "channels (docs/file_formats.md); one with earlier histories\n"
                  "is replaced, one with anything else refused.")
      ->type_name("FOLDER");
}

void add_cell_options(CLI::App& command, CommandOptions& options, CellOptions& cell) {
  command
      .add_option("CELL", cell.cell, "A catalogue id, or the path of a cell's YAML file\n(docs/catalogue_format.md).")
      ->required();
  command
      .add_option("--relative-density", cell.relative_density,
                  "True relative density, 0.15 or \"15 %\". Needed, but for --write.")
      ->type_name("R");
  command.add_option("--material", cell.material, "Catalogue id of the metal. Needed, but for --write.")
      ->type_name("M");
  command.add_option("--direction", cell.direction, "Crush direction in cell axes, three digits; else 100.")
      ->type_name("DIGITS");
  command.add_option("--cell-edge", cell.cell_edge, "Edge of the cell, \"10 mm\": sizes are then shown in mm.")
      ->type_name("LENGTH");
  command.add_flag("--solid", cell.solid,
                   "Compute a cell of struts as a solid of voxels too; other\n"
                   "cells are solids anyway.");
  command.add_option("--grid", cell.grid, "Voxels along the cell edge, a multiple of 4; else 64 (laws: 128).")
      ->type_name("N");
  command.add_option("--laws", cell.laws, "Fit laws over this range of true relative densities.")
      ->type_name("LOW HIGH")
      ->expected(2);
  command.add_flag("--write", cell.write,
                   "Write the true density, and the computed laws of --laws, into\n"
                   "the cell's file; all else in it stays as it is.");
  command.add_option("--drawing", cell.drawing, "Draw the cell; without --material only that.")
      ->type_name("FILE.svg");
  command
      .add_option("--mesh", cell.mesh,
                  "Write the closed surface of one cell in mm; needs --cell-edge.\n"
                  "Without --material only that.")
      ->type_name("FILE.stl|.ply");
  command
      .add_option("--spacing", cell.spacing,
                  "Grid spacing of that mesh; else a quarter of the wall, or an\n"
                  "eighth of the strut or neck.")
      ->type_name("LENGTH");
  add_shared_options(command, options,
                     "Folder of the page and the result; one that is there is\n"
                     "replaced. Without this option: CELL_pack in the current folder.");
}

void add_fill_options(CLI::App& command, CommandOptions& options, FillOptions& fill) {
  command.add_option("CASE", options.case_file, "The case, a YAML file (docs/case_format.md).")->required();
  command.add_option("--structure", fill.structure, "Fill this one alone; else every structure with a lattice.")
      ->type_name("NAME");
  command.add_flag("--best-direction", fill.best_direction,
                   "Search the build direction with least trouble; needs `printing:`\nin the case.");
  command.add_flag("--solid", fill.solid, "Write lattice and skin as one closed surface (STL) too.");
  command.add_option("--spacing", fill.spacing, "Of that surface's grid, \"0.3 mm\"; else from strut or wall.")
      ->type_name("LENGTH");
  command.add_option("--block", fill.block, "Cut that surface into blocks of this edge, each closed, a file\neach.")
      ->type_name("LENGTH");
  command.add_option("--between", fill.between, "Write only what lies between two stations, \"100 mm\" \"130 mm\".")
      ->type_name("FROM TO")
      ->expected(2);
  add_shared_options(command, options,
                     "Folder of page, result and geometry; one that is there is\n"
                     "replaced. Without this option: CASE_fill in the current folder.");
}

void add_coupon_options(CLI::App& command, CommandOptions& options, CouponOptions& coupon) {
  command
      .add_option("FILE", coupon.files,
                  "A description (.yaml, docs/coupon_format.md), or data files that\nsay columns and units in their "
                  "headings.")
      ->required();
  const auto add = [&](const char* name, std::optional<std::string>& value, const char* type, const char* help) {
    command.add_option(name, value, help)->type_name(type);
  };
  add("--test", coupon.test, "KIND", "lattice_compression (else), metal_compression or metal_tension.");
  add("--area", coupon.area, "AREA", "Whole cross-section, \"400 mm2\".");
  add("--height", coupon.height, "LENGTH", "Along the load, before the test; of a bar its gauge length.");
  add("--mass", coupon.mass, "MASS", "Weighed; gives the relative density with the metal's.");
  add("--relative-density", coupon.relative_density, "R", "In place of a mass, 0.15 or \"15 %\".");
  add("--cell", coupon.cell, "CELL", "Catalogue id of the cell.");
  add("--direction", coupon.direction, "DIGITS", "Cell axes along the load, 100.");
  add("--material", coupon.material, "M", "Catalogue id of the metal.");
  add("--speed", coupon.speed, "SPEED", "Of the crosshead, \"2 mm/min\".");
  add("--strain-rate", coupon.strain_rate, "RATE", "In place of a speed, \"0.001 1/s\".");
  add("--machine-stiffness", coupon.machine_stiffness, "STIFFNESS", "Of machine and platens; its give is taken off.");
  command.add_option("--plateau", coupon.plateau, "Strains between which the plateau is averaged; else 0.2 0.4.")
      ->type_name("FROM TO")
      ->expected(2);
  add("--write", coupon.write_folder, "FOLDER",
      "Write the cell's or metal's entry with what was measured into this\ncatalogue folder.");
  add("--case", coupon.case_file, "CASE", "Judge this case without and with what was measured.");
  add_shared_options(command, options,
                     "Folder of page and result; one that is there is replaced.\n"
                     "Without this option: NAME_coupons in the current folder.");
}

void add_correlate_options(CLI::App& command, CommandOptions& options, CorrelateOptions& correlate) {
  command.add_option("CASE", options.case_file, "The case, a YAML file (docs/case_format.md).")->required();
  command
      .add_option("FILE", correlate.data_file,
                  "Force and displacement of the test, columns and units in the\nheadings (docs/coupon_format.md).")
      ->required();
  command.add_option("--structure", correlate.structure, "The structure of the case that was tested.")
      ->type_name("NAME")
      ->required();
  command.add_option("--filter", correlate.filter, "Moving mean over this much crush, for all curves alike.")
      ->type_name("LENGTH");
  add_shared_options(command, options,
                     "Folder of page and result; one that is there is replaced.\n"
                     "Without this option: CASE_correlation in the current folder.");
}

void add_commands(CLI::App& program, CommandOptions& options, CellOptions& cell, FillOptions& fill,
                  CouponOptions& coupon, CorrelateOptions& correlate) {
  program.set_help_flag("-h,--help", "Show this help.");
  program.set_version_flag("--version", "crushwright " + program_version(), "Show the version.");
  program.require_subcommand(1);
  program.footer(fmt::format("`crushwright COMMAND --help` shows a command's options.\nExample: {}\n{}",
                             commands[0].example, exit_codes));
  for (const CommandRow& row : commands) {
    CLI::App* command = program.add_subcommand(row.name, row.what);
    add_case_options(*command, options);
    command->footer(fmt::format("Example: {}\n{}", row.example, exit_codes));
    if (row.run == command_estimate) {
      add_histories_option(*command, options);
      command->footer(fmt::format("Example: {0}\n         {0} --histories channels\n{1}", row.example, exit_codes));
    }
  }
  CLI::App* command = program.add_subcommand(fill_name, fill_what);
  add_fill_options(*command, options, fill);
  command->footer(fmt::format("Example: {}\n{}", fill_example, fill_exit_codes));
  command = program.add_subcommand(cell_name, cell_what);
  add_cell_options(*command, options, cell);
  command->footer(fmt::format("Example: {}\n{}", cell_example, cell_exit_codes));
  command = program.add_subcommand(coupon_name, coupon_what);
  add_coupon_options(*command, options, coupon);
  command->footer(fmt::format("Example: {}\n{}", coupon_example, coupon_exit_codes));
  command = program.add_subcommand(correlate_name, correlate_what);
  add_correlate_options(*command, options, correlate);
  command->footer(fmt::format("Example: {}\n{}", correlate_example, coupon_exit_codes));
}

ExitCode run(CLI::App& program, const CommandOptions& options, const CellOptions& cell, const FillOptions& fill,
             const CouponOptions& coupon, const CorrelateOptions& correlate) {
  set_up_diagnostics(options.verbose);
  const std::string name = program.get_subcommands().front()->get_name();
  if (options.no_pack && options.pack_folder) {
    fmt::print(
        stderr, "{}",
        usage_text("crushwright " + name, "`--pack` and `--no-pack` contradict each other", "Keep one of the two."));
    return ExitCode::bad_input;
  }
  if (name == fill_name) {
    return guarded([&] { return command_fill(options, fill); });
  }
  if (name == cell_name) {
    return guarded([&] { return command_cell(options, cell); });
  }
  if (name == coupon_name) {
    return guarded([&] { return command_coupon(options, coupon); });
  }
  if (name == correlate_name) {
    return guarded([&] { return command_correlate(options, correlate); });
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
  CellOptions cell;
  FillOptions fill;
  CouponOptions coupon;
  CorrelateOptions correlate;
  add_commands(program, options, cell, fill, coupon, correlate);
  try {
    program.parse(count, words);
  } catch (const CLI::Success& asked) {
    return program.exit(asked);
  } catch (const CLI::ParseError& error) {
    fmt::print(stderr, "{}", usage_message(program, error));
    return static_cast<int>(ExitCode::bad_input);
  }
  return static_cast<int>(run(program, options, cell, fill, coupon, correlate));
}

} // namespace crushwright
