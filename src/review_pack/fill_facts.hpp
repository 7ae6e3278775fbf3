#pragma once
#include "crushwright/filling.hpp"
#include "review_pack/body_drawing.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// One filled structure with everything that was asked of it.
struct FillReview {
  FilledStructure filled;
  std::optional<PrintingInput> printing;  ///< of the case
  std::optional<BodyPrintFigures> print;  ///< of the body as it is; needs `printing`
  std::optional<BestDirection> best;      ///< where it was asked for
  std::vector<std::string> written_files; ///< names in the pack, with what they hold
  std::vector<Layer> layers;              ///< of the estimate, for the pictures
};

/// One line of a table of facts, plain text.
struct Fact {
  std::string name;
  std::string value;
};

/// Cells, struts, room, metal: what the lattice is.
std::vector<Fact> lattice_facts(const FilledStructure& filled);

/// Real metal against the homogenised estimate, and what makes the difference; the parts add up.
std::vector<Fact> mass_facts(const FilledStructure& filled);

/// How the body prints in its direction; empty without `print`.
std::vector<Fact> print_facts(const FillReview& review);

/// The body to be drawn; points into the structure. A lattice of walls is not drawn: at a spacing that shows its
/// walls it has too many triangles.
BodyDrawing body_drawing(const FilledStructure& filled, const std::vector<Layer>& layers);

/// What the reader has to be told: explanations, loose ends, print faults.
std::vector<std::string> fill_notes(const FillReview& review);

} // namespace crushwright
