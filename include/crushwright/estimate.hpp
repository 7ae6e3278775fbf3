#pragma once
#include "crushwright/catalogue.hpp"
#include "crushwright/cell_property.hpp"
#include "crushwright/column_check.hpp"
#include "crushwright/crash_case.hpp"
#include "crushwright/crush_curve.hpp"
#include "crushwright/impact.hpp"
#include "crushwright/load_path.hpp"
#include "crushwright/oblique.hpp"
#include "crushwright/resolved_impact.hpp"
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

/// What a metal of a structure gains with the strain rate: its laws, or where it states none its interval.
struct MetalRate {
  std::optional<RateLaw> energy, peak;
  double low = 1, nominal = 1, high = 1; ///< rate factor [-]; 1 with a law
  bool operator==(const MetalRate&) const = default;
};

/// What a trigger does to the start of the crush, at low speed and nominal strength.
struct TriggerEffect {
  double peak_without = 0;    ///< highest force that a row takes to start [N]
  double peak_with = 0;       ///< the same with the trigger, the rows behind it included [N]
  double first_peak_with = 0; ///< of the trigger's own rows [N]
  double plateau_without = 0; ///< mean crush force up to bottoming [N]
  double plateau_with = 0;    ///< [N]
  double energy_cost = 0;     ///< energy to bottoming without less that with [J]
  double mass_change = 0;     ///< total mass with less that without [kg]
};

/// Where a row stands that starts afresh.
struct RowStart {
  double station = 0; ///< of its outer face, of equal rows that nearest to the struck end [m]
  double crush = 0;   ///< of the body as modelled when its turn comes [m]
};

/// Temperature of each layer and what it leaves of the force; shapes = (number of layers).
struct LayerHeat {
  std::vector<double> temperature; ///< at the layer's middle [K]
  std::vector<double> factor;      ///< on the force of lattice and skin together [-]
};

/// Strain rate of each layer in an impact and what its metals gain by it; shapes = (number of layers).
struct LayerRates {
  std::string structure;
  std::vector<double> strain_rate;   ///< when its turn comes [1/s]; 0: the bodies are at rest before
  std::vector<double> energy_factor; ///< on its force in the weak and the nominal run [-]
  std::vector<double> peak_factor;   ///< on its force in the strong run [-]
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
  std::vector<LaterPeak> later_peaks; ///< of rows that start afresh behind a trigger or a step
  std::vector<RowStart> row_starts;   ///< as later_peaks
  double trigger_length = 0;          ///< from the struck end [m]; 0 without a trigger
  std::optional<TriggerEffect> trigger_effect;
  CrushCurve curve;                 ///< of the layers as they are: no interaction, rate factor 1
  bool filled_skin = false;         ///< lattice and skin both there, so that they interact
  double interaction_law = 1;       ///< factor of the lattice-skin interaction law on the crush force, mean [-]
  std::vector<CellAtStation> cells; ///< empty without a lattice
  std::string cell_id;              ///< empty without a lattice
  std::string material_id;          ///< of the lattice, or of the skin without one
  double cell_edge = 0;             ///< [m]
  double skin_thickness = 0;        ///< [m]
  double lattice_share = 0;         ///< lattice force over lattice and skin force, mean over the layers [-]
  double rate_low = 1, rate_nominal = 1,
         rate_high = 1; ///< rate factor on every plastic force, of lattice and skin weighed with their forces [-]
  double temperature_factor = 1; ///< mean over the layers, weighed with their forces [-]
  std::optional<LayerHeat> heat; ///< where a temperature is stated
  double fracture_low = 1;       ///< on the lattice's force on the weak side: struts that break [-], in (0, 1]
  std::optional<ObliqueStrength> oblique; ///< of the lattice; only where a force of the case may stand at an angle
  std::vector<double> layer_masses;       ///< of lattice and skin, as the layers [kg]
  double tip_mass = 0;                    ///< of the end plate at the struck end [kg]
  MetalRate lattice_rate, skin_rate;      ///< of the metals; as made where there is none
  std::vector<double> row_heights;        ///< of what crushes at once with each layer [m], as the layers
  bool has_rate_law = false; ///< the material states rate laws, so that the curve depends on the impact's speed
  BeamColumn column;         ///< as a cantilever; no sections when nothing of the case asks for it
  std::optional<AttachmentInput> attachment;
  std::optional<BoltPattern> bolts;
  double bending_frequency = 0; ///< [Hz]; 0 when not asked for
  std::vector<ServiceOutcome> service;
  std::optional<FatigueOutcome> fatigue;
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
  double attachment_crush = 0;       ///< lasting [m]; 0 without an attachment
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
  std::vector<ElementMotion> elements;  ///< nominal side only, without their pieces
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
  double closing_speed = 0;       ///< nominal [m/s]
  double effective_mass = 0;      ///< [kg]
  double available_energy = 0;    ///< nominal [J]
  std::vector<ShareInput> shares; ///< empty with a face
  std::optional<FaceInput> face;
  std::vector<Contact> contacts;               ///< of the face with every structure; empty without a face
  double force_angle = 0;                      ///< nominal [rad]
  std::optional<YawLoad> yaw;                  ///< of the body that carries the structures, nominal; with a face
  std::vector<ColumnUnderForce> column_states; ///< worst over the stroke, nominal; as `mapped`
  std::vector<ColumnMap> column_maps;          ///< one per structure with a column check, as `mapped`
  std::vector<std::string> mapped;             ///< structure ids of column_maps
  std::vector<double> critical_angles;         ///< as mapped [rad]
  std::optional<ResolvedImpact> resolved;      ///< nominal, where the case asks for it
  std::vector<AfterHit> after_hit;             ///< one per column of the motion, nominal
  std::vector<LayerRates> layer_rates;         ///< nominal, of what is struck and has a rate law
  std::vector<std::string> notes;              ///< what of this impact must be known beside its numbers
  ImpactMotion motion;                         ///< nominal; no groups when nothing is struck
  std::vector<RunOutcome> sides;               ///< weak, nominal, strong, then stacked weak, stacked strong
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
  std::vector<JudgedSet> others; ///< the other scatter sets, for setting beside
  /// What the deciding set would say without the laws of evidence `measured`; absent where none is used. Without
  /// checks where the other evidence cannot carry the case.
  std::optional<Verdict> without_measured;
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
