#include "surface/mesh_file.hpp"

#include "surface/mesh_refusal.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <fstream>
#include <iterator>

namespace crushwright {
namespace {

std::string all_bytes(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::string bytes(static_cast<std::size_t>(std::filesystem::file_size(file)), '\0');
  if (!stream.read(bytes.data(), static_cast<std::streamsize>(bytes.size())))
    throw BrokenMeshFile(0, "the file cannot be read");
  return bytes;
}

} // namespace

std::string kind_of_mesh_file(const std::filesystem::path& file) {
  std::string kind = file.extension().string();
  std::transform(kind.begin(), kind.end(), kind.begin(),
                 [](unsigned char letter) { return static_cast<char>(std::toupper(letter)); });
  if (kind != ".STL" && kind != ".PLY" && kind != ".OFF" && kind != ".OBJ")
    refuse_mesh(file, fmt::format("'{}' is no kind of surface that is read here", file.extension().string()),
                "Export the surface as .stl, .ply, .off or .obj.");
  if (!std::filesystem::is_regular_file(file))
    refuse_mesh(file, "there is no such file", "Put the mesh beside the entry that names it, or correct its name.");
  if (std::filesystem::file_size(file) == 0)
    refuse_mesh(file, "the file is empty", "Export the surface again.");
  return kind.substr(1);
}

PolygonSoup read_polygons(const std::filesystem::path& file, const std::string& kind) {
  const std::string bytes = all_bytes(file);
  if (kind == "STL")
    return stl_polygons(bytes);
  if (kind == "PLY")
    return ply_polygons(bytes);
  return kind == "OFF" ? off_polygons(bytes) : obj_polygons(bytes);
}

} // namespace crushwright
