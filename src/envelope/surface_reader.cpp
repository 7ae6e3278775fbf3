#include "envelope/surface_reader.hpp"

#include "crushwright/errors.hpp"
#include "envelope/surface_sections.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <fstream>
#include <iterator>
#include <utility>
#include <vector>

namespace crushwright {

namespace {

using Vector = std::array<double, 3>;

double dot(const Vector& a, const Vector& b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

Vector cross(const Vector& a, const Vector& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

Vector scaled(const Vector& a, double factor) {
  return {factor * a[0], factor * a[1], factor * a[2]};
}

double metres_in(const std::string& unit) {
  return unit == "mm" ? 1e-3 : unit == "cm" ? 1e-2 : unit == "in" ? 0.0254 : 1;
}

/// "+x" to "-z".
Vector signed_axis(const std::string& word) {
  Vector axis{0, 0, 0};
  axis[static_cast<std::size_t>(word[1] - 'x')] = word[0] == '-' ? -1 : 1;
  return axis;
}

/// Of length 1.
Vector read_direction(const Mapping& surface, std::string_view key) {
  if (!surface.is_list(key))
    return signed_axis(surface.choice(key, {"+x", "-x", "+y", "-y", "+z", "-z"}));
  const std::vector<Quantity> listed = surface.quantity_list(key, Dimension::number);
  if (listed.size() != 3)
    surface.fail(
        key, fmt::format("three numbers, [x, y, z], were expected; there are {}", listed.size()),
        "Write a signed axis, for instance \"+x\", or a direction in the file's axes, for instance [1, 0, 0.05].");
  const Vector direction{listed[0].value, listed[1].value, listed[2].value};
  const double length = std::sqrt(dot(direction, direction));
  if (!(length > 0))
    surface.fail(key, "[0, 0, 0] points nowhere", "Write for instance \"+x\" or [1, 0, 0.05].");
  return scaled(direction, 1 / length);
}

/// Rows x, y, z of the structure's frame in the file's axes: x the crush axis, z up as far as that allows.
std::array<Vector, 3> read_axes(const Mapping& surface) {
  const Vector x = read_direction(surface, "crush_axis");
  const Vector up = surface.has("up") ? read_direction(surface, "up") : Vector{0, 0, 1};
  const double along = dot(up, x);
  Vector z{up[0] - along * x[0], up[1] - along * x[1], up[2] - along * x[2]};
  const double across = std::sqrt(dot(z, z));
  constexpr double least = 0.0175; // one degree: beyond that "up" says nothing of the section
  if (across < least)
    surface.fail(surface.has("up") ? "up" : "crush_axis",
                 "up lies along the crush axis, so that no side is the left one",
                 "State `up`, the file's axis that points away from the ground, for instance `up: \"+y\"`.");
  z = scaled(z, 1 / across);
  return {x, cross(z, x), z};
}

std::shared_ptr<const std::string> bytes_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return std::make_shared<const std::string>(std::istreambuf_iterator<char>(stream),
                                             std::istreambuf_iterator<char>());
}

/// Results name no folder of the machine that they were made on.
std::string without_folder(const std::string& text, const std::filesystem::path& file, const std::string& name) {
  const std::string path = file.string();
  return text.rfind(path, 0) == 0 ? name + text.substr(path.size()) : text;
}

double lowest_station(const TriangleMesh& mesh) {
  return bounds_of(mesh).low[0];
}

} // namespace

std::filesystem::path beside(const Mapping& holder, const std::string& name) {
  return std::filesystem::path(holder.file_name()).parent_path() / name;
}

SurfaceInput read_surface(const Mapping& holder) {
  SurfaceInput input;
  input.file.name = holder.text("file");
  const std::filesystem::path file = beside(holder, input.file.name);
  const double metres = metres_in(holder.choice("unit", {"mm", "cm", "m", "in"}));
  try {
    SurfaceImport imported = import_surface(file, metres);
    input.mesh = std::move(imported.mesh);
    input.notes = std::move(imported.notes);
    for (const std::string& warning : imported.warnings)
      input.notes.push_back(without_folder(warning, file, input.file.name));
  } catch (const InputError& fault) {
    const std::string message = fault.what();
    const std::size_t line_end = std::min(message.find("\n   "), message.size());
    holder.fail("file", message.substr(0, line_end),
                line_end < message.size() ? message.substr(line_end + 4) : "Export the surface again.");
  }
  input.file.bytes = bytes_of(file);
  return input;
}

TriangleMesh placed(TriangleMesh mesh, const FileAxes& axes) {
  for (auto& point : mesh.points) {
    const Vector p = point;
    point = {dot(axes.axes[0], p) + axes.shift, dot(axes.axes[1], p), dot(axes.axes[2], p)};
  }
  return mesh;
}

Envelope read_surface_envelope(Mapping surface, int layer_count) {
  surface.allow({"file", "unit", "crush_axis", "up"});
  SurfaceInput input = read_surface(surface);
  Envelope envelope;
  envelope.file_axes.axes = read_axes(surface);
  TriangleMesh mesh = placed(std::move(input.mesh), envelope.file_axes);
  envelope.file_axes.shift = -lowest_station(mesh);
  for (auto& point : mesh.points)
    point[0] += envelope.file_axes.shift;
  try {
    envelope.sections = surface_sections(mesh, layer_count);
  } catch (const OutOfDomain& fault) {
    surface.fail("file", fault.what(), "Give separate bodies separate structures.");
  }
  envelope.surface = std::make_shared<const TriangleMesh>(std::move(mesh));
  envelope.file = std::make_shared<const GeometryFile>(std::move(input.file));
  envelope.notes = std::move(input.notes);
  for (std::string& remark : remarks_on(envelope.sections))
    envelope.notes.push_back(std::move(remark));
  return envelope;
}

} // namespace crushwright
