#include "homogenisation/computed_laws.hpp"

#include "crushwright/errors.hpp"
#include "homogenisation/declared_symmetry.hpp"
#include "homogenisation/voxel_extrapolation.hpp"
#include "scaling_law/fitted_law.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr const char* stiffness_property = "elastic modulus";
constexpr const char* plateau_property = "plateau stress";
constexpr const char* peak_property = "first peak ratio";

/// Points of one property along one direction.
struct Series {
  std::string property;
  std::string kind; ///< of the law's id: "stiffness", "collapse", "first-peak"
  std::string direction;
  std::vector<LawPoint> points;
  double spread = 0; ///< largest of the points
};

std::vector<double> densities_of(const Range& range, int count) {
  std::vector<double> densities;
  for (int i = 0; i < count; ++i) {
    const double part = static_cast<double>(i) / (count - 1);
    // The ends exactly, so that the law's range is the one that was asked for.
    densities.push_back(i == 0           ? range.low
                        : i == count - 1 ? range.high
                                         : range.low * std::pow(range.high / range.low, part));
  }
  return densities;
}

std::string fit_words(const Series& series, const LawAssumptions& assumptions, bool frame) {
  if (series.property == stiffness_property) {
    return frame ? "beams with stiff nodes" : "voxel solid";
  }
  if (series.property == peak_property) {
    return "first collapse over the mean along the mechanism's path; elastic buckling not counted";
  }
  return frame ? fmt::format("mean stress of the mechanism followed to {:.0f} % strain, perfectly plastic; struts do "
                             "not touch, elastic buckling not counted; never above first collapse",
                             100 * assumptions.path_end)
               : fmt::format(
                     "limit load of a perfectly plastic voxel solid, reached by {:.0f} % strain; small strains, "
                     "folding not followed",
                     100 * assumptions.last_solid_strain);
}

ComputedLaw law_of(const Series& series, const PowerLawFit& fit, const std::string& part,
                   const ComputedLawOptions& options, bool frame) {
  ComputedLaw computed;
  computed.property = series.property;
  PowerLaw& law = computed.law;
  law.origin.id = fmt::format("{}-{}-{}{}", frame ? "frame" : "voxel", series.kind, series.direction, part);
  law.origin.evidence = Evidence::computed;
  law.origin.direction = series.direction;
  law.origin.fitted_relative_density = fit.range;
  law.origin.density_basis = DensityBasis::true_;
  law.origin.remark = fit_words(series, options.assumptions, frame);
  law.origin.source = {"own geometry of the cell, docs/method/computed_law.md", Standing::derived};
  law.origin.computation = Computation{frame ? "frame" : "voxels", frame ? 0 : options.grid, series.spread,
                                       fit.largest_residual, options.version};
  law.coefficient = fit.coefficient;
  law.exponent = fit.exponent;
  law.stress_basis = StressBasis::flow_stress;
  for (const LawPoint& point : series.points) {
    computed.relative_density.push_back(point.relative_density);
    computed.computed.push_back(point.value);
  }
  return computed;
}

Series half_of(const Series& series, std::size_t from, std::size_t to) {
  Series half = series;
  half.points.assign(series.points.begin() + static_cast<std::ptrdiff_t>(from),
                     series.points.begin() + static_cast<std::ptrdiff_t>(to));
  return half;
}

[[noreturn]] void refuse_fit(const UnitCell& cell, const Series& series, const PowerLawFit& fit,
                             const LawAssumptions& assumptions) {
  throw OutOfDomain(
      fmt::format("{}: no power law holds the {} along {} from relative density {:.3g} to {:.3g}: the best misses a "
                  "computed point by {:.0f} %, and {:.0f} % is the most. Ask for a narrower range.",
                  cell.name, series.property, series.direction, fit.range.low, fit.range.high,
                  100 * fit.largest_residual, 100 * assumptions.refused_residual));
}

/// One law, or two that meet at the middle density where one does not hold its points.
void add_laws(const UnitCell& cell, const Series& series, const ComputedLawOptions& options, bool frame,
              ComputedLaws& laws) {
  const double allowed = options.assumptions.largest_residual;
  const PowerLawFit whole = fitted_law(series.points);
  if (whole.largest_residual <= allowed) {
    laws.laws.push_back(law_of(series, whole, "", options, frame));
    return;
  }
  const std::size_t middle = series.points.size() / 2;
  if (middle + 1 < fewest_law_points) {
    if (whole.largest_residual > options.assumptions.refused_residual) {
      refuse_fit(cell, series, whole, options.assumptions);
    }
    laws.laws.push_back(law_of(series, whole, "", options, frame));
    return;
  }
  for (const auto& [half, part] : {std::pair{half_of(series, 0, middle + 1), "-sparse"},
                                   std::pair{half_of(series, middle, series.points.size()), "-dense"}}) {
    const PowerLawFit fit = fitted_law(half.points);
    if (fit.largest_residual > options.assumptions.refused_residual) {
      refuse_fit(cell, half, fit, options.assumptions);
    }
    laws.laws.push_back(law_of(half, fit, part, options, frame));
  }
}

