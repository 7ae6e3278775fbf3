#include "command_line/stored_result.hpp"

#include <cstdio>
#include <fmt/format.h>
#include <fstream>
#include <string>

using namespace stored_result;

namespace {

constexpr std::size_t lines_shown = 30;

Json read_stored(const std::filesystem::path& file) {
  std::ifstream stream(file);
  return stream ? Json::parse(stream) : Json();
}

void show(const std::string& id, const std::vector<std::string>& changes) {
  fmt::print("{}: {} change{}\n", id, changes.size(), changes.size() == 1 ? "" : "s");
  for (std::size_t i = 0; i < std::min(lines_shown, changes.size()); ++i)
    fmt::print("  {}\n", changes[i].substr(0, 200));
  if (changes.size() > lines_shown)
    fmt::print("  and {} more\n", changes.size() - lines_shown);
}

/// Writes beside the file and renames, so that a stored result is never half written.
bool replace(const std::filesystem::path& file, const std::string& bytes) {
  const std::filesystem::path beside = file.string() + ".new";
  std::filesystem::create_directories(file.parent_path());
  std::ofstream stream(beside, std::ios::binary);
  stream << bytes;
  stream.close();
  if (stream)
    std::filesystem::rename(beside, file);
  return static_cast<bool>(stream);
}

} // namespace

/// case_results [--write]: shows how the cases' results differ from the stored ones; writes them when asked.
int main(int count, char** words) {
  const bool write = count > 1 && std::string(words[1]) == "--write";
  bool changed = false;
  for (const std::filesystem::path& file : case_files()) {
    const Json stored = read_stored(result_file(file)), now = computed(file);
    const std::vector<std::string> changes =
        stored.is_null() ? std::vector<std::string>{"no result was stored"} : differences(stored, now);
    show(file.stem().string(), changes);
    changed = changed || !changes.empty();
    if (write && !changes.empty() && !replace(result_file(file), text_of(now))) {
      fmt::print(stderr, "{}: cannot be written\n", result_file(file).string());
      return 2;
    }
  }
  return changed && !write ? 1 : 0;
}
