#pragma once
#include <string>
#include <vector>

namespace crushwright {

enum class Anchor { start, middle, end };

/// A name on a chart; place in pixels from the plot's upper left corner, text centred on its line. `x` stretches with
/// the plot's width, `beside` does not: how far the name stands to the right of what it names.
struct PlacedLabel {
  std::string text;
  double x = 0, y = 0; ///< [px]
  Anchor anchor = Anchor::start;
  bool upright = false; ///< reads upwards
  double beside = 0;    ///< [px]
};

/// Finds places where names do not run into each other or out of the plot.
///
/// The plot's height is known; its width is the narrowest that the page uses, so that what fits here fits there too.
class LabelLayout {
public:
  LabelLayout(double width, double height) : width_(width), height_(height) {}

  /// Something drawn that names should rather not cover: centre and size [px].
  void avoid(double x, double y, double width, double height);

  /// Takes the first candidate that covers neither a name nor anything drawn; else the first that covers no name;
  /// else the first of all, moved down until it covers no name.
  void place(const std::vector<PlacedLabel>& candidates);

  const std::vector<PlacedLabel>& placed() const { return placed_; }

private:
  struct Box {
    double left, right, top, bottom;
  };
  static Box box_of(const PlacedLabel& label);
  static bool apart(const Box& box, const std::vector<Box>& others);
  bool is_free(const Box& box) const;
  void take(const PlacedLabel& label);

  double width_, height_;
  std::vector<PlacedLabel> placed_;
  std::vector<Box> boxes_; ///< of the placed names
  std::vector<Box> drawn_;
};

} // namespace crushwright
