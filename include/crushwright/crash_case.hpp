#pragma once
#include "crushwright/column_check.hpp"
#include "crushwright/envelope.hpp"
#include "crushwright/lattice_body.hpp"
#include "crushwright/load_path.hpp"
#include "crushwright/packaging.hpp"
#include "crushwright/printability.hpp"
#include "crushwright/quantity.hpp"
#include "crushwright/verdict.hpp"

#include <array>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// Lattice inside a structure. Size grades linearly from the struck end (tip) to the attachment (root).
struct LatticeInput {
  std::string cell;                    ///< catalogue id
  std::string material;                ///< catalogue id
  std::string crush_direction = "100"; ///< crush axis in cell axes
  Quantity cell_edge;                  ///< [m]; value 0 for a foam
  std::string size_key;                ///< the word the file used: strut, wall or relative_density
  Quantity size_tip;                   ///< strut diameter or wall [m]; a foam: relative density [-]
  Quantity size_root;
  std::optional<Quantity> process_offset;      ///< added to the drawn size by the process [m]
  std::optional<Evidence> evidence;            ///< kind of evidence that the case asks for; absent: the best there is
  std::optional<Quantity> brittle_plateau;     ///< plateau of struts that break over that of struts that fold [-]
  std::optional<SizeField> size_factor;        ///< on the size, over station and section; absent: 1
  std::optional<std::array<double, 3>> origin; ///< a cell's corner (station, y, z) [m]; absent: place_lattice's own
  double turn = 0;                             ///< of the lattice about the crush axis, from y towards z [rad]
  LooseEnds loose_ends = LooseEnds::drop;      ///< what becomes of struts that end free where the body is filled
};

struct SkinInput {
  std::string material;
  Quantity thickness;                       ///< [m]
  std::optional<Quantity> first_peak_ratio; ///< first peak over mean fold force, with its trigger as designed [-]
};

struct EndPlateInput {
  std::string material;
  Quantity tip_thickness;  ///< [m], 0 when there is none
  Quantity root_thickness; ///< [m]
};

/// What was measured on printed parts.
struct AsBuiltInput {
  std::optional<Quantity> weighed_mass;            ///< of the whole printed structure [kg]
  std::optional<Quantity> measured_size;           ///< strut or wall, mean over the part [m]
  std::optional<Quantity> measured_skin_thickness; ///< [m]
};

/// First cell rows made weaker so that the crush starts there, at a lower peak.
struct TriggerInput {
  int rows = 1;                   ///< cell rows from the struck end, >= 1; not used where a length is stated
  std::optional<Quantity> length; ///< from the struck end, in place of rows [m], > 0
  Quantity size_factor;           ///< on their strut or wall [-], in (0, 1]
  Quantity skin_factor;           ///< on the skin's thickness beside them [-], in (0, 1]
};

/// Temperature of a structure at a station.
struct TemperaturePoint {
  double station = 0;     ///< [m]
  double temperature = 0; ///< [K]
};

struct StructureInput {
  std::string id;
  std::string mirror_of; ///< id of the structure this mirrors; empty for a structure of its own
  double lateral = 0;    ///< y of its axis, positive left [m]
  double vertical = 0;   ///< z of its axis above ground [m]
  Envelope envelope;
  std::optional<LatticeInput> lattice;
  std::optional<SkinInput> skin;
  std::optional<EndPlateInput> end_plates;
  std::optional<AsBuiltInput> as_built;
  /// Null without a block `packaging`; a mirrored structure shares its original's, places and all.
  std::shared_ptr<const Packaging> packaging;
  Quantity fixed_mass; ///< fasteners, inserts [kg]; 0 when not given
  int layer_count = 48;
  std::optional<AttachmentInput> attachment;
  std::optional<BoltPattern> bolts; ///< of the attachment
  std::optional<TriggerInput> trigger;
  std::vector<TemperaturePoint> temperatures; ///< along the structure; empty: the case's service temperature
};

