#include "review_pack/label_layout.hpp"

#include <algorithm>

namespace crushwright {

namespace {

// Of an 11 px sans-serif face; a little wide, because the reader's own face is not known.
constexpr double character_width = 6.0;
constexpr double line_height = 14;

std::size_t characters(const std::string& text) {
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

} // namespace

LabelLayout::Box LabelLayout::box_of(const PlacedLabel& label) {
  const double length = character_width * static_cast<double>(characters(label.text));
  const double before = label.anchor == Anchor::start ? 0 : label.anchor == Anchor::end ? length : length / 2;
  const double x = label.x + label.beside;
  if (label.upright) {
    return {x - line_height / 2, x + line_height / 2, label.y - (length - before), label.y + before};
  }
  return {x - before, x - before + length, label.y - line_height / 2, label.y + line_height / 2};
}

bool LabelLayout::is_free(const Box& box) const {
  constexpr double overhang = 4;
  if (box.left < -overhang || box.right > width_ + overhang || box.top < -overhang ||
      box.bottom > height_ + overhang) {
    return false;
  }
  return apart(box, boxes_);
}

bool LabelLayout::apart(const Box& box, const std::vector<Box>& others) {
  return std::none_of(others.begin(), others.end(), [&](const Box& other) {
    return box.left < other.right && other.left < box.right && box.top < other.bottom && other.top < box.bottom;
  });
}

void LabelLayout::avoid(double x, double y, double width, double height) {
  drawn_.push_back({x - width / 2, x + width / 2, y - height / 2, y + height / 2});
}

void LabelLayout::take(const PlacedLabel& label) {
  placed_.push_back(label);
  boxes_.push_back(box_of(label));
}

void LabelLayout::place(const std::vector<PlacedLabel>& candidates) {
  for (const bool clear_of_lines : {true, false}) {
    for (const PlacedLabel& candidate : candidates) {
      const Box box = box_of(candidate);
      if (is_free(box) && (!clear_of_lines || apart(box, drawn_))) {
        take(candidate);
        return;
      }
    }
  }
  PlacedLabel moved = candidates.front();
  while (moved.y < height_ && !is_free(box_of(moved))) {
    moved.y += line_height / 2;
  }
  if (moved.y >= height_) {
    moved.y = candidates.front().y;
  }
  take(moved);
}

} // namespace crushwright
