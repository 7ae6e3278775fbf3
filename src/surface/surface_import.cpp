#include "crushwright/errors.hpp"
#include "crushwright/surface.hpp"
#include "surface/mesh_file.hpp"
#include "surface/mesh_refusal.hpp"
#include "surface/mesh_repair.hpp"
#include "surface/open_rims.hpp"
#include "surface/stated_unit.hpp"
#include "surface/surface_shells.hpp"
#include "surface/welded.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

using File = std::filesystem::path;
using Notes = std::vector<std::string>;

constexpr double joining_reach = 1e-6; // of the box's diagonal

/// "1 face was", "3 faces were".
std::string counted(std::size_t count, const std::string& one, const std::string& more) {
  return fmt::format("{} {}", count, count == 1 ? one : more);
}

PolygonSoup read_soup(const File& file) {
  const std::string kind = kind_of_mesh_file(file);
  try {
    PolygonSoup soup = read_polygons(file, kind);
    if (soup.polygons.empty())
      refuse_empty(file);
    return soup;
  } catch (const BrokenMeshFile& fault) {
    const std::string place = fault.line() > 0 ? fmt::format("{}:{}", file.string(), fault.line()) : file.string();
    refuse_mesh(place, fmt::format("not read as {}: {}", kind, fault.what()),
                "Export the surface again; the transfer may have been cut short, or the file is of another kind.");
  }
}

void note_dropped(const DroppedFaces& dropped, std::size_t with_equal_corners, Notes& notes) {
  if (dropped.doubled > 0)
    notes.push_back(counted(dropped.doubled, "face that stood in the file twice was",
                            "faces that stood in the file "
                            "twice were") +
                    " dropped.");
  const std::size_t without_area = dropped.without_area + with_equal_corners;
  if (without_area > 0)
    notes.push_back(counted(without_area, "face without area was", "faces without area were") + " dropped.");
}

double diagonal_of(const TriangleMesh& mesh) {
  const auto size = bounds_of(mesh).size();
  return std::hypot(size[0], size[1], size[2]);
}

void refuse_crowded_edges(const File& file, const TriangleMesh& mesh) {
  if (const auto crowded = edge_faults(mesh).crowded; !crowded.empty())
    refuse_crowded(file, mesh, crowded);
}

/// Narrow gaps are joined where that leaves none; else the surface stays as it is, and what is open is refused.
void close_gaps(const File& file, TriangleMesh& mesh, Notes& notes) {
  if (edge_faults(mesh).open.empty())
    return;
  TriangleMesh joined = mesh;
  const double reach = joining_reach * diagonal_of(mesh);
  const std::size_t points = join_rims(joined, reach);
  const DroppedFaces dropped = drop_needless_faces(joined);
  const std::vector<OpenRim> rims = open_rims(joined);
  if (!rims.empty())
    refuse_mesh(file, words_on(rims), "Close the surface, so that it bounds a solid, and export again.");
  notes.push_back(counted(points, "point", "points") +
                  fmt::format(" of open edges, each within {:.3g} of another in the file's units, {} joined to it; "
                              "that closed the surface.",
                              reach, points == 1 ? "was" : "were"));
  note_dropped(dropped, 0, notes);
  refuse_crowded_edges(file, joined);
  mesh = std::move(joined);
}

TriangleMesh repaired_mesh(const File& file, Notes& notes) {
  WeldedMesh read = welded(read_soup(file));
  TriangleMesh mesh = std::move(read.mesh);
  const DroppedFaces dropped = drop_needless_faces(mesh);
  note_dropped(dropped, read.dropped, notes);
  if (mesh.triangles.empty())
    refuse_empty(file);
  refuse_crowded_edges(file, mesh);
  close_gaps(file, mesh, notes);
  return mesh;
}

