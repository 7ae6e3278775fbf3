#pragma once
#include <fmt/format.h>

#include <unistd.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

/// Small surfaces built from their definitions, and the files they are written to.
namespace crushwright::sample_meshes {

struct Surface {
  std::vector<std::array<double, 3>> points;
  std::vector<std::vector<int>> faces; ///< counter-clockwise seen from outside
};

/// Corners of an upright square ring, counter-clockwise seen from above.
inline void add_square(Surface& surface, double low, double high, double z) {
  for (const auto& [x, y] : {std::pair{low, low}, {high, low}, {high, high}, {low, high}})
    surface.points.push_back({x, y, z});
}

/// A block of a stated edge with a square channel along z whose width goes from `hole_below` to `hole_above`.
inline Surface block_with_channel(double edge, double hole_below, double hole_above, double z_low, double z_high) {
  Surface surface;
  add_square(surface, 0, edge, z_low);
  add_square(surface, 0, edge, z_high);
  add_square(surface, 0.5 * (edge - hole_below), 0.5 * (edge + hole_below), z_low);
  add_square(surface, 0.5 * (edge - hole_above), 0.5 * (edge + hole_above), z_high);
  for (int i = 0; i < 4; ++i) {
    const int j = (i + 1) % 4;
    surface.faces.push_back({i, j, 4 + j, 4 + i});           // outer wall
    surface.faces.push_back({8 + j, 8 + i, 12 + i, 12 + j}); // wall of the channel
    surface.faces.push_back({j, i, 8 + i, 8 + j});           // below
    surface.faces.push_back({4 + i, 4 + j, 12 + j, 12 + i}); // above
  }
  return surface;
}

/// A cell of edge 10 that is three quarters metal.
inline Surface channel_cell() {
  return block_with_channel(10, 5, 5, 0, 10);
}

inline Surface box(double low, double high) {
  Surface surface;
  add_square(surface, low, high, low);
  add_square(surface, low, high, high);
  surface.faces = {{3, 2, 1, 0}, {4, 5, 6, 7}};
  for (int i = 0; i < 4; ++i)
    surface.faces.push_back({i, (i + 1) % 4, 4 + (i + 1) % 4, 4 + i});
  return surface;
}

inline Surface together(Surface first, const Surface& second) {
  const int shift = static_cast<int>(first.points.size());
  first.points.insert(first.points.end(), second.points.begin(), second.points.end());
  for (std::vector<int> face : second.faces) {
    for (int& corner : face)
      corner += shift;
    first.faces.push_back(face);
  }
  return first;
}

inline std::string off_text(const Surface& surface) {
  std::string text = fmt::format("OFF\n{} {} 0\n", surface.points.size(), surface.faces.size());
  for (const auto& p : surface.points)
    text += fmt::format("{} {} {}\n", p[0], p[1], p[2]);
  for (const auto& face : surface.faces) {
    text += fmt::format("{}", face.size());
    for (int corner : face)
      text += fmt::format(" {}", corner);
    text += '\n';
  }
  return text;
}

inline std::string obj_text(const Surface& surface) {
  std::string text;
  for (const auto& p : surface.points)
    text += fmt::format("v {} {} {}\n", p[0], p[1], p[2]);
  for (const auto& face : surface.faces) {
    text += 'f';
    for (int corner : face)
      text += fmt::format(" {}", corner + 1);
    text += '\n';
  }
  return text;
}

inline std::string ply_text(const Surface& surface) {
  std::string text = fmt::format("ply\nformat ascii 1.0\nelement vertex {}\nproperty double x\nproperty double y\n"
                                 "property double z\nelement face {}\nproperty list uchar int vertex_indices\n"
                                 "end_header\n",
                                 surface.points.size(), surface.faces.size());
  const std::string body = off_text(surface);
  return text + body.substr(body.find('\n', 4) + 1);
}

inline std::string stl_text(const Surface& surface) {
  std::string text = "solid cell\n";
  for (const auto& face : surface.faces)
    for (std::size_t i = 1; i + 1 < face.size(); ++i) {
      text += "facet normal 0 0 0\nouter loop\n";
      for (int corner : {face[0], face[i], face[i + 1]}) {
        const auto& p = surface.points[std::size_t(corner)];
        text += fmt::format("vertex {} {} {}\n", p[0], p[1], p[2]);
      }
      text += "endloop\nendfacet\n";
    }
  return text + "endsolid cell\n";
}

/// The same in the binary form: 80 bytes, a count, 50 bytes a triangle.
inline std::string binary_stl(const Surface& surface) {
  std::string body;
  std::uint32_t count = 0;
  const auto append = [&](const auto& value) { body.append(reinterpret_cast<const char*>(&value), sizeof value); };
  for (const auto& face : surface.faces)
    for (std::size_t i = 1; i + 1 < face.size(); ++i) {
      ++count;
      for (int k = 0; k < 3; ++k)
        append(0.0F);
      for (int corner : {face[0], face[i], face[i + 1]})
        for (double coordinate : surface.points[std::size_t(corner)])
          append(static_cast<float>(coordinate));
      append(std::uint16_t{0});
    }
  std::string text(80, ' ');
  text.append(reinterpret_cast<const char*>(&count), sizeof count);
  return text + body;
}

/// A folder of its own for one test, removed afterwards.
class MeshFolder {
public:
  explicit MeshFolder(const std::string& name)
      : path_(std::filesystem::temp_directory_path() / (fmt::format("crushwright_mesh_{}_{}", name, ::getpid()))) {
    std::filesystem::remove_all(path_);
    std::filesystem::create_directories(path_);
  }
  ~MeshFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  MeshFolder(const MeshFolder&) = delete;
  MeshFolder& operator=(const MeshFolder&) = delete;

  std::filesystem::path write(const std::string& name, const std::string& bytes) const {
    std::ofstream(path_ / name, std::ios::binary) << bytes;
    return path_ / name;
  }
  const std::filesystem::path& path() const { return path_; }

private:
  std::filesystem::path path_;
};

} // namespace crushwright::sample_meshes