bool is_notable_peak(const Series& peaks, const LawAssumptions& assumptions) {
  return std::any_of(peaks.points.begin(), peaks.points.end(),
                     [&](const LawPoint& point) { return point.value > assumptions.notable_first_peak; });
}

void add_frame_laws(const UnitCell& cell, const ComputedLawOptions& options, ComputedLaws& laws) {
  const LawAssumptions& assumptions = options.assumptions;
  const std::vector<double> densities = densities_of(options.relative_density, assumptions.frame_points);
  std::vector<FrameStiffness> stiffness;
  for (const double density : densities) {
    stiffness.push_back(frame_stiffness(cell, size_ratio(cell, density), assumptions.poissons_ratio));
    require_declared_symmetry(cell, stiffness.back().over_youngs_modulus, frame_symmetry_limit);
  }
  std::vector<Series> peaks;
  for (const std::string& direction : law_directions(cell)) {
    Series modulus{stiffness_property, "stiffness", direction, {}, 0};
    Series plateau{plateau_property, "collapse", direction, {}, 0};
    Series peak{peak_property, "first-peak", direction, {}, 0};
    const Eigen::Vector3d along = direction_vector(direction);
    for (std::size_t i = 0; i < densities.size(); ++i) {
      modulus.points.push_back({densities[i], youngs_modulus(stiffness[i].over_youngs_modulus, along)});
      const FrameCollapse collapse =
          frame_collapse(cell, size_ratio(cell, densities[i]), along, assumptions.path_end);
      // Thick struts with stiff nodes grow stronger along the path, because only their short clear spans deform; real
      // nodes do too, so no more than first collapse is claimed.
      const double mean = std::min(collapse.mean_path_stress, collapse.lower);
      plateau.points.push_back({densities[i], mean});
      peak.points.push_back({densities[i], collapse.lower / mean});
    }
    add_laws(cell, modulus, options, true, laws);
    add_laws(cell, plateau, options, true, laws);
    peaks.push_back(peak);
  }
  for (const Series& peak : peaks) {
    if (is_notable_peak(peak, assumptions)) {
      add_laws(cell, peak, options, true, laws);
    }
  }
}

/// Voxel results of one density on the coarse and the fine grid.
struct TwoGrids {
  SolidOptions coarse;
  SolidOptions fine;
};

/// The coarsest of the grids offered that has the wished number of voxels across, at most `largest`.
int grid_for(double size_ratio, const LawAssumptions& assumptions, int largest) {
  for (const int grid : {64, 96, 128}) {
    if (grid < largest && grid * size_ratio >= assumptions.voxels_across) {
      return grid;
    }
  }
  return largest;
}

void require_grid(int grid) {
  if (grid < 16 || grid % 4 != 0) {
    throw OutOfDomain(
        fmt::format("laws from voxels are computed on a grid and on half of it, so the grid is a multiple "
                    "of 4 from 16 on, and {} is not",
                    grid));
  }
}

TwoGrids two_grids(int grid) {
  TwoGrids grids;
  grids.coarse.grid = grid / 2;
  grids.fine.grid = grid;
  return grids;
}

void add_point(double density, double value, double spread, Series& series) {
  series.points.push_back({density, value});
  series.spread = std::max(series.spread, spread);
}

std::vector<Series> voxel_stiffness_series(const UnitCell& cell) {
  std::vector<Series> all;
  for (const std::string& direction : law_directions(cell)) {
    all.push_back({stiffness_property, "stiffness", direction, {}, 0});
  }
  return all;
}

std::vector<std::string> crush_directions(const UnitCell& cell) {
  return cell.symmetry == "tetragonal" ? std::vector<std::string>{"100", "001"} : std::vector<std::string>{"100"};
}

std::vector<Series> voxel_collapse_series(const UnitCell& cell) {
  std::vector<Series> all;
  if (cell.behaviour != CellBehaviour::folding) {
    for (const std::string& direction : crush_directions(cell)) {
      all.push_back({plateau_property, "collapse", direction, {}, 0});
    }
  }
  return all;
}

