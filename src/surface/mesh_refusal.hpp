#pragma once
#include "surface/mesh_crossing.hpp"
#include "surface/mesh_edges.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace crushwright {

// Why a surface is refused, in the words that every reader of surfaces uses; all throw InputError.

[[noreturn]] void refuse_mesh(const std::filesystem::path& file, const std::string& what,
                              const std::string& what_to_do);
[[noreturn]] void refuse_empty(const std::filesystem::path& file);
[[noreturn]] void refuse_crowded(const std::filesystem::path& file, const TriangleMesh& mesh,
                                 const std::vector<MeshEdge>& edges);
[[noreturn]] void refuse_crossing(const std::filesystem::path& file, const Crossing& crossing);

/// "(1.5, 0, 20)"
std::string shown_place(const std::array<double, 3>& place);

} // namespace crushwright
