#pragma once
#include "crushwright/crash_case.hpp"
#include "crushwright/errors.hpp"

#include <stdexcept>
#include <string>

// A small case of invented data that tests change line by line.
namespace sample_case {

inline const char* const text = "schema: 1\n"                                                               // line 1
                                "title: Two invented boxes\n"                                               // 2
                                "structures:\n"                                                             // 3
                                "  left:\n"                                                                 // 4
                                "    at: {y: 400 mm, z: 300 mm}\n"                                          // 5
                                "    mirrored_as: right\n"                                                  // 6
                                "    sections:\n"                                                           // 7
                                "      shape: rectangle\n"                                                  // 8
                                "      stations:\n"                                                         // 9
                                "        - {station: 0 mm, width: 100 mm, height: 120 mm}\n"                // 10
                                "        - {station: 400 mm, width: 120 mm, height: 140 mm}\n"              // 11
                                "    parts:\n"                                                              // 12
                                "      tip: {from: 0 mm, to: 100 mm}\n"                                     // 13
                                "    lattice:\n"                                                            // 14
                                "      cell: bcc\n"                                                         // 15
                                "      material: AlSi10Mg-stress-relieved\n"                                // 16
                                "      cell_edge: 10 mm\n"                                                  // 17
                                "      strut: 1.4 mm\n"                                                     // 18
                                "    skin: {material: AlSi10Mg-T6, thickness: 0.8 mm}\n"                    // 19
                                "    end_plates: {material: AlSi10Mg-T6, root_thickness: 4 mm}\n"           // 20
                                "impacts:\n"                                                                // 21
                                "  full:\n"                                                                 // 22
                                "    striker: {id: wall, held: true}\n"                                     // 23
                                "    struck: {id: car, mass: 900 kg}\n"                                     // 24
                                "    closing_speed: 9 m/s\n"                                                // 25
                                "    share: {left: 50 %, right: 50 %}\n"                                    // 26
                                "  one_side:\n"                                                             // 27
                                "    striker: {id: trolley, mass: 400 kg}\n"                                // 28
                                "    struck: {id: car, mass: 900 kg}\n"                                     // 29
                                "    closing_speed: 5 m/s\n"                                                // 30
                                "    share: {left: 100 %, right: 0 %}\n"                                    // 31
                                "limits:\n"                                                                 // 32
                                "  peak: {impact: full, of: car, quantity: acceleration, at_most: 30 g}\n"; // 33

/// The sample with one piece of its text exchanged.
inline std::string with(const std::string& piece, const std::string& other) {
  std::string changed = text;
  const std::size_t at = changed.find(piece);
  if (at == std::string::npos)
    throw std::logic_error("the sample case has no text: " + piece);
  return changed.replace(at, piece.size(), other);
}

/// The sample with its one limit exchanged; the new one stands on line 33.
inline std::string with_limit(const std::string& limit) {
  return with("{impact: full, of: car, quantity: acceleration, at_most: 30 g}", limit);
}

inline crushwright::CrashCase read(const std::string& changed = text) {
  return crushwright::read_case_text(changed, "boxes.yaml");
}

/// What the user is told of a text that cannot be read.
inline std::string message(const std::string& changed) {
  try {
    read(changed);
  } catch (const crushwright::InputError& error) {
    return error.what();
  }
  return "no error";
}

} // namespace sample_case
