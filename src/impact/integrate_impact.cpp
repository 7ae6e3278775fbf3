#include "crushwright/errors.hpp"
#include "crushwright/impact.hpp"
#include "impact/greatest_total_force.hpp"
#include "impact/group_motion.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace crushwright {
namespace {

void check_curve(const std::string& id, const CrushCurve* curve) {
  if (curve == nullptr || curve->crush.size() < 2 || curve->force.size() != curve->crush.size())
    throw OutOfDomain(fmt::format("{} has no crush curve of at least two points", id));
}

void check_element(const SeriesElement& element) {
  check_curve(element.id, element.curve);
  if (!std::is_sorted(element.curve->force.begin(), element.curve->force.end()))
    throw OutOfDomain(
        fmt::format("the force of {}, in series with a structure, falls; it must never fall", element.id));
}

void check_line(const Line& line) {
  check_curve(line.structure, line.curve);
  if (!(line.stagger >= 0) || !std::isfinite(line.stagger))
    throw OutOfDomain(fmt::format("the tip of {} stands {} m behind the first; it must be 0 or more", line.structure,
                                  line.stagger));
  for (const SeriesElement& element : line.with)
    check_element(element);
}

void check(double closing_speed, const std::vector<Group>& groups) {
  if (!(closing_speed > 0) || !std::isfinite(closing_speed))
    throw OutOfDomain(fmt::format("the closing speed is {} m/s; it must be above 0", closing_speed));
  double sum = 0;
  for (const Group& group : groups) {
    if (group.lines.empty())
      throw OutOfDomain("a group of an impact has no structure");
    if (!(group.share > 0 && group.share <= 1 + 1e-12))
      throw OutOfDomain(fmt::format("the share of {} is {}; it must be above 0 and at most 1",
                                    group.lines.front().structure, group.share));
    for (const Line& line : group.lines)
      check_line(line);
    for (const SeriesElement& element : group.common)
      check_element(element);
    sum += group.share;
  }
  if (std::abs(sum - 1) > 1e-9)
    throw OutOfDomain(fmt::format("the shares of an impact sum to {}; they must sum to 1", sum));
}

bool lone(const Group& group) {
  return group.lines.size() == 1 && group.common.empty() && group.lines[0].with.empty();
}

/// Two structures, each alone in its group, that move alike.
bool twins(const Group& a, const Group& b) {
  return lone(a) && lone(b) && a.share == b.share && a.lines[0].curve == b.lines[0].curve &&
         a.lines[0].stagger == b.lines[0].stagger;
}

/// A lone group has one column and no element, but others before it may have more.
void append_twin(const Group& group, std::size_t twin, std::size_t index, ImpactMotion& motion) {
  motion.groups.push_back(motion.groups[twin]);
  const auto of_twin = std::find_if(motion.columns.begin(), motion.columns.end(),
                                    [&](const ColumnMotion& column) { return column.group == twin; });
  ColumnMotion column = *of_twin;
  column.structure = group.lines[0].structure;
  column.lateral = group.lines[0].lateral;
  column.vertical = group.lines[0].vertical;
  column.group = index;
  motion.columns.push_back(std::move(column));
}

} // namespace

ImpactMotion integrate_impact(const Body& striker, const Body& struck, double closing_speed,
                              const std::vector<Group>& groups) {
  check(closing_speed, groups);
  ImpactMotion motion;
  motion.striker = striker;
  motion.struck = struck;
  motion.closing_speed = closing_speed;
  motion.effective_mass = effective_mass(striker, struck);
  motion.groups.reserve(groups.size());
  motion.columns.reserve(groups.size());
  for (std::size_t i = 0; i < groups.size(); ++i) {
    std::size_t twin = 0;
    while (twin < i && !twins(groups[twin], groups[i]))
      ++twin;
    if (twin < i)
      append_twin(groups[i], twin, i, motion);
    else
      append_group_motion(groups[i], i, motion);
  }
  EnergyLedger& ledger = motion.ledger;
  ledger.input = 0.5 * motion.effective_mass * closing_speed * closing_speed;
  for (const ColumnMotion& column : motion.columns)
    ledger.absorbed += column.absorbed;
  for (const ElementMotion& element : motion.elements)
    ledger.elsewhere += element.absorbed;
  for (const GroupMotion& group : motion.groups)
    ledger.returned += 0.5 * group.moving_mass * group.rebound_speed * group.rebound_speed;
  motion.peak_total_force = motion.groups.empty() ? 0 : greatest_total_force(motion);
  ledger.residual = ledger.input - ledger.absorbed - ledger.elsewhere - ledger.released - ledger.returned;
  return motion;
}

} // namespace crushwright
