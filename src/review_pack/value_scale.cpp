#include "review_pack/value_scale.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace crushwright {

namespace {

using Triple = std::array<double, 3>;

constexpr Triple white = {0.95047, 1, 1.08883}; // of sRGB, D65
constexpr std::size_t most_steps = 8;

double linear_light(std::uint8_t level) {
  const double value = level / 255.0;
  return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
}

std::uint8_t level_of(double light) {
  const double inside = std::clamp(light, 0.0, 1.0);
  const double value = inside <= 0.0031308 ? 12.92 * inside : 1.055 * std::pow(inside, 1 / 2.4) - 0.055;
  return static_cast<std::uint8_t>(std::lround(255 * value));
}

double from_cube_root(double root) {
  constexpr double bend = 6.0 / 29;
  return root > bend ? root * root * root : 3 * bend * bend * (root - 4.0 / 29);
}

Colour of_lab(const Triple& lab) {
  const double middle = (lab[0] + 16) / 116;
  const double x = white[0] * from_cube_root(middle + lab[1] / 500);
  const double y = white[1] * from_cube_root(middle);
  const double z = white[2] * from_cube_root(middle - lab[2] / 200);
  return {level_of(3.2404542 * x - 1.5371385 * y - 0.4985314 * z),
          level_of(-0.9692660 * x + 1.8760108 * y + 0.0415560 * z),
          level_of(0.0556434 * x - 0.2040259 * y + 1.0572252 * z)};
}

/// The least of 1, 2, 2.5 and 5 times a power of ten with which a range takes no more than the most steps.
double round_step(double low, double high) {
  for (double decade = std::pow(10.0, std::floor(std::log10((high - low) / most_steps)));; decade *= 10) {
    for (const double digit : {1.0, 2.0, 2.5, 5.0}) {
      const double step = digit * decade;
      if (std::ceil(high / step - 1e-6) - std::floor(low / step + 1e-6) <= static_cast<double>(most_steps)) {
        return step;
      }
    }
  }
}

std::vector<Colour> colours_of(Hue hue, std::size_t steps, bool dark_first) {
  std::vector<Colour> colours;
  for (std::size_t i = 0; i < steps; ++i) {
    const double part = steps > 1 ? static_cast<double>(i) / static_cast<double>(steps - 1) : 0.5;
    colours.push_back(scale_colour(hue, dark_first ? 1 - part : part));
  }
  return colours;
}

} // namespace

double lightness(const Colour& colour) {
  const double y = 0.2126729 * linear_light(colour.red) + 0.7151522 * linear_light(colour.green) +
                   0.0721750 * linear_light(colour.blue);
  constexpr double bend = 6.0 / 29;
  const double root = y > bend * bend * bend ? std::cbrt(y) : y / (3 * bend * bend) + 4.0 / 29;
  return 116 * root - 16;
}

std::string css_text(const Colour& colour) {
  return fmt::format("#{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue);
}

Colour scale_colour(Hue hue, double part) {
  struct Line {
    Triple light, dark;
  };
  // The dark ends are as dark as leaves room for shade; both hues lie inside sRGB from end to end.
  constexpr Line blue = {{92, -9, -7}, {30, 10, -40}};
  constexpr Line rust = {{92, 3, 16}, {30, 42, 34}};
  const Line& line = hue == Hue::blue ? blue : rust;
  const double along = std::clamp(part, 0.0, 1.0);
  Triple lab{};
  for (std::size_t i = 0; i < 3; ++i) {
    lab[i] = line.light[i] + along * (line.dark[i] - line.light[i]);
  }
  return of_lab(lab);
}

std::size_t ValueScale::step_of(double value) const {
  const auto after = std::upper_bound(bounds.begin(), bounds.end(), value);
  const std::size_t passed = static_cast<std::size_t>(after - bounds.begin());
  return std::min(passed > 0 ? passed - 1 : 0, colours.size() - 1);
}

ValueScale density_scale(double low, double high) {
  ValueScale scale;
  scale.quantity = "relative density";
  if (high - low < 1e-4) {
    scale.bounds = {low};
    scale.colours = colours_of(Hue::blue, 1, false);
    scale.labels = {fmt::format("{:.3g} %", 100 * low)};
    return scale;
  }
  const double step = round_step(low, high);
  const double first = std::floor(low / step + 1e-6), last = std::ceil(high / step - 1e-6);
  for (double i = first; i <= last + 0.5; ++i) {
    scale.bounds.push_back(i * step);
    scale.labels.push_back(fmt::format("{:.4g} %", 100 * i * step));
  }
  scale.colours = colours_of(Hue::blue, scale.bounds.size() - 1, false);
  return scale;
}

ValueScale order_scale(int last) {
  ValueScale scale;
  scale.quantity = last > 1 ? fmt::format("crush order of the layers, 1 first to {} last", last) : "crush order";
  const int most = static_cast<int>(most_steps);
  const int width = (last + most - 1) / most;
  for (int from = 1; from <= last; from += width) {
    const int to = std::min(from + width - 1, last);
    scale.bounds.push_back(from);
    scale.labels.push_back(from == to ? fmt::format("{}", from) : fmt::format("{} to {}", from, to));
  }
  scale.bounds.push_back(last + 1);
  scale.colours = colours_of(Hue::rust, scale.labels.size(), true);
  return scale;
}

} // namespace crushwright
