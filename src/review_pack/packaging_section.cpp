#include "review_pack/html.hpp"
#include "review_pack/packaging_words.hpp"
#include "review_pack/page.hpp"
#include "review_pack/svg.hpp"

#include <algorithm>
#include <cstddef>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string millimetres(double metres) {
  return fmt::format("{:.1f} mm", metres * 1e3);
}

std::string litres(double cubic_metres) {
  return fmt::format("{:.2f} L", cubic_metres * 1e3);
}

std::string place_html(const std::array<double, 3>& place) {
  return fmt::format("{:.0f}, {:.0f}, {:.0f} mm", place[0] * 1e3, place[1] * 1e3, place[2] * 1e3);
}

SurfaceBounds bounds_of_body(const StructureModel& structure) {
  return structure.packaging ? structure.packaging->bounds() : bounds_of(*structure.envelope.surface);
}

std::string sizes_html(const StructureModel& structure) {
  const auto size = bounds_of_body(structure).size();
  std::vector<std::vector<std::string>> rows = {
      {"length, width, height over all",
       fmt::format("{} × {} × {}", millimetres(size[0]), millimetres(size[1]), millimetres(size[2]))},
      {"outer volume", litres(volume_of(structure.envelope))},
      {"volume inside the skin, for the lattice", litres(lattice_volume(structure))}};
  if (structure.envelope.surface) {
    const CentroidLine line = centroid_line(structure.envelope);
    rows.push_back({"surface", fmt::format("{}, {} triangles", escape_html(structure.envelope.file->name),
                                           structure.envelope.surface->triangles.size())});
    rows.push_back(
        {"lean of the line of centroids to the crush axis",
         fmt::format("{} on the whole, {} at its steepest over a tenth of the length, about station {}",
                     angle_text(line.tilt), angle_text(line.steepest_tilt), millimetres(line.steepest_station))});
  }
  return table({{""}, {""}}, rows);
}

/// The reach of a face over the stations, to scale; the steepest length drawn bold.
std::string ramp_drawing(const StructureModel& structure, const RampProfile& ramp) {
  constexpr double width = 340, left = 30, top = 30;
  const double length = structure.envelope.length(), scale = width / length;
  const auto [low, high] = std::minmax_element(ramp.reach.begin(), ramp.reach.end());
  const double base = top + std::max(40.0, (*high - *low) * scale);
  const auto at = [&](std::size_t i) {
    return SvgPoint{left + ramp.station[i] * scale, base - (ramp.reach[i] - *low) * scale};
  };
  std::vector<SvgPoint> profile, steepest;
  const double to = ramp.from + structure.packaging->input().ramp_length;
  for (std::size_t i = 0; i < ramp.station.size(); ++i) {
    profile.push_back(at(i));
    if (ramp.station[i] >= ramp.from - 1e-9 && ramp.station[i] <= to + 1e-9) {
      steepest.push_back(at(i));
    }
  }
  Svg svg;
  svg.path(profile, "outline");
  svg.path(steepest, "outline skin");
  svg.line({left, base + 12}, {left + width, base + 12}, "axis");
  const double middle = left + 0.5 * (ramp.from + to) * scale;
  svg.text({std::clamp(middle, left + 30, left + width - 30), top - 12}, angle_text(ramp.steepest));
  svg.text({left, base + 30}, "struck end", "start");
  svg.text({left + width, base + 30}, "attachment", "end");
  return svg.take(
      left + width + 40, base + 40,
      fmt::format("How far the {} face of {} reaches from the axis, to scale", name_of(ramp.face), structure.id));
}

