#include "crushwright/packaging.hpp"

#include "packaging/triangle_tree.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

namespace crushwright {

namespace {

/// Pieces on which the depth of an overlap is looked for, over the smaller body's diagonal.
constexpr double fineness_part = 0.02;

std::vector<double> layer_borders(double length, int layer_count) {
  std::vector<double> borders;
  for (int i = 1; i < layer_count; ++i)
    borders.push_back(length * i / layer_count);
  return borders;
}

double diagonal_of(const TriangleMesh& mesh) {
  const auto size = bounds_of(mesh).size();
  return std::hypot(size[0], size[1], size[2]);
}

NearestPair turned(const NearestPair& pair) {
  return {pair.distance, pair.on_second, pair.on_first};
}

/// Distance of a body, moved, from a keep-out; below 0 how deep either lies in the other.
Clearance body_clearance(const TriangleTree& body, const TriangleTree& other, const CrushedStations* moved,
                         double fineness) {
  NearestPair near = body.nearest(other, moved);
  const bool apart = near.distance > 0 && !body.inside(other.any_place(nullptr), moved) &&
                     !other.inside(body.any_place(moved), nullptr);
  if (!apart) {
    const NearestPair mine = body.deepest_in(other, moved, nullptr, fineness);
    const NearestPair theirs = turned(other.deepest_in(body, nullptr, moved, fineness));
    const NearestPair& deeper = mine.distance >= theirs.distance ? mine : theirs;
    if (deeper.distance > 0)
      near = {-deeper.distance, deeper.on_first, deeper.on_second};
  }
  Clearance clearance;
  clearance.value = near.distance;
  clearance.on_structure = near.on_first;
  clearance.on_keep_out = near.on_second;
  return clearance;
}

} // namespace

std::string_view name_of(FlowFace face) {
  switch (face) {
  case FlowFace::lower:
    return "lower";
  case FlowFace::upper:
    return "upper";
  case FlowFace::inner:
    return "inner";
  case FlowFace::outer:
    return "outer";
  }
  return "";
}

struct Packaging::Trees {
  struct Other {
    TriangleTree tree;
    Place nearest_to_striker{}; ///< its place of lowest station
    double fineness = 0;
  };
  std::unique_ptr<TriangleTree> body;
  std::vector<Other> keep_outs;
};

Packaging::Packaging(const Envelope& envelope, PackagingInput input, int layer_count) : input_(std::move(input)) {
  const TriangleMesh surface = surface_of(envelope);
  bounds_ = bounds_of(surface);
  outer_volume_ = volume_of(envelope);
  for (const FlowFace face : input_.flow_faces)
    ramps_.push_back(ramp_profile(envelope, face, input_.outer_side, input_.ramp_length));
  auto trees = std::make_unique<Trees>();
  if (!input_.keep_outs.empty())
    trees->body = std::make_unique<TriangleTree>(surface, layer_borders(envelope.length(), layer_count));
  for (const KeepOut& keep_out : input_.keep_outs) {
    const auto& points = keep_out.surface.points;
    const Place lowest =
        *std::min_element(points.begin(), points.end(), [](const Place& a, const Place& b) { return a[0] < b[0]; });
    trees->keep_outs.push_back({TriangleTree(keep_out.surface, {}), lowest,
                                fineness_part * std::min(diagonal_of(surface), diagonal_of(keep_out.surface))});
    const Trees::Other& other = trees->keep_outs.back();
    clearances_.push_back(body_clearance(*trees->body, other.tree, nullptr, other.fineness));
    clearances_.back().keep_out = keep_out.id;
  }
  trees_ = std::move(trees);
}

Packaging::~Packaging() = default;

Clearance Packaging::clearance_after(std::size_t keep_out, const CrushedStations& crushed) const {
  const Trees::Other& other = trees_->keep_outs[keep_out];
  Clearance clearance = body_clearance(*trees_->body, other.tree, &crushed, other.fineness);
  const double ahead_of_striker = other.nearest_to_striker[0] - crushed.crush();
  if (ahead_of_striker < clearance.value) {
    clearance.value = ahead_of_striker;
    clearance.on_keep_out = clearance.on_structure = other.nearest_to_striker;
    clearance.on_structure[0] = crushed.crush();
  }
  clearance.struck = ahead_of_striker < 0;
  clearance.keep_out = input_.keep_outs[keep_out].id;
  return clearance;
}

std::vector<Clearance> Packaging::clearances_after(const CrushedStations& crushed) const {
  std::vector<Clearance> clearances;
  for (std::size_t i = 0; i < input_.keep_outs.size(); ++i)
    clearances.push_back(clearance_after(i, crushed));
  return clearances;
}

} // namespace crushwright
