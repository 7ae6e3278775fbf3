#include "command_line/exit_code.hpp"

#include "command_line/program_run.hpp"
#include "command_line/program_version.hpp"
#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>
#include <stdexcept>

using namespace crushwright;
using namespace program_run;

TEST_CASE("a pass ends with 0, a fail and an open verdict with 1") {
  const TemporaryFolder folder("exit_codes");
  folder.write("pass.yaml", block_case());
  folder.write("fail.yaml", block_case("100 kN"));
  folder.write("open.yaml", block_case("160 kN"));
  const auto code = [&](const char* file) { return run(folder, {"estimate", file, "--no-pack"}); };
  const Ended pass = code("pass.yaml"), fail = code("fail.yaml"), open = code("open.yaml");
  CHECK(pass.code == 0);
  CHECK(pass.out.substr(0, 4) == "PASS");
  CHECK(fail.code == 1);
  CHECK(fail.out.substr(0, 4) == "FAIL");
  CHECK(open.code == 1);
  CHECK(open.out.substr(0, 4) == "OPEN");
  CHECK(pass.err.empty());
  CHECK(fail.err.empty());
}

TEST_CASE("bad input ends with 2, a message on the error output and nothing on the other") {
  const TemporaryFolder folder("bad_input");
  std::string text = block_case();
  folder.write("cell.yaml", text.replace(text.find("honeycomb_uniform_wall"), 22, "honeycomb_uniform"));
  folder.write("empty.yaml", "");
  for (const char* file : {"cell.yaml", "empty.yaml", "nowhere.yaml", "."}) {
    const Ended ended = run(folder, {"estimate", file, "--no-pack"});
    INFO(file);
    CHECK(ended.code == 2);
    CHECK(ended.out.empty());
    CHECK(ended.err.substr(0, std::string(file).size()) == file);
  }
}

TEST_CASE("a missing block is bad input for the command that needs it") {
  const TemporaryFolder folder("missing_block");
  folder.write("block.yaml", block_case());
  const Ended size = run(folder, {"size", "block.yaml"});
  CHECK(size.code == 2);
  CHECK(size.err == "block.yaml:1:1: size: the case does not say what may be sized\n"
                    "    1 | schema: 1\n"
                    "      | ^\n"
                    "   Add for instance `size: {cell_edges: [8 mm, 10 mm], smallest: 0.8 mm, largest: 2.5 mm}`.\n");
  CHECK(run(folder, {"compare", "block.yaml"}).code == 2);
  CHECK_FALSE(std::filesystem::exists(folder.path() / "block_pack"));
}

TEST_CASE("what is no fault of the input is an internal error that asks to be reported") {
  CHECK(guarded([] { return ExitCode::not_passed; }) == ExitCode::not_passed);
  CHECK(guarded([]() -> ExitCode { throw InputError("a.yaml:1:1: wrong"); }) == ExitCode::bad_input);
  CHECK(guarded([]() -> ExitCode { throw std::out_of_range("index 7"); }) == ExitCode::internal_error);
  CHECK(guarded([]() -> ExitCode { throw OutOfDomain("a share of 2"); }) == ExitCode::internal_error);
  CHECK(guarded([]() -> ExitCode { throw 7; }) == ExitCode::internal_error);
  CHECK(internal_error_text("index 7") ==
        "crushwright " + program_version() +
            ": internal error: index 7\n"
            "This is a fault of the program, not of your input. Please report it with this message, the command\n"
            "and the case file.\n");
}
