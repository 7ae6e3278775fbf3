#pragma once
#include "crushwright/estimate.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// One design that a study looked at.
struct Candidate {
  std::string label; ///< "octet, AlSi10Mg-T6, ρ̄ 0.20"
  std::string cell;  ///< empty for a skin without a lattice
  std::string material;
  double cell_edge = 0; ///< [m]
  double size_tip = 0;  ///< strut or wall; a foam's relative density [m or -]
  double size_root = 0;
  double skin_thickness = 0;   ///< [m]
  double relative_density = 0; ///< at mid length, true [-]
  double mass = 0;             ///< of all structures [kg]
  Word word = Word::fail;
  std::string governing_limit;           ///< id
  double governing_margin = 0;           ///< [-]
  double peak_force = 0;                 ///< greatest over impacts and structures, nominal [N]
  double peak_crush = 0;                 ///< [m]
  double specific_energy_absorption = 0; ///< [J/kg]
  std::optional<double> build_time;      ///< of all structures [s]; absent where no rates are stated
  std::optional<double> build_cost;      ///< of all structures [currency]; absent where no prices are stated
  bool feasible = false;                 ///< passes on every side
  std::string remark;                    ///< why it was left out, what is extrapolated
};

/// Answer of `size`.
struct SizingResult {
  bool found = false;
  Candidate best; ///< least of the objective that passes; when none does, the one that misses by least
  std::vector<Candidate> per_choice; ///< the best of each cell edge
  std::vector<Candidate> scanned;    ///< every design tried on the way, for the chart
  std::string binding;               ///< which limit binds, or what is missing and by how much, in one sentence
};

/// Least mass, build time or build cost (the case's objective) over the choices of the case's `sizing` block: wall or
/// strut scaled over its length, cell edge.
/// @throws InputError when the case has no sizing block.
SizingResult size_case(const CrashCase& crash_case, const Catalogue& catalogue);

/// Answer of `compare`, best first: those that pass by mass, then the rest by how little they miss.
struct ComparisonResult {
  std::vector<Candidate> fixed;     ///< at the stated relative densities
  std::vector<Candidate> sized;     ///< each material and cell at its own least mass that passes
  std::vector<Candidate> baselines; ///< empty skin with thickened wall, skin filled with foam, with honeycomb
  std::vector<std::string> notes;
};
ComparisonResult compare_case(const CrashCase& crash_case, const Catalogue& catalogue);

} // namespace crushwright
