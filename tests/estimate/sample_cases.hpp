#pragma once
#include "crushwright/estimate.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <string>

// Case files as text, small enough for a pocket calculator.
namespace sample_cases {

inline const crushwright::Catalogue& catalogue() {
  static const crushwright::Catalogue shipped({std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "lattices"});
  return shipped;
}

inline crushwright::CrashCase shipped_case(const std::string& name) {
  return crushwright::read_case(std::filesystem::path(CRUSHWRIGHT_SOURCE_DIR) / "cases" / (name + ".yaml"));
}

/// Prismatic block of printed honeycomb, 100 mm high and 200 mm long.
inline std::string block(const std::string& id, const std::string& width = "100 mm", const std::string& more = "") {
  return fmt::format(R"(  {0}:
    sections:
      shape: rectangle
      stations:
        - {{station: 0 mm, width: {1}, height: 100 mm}}
        - {{station: 200 mm, width: {1}, height: 100 mm}}
    lattice: {{cell: honeycomb_uniform_wall, material: AlSi10Mg-stress-relieved, crush_direction: "001",
              cell_edge: 8 mm, wall: 0.5 mm}}
{2})",
                     id, width, more);
}

/// Tapered rectangle 80 x 100 to 110 x 140 mm over 400 mm with a graded Kelvin lattice; a skin comes with `more`.
inline std::string cone(const std::string& id, const std::string& strut = "{tip: 1.6 mm, root: 1.8 mm}",
                        const std::string& more = "") {
  return fmt::format(R"(  {0}:
    sections:
      shape: rectangle
      stations:
        - {{station: 0 mm, width: 80 mm, height: 100 mm}}
        - {{station: 400 mm, width: 110 mm, height: 140 mm}}
    lattice: {{cell: kelvin, material: AlSi10Mg-stress-relieved, cell_edge: 12 mm, strut: {1}}}
{2})",
                     id, strut, more);
}

inline const std::string skin =
    "    skin: {material: AlSi10Mg-stress-relieved, thickness: 0.8 mm, first_peak_ratio: 1.2}\n";

/// A rigid mass onto a held structure.
inline std::string drop(const std::string& mass = "300 kg", const std::string& speed = "7 m/s") {
  return fmt::format(R"(  drop:
    striker: {{id: mass, mass: {}}}
    struck: {{id: rig, held: true}}
    closing_speed: {}
)",
                     mass, speed);
}

inline std::string case_text(const std::string& structures, const std::string& impacts,
                             const std::string& limits = "", const std::string& more = "") {
  return "schema: 1\ntitle: a case of a test\nstructures:\n" + structures + "impacts:\n" + impacts +
         (limits.empty() ? "" : "limits:\n" + limits) + more;
}

inline crushwright::CrashCase case_of(const std::string& structures, const std::string& impacts,
                                      const std::string& limits = "", const std::string& more = "") {
  return crushwright::read_case_text(case_text(structures, impacts, limits, more), "test.yaml");
}

inline crushwright::Estimate estimate_of(const std::string& structures, const std::string& impacts,
                                         const std::string& limits = "", const std::string& more = "") {
  return crushwright::estimate(case_of(structures, impacts, limits, more), catalogue());
}

inline const crushwright::Check& check_named(const crushwright::JudgedSet& judged, const std::string& id) {
  return *std::find_if(judged.verdict.checks.begin(), judged.verdict.checks.end(),
                       [&](const crushwright::Check& check) { return check.limit.id == id; });
}

/// One outcome of one structure in the first impact; sides: 0 weak, 1 nominal, 2 strong, 3 and 4 stacked.
inline const crushwright::StructureOutcome& outcome(const crushwright::Estimate& estimate, std::size_t side = 1,
                                                    std::size_t structure = 0, std::size_t impact = 0) {
  return estimate.deciding.impacts[impact].sides[side].structures[structure];
}

} // namespace sample_cases
