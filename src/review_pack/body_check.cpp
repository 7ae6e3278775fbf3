#include "review_pack/body_check.hpp"

#include "crushwright/errors.hpp"

#include <cmath>
#include <cstddef>
#include <cstdint>

#include <fmt/format.h>

namespace crushwright {

namespace {

[[noreturn]] void refuse(const std::string& name, const std::string& what) {
  throw OutOfDomain(fmt::format("the body {} cannot be drawn: {}", name, what));
}

void check_point(const std::string& name, const std::array<double, 3>& point, const char* whose) {
  for (const double value : point) {
    if (!std::isfinite(value)) {
      refuse(name, fmt::format("a point of its {} is at ({}, {}, {}), which is not finite", whose, point[0], point[1],
                               point[2]));
    }
  }
}

void check_place(const std::string& name, std::int32_t place, std::size_t count, const char* whose) {
  if (place < 0 || static_cast<std::size_t>(place) >= count) {
    refuse(name, fmt::format("its {} names point {} of {}", whose, place, count));
  }
}

void check_mesh(const std::string& name, const TriangleMesh& mesh, const char* whose) {
  for (const auto& point : mesh.points) {
    check_point(name, point, whose);
  }
  for (const auto& triangle : mesh.triangles) {
    for (const std::int32_t place : triangle) {
      check_place(name, place, mesh.points.size(), whose);
    }
  }
}

void check_struts(const std::string& name, const StrutBody& body) {
  for (const auto& node : body.nodes) {
    check_point(name, node, "lattice");
  }
  for (const BodyStrut& strut : body.struts) {
    check_place(name, strut.from, body.nodes.size(), "lattice");
    check_place(name, strut.to, body.nodes.size(), "lattice");
    for (const double radius : {strut.from_radius, strut.to_radius}) {
      if (!(radius > 0) || !std::isfinite(radius)) {
        refuse(name, fmt::format("a strut has the radius {} m; it has to be above 0", radius));
      }
    }
  }
}

} // namespace

BodyShape checked_shape(const BodyDrawing& body) {
  BodyShape shape = body.shape;
  const auto drop_empty = [&](const TriangleMesh*& mesh, const char* whose) {
    if (mesh != nullptr) {
      check_mesh(body.name, *mesh, whose);
      mesh = mesh->triangles.empty() ? nullptr : mesh;
    }
  };
  drop_empty(shape.surface, "surface");
  drop_empty(shape.walls, "lattice");
  if (shape.struts != nullptr) {
    check_struts(body.name, *shape.struts);
    shape.struts = shape.struts->struts.empty() ? nullptr : shape.struts;
  }
  if ((shape.struts != nullptr || shape.walls != nullptr) &&
      !(shape.cell_edge > 0 && std::isfinite(shape.cell_edge))) {
    refuse(body.name, fmt::format("its lattice has the cell edge {} m; it has to be above 0", shape.cell_edge));
  }
  if (!(shape.skin_thickness >= 0) || !std::isfinite(shape.skin_thickness)) {
    refuse(body.name, fmt::format("its skin is {} m thick; it has to be 0 or more", shape.skin_thickness));
  }
  for (std::size_t i = 0; i < body.layers.size(); ++i) {
    const DrawnLayer& layer = body.layers[i];
    if (!(layer.from < layer.to) || (i > 0 && layer.from < body.layers[i - 1].to - 1e-9)) {
      refuse(body.name, fmt::format("its layer {} reaches from {} m to {} m; stations have to rise", i + 1,
                                    layer.from, layer.to));
    }
    if (!(layer.relative_density >= 0 && layer.relative_density <= 1)) {
      refuse(body.name, fmt::format("its layer {} has the relative density {}; it has to be between 0 and 1", i + 1,
                                    layer.relative_density));
    }
  }
  return shape;
}

} // namespace crushwright
