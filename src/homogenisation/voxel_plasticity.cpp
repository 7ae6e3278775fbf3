#include "homogenisation/voxel_plasticity.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>
#include <utility>

// The same operations in the same order on every machine: wider registers change the time alone.
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__)
#define CRUSHWRIGHT_WIDEST __attribute__((target_clones("default", "arch=x86-64-v3")))
#else
#define CRUSHWRIGHT_WIDEST
#endif

namespace crushwright {

namespace {

using Lanes = double __attribute__((vector_size(32)));
constexpr std::size_t width = sizeof(Lanes) / sizeof(double);

constexpr double near_weight = 0.5 + 0.28867513459481287; ///< of the nearer of two corners at a Gauss point
constexpr double far_weight = 0.5 - 0.28867513459481287;
constexpr std::size_t blocks_per_task = 64;
constexpr std::size_t nodes_per_task = 1024;

// A gradient component is the same at the two Gauss points along its own axis, so four values of it serve eight
// points. `point_pair[axis][point]` says which.
constexpr std::array<std::array<std::size_t, 8>, 3> point_pair{
    {{0, 0, 1, 1, 2, 2, 3, 3}, {0, 1, 0, 1, 2, 3, 2, 3}, {0, 1, 2, 3, 0, 1, 2, 3}}};

// The edges of the brick along an axis: the corner at its start, the step to the corner at its end, in the order of
// point_pair.
constexpr std::array<std::array<std::size_t, 4>, 3> edge_start{{{0, 2, 4, 6}, {0, 1, 4, 5}, {0, 1, 2, 3}}};
constexpr std::array<std::size_t, 3> edge_step{1, 2, 4};

struct Gradient {
  Lanes of[3][3][4]; ///< d u_component / d x_axis at its four places
};

// From corners to Gauss points across an edge's two transverse axes, and, being symmetric, back.
inline __attribute__((always_inline)) void across(Lanes (&values)[4]) {
  const Lanes a = values[0] * near_weight + values[1] * far_weight;
  const Lanes b = values[0] * far_weight + values[1] * near_weight;
  const Lanes c = values[2] * near_weight + values[3] * far_weight;
  const Lanes d = values[2] * far_weight + values[3] * near_weight;
  values[0] = a * near_weight + c * far_weight;
  values[1] = b * near_weight + d * far_weight;
  values[2] = a * far_weight + c * near_weight;
  values[3] = b * far_weight + d * near_weight;
}

inline __attribute__((always_inline)) void gradient(const Lanes (&corners)[8][3],
                                                    const std::array<double, 3>& per_spacing, Gradient& result) {
  for (std::size_t component = 0; component < 3; ++component) {
    for (std::size_t axis = 0; axis < 3; ++axis) {
      Lanes(&values)[4] = result.of[component][axis];
      for (std::size_t edge = 0; edge < 4; ++edge) {
        const std::size_t start = edge_start[axis][edge];
        values[edge] = (corners[start + edge_step[axis]][component] - corners[start][component]) * per_spacing[axis];
      }
      across(values);
    }
  }
}

inline __attribute__((always_inline)) void divergence(Gradient& stress, const std::array<double, 3>& per_spacing,
                                                      double volume, Lanes (&forces)[8][3]) {
  for (std::size_t component = 0; component < 3; ++component) {
    for (std::size_t corner = 0; corner < 8; ++corner) {
      forces[corner][component] = Lanes{};
    }
    for (std::size_t axis = 0; axis < 3; ++axis) {
      Lanes(&values)[4] = stress.of[component][axis];
      across(values);
      const double scale = per_spacing[axis] * volume;
      for (std::size_t edge = 0; edge < 4; ++edge) {
        const std::size_t start = edge_start[axis][edge];
        forces[start][component] -= values[edge] * scale;
        forces[start + edge_step[axis]][component] += values[edge] * scale;
      }
    }
  }
}

// Deviator of a point's strain as a tensor: xx, yy, zz, yz, xz, xy.
inline __attribute__((always_inline)) void deviator_at(const Gradient& slope, const double* macroscopic,
                                                       std::size_t point, Lanes (&result)[6]) {
  const auto at = [&](std::size_t component, std::size_t axis) -> const Lanes& {
    return slope.of[component][axis][point_pair[axis][point]];
  };
  const Lanes xx = at(0, 0) + macroscopic[0];
  const Lanes yy = at(1, 1) + macroscopic[1];
  const Lanes zz = at(2, 2) + macroscopic[2];
  const Lanes mean = (xx + yy + zz) * (1.0 / 3);
  result[0] = xx - mean;
  result[1] = yy - mean;
  result[2] = zz - mean;
  result[3] = (at(1, 2) + at(2, 1) + macroscopic[3]) * 0.5;
  result[4] = (at(0, 2) + at(2, 0) + macroscopic[4]) * 0.5;
  result[5] = (at(0, 1) + at(1, 0) + macroscopic[5]) * 0.5;
}

inline __attribute__((always_inline)) void add_stress(const Lanes (&stress)[6], std::size_t point, Gradient& sum,
                                                      Lanes (&total)[6]) {
  const auto add = [&](std::size_t component, std::size_t axis, std::size_t which) {
    sum.of[component][axis][point_pair[axis][point]] += stress[which];
  };
  add(0, 0, 0);
  add(1, 1, 1);
  add(2, 2, 2);
  add(1, 2, 3);
  add(2, 1, 3);
  add(0, 2, 4);
  add(2, 0, 4);
  add(0, 1, 5);
  add(1, 0, 5);
  for (std::size_t which = 0; which < 6; ++which) {
    total[which] += stress[which];
  }
}

// Change of volume of the element, the mean over its points.
inline __attribute__((always_inline)) void mean_dilatation(const Gradient& slope, const double* macroscopic,
                                                           Lanes& result) {
  Lanes sum{};
  for (std::size_t axis = 0; axis < 3; ++axis) {
    for (std::size_t place = 0; place < 4; ++place) {
      sum += slope.of[axis][axis][place];
    }
  }
  result = sum * 0.25 + (macroscopic[0] + macroscopic[1] + macroscopic[2]);
}

inline __attribute__((always_inline)) void add_pressure(const Lanes& pressure, Gradient& sum, Lanes (&total)[6]) {
  for (std::size_t axis = 0; axis < 3; ++axis) {
    for (std::size_t place = 0; place < 4; ++place) {
      sum.of[axis][axis][place] += pressure * 2.0; // two points share a place
    }
    total[axis] += pressure * 8.0;
  }
}

inline __attribute__((always_inline)) void clear(Gradient& sum) {
  for (auto& component : sum.of) {
    for (auto& axis : component) {
      for (Lanes& value : axis) {
        value = Lanes{};
      }
    }
  }
}

inline __attribute__((always_inline)) void load(const double* from, Lanes& to) {
  std::memcpy(&to, from, sizeof to);
}
inline __attribute__((always_inline)) void store(const Lanes& from, double* to) {
  std::memcpy(to, &from, sizeof from);
}

// Five values are kept of a deviator; zz follows.
constexpr std::array<std::size_t, 5> kept_of{0, 1, 3, 4, 5};

inline __attribute__((always_inline)) void load_deviator(const double* from, Lanes (&to)[6]) {
  for (std::size_t which = 0; which < 5; ++which) {
    load(from + which * width, to[kept_of[which]]);
  }
  to[2] = -to[0] - to[1];
}

inline __attribute__((always_inline)) void double_contraction(const Lanes (&a)[6], const Lanes (&b)[6],
                                                              Lanes& result) {
  result = a[0] * b[0] + a[1] * b[1] + a[2] * b[2] + (a[3] * b[3] + a[4] * b[4] + a[5] * b[5]) * 2.0;
}

// Strain deviator less the plastic part, times 2 G, and the square of the result.
inline __attribute__((always_inline)) void elastic_trial(const double* state, double twice_shear,
                                                         Lanes (&deviator)[6], Lanes& square) {
  Lanes plastic[6];
  load_deviator(state, plastic);
  for (std::size_t which = 0; which < 6; ++which) {
    deviator[which] = (deviator[which] - plastic[which]) * twice_shear;
  }
  double_contraction(deviator, deviator, square);
}

inline __attribute__((always_inline)) void store_flow(const Lanes (&deviator)[6], const Lanes& scale,
                                                      const Lanes& shear, double* to) {
  for (std::size_t which = 0; which < 5; ++which) {
    store(deviator[kept_of[which]] * scale, to + which * width);
  }
  store(shear, to + 5 * width);
}

double sum_of(const Lanes& value) {
  return (value[0] + value[1]) + (value[2] + value[3]);
}

} // namespace

VoxelPlasticity::VoxelPlasticity(const VoxelMesh& mesh, double box_volume, PlasticMetal metal)
    : nodes_(mesh.nodes), blocks_((mesh.elements.size() + lanes - 1) / lanes), elements_(mesh.elements.size()),
      box_volume_(box_volume), point_volume_(mesh.spacing[0] * mesh.spacing[1] * mesh.spacing[2] / points),
      per_spacing_{1 / mesh.spacing[0], 1 / mesh.spacing[1], 1 / mesh.spacing[2]}, metal_(std::move(metal)),
      state_(blocks_ * points * kept * lanes, 0.0), tangent_(state_.size(), 0.0),
      element_forces_(blocks_ * 24 * lanes + 3 * lanes, 0.0), sums_(blocks_ * 8, 0.0) {
  static_assert(lanes == width);
  place_elements(mesh);
  place_forces();
  for (std::size_t point = 0; point < blocks_ * points; ++point) {
    std::fill_n(tangent_.begin() + static_cast<std::ptrdiff_t>((point * kept + 5) * lanes), lanes,
                2 * metal_.shear_modulus);
  }
}

void VoxelPlasticity::place_elements(const VoxelMesh& mesh) {
  corners_.resize(blocks_ * 8 * lanes);
  live_.resize(blocks_ * lanes);
  for (std::size_t element = 0; element < blocks_ * lanes; ++element) {
    const std::size_t block = element / lanes;
    const std::size_t lane = element % lanes;
    live_[element] = element < elements_ ? 1.0 : 0.0;
    for (std::size_t corner = 0; corner < 8; ++corner) {
      corners_[(block * 8 + corner) * lanes + lane] = mesh.elements[std::min(element, elements_ - 1)][corner];
    }
  }
}

void VoxelPlasticity::place_forces() {
  const auto nowhere = static_cast<std::int32_t>(blocks_ * 24 * lanes);
  places_.assign(static_cast<std::size_t>(nodes_) * 8, nowhere);
  std::vector<std::uint8_t> used(static_cast<std::size_t>(nodes_), 0);
  for (std::size_t element = 0; element < elements_; ++element) {
    const std::size_t block = element / lanes;
    const std::size_t lane = element % lanes;
    for (std::size_t corner = 0; corner < 8; ++corner) {
      const auto node = static_cast<std::size_t>(corners_[(block * 8 + corner) * lanes + lane]);
      places_[node * 8 + used[node]++] = static_cast<std::int32_t>((block * 8 + corner) * 3 * lanes + lane);
    }
  }
}

void VoxelPlasticity::gather(const std::vector<double>& displacements, std::size_t block, double* local) const {
  const std::int32_t* node = corners_.data() + block * 8 * lanes;
  for (std::size_t corner = 0; corner < 8; ++corner) {
    for (std::size_t lane = 0; lane < lanes; ++lane) {
      const double* from = displacements.data() + 3 * static_cast<std::size_t>(node[corner * lanes + lane]);
      for (std::size_t component = 0; component < 3; ++component) {
        local[(corner * 3 + component) * lanes + lane] = from[component];
      }
    }
  }
}

CRUSHWRIGHT_WIDEST void VoxelPlasticity::tangent_of_block(const std::vector<double>& displacements,
                                                          const Voigt& strain, std::size_t block) {
  alignas(32) Lanes corners[8][3];
  gather(displacements, block, reinterpret_cast<double*>(&corners[0][0]));
  Gradient slope;
  gradient(corners, per_spacing_, slope);
  Gradient stress_sum;
  clear(stress_sum);
  Lanes total[6] = {};
  const double* tangent = tangent_.data() + block * points * kept * lanes;
  for (std::size_t point = 0; point < points; ++point) {
    Lanes strain_at[6];
    deviator_at(slope, strain.data(), point, strain_at);
    Lanes flow[6];
    load_deviator(tangent, flow);
    Lanes shear;
    load(tangent + 5 * lanes, shear);
    tangent += kept * lanes;
    Lanes along;
    double_contraction(flow, strain_at, along);
    for (std::size_t which = 0; which < 6; ++which) {
      strain_at[which] = shear * strain_at[which] - along * flow[which];
    }
    add_stress(strain_at, point, stress_sum, total);
  }
  Lanes pressure;
  mean_dilatation(slope, strain.data(), pressure);
  pressure *= metal_.bulk_modulus;
  add_pressure(pressure, stress_sum, total);
  divergence(stress_sum, per_spacing_, point_volume_, corners);
  std::memcpy(element_forces_.data() + block * 24 * lanes, &corners[0][0], sizeof corners);
  Lanes live;
  load(live_.data() + block * lanes, live);
  for (std::size_t which = 0; which < 6; ++which) {
    sums_[block * 8 + which] = sum_of(total[which] * live);
  }
}

// Scalar, because few points flow and the walk along the hardening curve differs from lane to lane.
// trial: the deviator's six values and the Mises stress; factors: shear factor and scale of the flow direction.
void VoxelPlasticity::flow_of_point(std::size_t block, std::size_t point, const double* trial, double* factors,
                                    Purpose purpose, double* sums) {
  double* state = state_.data() + (block * points + point) * kept * lanes;
  for (std::size_t lane = 0; lane < lanes; ++lane) {
    const double mises = trial[6 * lanes + lane];
    factors[lane] = 1;
    factors[lanes + lane] = 0;
    if (mises <= metal_.yield_stress) {
      continue;
    }
    const PlasticFlow flow = plastic_flow(metal_, mises, state[5 * lanes + lane]);
    factors[lane] = flow.shear_factor;
    // |s| = sqrt(2/3) of the Mises stress. A curve that bends upwards can ask for a stiffer direction than the
    // others; leaving that out costs iterations, not accuracy.
    factors[lanes + lane] = std::sqrt(3 * metal_.shear_modulus * std::max(0.0, flow.flow_factor)) / mises;
    if (purpose == Purpose::accept && flow.increment > 0) {
      const double strain_per_trial = (1 - flow.shear_factor) / (2 * metal_.shear_modulus);
      for (std::size_t which = 0; which < 5; ++which) {
        state[which * lanes + lane] += strain_per_trial * trial[kept_of[which] * lanes + lane];
      }
      state[5 * lanes + lane] += flow.increment;
      sums[0] += live_[block * lanes + lane] * flow.shear_factor * mises * flow.increment;
    }
  }
}

CRUSHWRIGHT_WIDEST void VoxelPlasticity::forces_of_block(const std::vector<double>& displacements,
                                                         const Voigt& strain, std::size_t block, Purpose purpose) {
  alignas(32) Lanes corners[8][3];
  gather(displacements, block, reinterpret_cast<double*>(&corners[0][0]));
  Gradient slope;
  gradient(corners, per_spacing_, slope);
  Gradient stress_sum;
  clear(stress_sum);
  Lanes total[6] = {};
  Lanes pressure;
  mean_dilatation(slope, strain.data(), pressure);
  Lanes live;
  load(live_.data() + block * lanes, live);
  const Lanes dilatation = pressure;
  pressure *= metal_.bulk_modulus;
  double plastic_work = 0;
  Lanes energy = pressure * dilatation * (0.5 * points);
  double greatest = 0;
  const double twice_shear = 2 * metal_.shear_modulus;
  for (std::size_t point = 0; point < points; ++point) {
    const std::size_t place = (block * points + point) * kept * lanes;
    alignas(32) Lanes trial[7]; // the deviator of the stress if the step were elastic, and its Mises stress
    Lanes(&deviator)[6] = reinterpret_cast<Lanes(&)[6]>(trial);
    deviator_at(slope, strain.data(), point, deviator);
    Lanes square;
    elastic_trial(state_.data() + place, twice_shear, deviator, square);
    for (std::size_t lane = 0; lane < lanes; ++lane) {
      trial[6][lane] = std::sqrt(1.5 * square[lane]);
      greatest = std::max(greatest, trial[6][lane]);
    }
    alignas(32) Lanes factors[2];
    flow_of_point(block, point, reinterpret_cast<const double*>(&trial[0]), reinterpret_cast<double*>(&factors[0]),
                  purpose, &plastic_work);
    if (purpose == Purpose::trial) {
      store_flow(deviator, factors[1], factors[0] * twice_shear, tangent_.data() + place);
    }
    energy += square * factors[0] * factors[0] * (0.5 / twice_shear);
    for (std::size_t which = 0; which < 6; ++which) {
      deviator[which] *= factors[0];
    }
    add_stress(deviator, point, stress_sum, total);
  }
  add_pressure(pressure, stress_sum, total);
  divergence(stress_sum, per_spacing_, point_volume_, corners);
  std::memcpy(element_forces_.data() + block * 24 * lanes, &corners[0][0], sizeof corners);
  double* sums = sums_.data() + block * 8;
  for (std::size_t which = 0; which < 6; ++which) {
    sums[which] = sum_of(total[which] * live);
  }
  sums[6] = purpose == Purpose::mises ? greatest : plastic_work;
  sums[7] = sum_of(energy * live);
}

std::array<double, 8> VoxelPlasticity::summed() const {
  std::array<double, 8> result{};
  for (std::size_t block = 0; block < blocks_; ++block) {
    for (std::size_t which = 0; which < 8; ++which) {
      result[which] += sums_[block * 8 + which];
    }
  }
  return result;
}

Voigt VoxelPlasticity::macroscopic(std::vector<double>& forces) const {
  forces.resize(size());
  tbb::parallel_for(tbb::blocked_range<std::size_t>(0, static_cast<std::size_t>(nodes_), nodes_per_task),
                    [&](const auto& range) {
                      for (std::size_t node = range.begin(); node < range.end(); ++node) {
                        std::array<double, 3> sum{};
                        for (std::size_t slot = 0; slot < 8; ++slot) {
                          const double* from = element_forces_.data() + places_[node * 8 + slot];
                          for (std::size_t component = 0; component < 3; ++component) {
                            sum[component] += from[component * lanes];
                          }
                        }
                        std::copy(sum.begin(), sum.end(), forces.begin() + static_cast<std::ptrdiff_t>(3 * node));
                      }
                    });
  const std::array<double, 8> sums = summed();
  return Eigen::Map<const Voigt>(sums.data()) * (point_volume_ / box_volume_);
}

Voigt VoxelPlasticity::forces(const std::vector<double>& displacements, const Voigt& strain,
                              std::vector<double>& forces) {
  tbb::parallel_for(tbb::blocked_range<std::size_t>(0, blocks_, blocks_per_task), [&](const auto& range) {
    for (std::size_t block = range.begin(); block < range.end(); ++block) {
      forces_of_block(displacements, strain, block, Purpose::trial);
    }
  });
  return macroscopic(forces);
}

Voigt VoxelPlasticity::tangent_forces(const std::vector<double>& displacements, const Voigt& strain,
                                      std::vector<double>& forces) {
  tbb::parallel_for(tbb::blocked_range<std::size_t>(0, blocks_, blocks_per_task), [&](const auto& range) {
    for (std::size_t block = range.begin(); block < range.end(); ++block) {
      tangent_of_block(displacements, strain, block);
    }
  });
  return macroscopic(forces);
}

double VoxelPlasticity::accept(const std::vector<double>& displacements, const Voigt& strain) {
  tbb::parallel_for(tbb::blocked_range<std::size_t>(0, blocks_, blocks_per_task), [&](const auto& range) {
    for (std::size_t block = range.begin(); block < range.end(); ++block) {
      forces_of_block(displacements, strain, block, Purpose::accept);
    }
  });
  const std::array<double, 8> sums = summed();
  elastic_energy_ = sums[7] * point_volume_ / box_volume_;
  return sums[6] * point_volume_ / box_volume_;
}

double VoxelPlasticity::yielded_share() const {
  std::size_t yielded = 0;
  for (std::size_t element = 0; element < elements_; ++element) {
    for (std::size_t point = 0; point < points; ++point) {
      const std::size_t place = ((element / lanes) * points + point) * kept + 5;
      yielded += static_cast<std::size_t>(state_[place * lanes + element % lanes] > 0);
    }
  }
  return static_cast<double>(yielded) / static_cast<double>(points * elements_);
}

double VoxelPlasticity::greatest_mises(const std::vector<double>& displacements, const Voigt& strain) {
  tbb::parallel_for(tbb::blocked_range<std::size_t>(0, blocks_, blocks_per_task), [&](const auto& range) {
    for (std::size_t block = range.begin(); block < range.end(); ++block) {
      forces_of_block(displacements, strain, block, Purpose::mises);
    }
  });
  double greatest = 0;
  for (std::size_t block = 0; block < blocks_; ++block) {
    greatest = std::max(greatest, sums_[block * 8 + 6]);
  }
  return greatest;
}

} // namespace crushwright