struct BodyInput {
  std::string id;
  Quantity mass; ///< [kg]; value 0 when held
  bool held = false;
  double lateral = 0;                  ///< y of its centre of mass [m]
  std::optional<Quantity> yaw_radius;  ///< radius of gyration in yaw [m]
  std::optional<RestOfBodyInput> rest; ///< of the body that carries the structures
};

struct ShareInput {
  std::string structure;
  double share = 1; ///< [-]
};

struct ImpactInput {
  std::string id;
  std::string description;
  BodyInput striker;
  BodyInput struck;
  bool structures_on_striker = false; ///< else on the struck body
  Quantity closing_speed;             ///< [m/s]
  std::vector<ShareInput> shares;     ///< sum 1; empty when a face decides
  std::optional<FaceInput> face;      ///< then the bodies stay parallel and the positions decide
  Quantity force_angle;               ///< of the force to the crush axis, sideways [rad]; 0 when not given
  bool resolved = false;              ///< run with the structures' own inertia too
};

/// A scatter that was found from a few specimens: how many, and by how many standard deviations a side then stands
/// off (one-sided tolerance factor at the case's level and confidence). Not counted: the scatter is taken as known.
struct CountedScatter {
  int specimens = 0; ///< 0: not counted
  double factor = 0; ///< k [-]; 0: not counted
};

/// One set of scatters and intervals.
struct ScatterSet {
  std::string id;
  std::string description;
  Quantity law;                    ///< coefficient of variation of the lattice law [-]
  Quantity build;                  ///< of the build: everything printed [-]
  Quantity skin;                   ///< of the skin law [-]
  Quantity interaction;            ///< lattice with skin, factor with interval [-]
  bool interaction_tested = false; ///< the interval is the user's own, so the interaction law does not widen it
  Quantity efficiency_strain;      ///< coefficient of variation [-]
  CountedScatter counted_law, counted_build, counted_skin, counted_efficiency_strain;
};

/// What `size` makes as small as the limits allow.
enum class Objective { mass, build_time, build_cost };

/// What `size` may change.
struct SizingInput {
  Objective objective = Objective::mass;
  std::vector<double> cell_edges; ///< choices [m]
  double size_low = 0;            ///< smallest strut or wall tried [m]
  double size_high = 0;           ///< [m]
};

/// What `compare` sets against each other.
struct CompareInput {
  std::vector<std::string> cells;
  std::vector<std::string> materials;
  std::vector<double> relative_densities; ///< true [-]
};

/// One case file, read and checked.
struct CrashCase {
  std::string id; ///< file stem
  std::string title;
  std::string description;
  std::string vehicle;
  bool invented = false;                       ///< the file says that its data are invented
  std::optional<Quantity> service_temperature; ///< [K]
  std::vector<StructureInput> structures;
  std::vector<ImpactInput> impacts;
  std::vector<Limit> limits;
  double level = 0.95;                  ///< one-sided level of the combined scatter [-]
  double confidence = 0.95;             ///< with which counted scatters hold [-]
  std::vector<ScatterSet> scatter_sets; ///< at least one
  std::size_t deciding_set = 0;
  std::optional<SizingInput> sizing;
  std::optional<PrintingInput> printing;
  std::optional<CompareInput> comparison;
  std::vector<ServiceLoad> service_loads;
  std::vector<FatigueStrength> fatigue_strengths;
  std::string file_name;                ///< as messages show it
  std::string bytes;                    ///< the file as read, for the input hash
  std::vector<Quantity> all_quantities; ///< every value of the file with its path, for the inputs table
};

/// Throws InputError that shows the line of a value of this case, by its path, for faults that only the catalogue or
/// the physics can tell.
[[noreturn]] void fail_in_case(const CrashCase& crash_case, const std::string& path, const std::string& what,
                               const std::string& what_to_do);

/// @throws InputError with file, line, what was expected and what to do.
CrashCase read_case(const std::filesystem::path& file);
CrashCase read_case_text(const std::string& text, const std::string& shown_name);

} // namespace crushwright
