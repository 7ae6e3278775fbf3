#include "surface/mesh_reader.hpp"

#include "surface/mesh_crossing.hpp"
#include "surface/mesh_edges.hpp"
#include "surface/mesh_file.hpp"
#include "surface/mesh_refusal.hpp"
#include "surface/welded.hpp"

#include <fmt/format.h>

namespace crushwright {
namespace {

PolygonSoup read_soup(const std::filesystem::path& file) {
  const std::string kind = kind_of_mesh_file(file);
  PolygonSoup soup;
  try {
    soup = read_polygons(file, kind);
  } catch (const BrokenMeshFile&) {
    refuse_mesh(file, fmt::format("the file breaks off, or is not {0} as its name says", kind),
                "Export the surface again; the transfer may have been cut short.");
  }
  if (soup.polygons.empty())
    refuse_empty(file);
  return soup;
}

void require_closed(const std::filesystem::path& file, const TriangleMesh& mesh) {
  const EdgeFaults faults = edge_faults(mesh);
  if (!faults.crowded.empty())
    refuse_crowded(file, mesh, faults.crowded);
  if (!faults.open.empty())
    refuse_mesh(file,
                fmt::format("the surface has a hole: {} edges have a triangle on one side only; the first near {}",
                            faults.open.size(), shown_place(middle_of(mesh, faults.open.front()))),
                "Close the surface, so that it bounds a solid, and export again.");
  if (!faults.turned.empty())
    refuse_mesh(file,
                fmt::format("triangles face opposite ways across {} edges; the first near {}", faults.turned.size(),
                            shown_place(middle_of(mesh, faults.turned.front()))),
                "Turn all triangles to face outward (unify the normals) and export again.");
}

} // namespace

TriangleMesh read_closed_mesh(const std::filesystem::path& file) {
  TriangleMesh mesh = welded(read_soup(file)).mesh;
  require_closed(file, mesh);
  if (!(volume_of(mesh) > 0))
    refuse_mesh(file, "the surface is turned inside out: it encloses a volume below zero",
                "Turn all triangles to face outward (flip the normals) and export again.");
  if (const auto crossing = crossing_of(mesh))
    refuse_crossing(file, *crossing);
  return mesh;
}

} // namespace crushwright