/// All points of one density; the stiffness's exponent in density serves the collapse.
void add_voxel_points(const UnitCell& cell, double density, const ComputedLawOptions& options,
                      std::vector<Series>& moduli, std::vector<Series>& plateaus) {
  const LawAssumptions& assumptions = options.assumptions;
  const double ratio = size_ratio(cell, density);
  const TwoGrids grids = two_grids(grid_for(ratio, assumptions, options.grid));
  const ExtrapolatedStiffness stiffness =
      extrapolated_stiffness(cell, ratio, assumptions.poissons_ratio, grids.coarse.grid, grids.fine.grid);
  require_declared_symmetry(cell, stiffness.fine.over_youngs_modulus, voxel_symmetry_limit);
  for (Series& series : moduli) {
    add_point(density, youngs_modulus(stiffness.over_youngs_modulus, direction_vector(series.direction)),
              stiffness.spread, series);
  }
  const HardeningCurve perfectly_plastic{{0.0}, {1.0}};
  for (Series& series : plateaus) {
    const auto crushed = [&](const SolidOptions& grid) {
      return solid_collapse(cell, ratio, assumptions.poissons_ratio, assumptions.yield_strain, perfectly_plastic,
                            direction_vector(series.direction), assumptions.last_solid_strain, grid);
    };
    const ExtrapolatedCollapse collapse =
        extrapolated_collapse(crushed(grids.coarse), crushed(grids.fine), density, stiffness.density_exponent);
    add_point(density, collapse.value, collapse.spread, series);
  }
}

void add_voxel_laws(const UnitCell& cell, const ComputedLawOptions& options, ComputedLaws& laws) {
  require_grid(options.grid);
  std::vector<Series> moduli = voxel_stiffness_series(cell);
  std::vector<Series> plateaus = voxel_collapse_series(cell);
  for (const double density : densities_of(options.relative_density, options.assumptions.voxel_points)) {
    add_voxel_points(cell, density, options, moduli, plateaus);
  }
  for (const Series& series : moduli) {
    add_laws(cell, series, options, false, laws);
  }
  for (const Series& series : plateaus) {
    add_laws(cell, series, options, false, laws);
  }
  if (plateaus.empty()) {
    laws.notes.push_back(fmt::format("{} crushes by folding its walls, which no solid at small strains shows: its "
                                     "plateau stress is not computed. Use a folding law or a coupon test.",
                                     cell.name));
  }
}

} // namespace

ExtrapolatedCollapse extrapolated_collapse(const SolidCollapse& coarse, const SolidCollapse& fine,
                                           double relative_density, double density_exponent) {
  const double exponent = 0.5 * (1 + density_exponent);
  const auto at_density = [&](const SolidCollapse& own) {
    return own.greatest * std::pow(relative_density / own.relative_density, exponent);
  };
  const Extrapolated limit =
      extrapolated(at_density(coarse), at_density(fine), static_cast<double>(fine.grid) / coarse.grid);
  return {limit.value, limit.spread / limit.value};
}

std::vector<std::string> law_directions(const UnitCell& cell) {
  if (cell.symmetry == "isotropic") {
    return {"100"};
  }
  if (cell.symmetry == "hexagonal") {
    return {"001", "100"};
  }
  if (cell.symmetry == "tetragonal") {
    return {"001", "100", "110", "101", "111"};
  }
  return {"100", "110", "111"};
}

ComputedLaws computed_laws(const UnitCell& cell, const ComputedLawOptions& options) {
  if (cell.cell_class == CellClass::foam) {
    throw OutOfDomain(
        fmt::format("{} has no geometry of its own, so nothing of it can be computed. Its laws come from "
                    "tests and from its class.",
                    cell.name));
  }
  if (cell.cell_class == CellClass::solid) {
    throw OutOfDomain(
        fmt::format("{} is a surface of one size, so it has one relative density and no law over a range. "
                    "Give a file for each density, or a cell that is sized.",
                    cell.name));
  }
  const Range& range = options.relative_density;
  if (!(range.low > 0 && range.low < range.high && range.high < 1)) {
    throw OutOfDomain(
        fmt::format("laws are computed over a range of relative densities, the lower one first, and {:g} "
                    "to {:g} is none",
                    range.low, range.high));
  }
  ComputedLaws laws;
  if (cell.cell_class == CellClass::strut) {
    add_frame_laws(cell, options, laws);
  } else {
    add_voxel_laws(cell, options, laws);
  }
  return laws;
}

} // namespace crushwright
