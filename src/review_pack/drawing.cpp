#include "review_pack/drawing.hpp"

#include "quantities/units.hpp"
#include "review_pack/svg.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

namespace crushwright {

namespace {

constexpr double widest_plan = 620;  // [px]
constexpr double tallest_plan = 330; // [px]
constexpr double left_margin = 40, right_margin = 90, top_margin = 48, bottom_margin = 110;

std::string millimetres(double metres) {
  return fmt::format("{} mm", std::round(metres * 1e4) / 10);
}

struct Extent {
  double low = std::numeric_limits<double>::infinity();
  double high = -std::numeric_limits<double>::infinity();
  void include(double value) {
    low = std::min(low, value);
    high = std::max(high, value);
  }
  double span() const { return high - low; }
};

/// Side-to-side or bottom-to-top extent of a section, relative to the structure's own axis.
Extent extent_of(const Section& section, std::size_t axis) {
  Extent extent;
  for (const std::array<double, 2>& corner : outline(section)) {
    extent.include(corner[axis]);
  }
  return extent;
}

Extent width_at(const StructureModel& structure, double station) {
  const double inside = std::clamp(station, 0.0, structure.envelope.length());
  Extent extent = extent_of(section_at(structure.envelope, inside), 0);
  extent.low += structure.lateral;
  extent.high += structure.lateral;
  return extent;
}

/// y of a structure's axis; a surface's origin may lie far from it, so its attachment's centroid stands for the axis.
double axis_of(const StructureModel& structure) {
  return structure.lateral + (structure.envelope.surface ? centroid_of(structure.envelope.sections.back())[0] : 0);
}

/// Places of the vehicle on the page: y to the left, stations up.
struct Plan {
  Extent y;
  double length = 0;
  Extent density;
  double scale = 1; ///< [px/m]
  double across(double y_value) const { return left_margin + (y.high - y_value) * scale; }
  double up(double station) const { return top_margin + (length - station) * scale; }
  double right() const { return across(y.low); }
  double bottom() const { return up(0); }
};

Plan plan_of(const std::vector<StructureModel>& structures) {
  Plan plan;
  for (const StructureModel& structure : structures) {
    plan.length = std::max(plan.length, structure.envelope.length());
    for (const Section& section : structure.envelope.sections) {
      const Extent extent = width_at(structure, section.station);
      plan.y.include(extent.low);
      plan.y.include(extent.high);
    }
    for (const Layer& layer : structure.layers) {
      if (layer.relative_density > 0) {
        plan.density.include(layer.relative_density);
      }
    }
  }
  plan.scale = std::min(widest_plan / plan.y.span(), tallest_plan / plan.length);
  return plan;
}

double shade(const Plan& plan, double relative_density) {
  if (!(relative_density > 0)) {
    return 0.03;
  }
  if (!(plan.density.span() > 1e-6)) {
    return 0.35;
  }
  return 0.12 + 0.58 * (relative_density - plan.density.low) / plan.density.span();
}

std::vector<SvgPoint> strip(const Plan& plan, const StructureModel& structure, double from, double to) {
  const Extent outer = width_at(structure, from), inner = width_at(structure, to);
  return {{plan.across(outer.high), plan.up(from)},
          {plan.across(outer.low), plan.up(from)},
          {plan.across(inner.low), plan.up(to)},
          {plan.across(inner.high), plan.up(to)}};
}

void draw_layers(Svg& svg, const Plan& plan, const StructureModel& structure) {
  for (const Layer& layer : structure.layers) {
    svg.polygon(strip(plan, structure, layer.station, layer.station + layer.height), "layer",
                shade(plan, layer.relative_density));
  }
}

void draw_outline(Svg& svg, const Plan& plan, const StructureModel& structure) {
  std::vector<SvgPoint> corners;
  const std::vector<Section>& sections = structure.envelope.sections;
  for (const Section& section : sections) {
    corners.push_back({plan.across(width_at(structure, section.station).high), plan.up(section.station)});
  }
  for (auto section = sections.rbegin(); section != sections.rend(); ++section) {
    corners.push_back({plan.across(width_at(structure, section->station).low), plan.up(section->station)});
  }
  svg.polygon(corners, "outline", 0);
}

void draw_parts(Svg& svg, const Plan& plan, const StructureModel& structure) {
  for (const Part& part : structure.envelope.parts) {
    for (const double station : {part.from, part.to}) {
      if (station > 0 && station < structure.envelope.length()) {
        const Extent extent = width_at(structure, station);
        svg.line({plan.across(extent.high) - 6, plan.up(station)}, {plan.across(extent.low) + 6, plan.up(station)},
                 "part");
      }
    }
    const double middle = 0.5 * (part.from + part.to);
    const double beside = plan.across(width_at(structure, middle).high) - 8;
    const bool room_on_the_left = beside > left_margin + 30;
    svg.text({room_on_the_left ? beside : plan.across(width_at(structure, middle).low) + 8, plan.up(middle) + 4},
             part.id, room_on_the_left ? "end" : "start");
  }
}

void draw_widths(Svg& svg, const Plan& plan, const StructureModel& structure) {
  const double length = structure.envelope.length();
  const Extent tip = width_at(structure, 0), root = width_at(structure, length);
  svg.dimension({plan.across(tip.high), plan.bottom() + 22}, {plan.across(tip.low), plan.bottom() + 22},
                millimetres(tip.span()));
  svg.dimension({plan.across(root.high), plan.up(length) - 28}, {plan.across(root.low), plan.up(length) - 28},
                millimetres(root.span()));
}

void draw_structure(Svg& svg, const Plan& plan, const StructureModel& structure) {
  const double length = structure.envelope.length();
  draw_layers(svg, plan, structure);
  draw_outline(svg, plan, structure);
  draw_parts(svg, plan, structure);
  draw_widths(svg, plan, structure);
  const Extent root = width_at(structure, length);
  svg.ground(plan.across(root.high) - 12, plan.across(root.low) + 12, plan.up(length));
  const double axis = plan.across(axis_of(structure));
  svg.line({axis, plan.up(length) - 14}, {axis, plan.bottom() + 8}, "axis");
  svg.text({axis, plan.bottom() + 42}, structure.id);
}

void draw_axis_distance(Svg& svg, const Plan& plan, const std::vector<StructureModel>& structures) {
  if (structures.size() < 2) {
    return;
  }
  const double first = plan.across(axis_of(structures[0])), second = plan.across(axis_of(structures[1]));
  svg.dimension(
      {first, plan.bottom() + 66}, {second, plan.bottom() + 66},
      fmt::format("{} between axes", millimetres(std::abs(axis_of(structures[0]) - axis_of(structures[1])))));
}

void draw_key(Svg& svg, const Plan& plan, double y) {
  if (!(plan.density.high > 0)) {
    return;
  }
  double x = left_margin;
  svg.text({x, y + 10}, "relative density", "start");
  x += 100;
  const int swatches = plan.density.span() > 1e-6 ? 4 : 1;
  for (int i = 0; i < swatches; ++i) {
    const double part = swatches > 1 ? i / (swatches - 1.0) : 0;
    const double density = plan.density.low + part * plan.density.span();
    svg.polygon({{x, y}, {x + 22, y}, {x + 22, y + 12}, {x, y + 12}}, "layer framed", shade(plan, density));
    svg.text({x + 27, y + 10}, fmt::format("{:.1f} %", 100 * density), "start");
    x += 82;
  }
}

struct SectionView {
  Extent y, z;
  double scale, left, bottom;
  SvgPoint at(const std::array<double, 2>& corner) const {
    return {left + (y.high - corner[0]) * scale, bottom - (corner[1] - z.low) * scale};
  }
};

void draw_section(Svg& svg, const SectionView& view, const Section& section, double skin, const std::string& name) {
  std::vector<SvgPoint> corners;
  for (const std::array<double, 2>& corner : outline(section)) {
    corners.push_back(view.at(corner));
  }
  svg.polygon(corners, "layer", 0.18);
  svg.polygon(corners, skin > 0 ? "outline skin" : "outline", 0);
  const double right = view.left + view.y.span() * view.scale;
  const double top = view.bottom - view.z.span() * view.scale;
  svg.dimension({view.left, view.bottom + 22}, {right, view.bottom + 22}, millimetres(view.y.span()));
  svg.dimension({right + 14, top}, {right + 14, view.bottom}, millimetres(view.z.span()));
  svg.text({0.5 * (view.left + right), view.bottom + 42}, name);
}

} // namespace

std::string plan_drawing(const std::vector<StructureModel>& structures) {
  if (structures.empty()) {
    return {};
  }
  const Plan plan = plan_of(structures);
  Svg svg;
  for (const StructureModel& structure : structures) {
    draw_structure(svg, plan, structure);
  }
  svg.dimension({plan.right() + 26, plan.up(plan.length)}, {plan.right() + 26, plan.bottom()},
                millimetres(plan.length));
  draw_axis_distance(svg, plan, structures);
  draw_key(svg, plan, plan.bottom() + 86);
  return svg.take(std::max(plan.right() + right_margin, 460.0), plan.bottom() + bottom_margin,
                  "Plan of the structures, stations up the page, y to the left, to scale");
}

std::string section_drawing(const StructureModel& structure) {
  const Section tip = section_at(structure.envelope, 0);
  const Section root = section_at(structure.envelope, structure.envelope.length());
  const double across = extent_of(tip, 0).span() + extent_of(root, 0).span();
  const double tall = std::max(extent_of(tip, 1).span(), extent_of(root, 1).span());
  const double scale = std::min(360 / across, 200 / tall);
  const double bottom = 16 + tall * scale;
  Svg svg;
  const SectionView tip_view{extent_of(tip, 0), extent_of(tip, 1), scale, 30, bottom};
  draw_section(svg, tip_view, tip, structure.skin_thickness, "struck end");
  const double next = 30 + tip_view.y.span() * scale + 90;
  const SectionView root_view{extent_of(root, 0), extent_of(root, 1), scale, next, bottom};
  draw_section(svg, root_view, root, structure.skin_thickness, "attachment");
  return svg.take(next + root_view.y.span() * scale + 60, bottom + 54,
                  fmt::format("Sections of {} at the struck end and at the attachment, to scale", structure.id));
}

} // namespace crushwright
