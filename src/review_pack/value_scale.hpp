#pragma once
#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace crushwright {

/// A colour in sRGB [IEC 61966-2-1].
struct Colour {
  std::uint8_t red = 0, green = 0, blue = 0;
  bool operator==(const Colour&) const = default;
};

/// CIE lightness L* of a colour, 0 black to 100 white [ISO/CIE 11664-4].
double lightness(const Colour& colour);

/// "#1d4f7c"
std::string css_text(const Colour& colour);

enum class Hue { blue, rust };

/// The place at a part of one hue's scale, from light at 0 to dark at 1: a straight line in CIELAB, so that equal
/// parts are equal differences of colour and of lightness, also in grey and for readers who see few hues.
/// @param part  held to [0, 1]
Colour scale_colour(Hue hue, double part);

/// Values in steps of equal width, each with its colour.
struct ValueScale {
  std::string quantity;            ///< "relative density"
  std::vector<double> bounds;      ///< rising; shape = (number of steps + 1), or one value when all are the same
  std::vector<Colour> colours;     ///< shape = (number of steps)
  std::vector<std::string> labels; ///< beside each bound with its unit, or beside each step; shape as `bounds` or
                                   ///< `colours`

  std::size_t step_of(double value) const; ///< the nearest step for a value outside the bounds
  bool labels_bounds() const { return labels.size() > colours.size(); }
};

/// Darker is denser. At most eight steps between round bounds.
/// @param low, high  least and greatest relative density [-], 0 <= low <= high
ValueScale density_scale(double low, double high);

/// Darker crushes earlier. At most eight steps.
/// @param last  rank of the layer that crushes last, >= 1
ValueScale order_scale(int last);

} // namespace crushwright
