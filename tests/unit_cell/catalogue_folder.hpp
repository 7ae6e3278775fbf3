#pragma once
#include "crushwright/catalogue.hpp"

#include <filesystem>
#include <fstream>
#include <string>

#include <unistd.h>

namespace crushwright {

/// The catalogue that comes with the project.
inline Catalogue own_catalogue() {
  return Catalogue({std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "lattices"});
}

/// A folder of its own for one test, removed afterwards.
class TemporaryFolder {
public:
  explicit TemporaryFolder(const std::string& name)
      : path_(std::filesystem::temp_directory_path() /
              ("crushwright_test_" + name + "_" + std::to_string(::getpid()))) {
    std::filesystem::remove_all(path_);
    std::filesystem::create_directories(path_);
  }
  ~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;

  const std::filesystem::path& path() const { return path_; }
  void write(const std::string& relative_name, const std::string& text) const {
    std::filesystem::create_directories((path_ / relative_name).parent_path());
    std::ofstream(path_ / relative_name, std::ios::binary) << text;
  }

private:
  std::filesystem::path path_;
};

} // namespace crushwright
