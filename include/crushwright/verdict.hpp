#pragma once
#include "crushwright/quantity.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace crushwright {

enum class LimitedQuantity {
  acceleration, ///< of a body [m/s^2]
  force,        ///< of a structure, or total on a body [N]
  crush,        ///< greatest crush of a structure; of a part: crush beyond the start of its collapse [m]
  energy,       ///< absorbed by a structure [J]
  mass,         ///< of a structure, or of all [kg]
  wall,         ///< smallest strut or wall of a structure [m]
  cells_across, ///< cells over the smallest width of the lattice [-]
  stroke_used,  ///< greatest crush over usable stroke [-]
  reserve,      ///< energy to the usable stroke over the energy asked, less 1 [-]
  clearance,    ///< least distance of a structure to its keep-outs, or to one, before the crush [m]; below 0 inside
  clearance_after_crush, ///< the same when it stands crushed, to the striker too [m]
  ramp_angle,            ///< steepest of a structure's flow faces over its ramp length [rad]
  build_height,          ///< of the tallest piece on the machine [m]
  build_time,            ///< of a structure, or of all [s]
  build_cost,            ///< of a structure, or of all [currency of the case]
  build_pieces,          ///< that a structure is split into to fit the machine [-]
  unsupported_share,     ///< of strut length or wall area below the self-supporting angle [-]
  unsupported_span,      ///< longest of the lattice without support [m]
  overhang_area,         ///< of skin and printed plates, both faces [m^2]
  escape_opening,        ///< for powder [m]; 0 when it is trapped
  speed_change,          ///< of a body over the impact [m/s]
  yaw_moment,            ///< greatest about a body's centre of mass [N m]
  bearing_share,         ///< of a structure's tip that the face covers, least of its structures [-]
  attachment_crush,      ///< lasting shortening of what carries a structure [m]
  section_use,           ///< greatest over the stroke: force with bending over the plastic section [-]
  bolt_use,              ///< of the most loaded bolt of an attachment over what it may carry [-]
  stability_reserve,     ///< least critical force over the force there, less 1 [-]
  critical_angle,        ///< of the force, from which on a structure tips instead of crushing [rad]
  bending_frequency,     ///< lowest of a structure on its attachment [Hz]
  service_use,           ///< greatest stress of the service loads over what may be used elastically [-]
  fatigue_damage         ///< summed over the load spectrum; 1 is the end of the life [-]
};
enum class Statistic {
  peak,
  mean_over_time,
  mean_over_distance,
  cumulative_time, ///< level held for a time in all
  continuous_time, ///< level held for a time without break
  moving_average,  ///< greatest mean over a window of a time
  occupant_load,   ///< occupant load criterion; docs/method/pulse_metric.md
  pulse_index      ///< of a body held by a belt; docs/method/pulse_metric.md
};
enum class WindowKind { whole, first_crush, first_energy };
enum class LimitStatus { regulation, series_rule, internal };
enum class Side { weak, nominal, strong };
enum class Word { pass, open, fail };

/// Which part of the pulse a statistic looks at: up to a crush [m] or an absorbed energy [J].
struct Window {
  WindowKind kind = WindowKind::whole;
  double extent = 0;
};

/// The requirement a limit comes from.
struct Requirement {
  std::string identifier; ///< the user's own, for tracing
  std::string edition;    ///< of the regulation or rule book, as the user states it
  std::string clause;
};

/// One limit of a case.
struct Limit {
  std::string id;
  std::string impact; ///< id of an impact; empty when no impact is involved (mass, wall, cells across)
  std::string of;     ///< body, structure, "structure.part", or "structures" for all together
  LimitedQuantity quantity = LimitedQuantity::force;
  Statistic statistic = Statistic::peak;
  double statistic_time = 0; ///< for cumulative_time, continuous_time and moving_average [s]
  Window window;
  int channel_class = 0; ///< 0 raw, else filtered with this class
  bool at_most = true;   ///< false: at least
  Quantity value;        ///< SI
  LimitStatus status = LimitStatus::internal;
  Requirement requirement;
};

/// The value of a limit's quantity on each side. Absent: cannot be had there, and the reason says why.
struct SideValues {
  std::optional<double> weak, nominal, strong;
  bool weak_bottomed = false, nominal_bottomed = false, strong_bottomed = false;
  std::string reason;
  bool missed = false; ///< no structure that the limit needs is struck: the limit cannot hold
};

/// One limit judged.
struct Check {
  Limit limit;
  SideValues combined; ///< decides
  SideValues stacked;  ///< all independent scatters at their worst together; shown, does not decide
  Word word = Word::open;
  Side worst_side = Side::nominal;
  double worst_value = 0;    ///< on the worst side [SI]
  double margin = 0;         ///< on the worst side, over the limit; positive holds [-]
  double nominal_margin = 0; ///< [-]
  bool stacked_holds = false;
  std::string note; ///< why it does not pass: side, bottoming, what would close it; empty on pass
};

struct Verdict {
  Word word = Word::open;
  std::size_t governing = 0; ///< index into checks: the smallest margin among the worst words
  std::vector<Check> checks;
};

/// pass: holds on every side. fail: fails at nominal. open: holds at nominal and fails on a side, or could not be
/// had.
Check judge(const Limit& limit, const SideValues& combined, const SideValues& stacked);

/// The whole verdict: fail if any check fails, else open if any is open, else pass. No limits: open.
Verdict conclude(std::vector<Check> checks);

std::string_view name_of(LimitedQuantity quantity);
std::string_view name_of(Statistic statistic);
std::string_view name_of(LimitStatus status);
std::string_view name_of(Side side);
std::string_view name_of(Word word);
Dimension dimension_of(LimitedQuantity quantity);

/// Whether the quantity comes from the block `printing` of a case.
bool is_of_printing(LimitedQuantity quantity);

/// Whether the limit is on a part's shortening beyond the start of its collapse, not on the crush of a structure.
bool limits_collapse_of_part(const Limit& limit);

/// "peak acceleration of car, class 60, first 100 mm": the limit in words.
std::string describe(const Limit& limit);

} // namespace crushwright
