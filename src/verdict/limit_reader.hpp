#pragma once
#include "crushwright/verdict.hpp"
#include "yaml_input/mapping.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// What limits may refer to.
struct LimitScope {
  struct Impact {
    std::string id;
    std::vector<std::string> free_bodies;
    std::vector<std::string> held_bodies;
    std::vector<std::string> structures; ///< that take part in it
    bool has_face = false;
  };
  std::vector<Impact> impacts;
  std::vector<std::string> structures;
  std::vector<std::string> parts;     ///< "structure.part"
  std::vector<std::string> keep_outs; ///< "structure.keep_out"
  std::vector<std::string> ramped;    ///< structures with flow faces
  std::vector<std::string> attached;  ///< structures with an attachment
  std::vector<std::string> bolted;    ///< structures with bolts
  std::vector<std::string> loaded;    ///< structures with a service load
};

/// Reads the `limits` block of a case: a mapping by the user's own ids. A limit that names no impact and needs one
/// becomes one limit per impact that has what it refers to.
/// @throws InputError for unknown references, statistics that do not fit the quantity, and faulty values.
std::vector<Limit> read_limits(const Mapping& root, const LimitScope& scope);

} // namespace crushwright
