#include "command_line/program_run.hpp"
#include "command_line/program_version.hpp"

#include <catch2/catch.hpp>
#include <sstream>

using namespace crushwright;
using namespace program_run;

namespace {

/// The words of a help page's example, without the program's name.
std::vector<std::string> example_of(const std::string& help) {
  const std::string begin = "Example: crushwright ";
  const std::size_t at = help.find(begin);
  REQUIRE(at != std::string::npos);
  std::istringstream line(help.substr(at + begin.size(), help.find('\n', at) - at - begin.size()));
  std::vector<std::string> words;
  for (std::string word; line >> word;)
    words.push_back(word);
  return words;
}

std::size_t widest(const std::string& text) {
  std::istringstream lines(text);
  std::size_t found = 0;
  for (std::string line; std::getline(lines, line);)
    found = std::max(found, static_cast<std::size_t>(std::count_if(line.begin(), line.end(), [](char letter) {
                       return (static_cast<unsigned char>(letter) & 0xC0U) != 0x80U;
                     })));
  return found;
}

} // namespace

TEST_CASE("the version is the program's name and number") {
  const TemporaryFolder folder("version");
  const Ended ended = run(folder, {"--version"});
  CHECK(ended.code == 0);
  CHECK(ended.out == "crushwright " + program_version() + "\n");
  CHECK(ended.err.empty());
}

TEST_CASE("the help of the program and of every command has an example that works as it stands") {
  const TemporaryFolder folder("help");
  std::filesystem::copy(source / "cases", folder.path() / "cases", std::filesystem::copy_options::recursive);
  for (const char* command : {"", "estimate", "size", "compare", "cell", "coupon", "correlate"}) {
    std::vector<std::string> words{"--help"};
    if (*command != '\0')
      words.insert(words.begin(), command);
    const Ended help = run(folder, words);
    INFO(help.out);
    CHECK(help.code == 0);
    CHECK(help.err.empty());
    CHECK(widest(help.out) <= 100);
    const Ended example = run(folder, example_of(help.out));
    INFO(example.err);
    CHECK((example.code == 0 || example.code == 1));
    CHECK_FALSE(example.out.empty());
    CHECK(widest(example.out) <= 100);
  }
}

TEST_CASE("a wrong command line is answered with what was wrong, what is known and where help is") {
  const TemporaryFolder folder("usage");
  const auto words = [&](const std::vector<std::string>& given) {
    const Ended ended = run(folder, given);
    CHECK(ended.code == 2);
    CHECK(ended.out.empty());
    return ended.err;
  };
  const std::string help = "   `crushwright --help` shows the options and an example.\n";
  const std::string estimate_help = "   `crushwright estimate --help` shows the options and an example.\n";
  const std::string options = "Options: --help, --json, --pack, --no-pack, --catalogue, --verbose, --histories.\n";
  CHECK(words({}) ==
        "crushwright: no command is given\n   Commands: estimate, size, compare, fill, cell, coupon, correlate.\n" +
            help);
  CHECK(words({"estimat", "a.yaml"}) ==
        "crushwright: unknown command `estimat`\n"
        "   Did you mean `estimate`? Commands: estimate, size, compare, fill, cell, coupon, correlate.\n" +
            help);
  CHECK(words({"--jsn"}) == "crushwright: unknown option `--jsn`\n   Options: --help, --version.\n" + help);
  CHECK(words({"estimate"}) == "crushwright estimate: no case file is given\n"
                               "   Name one, for instance cases/twin_rear_cones.yaml.\n" +
                                   estimate_help);
  CHECK(words({"estimate", "a.yaml", "--jsn"}) ==
        "crushwright estimate: unknown option `--jsn`\n   Did you mean `--json`? " + options + estimate_help);
  CHECK(words({"estimate", "a.yaml", "-x"}) ==
        "crushwright estimate: unknown option `-x`\n   " + options + estimate_help);
  CHECK(words({"estimate", "a.yaml", "b.yaml"}) == "crushwright estimate: `b.yaml` is one word too many\n"
                                                   "   A command takes one case file; put a name with blanks in "
                                                   "quotes.\n" +
                                                       estimate_help);
  CHECK(words({"--json", "estimate", "a.yaml"}) == "crushwright estimate: `--json` stands before the command\n"
                                                   "   Write it behind: crushwright estimate CASE --json\n" +
                                                       estimate_help);
  CHECK(words({"estimate", "a.yaml", "--pack"}) ==
        "crushwright estimate: --pack: 1 required FOLDER missing\n   Correct that option.\n" + estimate_help);
  CHECK(words({"estimate", "a.yaml", "--pack", "p", "--no-pack"}) ==
        "crushwright estimate: `--pack` and `--no-pack` contradict each other\n   Keep one of the two.\n" +
            estimate_help);
}

TEST_CASE("diagnostics go to the error output and leave the result as it is") {
  const TemporaryFolder folder("diagnostics");
  folder.write("block.yaml", block_case());
  const Ended quiet = run(folder, {"estimate", "block.yaml", "--json", "--no-pack"});
  const Ended talking = run(folder, {"estimate", "block.yaml", "--json", "--no-pack", "-v"});
  CHECK(quiet.err.empty());
  CHECK(talking.out == quiet.out);
  CHECK(talking.err.find("catalogue file unit_cells/honeycomb_uniform_wall.yaml") != std::string::npos);
}