std::string ramps_html(const StructureModel& structure) {
  const PackagingInput& input = structure.packaging->input();
  if (structure.packaging->ramps().empty()) {
    return {};
  }
  std::vector<std::vector<std::string>> rows;
  std::string drawings;
  for (const RampProfile& ramp : structure.packaging->ramps()) {
    rows.push_back({std::string(name_of(ramp.face)), angle_text(ramp.steepest),
                    fmt::format("{} to {}", millimetres(ramp.from), millimetres(ramp.from + input.ramp_length)),
                    angle_text(input.ramp_limit), ramp.steepest > input.ramp_limit ? "beyond it" : "within it"});
    drawings +=
        fmt::format("<figure>{}<figcaption>The {} face to scale; its steepest {} drawn bold. Air runs from right "
                    "to left.</figcaption></figure>\n",
                    ramp_drawing(structure, ramp), name_of(ramp.face), millimetres(input.ramp_length));
  }
  return table({{"Flow face"}, {"Steepest ramp", true}, {"Stations"}, {"Warned of beyond", true}, {""}}, rows) +
         element("div", drawings, "beside") + "\n";
}

std::string after_cell(const Estimate& estimate, const StructureModel& structure, std::size_t keep_out, Side side) {
  std::string cell;
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    const Clearance* clearance = clearance_after(impact, structure.id, keep_out, side);
    if (clearance != nullptr) {
      cell += fmt::format("{}{}", cell.empty() ? "" : "<br>", clearance_text(*clearance));
    }
  }
  return cell;
}

std::string impacts_cell(const Estimate& estimate, const StructureModel& structure, std::size_t keep_out) {
  std::string cell;
  for (const ImpactOutcome& impact : estimate.deciding.impacts) {
    if (clearance_after(impact, structure.id, keep_out, Side::nominal) != nullptr) {
      cell += fmt::format("{}{}", cell.empty() ? "" : "<br>", escape_html(impact.id));
    }
  }
  return cell;
}

std::string clearances_html(const Estimate& estimate, const StructureModel& structure) {
  const PackagingInput& input = structure.packaging->input();
  std::vector<std::vector<std::string>> rows;
  for (std::size_t i = 0; i < input.keep_outs.size(); ++i) {
    const Clearance& before = structure.packaging->clearances()[i];
    rows.push_back({escape_html(input.keep_outs[i].id), millimetres(input.keep_outs[i].clearance),
                    clearance_text(before), place_html(before.on_structure),
                    millimetres(input.keep_outs[i].clearance_after), impacts_cell(estimate, structure, i),
                    after_cell(estimate, structure, i, Side::weak), after_cell(estimate, structure, i, Side::nominal),
                    after_cell(estimate, structure, i, Side::strong)});
  }
  if (rows.empty()) {
    return {};
  }
  return table({{"Keep-out"},
                {"Asked before", true},
                {"Before the crush", true},
                {"Nearest: station, y, z"},
                {"Asked after", true},
                {"Impact"},
                {"Weak", true},
                {"Nominal", true},
                {"Strong", true}},
               rows);
}

std::string structure_html(const Estimate& estimate, std::size_t index) {
  const StructureModel& structure = estimate.structures[index];
  std::string html = fmt::format("<h3>{}</h3>\n", escape_html(with_mirrors(estimate, index))) + sizes_html(structure);
  if (structure.packaging) {
    html += ramps_html(structure) + clearances_html(estimate, structure);
  }
  return html;
}

} // namespace

std::string packaging_section(const PageContent& content) {
  const Estimate& estimate = content.estimate;
  if (!has_room_to_show(estimate)) {
    return {};
  }
  std::string html = "<section id=\"packaging\">\n<h2>Packaging</h2>\n";
  for (const std::size_t i : own_structures(estimate)) {
    if (estimate.structures[i].packaging || estimate.structures[i].envelope.surface) {
      html += structure_html(estimate, i);
    }
  }
  html +=
      "<p class=\"small quiet\">Clearances are to the outer surface, below 0 inside it; after the crush also to the "
      "striker, a plane across the whole car. Points move along the axis only: folds and bulges that stand out "
      "sideways are not modelled and need room of their own.</p>\n";
  return html + "</section>\n";
}

} // namespace crushwright
