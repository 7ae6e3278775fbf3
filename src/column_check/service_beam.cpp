#include "column_check/service_beam.hpp"

#include "column_check/service_shear.hpp"
#include "crushwright/errors.hpp"

#include <algorithm>
#include <cstddef>

#include <fmt/format.h>

namespace crushwright {
namespace {

SpaceVector plus(const SpaceVector& a, const SpaceVector& b, double factor = 1) {
  return {a[0] + factor * b[0], a[1] + factor * b[1], a[2] + factor * b[2]};
}

SpaceVector times(const SpaceVector& a, double factor) {
  return {factor * a[0], factor * a[1], factor * a[2]};
}

SpaceVector cross(const SpaceVector& a, const SpaceVector& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

SpaceVector place_of(const BeamSection& section) {
  return {section.station, section.centroid[0], section.centroid[1]};
}

double mixed(double a, double b, double part) {
  return a + part * (b - a);
}

std::array<double, 2> mixed(const std::array<double, 2>& a, const std::array<double, 2>& b, double part) {
  return {mixed(a[0], b[0], part), mixed(a[1], b[1], part)};
}

BeamMaterial mixed(const BeamMaterial& a, const BeamMaterial& b, double part) {
  BeamMaterial between;
  for (double BeamMaterial::*value :
       {&BeamMaterial::youngs_modulus, &BeamMaterial::shear_modulus, &BeamMaterial::first_yield,
        &BeamMaterial::collapse_stress, &BeamMaterial::shear_strength, &BeamMaterial::density,
        &BeamMaterial::metal_proof_stress})
    between.*value = mixed(a.*value, b.*value, part);
  return between;
}

BeamSection mixed(const BeamSection& a, const BeamSection& b, double part) {
  BeamSection between;
  for (double BeamSection::*value :
       {&BeamSection::station, &BeamSection::lattice_area, &BeamSection::skin_area, &BeamSection::skin_thickness})
    between.*value = mixed(a.*value, b.*value, part);
  for (std::array<double, 2> BeamSection::*value :
       {&BeamSection::centroid, &BeamSection::lattice_second_moment, &BeamSection::skin_second_moment,
        &BeamSection::lattice_plastic_modulus, &BeamSection::skin_plastic_modulus, &BeamSection::half_depth})
    between.*value = mixed(a.*value, b.*value, part);
  between.lattice = mixed(a.lattice, b.lattice, part);
  between.skin = mixed(a.skin, b.skin, part);
  return between;
}

double part_between(const BeamSection& a, const BeamSection& b, double station) {
  return (station - a.station) / (b.station - a.station);
}

/// Force per length of pressure and inertia [N/m].
SpaceVector load_per_length(const BeamSection& section, const BeamLoads& loads) {
  const double mass = section.lattice.density * section.lattice_area + section.skin.density * section.skin_area;
  // A pressure along y works on the height, one along z on the width.
  const double face = 2 * section.half_depth[loads.pushes[1] != 0 ? about_lateral : about_vertical];
  return plus(times(loads.pushes, loads.pressure * face), loads.acceleration, -mass);
}

/// The load on a cut farther on, with what acts between; exact for linear sections.
CutLoad carried_on(const BeamCut& from, const BeamSection& to, const BeamLoads& loads) {
  const BeamSection middle = mixed(from.section, to, 0.5);
  const double length = to.station - from.section.station;
  CutLoad at{from.load.force,
             plus(from.load.moment, cross(plus(place_of(from.section), place_of(to), -1), from.load.force))};
  const std::array<std::pair<const BeamSection*, double>, 3> simpson{
      {{&from.section, length / 6}, {&middle, 4 * length / 6}, {&to, length / 6}}};
  for (const auto& [section, weight] : simpson) {
    const SpaceVector force = times(load_per_length(*section, loads), weight);
    at.force = plus(at.force, force);
    at.moment = plus(at.moment, cross(plus(place_of(*section), place_of(to), -1), force));
  }
  return at;
}

/// Work of a cut's strains on the cut load of a unit force at the tip, per length.
double virtual_work(const BeamCut& cut, const SpaceVector& tip, std::size_t direction) {
  SpaceVector unit{};
  unit[direction] = 1;
  const SpaceVector moment = cross(plus(tip, place_of(cut.section), -1), unit);
  const BeamSection& section = cut.section;
  return cut.load.force[0] * unit[0] / section.elastic_axial() +
         cut.load.moment[2] * moment[2] / section.elastic_bending(about_vertical) +
         cut.load.moment[1] * moment[1] / section.elastic_bending(about_lateral) +
         cut.load.force[1] * unit[1] / shear_stiffness(section, about_vertical) +
         cut.load.force[2] * unit[2] / shear_stiffness(section, about_lateral);
}

void check_stiffness(const BeamSection& section) {
  for (const double stiffness :
       {section.elastic_axial(), section.elastic_bending(about_vertical), section.elastic_bending(about_lateral),
        shear_stiffness(section, about_vertical), shear_stiffness(section, about_lateral)})
    if (!(stiffness > 0))
      throw OutOfDomain(fmt::format("the section at {} m has a stiffness of {}", section.station, stiffness));
}

/// Struck end, sections, the force's place; rising, each once.
std::vector<double> cut_stations(const BeamColumn& column, const BeamLoads& loads) {
  std::vector<double> stations{0, loads.station};
  for (const BeamSection& section : column.sections)
    stations.push_back(section.station);
  std::sort(stations.begin(), stations.end());
  stations.erase(std::unique(stations.begin(), stations.end()), stations.end());
  return stations;
}

void put_on(const SpaceVector& force, std::vector<BeamCut>& cuts) {
  if (force == SpaceVector{})
    return;
  cuts.push_back(cuts.back());
  cuts.back().load.force = plus(cuts.back().load.force, force);
}

} // namespace

BeamSection section_of(const BeamColumn& column, double station) {
  const std::vector<BeamSection>& given = column.sections;
  const auto after = std::find_if(given.begin(), given.end(),
                                  [&](const BeamSection& section) { return section.station >= station; });
  BeamSection found;
  if (after == given.end()) {
    found = given.back();
  } else if (after == given.begin()) {
    found = given.front();
    // Half a layer: sizes stay, because those of a pointed tip would fall below nothing; the axis goes on.
    if (given.size() > 1)
      found.centroid = mixed(given[0].centroid, given[1].centroid, part_between(given[0], given[1], station));
  } else {
    found = mixed(*std::prev(after), *after, part_between(*std::prev(after), *after, station));
  }
  found.station = station;
  return found;
}

double shear_stiffness(const BeamSection& section, Bending axis) {
  return lattice_shear_coefficient * section.lattice.shear_modulus * section.lattice_area +
         skin_shear_coefficient(section, axis) * section.skin.shear_modulus * section.skin_area;
}

BeamResponse beam_response(const BeamColumn& column, const BeamLoads& loads) {
  if (!(loads.station >= 0 && loads.station <= column.length))
    throw OutOfDomain(fmt::format("a force acts at {} m of a structure {} m long", loads.station, column.length));
  BeamResponse response;
  const SpaceVector tip = place_of(section_of(column, 0));
  for (const double station : cut_stations(column, loads)) {
    const BeamSection section = section_of(column, station);
    check_stiffness(section);
    if (response.cuts.empty()) {
      response.cuts.push_back({section, {}});
    } else {
      const BeamCut from = response.cuts.back();
      BeamCut middle{mixed(from.section, section, 0.5), {}};
      middle.load = carried_on(from, middle.section, loads);
      const BeamCut to{section, carried_on(middle, section, loads)};
      for (std::size_t direction = 0; direction < 3; ++direction)
        response.tip_displacement[direction] +=
            (section.station - from.section.station) / 6 *
            (virtual_work(from, tip, direction) + 4 * virtual_work(middle, tip, direction) +
             virtual_work(to, tip, direction));
      response.cuts.push_back(to);
    }
    if (station == 0)
      put_on(loads.tip_force, response.cuts);
    if (station == loads.station)
      put_on(loads.force, response.cuts);
  }
  return response;
}

} // namespace crushwright
