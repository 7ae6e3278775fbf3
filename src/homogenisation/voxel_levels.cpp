#include "homogenisation/voxel_levels.hpp"

#include <tbb/parallel_for.h>

#include <unordered_map>

namespace crushwright {
namespace {

/// Kinds of the children, -1 where empty; last the axes along which the element is one child wide, as bits.
using Family = std::array<std::int32_t, 9>;

struct FamilyHash {
  std::size_t operator()(const Family& family) const {
    std::size_t hash = 1469598103934665603U;
    for (std::int32_t member : family)
      hash = (hash ^ static_cast<std::size_t>(static_cast<std::uint32_t>(member))) * 1099511628211U;
    return hash;
  }
};

std::size_t flat_index(const std::array<int, 3>& place, const std::array<int, 3>& cells) {
  return (static_cast<std::size_t>(place[2]) * static_cast<std::size_t>(cells[1]) +
          static_cast<std::size_t>(place[1])) *
             static_cast<std::size_t>(cells[0]) +
         static_cast<std::size_t>(place[0]);
}

std::array<int, 3> corner_place(const std::array<int, 3>& place, int corner, const std::array<int, 3>& cells) {
  return {(place[0] + (corner & 1)) % cells[0], (place[1] + ((corner >> 1) & 1)) % cells[1],
          (place[2] + (corner >> 2)) % cells[2]};
}

/// matrix × interpolation for the child at `position` (a bit for each axis).
void interpolate_columns(BrickMatrix& matrix, int position, int single) {
  for (int axis = 0; axis < 3; ++axis) {
    const int bit = 1 << axis;
    if (single & bit)
      continue;
    const bool far = position & bit;
    for (int corner = 0; corner < 8; ++corner)
      if (!(corner & bit))
        for (int component = 0; component < 3; ++component) {
          auto low = matrix.col(3 * corner + component);
          auto high = matrix.col(3 * (corner | bit) + component);
          if (far) {
            low *= 0.5;
            high += low;
          } else {
            high *= 0.5;
            low += high;
          }
        }
  }
}

BrickMatrix family_matrix(const Family& family, const ElementGrid& fine) {
  BrickMatrix sum = BrickMatrix::Zero();
  for (int position = 0; position < 8; ++position) {
    const std::int32_t kind = family[static_cast<std::size_t>(position)];
    if (kind < 0)
      continue;
    BrickMatrix matrix = fine.matrices[static_cast<std::size_t>(kind)];
    interpolate_columns(matrix, position, family[8]);
    matrix.transposeInPlace();
    interpolate_columns(matrix, position, family[8]);
    sum += matrix;
  }
  return sum;
}

std::vector<std::int32_t> nodes_on_grid(const std::vector<std::array<int, 3>>& places,
                                        const std::array<int, 3>& cells) {
  std::vector<std::int32_t> nodes(static_cast<std::size_t>(cells[0]) * static_cast<std::size_t>(cells[1]) *
                                      static_cast<std::size_t>(cells[2]),
                                  -1);
  for (std::size_t node = 0; node < places.size(); ++node)
    nodes[flat_index(places[node], cells)] = static_cast<std::int32_t>(node);
  return nodes;
}

/// The one or two coarse positions whose mean a fine position is.
struct Parents {
  std::array<int, 2> at;
  int count;
};
Parents parents_along(int fine, int coarse_cells) {
  if (fine % 2 == 0)
    return {{fine / 2, 0}, 1};
  return {{fine / 2, (fine / 2 + 1) % coarse_cells}, 2};
}

void list_fine_nodes(GridTransfer& transfer, std::size_t coarse_nodes) {
  transfer.first_fine.assign(coarse_nodes + 1, 0);
  for (std::int32_t coarse : transfer.coarse_nodes)
    ++transfer.first_fine[static_cast<std::size_t>(coarse) + 1];
  for (std::size_t node = 0; node < coarse_nodes; ++node)
    transfer.first_fine[node + 1] += transfer.first_fine[node];
  transfer.fine_nodes.resize(transfer.coarse_nodes.size());
  transfer.fine_weights.resize(transfer.coarse_nodes.size());
  std::vector<std::int32_t> next(transfer.first_fine.begin(), transfer.first_fine.end() - 1);
  for (std::size_t fine = 0; fine + 1 < transfer.first_coarse.size(); ++fine) {
    const auto begin = static_cast<std::size_t>(transfer.first_coarse[fine]);
    const auto end = static_cast<std::size_t>(transfer.first_coarse[fine + 1]);
    for (std::size_t entry = begin; entry < end; ++entry) {
      const auto place = static_cast<std::size_t>(next[static_cast<std::size_t>(transfer.coarse_nodes[entry])]++);
      transfer.fine_nodes[place] = static_cast<std::int32_t>(fine);
      transfer.fine_weights[place] = 1.0F / static_cast<float>(end - begin);
    }
  }
}

} // namespace

std::vector<std::array<int, 3>> node_places(const VoxelMesh& mesh, const std::array<int, 3>& cells) {
  std::vector<std::array<int, 3>> places(static_cast<std::size_t>(mesh.nodes));
  for (std::size_t element = 0; element < mesh.elements.size(); ++element)
    for (int corner = 0; corner < 8; ++corner)
      places[static_cast<std::size_t>(mesh.elements[element][static_cast<std::size_t>(corner)])] =
          corner_place(mesh.element_place[element], corner, cells);
  return places;
}

ElementGrid coarser(const ElementGrid& fine) {
  ElementGrid coarse;
  VoxelSolid solid;
  for (std::size_t axis = 0; axis < 3; ++axis)
    solid.cells[axis] = (fine.cells[axis] + 1) / 2;
  coarse.cells = solid.cells;
  const std::size_t size = static_cast<std::size_t>(solid.cells[0]) * static_cast<std::size_t>(solid.cells[1]) *
                           static_cast<std::size_t>(solid.cells[2]);
  solid.metal.assign(size, 0);
  std::vector<Family> families(size, Family{-1, -1, -1, -1, -1, -1, -1, -1, 0});
  for (std::size_t element = 0; element < fine.kinds.size(); ++element) {
    const std::array<int, 3>& place = fine.mesh.element_place[element];
    const std::size_t parent = flat_index({place[0] / 2, place[1] / 2, place[2] / 2}, solid.cells);
    const int position = (place[0] & 1) | ((place[1] & 1) << 1) | ((place[2] & 1) << 2);
    solid.metal[parent] = 1;
    families[parent][static_cast<std::size_t>(position)] = fine.kinds[element];
    for (std::size_t axis = 0; axis < 3; ++axis)
      if (fine.cells[axis] % 2 == 1 && place[axis] == fine.cells[axis] - 1)
        families[parent][8] |= 1 << axis;
  }
  coarse.mesh = voxel_mesh(solid);

  std::unordered_map<Family, std::int32_t, FamilyHash> known;
  std::vector<Family> kinds;
  coarse.kinds.reserve(coarse.mesh.elements.size());
  for (const std::array<int, 3>& place : coarse.mesh.element_place) {
    const Family& family = families[flat_index(place, solid.cells)];
    const auto [entry, fresh] = known.try_emplace(family, static_cast<std::int32_t>(kinds.size()));
    if (fresh)
      kinds.push_back(family);
    coarse.kinds.push_back(entry->second);
  }
  coarse.matrices.resize(kinds.size());
  tbb::parallel_for(std::size_t{0}, kinds.size(),
                    [&](std::size_t kind) { coarse.matrices[kind] = family_matrix(kinds[kind], fine); });
  return coarse;
}

GridTransfer grid_transfer(const ElementGrid& fine, const ElementGrid& coarse) {
  const std::vector<std::array<int, 3>> fine_places = node_places(fine.mesh, fine.cells);
  const std::vector<std::int32_t> coarse_at = nodes_on_grid(node_places(coarse.mesh, coarse.cells), coarse.cells);
  GridTransfer transfer;
  transfer.first_coarse.reserve(fine_places.size() + 1);
  transfer.first_coarse.push_back(0);
  for (const std::array<int, 3>& place : fine_places) {
    const Parents x = parents_along(place[0], coarse.cells[0]);
    const Parents y = parents_along(place[1], coarse.cells[1]);
    const Parents z = parents_along(place[2], coarse.cells[2]);
    for (int k = 0; k < z.count; ++k)
      for (int j = 0; j < y.count; ++j)
        for (int i = 0; i < x.count; ++i)
          transfer.coarse_nodes.push_back(
              coarse_at[flat_index({x.at[static_cast<std::size_t>(i)], y.at[static_cast<std::size_t>(j)],
                                    z.at[static_cast<std::size_t>(k)]},
                                   coarse.cells)]);
    transfer.first_coarse.push_back(static_cast<std::int32_t>(transfer.coarse_nodes.size()));
  }
  list_fine_nodes(transfer, static_cast<std::size_t>(coarse.mesh.nodes));
  return transfer;
}

} // namespace crushwright
