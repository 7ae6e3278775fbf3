#include "load_path/contact_notes.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace crushwright {
namespace {

/// Never "100 %" or "0 %" of what is met in part.
std::string in_percent(double share) {
  if (share < 1e-4)
    return "less than 0.01 %";
  return share > 0.99 || share < 0.01 ? fmt::format("{:.4g} %", std::min(99.99, std::floor(10000 * share) / 100))
                                      : fmt::format("{:.0f} %", 100 * share);
}

/// "a", "a and b", "a, b and c"
std::string listed(const std::vector<std::string>& items) {
  if (items.size() < 2)
    return fmt::format("{}", fmt::join(items, ""));
  return fmt::format("{} and {}", fmt::join(items.begin(), items.end() - 1, ", "), items.back());
}

const char* name_in_notes(const FaceInput& face) {
  return face.shape == FaceShape::pole ? "the pole" : "the face";
}

/// By how much `length` lies past each edge of the window.
struct Past {
  double left, right, below, above;
};

std::vector<std::string> edges_passed(const FaceInput& face, const Past& past) {
  std::vector<std::string> found;
  const auto add = [&](double length, const char* word, const char* edge) {
    if (length > 0)
      found.push_back(fmt::format("{} {} {}'s {}", in_millimetres(length), word, name_in_notes(face), edge));
  };
  const bool pole = face.shape == FaceShape::pole;
  add(past.left, "beyond", pole ? "left side" : "left end");
  add(past.right, "beyond", pole ? "right side" : "right end");
  add(past.below, "below", "lower edge");
  add(past.above, "above", "upper edge");
  return found;
}

std::string missed(const FaceInput& face, const std::string& structure, const Window& window, const Window& tip) {
  const Past gap{tip.right - window.left, window.right - tip.left, window.bottom - tip.top, tip.bottom - window.top};
  std::vector<std::string> edges = edges_passed(face, gap);
  if (edges.empty())
    edges.emplace_back("just past the edge");
  std::string note = fmt::format("{} misses {}, whose tip begins {}", name_in_notes(face), structure, listed(edges));
  if (gap.below > 0)
    note += "; it passes over it (override), and what it meets then is not simulated";
  if (gap.above > 0)
    note += "; it passes beneath it (underride), and what it meets then is not simulated";
  return note;
}

void add_ride(const std::string& structure, const Past& reach, std::vector<std::string>& notes) {
  const std::string within = fmt::format("within the height of the tip of {}", structure);
  if (reach.below > 0 && reach.above > 0)
    notes.push_back(
        fmt::format("both edges of the face lie {}: it may cut into the structure and part with it either "
                    "way; not simulated",
                    within));
  else if (reach.below > 0)
    notes.push_back(
        fmt::format("the face's lower edge lies {}: the face may climb over the structure (override); not "
                    "simulated",
                    within));
  else if (reach.above > 0)
    notes.push_back(fmt::format("the face's upper edge lies {}: the face may dive beneath the structure (underride); "
                                "not simulated",
                                within));
}

} // namespace

std::string in_millimetres(double length) {
  const double millimetres = 1000 * length;
  return millimetres < 9.95 ? fmt::format("{:.1f} mm", millimetres) : fmt::format("{:.0f} mm", millimetres);
}

std::vector<std::string> contact_notes(const FaceInput& face, const std::string& structure, const Window& window,
                                       const Bearing& bearing) {
  const Window& tip = bearing.extent;
  if (!(bearing.share > 0))
    return {missed(face, structure, window, tip)};
  std::vector<std::string> notes;
  if (bearing.share < 1) {
    const Past reach{tip.left - window.left, window.right - tip.right, window.bottom - tip.bottom,
                     tip.top - window.top};
    notes.push_back(fmt::format("{} covers {} of the tip of {}, which reaches {}", name_in_notes(face),
                                in_percent(bearing.share), structure, listed(edges_passed(face, reach))));
    add_ride(structure, reach, notes);
  }
  if (face.shape == FaceShape::pole)
    notes.push_back(
        fmt::format("the pole meets the tip of {} along a line; what lies within its diameter bears on it "
                    "in full only when it has gone {} deep",
                    structure, in_millimetres(face.width.value / 2)));
  return notes;
}

} // namespace crushwright
