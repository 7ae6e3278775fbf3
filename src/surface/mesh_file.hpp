#pragma once
#include <array>
#include <cstddef>
#include <filesystem>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace crushwright {

/// Points and polygons as they stand in a file. Every corner is the place of a point, and every coordinate is finite.
struct PolygonSoup {
  std::vector<std::array<double, 3>> points;
  std::vector<std::vector<std::size_t>> polygons;
};

/// A file that breaks off, or that is not of its kind; the words say what was found and what was expected.
class BrokenMeshFile : public std::runtime_error {
public:
  /// @param line  counted from 1; 0 where the fault lies in no line
  BrokenMeshFile(std::size_t line, const std::string& words) : std::runtime_error(words), line_(line) {}
  std::size_t line() const { return line_; }

private:
  std::size_t line_;
};

/// "STL", "PLY", "OFF" or "OBJ", from the file's extension.
/// @throws InputError when it is none of these, there is no such file, or it is empty.
std::string kind_of_mesh_file(const std::filesystem::path& file);

/// @param kind  as kind_of_mesh_file gives it
/// @throws BrokenMeshFile
PolygonSoup read_polygons(const std::filesystem::path& file, const std::string& kind);

// Each kind by itself, from the bytes of the whole file.
PolygonSoup stl_polygons(std::string_view bytes);
PolygonSoup ply_polygons(std::string_view bytes);
PolygonSoup off_polygons(std::string_view bytes);
PolygonSoup obj_polygons(std::string_view bytes);

} // namespace crushwright
