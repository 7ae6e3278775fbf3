#include "review_pack/body_image.hpp"

#include "crushwright/errors.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>

#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr int alpha_levels = 4; // four rays a pixel
constexpr int ghost_levels = 16;
constexpr Colour ghost_colour = {128, 136, 146}; // seen on white and on dark paper

/// One pixel before it has its place in the palette.
struct Paint {
  std::uint32_t colour = 0; ///< place in the list of plain colours
  int tone = 0;             ///< of the levels of light
  int alpha = 0;            ///< of 255

  std::uint32_t key() const {
    return colour << 16 | static_cast<std::uint32_t>(tone) << 8 | static_cast<std::uint32_t>(alpha);
  }
};

class Painter {
public:
  Painter(const BodyRaster& raster, const StationColours& colours) : raster_(raster), colours_(colours) {
    plain_ = {skin_cut_colour, skin_inside_colour, ghost_colour};
    for (const Colour& colour : colours.colours) {
      const auto same = std::find(plain_.begin() + 3, plain_.end(), colour);
      place_of_range_.push_back(static_cast<std::uint32_t>(same - plain_.begin()));
      if (same == plain_.end()) {
        plain_.push_back(colour);
      }
    }
  }

  /// False when the levels of light need too many colours.
  bool paint(int levels, PaletteImage& image) const {
    std::map<std::uint32_t, Paint> used;
    std::vector<std::uint32_t> keys(raster_.met.size());
    for (std::size_t i = 0; i < keys.size(); ++i) {
      const Paint paint = paint_of(i, levels);
      keys[i] = paint.key();
      if (i == 0 || keys[i] != keys[i - 1]) {
        used.emplace(keys[i], paint);
      }
      if (used.size() > 256) {
        return false;
      }
    }
    image.palette.clear();
    std::map<std::uint32_t, std::uint8_t> places;
    for (const auto& [key, paint] : used) {
      places.emplace(key, static_cast<std::uint8_t>(image.palette.size()));
      image.palette.push_back(shown(paint, levels));
    }
    image.places.resize(keys.size());
    for (std::size_t i = 0; i < keys.size(); ++i) {
      image.places[i] = i > 0 && keys[i] == keys[i - 1] ? image.places[i - 1] : places.at(keys[i]);
    }
    return true;
  }

private:
  const BodyRaster& raster_;
  const StationColours& colours_;
  std::vector<Colour> plain_;
  std::vector<std::uint32_t> place_of_range_;

  Paint paint_of(std::size_t i, int levels) const {
    if (raster_.met[i] == Met::nothing) {
      const int strength = static_cast<int>(std::lround(static_cast<float>(ghost_levels) * raster_.ghost[i]));
      return {strength > 0 ? 2U : 0U, 0, 255 * strength / ghost_levels};
    }
    Paint paint;
    paint.colour = raster_.met[i] == Met::skin_cut ? 0U
                   : raster_.met[i] == Met::skin_inside
                       ? 1U
                       : place_of_range_[colours_.range_at(static_cast<double>(raster_.station[i]))];
    const int covered = static_cast<int>(std::lround(static_cast<float>(alpha_levels) * raster_.coverage[i]));
    paint.alpha = 255 * covered / alpha_levels;
    // Half-covered pixels lie on outlines, where few levels are enough.
    const int coarse = covered < alpha_levels ? std::max(1, levels / 4) : 1;
    const int tone =
        static_cast<int>(std::lround(static_cast<float>(levels - 1) * std::clamp(raster_.tone[i], 0.0F, 1.0F)));
    paint.tone = std::min(levels - 1, (tone + coarse / 2) / coarse * coarse);
    return paint;
  }

  std::array<std::uint8_t, 4> shown(const Paint& paint, int levels) const {
    const Colour& colour = plain_[paint.colour];
    const double light = paint.colour == 2 ? 1 : static_cast<double>(paint.tone) / (levels - 1);
    const auto lit = [&](std::uint8_t level) { return static_cast<std::uint8_t>(std::lround(light * level)); };
    return {lit(colour.red), lit(colour.green), lit(colour.blue), static_cast<std::uint8_t>(paint.alpha)};
  }
};

} // namespace

std::size_t StationColours::range_at(double station) const {
  const auto end = std::upper_bound(ends.begin(), ends.end(), station);
  return std::min(static_cast<std::size_t>(end - ends.begin()), colours.size() - 1);
}

PaletteImage body_image(const BodyRaster& raster, const StationColours& colours, int most_levels) {
  PaletteImage image;
  image.width = raster.frame.width;
  image.height = raster.frame.height;
  const Painter painter(raster, colours);
  int levels = most_levels;
  while (!painter.paint(levels, image)) {
    if (levels < 5) {
      throw OutOfDomain(fmt::format("a picture with {} ranges of colours needs more than 256 colours in all",
                                    colours.colours.size()));
    }
    levels -= levels / 5;
  }
  return image;
}

} // namespace crushwright
