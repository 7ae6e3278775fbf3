#pragma once
#include "load_path/bearing.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// What the engineer should know of one contact, in plain words: partly met, may climb over or dive under, missed.
/// Each names the structure, so that it can stand alone in a list. Over and under are said of the body with the face:
/// it rides over the structure (override) or passes beneath it (underride).
std::vector<std::string> contact_notes(const FaceInput& face, const std::string& structure, const Window& window,
                                       const Bearing& bearing);

/// "12 mm", below 10 mm with one decimal.
std::string in_millimetres(double length);

} // namespace crushwright
