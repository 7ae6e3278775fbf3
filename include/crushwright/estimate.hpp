#pragma once
#include "crushwright/catalogue.hpp"
#include "crushwright/cell_property.hpp"
#include "crushwright/crash_case.hpp"
#include "crushwright/crush_curve.hpp"
#include "crushwright/impact.hpp"
#include "crushwright/verdict.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

struct MassBreakdown {
  double lattice = 0;    ///< [kg]
  double skin = 0;       ///< [kg]
  double end_plates = 0; ///< [kg]
  double fixed = 0;      ///< [kg]
  double joints = 0;     ///< flanges and bolts of a part that is printed in pieces [kg]
  double total = 0;      ///< [kg]; the weighed mass plus fixed mass when the part was weighed
  bool weighed = false;
};

/// Cell properties at a station, for the evidence tables.
struct CellAtStation {
  std::string where; ///< "tip", "middle", "root"
  double station = 0;
  double size = 0; ///< strut or wall as used [m]
  CellProperties properties;
};

/// One structure ready to be crushed: everything of the case and the catalogue that does not change between runs.
struct StructureModel {
  std::string id;
  std::string mirror_of;
  double lateral = 0;  ///< [m]
  double vertical = 0; ///< [m]
  Envelope envelope;
  std::shared_ptr<const Packaging> packaging; ///< null without one; of a mirrored structure its original's
  std::vector<Layer> layers;
  FirstPeak first_peak;
  CrushCurve curve;                 ///< of the layers as they are: no interaction, rate factor 1
  bool filled_skin = false;         ///< lattice and skin both there, so that they interact
  double interaction_law = 1;       ///< factor of the lattice-skin interaction law on the crush force, mean [-]
  std::vector<CellAtStation> cells; ///< empty without a lattice
  std::string cell_id;              ///< empty without a lattice
  std::string material_id;          ///< of the lattice, or of the skin without one
  double cell_edge = 0;             ///< [m]
  double skin_thickness = 0;        ///< [m]
  double lattice_share = 0;         ///< lattice force over lattice and skin force, mean over the layers [-]
  double rate_low = 1, rate_nominal = 1, rate_high = 1; ///< rate factor on every plastic force [-]
  double temperature_factor = 1;                        ///< [-]
  MassBreakdown mass;
  double middle_relative_density = 0; ///< of the lattice at mid length, true [-]; 0 without a lattice
  double smallest_wall = 0;           ///< strut or wall, smallest over the length [m]; 0 without a lattice
  double cells_across = 0;            ///< smallest over the length [-]; 0 without a lattice
  std::vector<Inversion> inversions;
  std::optional<PrintFigures> printing;         ///< in the case's build direction; absent without a block `printing`
  std::optional<BestDirection> print_direction; ///< the one with least trouble; estimates alone, not of a mirror
  std::vector<std::string> as_built_notes;      ///< what weighing or measuring implies
  std::vector<std::string> warnings;
};

/// What one structure did in one run.
struct StructureOutcome {
  std::string structure;
  double peak_crush = 0;      ///< [m]
  double peak_force = 0;      ///< [N]
  double usable_stroke = 0;   ///< [m]
  double stroke_used = 0;     ///< [-]
  double stroke_left = 0;     ///< [m]
  double reserve = 0;         ///< [-]
  double energy = 0;          ///< at greatest crush [J]
  double bottoming_crush = 0; ///< [m]
  bool bottomed = false;
  std::string what_ends_stroke;      ///< "attachment force limit ...", "bottoming"
  double first_lock_station = 0;     ///< the layer used up first [m]; negative: none is used up
  std::vector<Clearance> clearances; ///< at the greatest crush, as the packaging's keep-outs; empty without
};

/// One run of one impact, in numbers.
struct RunOutcome {
  Side side = Side::nominal;
  bool stacked = false;
  std::vector<StructureOutcome> structures;
  double peak_total_force = 0;          ///< [N]
  double striker_peak_acceleration = 0; ///< [m/s^2]
  double struck_peak_acceleration = 0;  ///< [m/s^2]
  double stop_time = 0;                 ///< [s]
  double struck_speed_change = 0;       ///< [m/s]
};

/// What the impact does with more energy than asked.
struct MoreEnergy {
  double factor = 1.10;           ///< on the energy [-]
  Word word = Word::open;         ///< of this impact's limits
  std::string first_limit_missed; ///< id of the limit with the smallest margin among those not passed; empty on pass
  RunOutcome nominal;
};

struct ImpactOutcome {
  std::string id;
  std::string description;
  Body striker;
  Body struck;
  double closing_speed = 0;    ///< nominal [m/s]
  double effective_mass = 0;   ///< [kg]
  double available_energy = 0; ///< nominal [J]
  std::vector<ShareInput> shares;
  ImpactMotion motion;           ///< nominal
  std::vector<RunOutcome> sides; ///< weak, nominal, strong, then stacked weak, stacked strong
  MoreEnergy more_energy;
};

/// Force-crush curves of one structure on each side, for one scatter set.
struct StructureCurves {
  std::string structure;
  CrushCurve weak, nominal, strong;
  CrushCurve stacked_weak, stacked_strong;
  double weak_factor = 1, strong_factor = 1; ///< combined factors on the crush force [-]
  double specific_energy_absorption = 0;     ///< nominal energy to the usable stroke over structure mass [J/kg]
  double crush_force_efficiency = 0;         ///< mean over peak force up to the usable stroke, nominal [-]
  double usable_stroke = 0;                  ///< nominal [m]
  double stroke_efficiency = 0;              ///< usable stroke over length [-]
};

/// The case judged with one scatter set.
struct JudgedSet {
  std::string scatter_set;
  std::vector<StructureCurves> curves; ///< as Estimate::structures
  std::vector<ImpactOutcome> impacts;
  Verdict verdict;
};

/// Everything the program says about a case.
struct Estimate {
  std::vector<StructureModel> structures;
  JudgedSet deciding;
  std::vector<JudgedSet> others;     ///< the other scatter sets, for setting beside
  std::vector<std::string> warnings; ///< of the whole case, each once
};

/// The structures of a case with the catalogue's properties in them: material, cell -> properties -> layers.
std::vector<StructureModel> structure_models(const CrashCase& crash_case, const Catalogue& catalogue);

/// Curves, impacts, limits: one scatter set from structure models that are already built.
JudgedSet judge_case(const CrashCase& crash_case, const std::vector<StructureModel>& structures,
                     const ScatterSet& scatter, bool with_more_energy = true);

/// The whole chain in one call. Pure: the same case and catalogue give the same bytes.
Estimate estimate(const CrashCase& crash_case, const Catalogue& catalogue);

/// For one limit that holds at nominal and fails on a side: which measurement would close it, in one sentence.
std::string what_would_close(const CrashCase& crash_case, const std::vector<StructureModel>& structures,
                             const ScatterSet& scatter, const Check& check);

} // namespace crushwright
