#include "crushwright/printability.hpp"
#include "printability/build_cost.hpp"
#include "printability/build_fit.hpp"
#include "printability/machine_limits.hpp"
#include "printability/print_subject.hpp"
#include "quantities/units.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {
namespace {

void keep_thinner(PrintFigures& figures, double size, const std::string& name) {
  if (size > 0 && (figures.thinnest == 0 || size < figures.thinnest)) {
    figures.thinnest = size;
    figures.thinnest_name = name;
  }
}

void find_thinnest(const PreparedSubject& ready, const PrintingInput& printing, PrintFigures& figures) {
  const PrintSubject& subject = *ready.subject;
  if (ready.has_lattice && is_sized(*subject.cell))
    keep_thinner(figures, subject.smallest_size, subject.cell->size_name);
  keep_thinner(figures, subject.skin_thickness, "skin");
  if (printing.plates_printed) {
    keep_thinner(figures, subject.tip_plate, "plate at the struck end");
    keep_thinner(figures, subject.root_plate, "plate at the attachment");
  }
}

std::string share_of(const PreparedSubject& ready) {
  if (!ready.has_lattice)
    return "";
  if (ready.facets == nullptr)
    return "strut length";
  return ready.facets->two_sided ? "wall area" : "surface area";
}

SplitJoint joint_at(const PrintSubject& subject, const PrintJoint& input, double station) {
  SplitJoint joint;
  joint.station = station;
  joint.section_area = properties_of(section_at(*subject.envelope, station)).area;
  joint.mass =
      2 * input.flange_thickness.value * joint.section_area * subject.density + input.bolts * input.bolt_mass.value;
  joint.capacity = input.bolts * input.bolt_capacity.value;
  return joint;
}

void place_pieces(const PreparedSubject& ready, const PrintingInput& printing, PrintFigures& figures) {
  const PrintSubject& subject = *ready.subject;
  figures.fit_judged = printing.machine.build_volume.has_value();
  figures.pieces = pieces_that_fit(*subject.envelope, ready.outer, figures.direction, printing.machine.build_volume);
  if (figures.pieces.empty())
    figures.build_height = placement_of(ready.outer.points, figures.direction, std::nullopt).piece.height;
  for (const BuildPiece& piece : figures.pieces)
    figures.build_height = std::max(figures.build_height, piece.height);
  if (printing.joint)
    for (std::size_t i = 1; i < figures.pieces.size(); ++i)
      figures.joints.push_back(joint_at(subject, *printing.joint, figures.pieces[i].from));
}

void add_effort(const PreparedSubject& ready, const PrintingInput& printing, PrintFigures& figures) {
  const PrintSubject& subject = *ready.subject;
  BuildWork work{{}, subject.volume, subject.mass, subject.surface};
  for (const BuildPiece& piece : figures.pieces)
    work.heights.push_back(piece.height);
  for (const SplitJoint& joint : figures.joints) {
    const double flanges = 2 * printing.joint->flange_thickness.value * joint.section_area;
    work.volume += flanges;
    work.mass += flanges * subject.density;
  }
  figures.volume = work.volume;
  figures.mass = work.mass;
  // What fits in no number of pieces has no build to time.
  if (!printing.rates || figures.pieces.empty())
    return;
  figures.time = build_time(work, *printing.rates);
  figures.cost = build_cost(work, *printing.rates);
}

void add_fit_fault(const PrintingInput& printing, PrintFigures& figures) {
  if (!figures.fit_judged || figures.pieces.size() == 1)
    return;
  const std::string build = fmt::format("along {}", direction_text(figures.direction));
  if (figures.pieces.empty())
    figures.faults.push_back(
        fmt::format("Built {} it does not fit the machine, not even in {} pieces.", build, most_pieces));
  else
    figures.faults.push_back(fmt::format(
        "Built {} it does not fit the machine in one piece; {} pieces of {} length do{}.", build,
        figures.pieces.size(), show(figures.pieces.front().to - figures.pieces.front().from, Dimension::length),
        printing.joint ? "" : ", and without `joint` their joints are not in mass, time and cost"));
}

} // namespace

std::string direction_text(const BuildDirection& direction) {
  for (std::size_t i = 0; i < 3; ++i)
    if (std::abs(direction[i]) > 1 - 1e-12)
      return std::string(direction[i] < 0 ? "-" : "+") + "xyz"[i];
  // Without this a rounded zero may show its sign.
  const auto plain = [](double value) { return std::abs(value) < 5e-4 ? 0.0 : value; };
  return fmt::format("({:.3g}, {:.3g}, {:.3g})", plain(direction[0]), plain(direction[1]), plain(direction[2]));
}

PrintFigures print_figures(const PrintSubject& subject, const PrintingInput& printing) {
  const PreparedSubject ready = prepared(subject, printing);
  const double angle = printing.machine.self_supporting_angle.value;
  PrintFigures figures;
  figures.direction = printing.build_direction;
  figures.lattice = lattice_support(ready, figures.direction, angle);
  figures.share_of = share_of(ready);
  figures.longest_span = figures.lattice.longest_span * subject.cell_edge;
  figures.overhang = overhang_of(ready.shell, figures.direction, angle);
  find_thinnest(ready, printing, figures);
  figures.escape = powder_escape(subject, printing);
  figures.stands = stands_on_base(ready.outer.points, figures.direction);
  place_pieces(ready, printing, figures);
  add_effort(ready, printing, figures);
  add_fit_fault(printing, figures);
  add_fault(figures.faults, opening_fault(printing.machine, figures.escape));
  add_fault(figures.faults, thin_feature_fault(printing.machine, figures.thinnest, figures.thinnest_name));
  add_fault(figures.faults, span_fault(printing.machine, figures.longest_span));
  return figures;
}

} // namespace crushwright
