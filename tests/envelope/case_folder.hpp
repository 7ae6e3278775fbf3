#pragma once
#include "crushwright/surface.hpp"
#include "surface/mesh_writer.hpp"

#include <filesystem>
#include <fstream>
#include <string>
#include <unistd.h>

/// A folder for surfaces beside a case, of this process alone, gone when the test is over.
namespace case_folder {

class CaseFolder {
public:
  explicit CaseFolder(const std::string& name)
      : path_(std::filesystem::temp_directory_path() / ("crushwright_" + name + "_" + std::to_string(::getpid()))) {
    std::filesystem::create_directories(path_);
  }
  ~CaseFolder() { std::filesystem::remove_all(path_); }
  CaseFolder(const CaseFolder&) = delete;
  CaseFolder& operator=(const CaseFolder&) = delete;

  const std::filesystem::path& path() const { return path_; }
  /// The case's own place, as messages show it.
  std::string case_file() const { return (path_ / "case.yaml").string(); }

  void write(const std::string& name, const std::string& bytes) const {
    std::ofstream(path_ / name, std::ios::binary) << bytes;
  }
  /// A surface in metres, written in the unit of which `scale` make a metre.
  void write_surface(const std::string& name, const crushwright::TriangleMesh& mesh, double scale = 1000) const {
    const bool stl = name.size() > 4 && name.substr(name.size() - 4) == ".stl";
    write(name,
          stl ? crushwright::write_stl(mesh, scale, "made by a test") : crushwright::write_ply(mesh, scale, ""));
  }

private:
  std::filesystem::path path_;
};

} // namespace case_folder
