#pragma once
#include "unit_cell/catalogue_folder.hpp"

#include <algorithm>
#include <fcntl.h>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

// Runs the built program as a user would.
namespace program_run {

using crushwright::TemporaryFolder;

inline const std::filesystem::path source = CRUSHWRIGHT_SOURCE_DIR;

struct Ended {
  int code = -1; ///< exit code; -1 when a signal ended it
  std::string out;
  std::string err;
};

inline std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  if (!stream)
    throw std::runtime_error("cannot read " + file.string());
  return {std::istreambuf_iterator<char>(stream), {}};
}

inline void redirect(const std::filesystem::path& file, int descriptor) {
  const int opened = ::open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  if (opened < 0 || ::dup2(opened, descriptor) < 0)
    ::_exit(126);
}

/// @param folder  where the program runs, and where its two outputs are kept meanwhile.
inline Ended run(const TemporaryFolder& folder, std::vector<std::string> words,
                 const std::string& program = CRUSHWRIGHT_PROGRAM) {
  const std::filesystem::path out = folder.path() / ".stdout", err = folder.path() / ".stderr";
  words.insert(words.begin(), program);
  std::vector<char*> arguments;
  for (std::string& word : words)
    arguments.push_back(word.data());
  arguments.push_back(nullptr);
  const pid_t child = ::fork();
  if (child == 0) {
    redirect(out, STDOUT_FILENO);
    redirect(err, STDERR_FILENO);
    if (::chdir(folder.path().c_str()) == 0)
      ::execv(program.c_str(), arguments.data());
    ::_exit(127);
  }
  int status = 0;
  if (child < 0 || ::waitpid(child, &status, 0) != child)
    throw std::runtime_error("the program could not be started");
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, bytes_of(out), bytes_of(err)};
}

/// A case small enough to be run many times; its limit decides the verdict.
inline std::string block_case(const std::string& force_limit = "250 kN") {
  std::string text = bytes_of(source / "cases/honeycomb_block.yaml");
  const std::string stated = "at_most: 250 kN";
  const std::size_t at = text.find(stated);
  if (at == std::string::npos)
    throw std::logic_error("cases/honeycomb_block.yaml no longer limits the force to 250 kN");
  return text.replace(at, stated.size(), "at_most: " + force_limit);
}

/// Every file below a folder with its bytes, in the order of names.
inline std::vector<std::pair<std::string, std::string>> files_below(const std::filesystem::path& folder) {
  std::vector<std::pair<std::string, std::string>> files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder))
    if (entry.is_regular_file())
      files.emplace_back(entry.path().lexically_relative(folder).string(), bytes_of(entry.path()));
  std::sort(files.begin(), files.end());
  return files;
}

} // namespace program_run
