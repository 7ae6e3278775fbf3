#include "review_pack/print_words.hpp"

#include "quantities/units.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string length(double metres) {
  return show(metres, Dimension::length);
}

std::string asked(const std::optional<Quantity>& limit, const char* word) {
  return limit ? fmt::format("{} {}", word, length(limit->value)) : "";
}

bool same_way(const BuildDirection& a, const BuildDirection& b) {
  constexpr double rounding = 1e-9;
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2] > 1 - rounding;
}

std::string opening_text(const PowderEscape& escape) {
  if (escape.closed) {
    return "none: " + escape.reason;
  }
  return fmt::format("{}{}, {}", escape.at_least ? "at least " : "", length(escape.opening), escape.reason);
}

std::string fit_text(const PrintFigures& figures) {
  if (figures.pieces.empty()) {
    return "in no number of pieces";
  }
  const BuildPiece& widest =
      *std::max_element(figures.pieces.begin(), figures.pieces.end(), [](const BuildPiece& a, const BuildPiece& b) {
        return a.footprint[0] * a.footprint[1] < b.footprint[0] * b.footprint[1];
      });
  return fmt::format("{}; footprint {} by {}{}",
                     figures.pieces.size() == 1 ? "in one piece" : fmt::format("in {} pieces", figures.pieces.size()),
                     length(widest.footprint[0]), length(widest.footprint[1]),
                     widest.turned == 0 ? "" : fmt::format(", turned by {}", show(widest.turned, Dimension::angle)));
}

std::string volume_text(const PrintMachine& machine) {
  if (!machine.build_volume) {
    return "";
  }
  const auto& sides = *machine.build_volume;
  return fmt::format("machine {} by {} by {}", length(sides[0]), length(sides[1]), length(sides[2]));
}

void add_lattice_lines(const PrintingInput& printing, const PrintFigures& figures, std::vector<PrintLine>& lines) {
  if (figures.share_of.empty()) {
    return;
  }
  lines.push_back({fmt::format("lattice below the self-supporting angle, of {}", figures.share_of),
                   show(figures.lattice.share(), Dimension::fraction), ""});
  lines.push_back(
      {"longest span of the lattice", length(figures.longest_span), asked(printing.machine.longest_span, "at most")});
  if (figures.lattice.nodes > 0) {
    lines.push_back({"nodes of a cell that nothing carries from below",
                     fmt::format("{} of {}", figures.lattice.nodes_without_base, figures.lattice.nodes), ""});
  }
}

} // namespace

std::vector<PrintLine> print_lines(const CrashCase& crash_case, const StructureModel& structure) {
  const PrintingInput& printing = *crash_case.printing;
  const PrintFigures& figures = *structure.printing;
  std::vector<PrintLine> lines;
  lines.push_back({"build direction", direction_text(figures.direction), ""});
  lines.push_back(
      {"self-supporting angle", show(printing.machine.self_supporting_angle.value, Dimension::angle), ""});
  add_lattice_lines(printing, figures, lines);
  if (figures.overhang.whole > 0) {
    lines.push_back(
        {"overhang of skin and printed plates, outside", show(figures.overhang.outside, Dimension::area), ""});
    lines.push_back({"the same, roofs inside", show(figures.overhang.inside, Dimension::area), ""});
  }
  lines.push_back({"thinnest feature", fmt::format("{}, {}", length(figures.thinnest), figures.thinnest_name),
                   asked(printing.machine.smallest_feature, "at least")});
  lines.push_back(
      {"way out for powder", opening_text(figures.escape), asked(printing.machine.smallest_opening, "at least")});
  lines.push_back({"stands on a base of its own", figures.stands ? "yes" : "no: supports have to hold it", ""});
  lines.push_back({"build height", length(figures.build_height), ""});
  if (figures.fit_judged) {
    lines.push_back({"fits the machine", fit_text(figures), volume_text(printing.machine)});
  }
  lines.push_back(
      {"metal to melt",
       fmt::format("{}, {}", show(figures.volume, Dimension::volume), show(figures.mass, Dimension::mass)), ""});
  if (figures.time) {
    lines.push_back({"build time", show(*figures.time, Dimension::duration), ""});
  }
  if (figures.cost) {
    lines.push_back({"build cost", fmt::format("{:.0f} {}", *figures.cost, printing.rates->currency), ""});
  }
  return lines;
}

std::string direction_sentence(const StructureModel& structure) {
  if (!structure.print_direction) {
    return "";
  }
  const BestDirection& best = *structure.print_direction;
  if (same_way(best.direction, structure.printing->direction)) {
    return fmt::format("Of {} build directions tried none has less trouble than this one.", best.tried);
  }
  return fmt::format("Least trouble of {} build directions tried: {}, where {} of lattice and skin hang over{}.",
                     best.tried, direction_text(best.direction), show(best.trouble.unsupported, Dimension::fraction),
                     best.trouble.pieces > 1 ? ", in pieces" : "");
}

std::vector<std::string> split_sentences(const StructureModel& structure) {
  const PrintFigures& figures = *structure.printing;
  std::vector<std::string> sentences;
  for (const SplitJoint& joint : figures.joints) {
    sentences.push_back(
        fmt::format("Joint at station {}: flanges and bolts {}; bolts carry {}, the section crushes at {}.",
                    length(joint.station), show(joint.mass, Dimension::mass), show(joint.capacity, Dimension::force),
                    show(joint.crush_force, Dimension::force)));
  }
  if (!sentences.empty()) {
    sentences.emplace_back("Crush presses the flanges together; pull, shear and bending on the bolts, and what the "
                           "flanges do to the folding, are not judged.");
  }
  return sentences;
}

bool has_printing(const Estimate& estimate) {
  return std::any_of(estimate.structures.begin(), estimate.structures.end(),
                     [](const StructureModel& structure) { return structure.printing.has_value(); });
}

std::string caution_printing() {
  return "Overhang, span and feature limits belong to one machine, alloy and set of parameters. Supports, their "
         "removal, "
         "distortion and heat treatment are not judged; what hangs over inside a lattice cannot be cleaned.";
}

std::string caution_powder() {
  return "Metal powder burns, explodes as dust and harms lungs: empty, open and cut printed parts only as trained "
         "people do, by the supplier's data sheet and local rules.";
}

} // namespace crushwright
