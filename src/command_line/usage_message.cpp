#include "command_line/usage_message.hpp"

#include "quantities/nearest_spelling.hpp"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::vector<std::string> option_names(const CLI::App& command) {
  std::vector<std::string> names;
  for (const CLI::Option* option : command.get_options()) {
    if (!option->get_positional()) {
      names.push_back(option->get_name());
    }
  }
  return names;
}

std::vector<std::string> command_names(const CLI::App& program) {
  std::vector<std::string> names;
  for (const CLI::App* command : program.get_subcommands({})) {
    names.push_back(command->get_name());
  }
  return names;
}

std::string known(const std::string& given, const std::vector<std::string>& names, const char* kind) {
  const auto meant = nearest_spelling(given, names);
  return fmt::format("{}{}: {}.", meant ? fmt::format("Did you mean `{}`? ", *meant) : "", kind, comma_list(names));
}

bool is_cell(const CLI::App& command) {
  return command.get_name() == "cell";
}

const char* subject_of(const CLI::App& command) {
  return is_cell(command) ? "CELL" : "CASE";
}

/// Words that the program itself could not place stand before the command's name; the command keeps its own.
bool stands_before_command(const CLI::App& program, const std::string& word) {
  const std::vector<std::string> own = program.remaining(false);
  return std::find(own.begin(), own.end(), word) != own.end();
}

std::string unknown_word(const CLI::App& program, const CLI::App& command, const std::string& name,
                         const std::string& word) {
  if (word.size() > 1 && word.front() == '-') {
    const std::string bare = word.substr(0, word.find('='));
    if (&command != &program && stands_before_command(program, word))
      return usage_text(name, fmt::format("`{}` stands before the command", bare),
                        fmt::format("Write it behind: {} {} {}", name, subject_of(command), word));
    return usage_text(name, fmt::format("unknown option `{}`", bare), known(bare, option_names(command), "Options"));
  }
  if (&command == &program) {
    return usage_text(name, fmt::format("unknown command `{}`", word),
                      known(word, command_names(program), "Commands"));
  }
  return usage_text(name, fmt::format("`{}` is one word too many", word),
                    is_cell(command) ? "The command takes one cell; put a name with blanks in quotes."
                                     : "A command takes one case file; put a name with blanks in quotes.");
}

} // namespace

std::string usage_text(const std::string& command, const std::string& what, const std::string& what_to_do) {
  return fmt::format("{0}: {1}\n   {2}\n   `{0} --help` shows the options and an example.\n", command, what,
                     what_to_do);
}

std::string usage_message(const CLI::App& program, const CLI::ParseError& error) {
  const std::vector<CLI::App*> chosen = program.get_subcommands();
  const CLI::App& command = chosen.empty() ? program : *chosen.front();
  const std::string name = chosen.empty() ? "crushwright" : "crushwright " + command.get_name();
  const std::vector<std::string> extra = program.remaining(true);
  if (!extra.empty()) {
    return unknown_word(program, command, name, extra.front());
  }
  if (chosen.empty()) {
    return usage_text(name, "no command is given", fmt::format("Commands: {}.", comma_list(command_names(program))));
  }
  if (dynamic_cast<const CLI::RequiredError*>(&error) != nullptr) {
    return is_cell(command)
               ? usage_text(name, "no cell is given", "Name one, for instance octet, or a cell's YAML file.")
               : usage_text(name, "no case file is given", "Name one, for instance cases/twin_rear_cones.yaml.");
  }
  return usage_text(name, error.what(), "Correct that option.");
}

} // namespace crushwright
