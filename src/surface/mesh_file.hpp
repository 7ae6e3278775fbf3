#pragma once
#include <array>
#include <cstddef>
#include <filesystem>
#include <vector>

namespace crushwright {

/// Points and polygons as they stand in a file.
struct PolygonSoup {
  std::vector<std::array<double, 3>> points;
  std::vector<std::vector<std::size_t>> polygons;
};

/// False when the file breaks off or is not of the kind that its extension says (".stl", ".ply", ".off", ".obj").
bool read_polygons(const std::filesystem::path& file, PolygonSoup& soup);

} // namespace crushwright