AlignedShells align(const File& file, TriangleMesh& mesh, Notes& notes) {
  AlignedShells aligned = align_shells(mesh);
  if (aligned.one_sided)
    refuse_mesh(file,
                fmt::format("the surface has one side only: it joins itself the wrong way round near {}",
                            shown_place(*aligned.one_sided)),
                "Draw the body as a solid and export again.");
  if (aligned.turned > 0)
    notes.push_back(counted(aligned.turned, "face was", "faces were") + " turned to agree with the others.");
  return aligned;
}

void require_one_body(const File& file, const std::vector<Shell>& shells) {
  const auto apart = std::count_if(shells.begin(), shells.end(), [](const Shell& s) { return s.inside_of % 2 == 0; });
  if (apart < 2)
    return;
  const auto second =
      std::find_if(shells.begin() + 1, shells.end(), [](const Shell& s) { return s.inside_of % 2 == 0; });
  refuse_mesh(file,
              fmt::format("the surface holds {} bodies that are apart; the second largest lies about {} and encloses "
                          "{:.4g} % of the largest one's volume",
                          apart, shown_place(second->middle), 100 * std::abs(second->volume / shells.front().volume)),
              "Export each body to a file of its own, or unite them; delete a fragment that is left over.");
}

/// A shell inside the body is a cavity when it faces the other way than the body's outside does.
void require_cavities(const File& file, const std::vector<Shell>& shells) {
  for (std::size_t i = 1; i < shells.size(); ++i)
    if ((shells[i].volume < 0) == (shells.front().volume < 0))
      refuse_mesh(
          file,
          fmt::format("a closed shell about {} lies inside the body and faces outward as the body does: a body "
                      "within a body, or a cavity whose faces are turned round",
                      shown_place(shells[i].middle)),
          "Delete it where the body is solid there; turn its faces round where there is a cavity.");
}

void note_cavities(const std::vector<Shell>& shells, Notes& notes) {
  if (shells.size() < 2)
    return;
  double volume = 0;
  for (std::size_t i = 1; i < shells.size(); ++i)
    volume += std::abs(shells[i].volume);
  notes.push_back(counted(shells.size() - 1, "closed cavity lies", "closed cavities lie") +
                  fmt::format(" inside, the largest about {}; {:.3g} % of the body's outer volume was taken off.",
                              shown_place(shells[1].middle), 100 * volume / std::abs(shells.front().volume)));
}

void turn_back(TriangleMesh& mesh) {
  for (auto& triangle : mesh.triangles)
    std::swap(triangle[1], triangle[2]);
}

} // namespace

SurfaceImport import_surface(const File& file, double metres_per_unit) {
  if (!(metres_per_unit > 0) || !std::isfinite(metres_per_unit))
    throw OutOfDomain(
        fmt::format("a unit of {} m was stated for {}; it must be above 0", metres_per_unit, file.string()));
  SurfaceImport result;
  result.mesh = repaired_mesh(file, result.notes);
  const AlignedShells aligned = align(file, result.mesh, result.notes);
  if (const auto crossing = crossing_of(result.mesh))
    refuse_crossing(file, *crossing);
  const std::vector<Shell> shells = shells_of(result.mesh, aligned);
  require_one_body(file, shells);
  require_cavities(file, shells);
  if (shells.front().volume < 0) {
    turn_back(result.mesh);
    result.notes.push_back("The surface was turned inside out; all its faces were turned back.");
  }
  note_cavities(shells, result.notes);
  for (auto& point : result.mesh.points)
    for (double& coordinate : point)
      coordinate *= metres_per_unit;
  result.shells = shells.size();
  result.area = area_of(result.mesh);
  result.volume = volume_of(result.mesh);
  result.bounds = bounds_of(result.mesh);
  const auto size = result.bounds.size();
  if (const std::string doubt = doubt_of_unit(std::max({size[0], size[1], size[2]}), metres_per_unit); !doubt.empty())
    result.warnings.push_back(fmt::format("{}: {}", file.string(), doubt));
  return result;
}

} // namespace crushwright
