#include "review_pack/fill_facts.hpp"

#include "crush_curve/crush_order.hpp"
#include "quantities/units.hpp"

#include <cmath>
#include <fmt/format.h>
#include <numbers>

namespace crushwright {
namespace {

std::string length(double metres) {
  return show(metres, Dimension::length);
}

std::string volume(double cubic_metres) {
  return fmt::format("{:.1f} cm³", 1e6 * cubic_metres);
}

std::string mass(double kilograms) {
  return show(kilograms, Dimension::mass);
}

std::string percent(double part) {
  return fmt::format("{:.1f} %", 100 * part);
}

std::string signed_percent(double part) {
  return std::abs(part) < 5e-5 ? "0.00 %" : fmt::format("{}{:.2f} %", part < 0 ? "−" : "+", 100 * std::abs(part));
}

std::string degrees(double radians) {
  return fmt::format("{:.1f}°", 180 / std::numbers::pi * radians);
}

/// "12,345": thousands apart, because counts of struts are long.
std::string count(std::int64_t number) {
  const std::string digits = std::to_string(number);
  std::string parted;
  for (std::size_t place = 0; place < digits.size(); ++place) {
    if (place > 0 && (digits.size() - place) % 3 == 0)
      parted += ',';
    parted += digits[place];
  }
  return parted;
}

std::string diameters(const FillReport& report) {
  const std::string smallest = length(report.smallest_diameter), largest = length(report.largest_diameter);
  return smallest == largest ? smallest : fmt::format("{} to {}", smallest, largest);
}

std::vector<Fact> strut_facts(const FillReport& report) {
  return {{"cells, whole and cut", fmt::format("{} and {}", count(report.whole_cells), count(report.cut_cells))},
          {"struts, of them cut", fmt::format("{}, {}", count(report.struts), count(report.cut_struts))},
          {"nodes", count(report.nodes)},
          {"length of all struts", fmt::format("{:.1f} m", report.strut_length)},
          {"strut diameter, smallest to largest", diameters(report)},
          {"shortest strut", length(report.shortest_strut)},
          {"room inside skin and end plates", volume(report.room)}};
}

std::vector<Fact> wall_facts(const WallFill& walls, const UnitCell& cell) {
  return {{"cells in the room", fmt::format("{:.0f}", walls.cells)},
          {fmt::format("smallest {}", cell.size_name), length(walls.smallest)},
          {"room inside skin and end plates", volume(walls.room)}};
}

double metal_of(const FilledStructure& filled) {
  return filled.struts ? filled.struts->report.metal_inside.value : filled.walls->metal.value;
}

double error_of(const FilledStructure& filled) {
  return filled.struts ? filled.struts->report.metal_inside.error : filled.walls->metal.error;
}

void add_difference_parts(const FillReport& report, std::vector<Fact>& facts) {
  const FillDifference& parts = report.difference;
  const auto add = [&](const char* name, double part) {
    if (std::abs(part) > 5e-5 * report.estimated)
      facts.push_back({name, signed_percent(part / report.estimated)});
  };
  add("  of it: cells cut at the surface", parts.cut_cells);
  add("  of it: size changing inside a cell", parts.grading);
  add("  of it: density curve and sampling", parts.method);
  add("  of it: very short pieces taken away", parts.short_pieces);
  add("  of it: loose fragments taken away", parts.fragments);
  add("  of it: loose ends", parts.loose_ends);
}

std::string direction_and_share(const BestDirection& best) {
  return fmt::format("{}, {} unsupported ({} directions tried)", direction_text(best.direction),
                     percent(best.trouble.unsupported), best.tried);
}

} // namespace

std::vector<Fact> lattice_facts(const FilledStructure& filled) {
  std::vector<Fact> facts{
      {"cell", filled.cell.name}, {"material", filled.material}, {"cell edge", length(filled.placement.cell_edge)}};
  const std::vector<Fact> more =
      filled.struts ? strut_facts(filled.struts->report) : wall_facts(*filled.walls, filled.cell);
  facts.insert(facts.end(), more.begin(), more.end());
  return facts;
}

std::vector<Fact> mass_facts(const FilledStructure& filled) {
  const double real = metal_of(filled);
  std::vector<Fact> facts{{"lattice in its place",
                           fmt::format("{} ± {:.2g} %", mass(filled.lattice_mass()), 100 * error_of(filled) / real)},
                          {"homogenised estimate of the same room", mass(filled.estimated_mass())},
                          {"difference", signed_percent(filled.lattice_mass() / filled.estimated_mass() - 1)}};
  if (filled.struts)
    add_difference_parts(filled.struts->report, facts);
  facts.push_back({"lattice by the layers of the estimate", mass(filled.layer_mass)});
  facts.push_back({"lattice in its place over that", signed_percent(filled.lattice_mass() / filled.layer_mass - 1)});
  return facts;
}

std::vector<Fact> print_facts(const FillReview& review) {
  if (!review.print)
    return {};
  const BodyPrintFigures& print = *review.print;
  std::vector<Fact> facts{{"build direction", direction_text(print.direction)},
                          {"build height", length(print.build_height)}};
  const double angle = review.printing->machine.self_supporting_angle.value;
  if (review.filled.struts) {
    facts.push_back({fmt::format("strut length flatter than {}", degrees(angle)), percent(print.lattice.share())});
    facts.push_back({"longest run between carried places", length(print.lattice.longest_span)});
    facts.push_back({"nodes that nothing carries from below",
                     fmt::format("{} of {}", count(static_cast<std::int64_t>(print.lattice.nodes_without_base)),
                                 count(static_cast<std::int64_t>(print.lattice.nodes)))});
    facts.push_back({"thinnest strut", length(print.thinnest_strut)});
  }
  facts.push_back(
      {"overhanging skin, outside and inside",
       fmt::format("{:.0f} cm² and {:.0f} cm²", 1e4 * print.overhang.outside, 1e4 * print.overhang.inside)});
  if (print.fit_judged)
    facts.push_back({"fits the build volume", print.fits ? "yes" : "no"});
  if (print.time)
    facts.push_back({"build time", show(*print.time, Dimension::duration)});
  if (print.cost)
    facts.push_back({"build cost", fmt::format("{:.0f} {}", *print.cost, review.printing->rates->currency)});
  if (review.best)
    facts.push_back({"direction with least trouble", direction_and_share(*review.best)});
  return facts;
}

BodyDrawing body_drawing(const FilledStructure& filled, const std::vector<Layer>& layers) {
  BodyDrawing drawing;
  drawing.name = filled.id;
  drawing.shape.surface = &filled.outer;
  drawing.shape.skin_thickness = filled.skin_thickness;
  drawing.shape.cell_edge = filled.placement.cell_edge;
  if (filled.struts)
    drawing.shape.struts = &filled.struts->lattice.body;
  const SurfaceBounds bounds = bounds_of(filled.outer);
  drawing.axis_y = 0.5 * (bounds.low[1] + bounds.high[1]);
  const std::vector<int> order = crush_order(layers);
  for (std::size_t i = 0; i < layers.size(); ++i)
    drawing.layers.push_back(
        {layers[i].station, layers[i].station + layers[i].height, layers[i].relative_density, order[i]});
  return drawing;
}

std::vector<std::string> fill_notes(const FillReview& review) {
  std::vector<std::string> notes = review.filled.notes;
  if (review.filled.struts) {
    const TrimmedLattice& lattice = review.filled.struts->lattice;
    if (lattice.fragments > 0)
      notes.push_back(fmt::format("{} loose fragments with {} struts hung together with nothing and were taken away.",
                                  lattice.fragments, count(lattice.in_fragments.struts)));
    if (lattice.loose.struts > 0)
      notes.push_back(fmt::format("{} struts ended free and were taken away.", count(lattice.loose.struts)));
    if (lattice.ties.struts > 0)
      notes.push_back(fmt::format("{} struts were added to tie free ends.", count(lattice.ties.struts)));
    if (lattice.short_pieces.struts > 0)
      notes.push_back(
          fmt::format("{} pieces shorter than their own radius were left where the skin cuts the lattice; "
                      "they were taken away.",
                      count(lattice.short_pieces.struts)));
  }
  if (!review.filled.mirrors.empty())
    notes.push_back(fmt::format("{} is the mirror image: mirror the files of {} about the car's middle plane.",
                                review.filled.mirrors.front(), review.filled.id));
  if (review.print)
    notes.insert(notes.end(), review.print->faults.begin(), review.print->faults.end());
  else
    notes.push_back("Printing was not judged: the case has no block 'printing'.");
  return notes;
}

} // namespace crushwright
