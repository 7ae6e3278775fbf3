#include "estimate/impact_setup.hpp"

#include "quantities/units.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace crushwright {
namespace {

/// A striker below this many times the mass of what it hits meets inertia that the quasi-static curve leaves out.
constexpr double heavy_striker = 10;

SeriesEnd series_end(Side side) {
  // A strong structure crushes a weak attachment; a weak one is left alone by what stays stiff around it.
  return side == Side::weak ? SeriesEnd::high : side == Side::strong ? SeriesEnd::low : SeriesEnd::nominal;
}

const BodyInput& carrier(const ImpactInput& impact) {
  return impact.structures_on_striker ? impact.striker : impact.struck;
}

Body nominal_body(const BodyInput& input) {
  return {input.id, input.held ? 0 : input.mass.value, input.held};
}

bool is_struck(const Contact& contact) {
  return contact.struck;
}

} // namespace

ImpactSetup::ImpactSetup(const ImpactInput& impact, const std::vector<StructureModel>& structures)
    : impact_(impact), structures_(structures) {
  find_contacts();
  find_series();
  find_masses();
  find_obstacle();
  const bool oblique = impact.force_angle.high_end() > 0;
  for (std::size_t i = 0; i < structures.size(); ++i)
    needs_own_curves_ = needs_own_curves_ || structures[i].has_rate_law || structures[i].attachment ||
                        (oblique && structures[i].oblique) ||
                        (!contacts_.empty() && contacts_[i].struck && contacts_[i].bearing_share < 1);
}

void ImpactSetup::find_contacts() {
  if (!impact_.face)
    return;
  std::vector<StructurePlace> places;
  for (const StructureModel& structure : structures_)
    places.push_back({structure.id, &structure.envelope, structure.lateral, structure.vertical});
  contacts_ = crushwright::contacts(*impact_.face, places);
  nothing_is_struck_ = std::none_of(contacts_.begin(), contacts_.end(), is_struck);
}

void ImpactSetup::find_series() {
  const BodyInput& body = carrier(impact_);
  std::vector<StructurePlace> places;
  std::vector<const AttachmentInput*> attachments;
  bool any = impact_.face.has_value() || body.rest.has_value();
  for (const StructureModel& structure : structures_) {
    places.push_back({structure.id, &structure.envelope, structure.lateral, structure.vertical});
    attachments.push_back(structure.attachment ? &*structure.attachment : nullptr);
    any = any || structure.attachment.has_value();
  }
  if (!any)
    return;
  for (const Side side : {Side::weak, Side::nominal, Side::strong})
    series_[static_cast<std::size_t>(side)] =
        series_curves(impact_.face ? &*impact_.face : nullptr, places, contacts_, attachments,
                      body.rest ? &*body.rest : nullptr, series_end(side));
}

void ImpactSetup::find_masses() {
  speed_ = impact_.closing_speed.value;
  const double whole = effective_mass(nominal_body(impact_.striker), nominal_body(impact_.struck));
  const auto struck =
      static_cast<double>(std::max<std::ptrdiff_t>(1, std::count_if(contacts_.begin(), contacts_.end(), is_struck)));
  for (const StructureModel& structure : structures_) {
    double share = contacts_.empty() ? 0 : 1 / struck;
    for (const ShareInput& each : impact_.shares)
      if (each.structure == structure.id)
        share = each.share;
    moving_masses_.push_back(share * whole);
  }
}

void ImpactSetup::find_obstacle() {
  for (const Contact& contact : contacts_)
    for (const std::string& note : contact.notes)
      notes_.push_back(fmt::format("{}: {}", impact_.id, note));
  if (nothing_is_struck_)
    obstacle_ = "the face meets no structure, so nothing absorbs the energy";
  else
    weigh_striker();
}

void ImpactSetup::weigh_striker() {
  double hit = 0;
  for (std::size_t i = 0; i < structures_.size(); ++i)
    if (moving_masses_[i] > 0 && (contacts_.empty() || contacts_[i].struck))
      hit += structures_[i].mass.total;
  const BodyInput& other = impact_.structures_on_striker ? impact_.struck : impact_.striker;
  if (other.held || other.mass.low_end() >= heavy_striker * hit)
    return;
  const std::string weights = fmt::format("{} weighs {}, what it hits {}", other.id,
                                          show(other.mass.low_end(), Dimension::mass), show(hit, Dimension::mass));
  const char* advice = impact_.resolved ? "See the resolved run." : "Add `resolved: true` to the impact to see it.";
  if (other.mass.low_end() < hit)
    obstacle_ = fmt::format("{}: the structure's own inertia decides then, and a force-crush curve leaves it out. {}",
                            weights, advice);
  else
    notes_.push_back(fmt::format("{}: {}. The structure's own inertia adds to the force at the struck end, which the "
                                 "force-crush curve leaves out. {}",
                                 impact_.id, weights, advice));
}

double ImpactSetup::force_factor(std::size_t structure, Side side) const {
  const StructureModel& model = structures_[structure];
  double factor = 1;
  if (model.oblique && impact_.force_angle.high_end() > 0) {
    const ObliqueFactor oblique = factor_at(*model.oblique, force_angle(side));
    const double on_lattice = side == Side::weak     ? oblique.low
                              : side == Side::strong ? oblique.high
                                                     : 0.5 * (oblique.low + oblique.high);
    factor = 1 - model.lattice_share * (1 - on_lattice);
  }
  // The part of the tip that the face does not cover may follow behind the covered one or stay: both are possible.
  if (!contacts_.empty() && contacts_[structure].struck && side != Side::strong)
    factor *= contacts_[structure].bearing_share;
  return factor;
}

double ImpactSetup::force_angle(Side side) const {
  return side == Side::weak     ? impact_.force_angle.high_end()
         : side == Side::strong ? impact_.force_angle.low_end()
                                : impact_.force_angle.value;
}

double ImpactSetup::attachment_capacity(std::size_t structure, Side side) const {
  const auto& attachment = structures_[structure].attachment;
  if (!attachment)
    return std::numeric_limits<double>::infinity();
  const Quantity& capacity = attachment->capacity;
  return side == Side::weak ? capacity.high_end() : side == Side::strong ? capacity.low_end() : capacity.value;
}

std::vector<Group> ImpactSetup::groups(const std::vector<const CrushCurve*>& curves, Side side) const {
  const SeriesCurves& series = series_[static_cast<std::size_t>(side)];
  const auto line = [&](std::size_t i) {
    Line made{structures_[i].id, curves[i], {}, 0, structures_[i].lateral, structures_[i].vertical};
    if (!series.elements.empty())
      made.with = series.elements[i];
    return made;
  };
  std::vector<Group> groups;
  if (!impact_.face) {
    for (const ShareInput& share : impact_.shares)
      for (std::size_t i = 0; i < structures_.size(); ++i)
        if (structures_[i].id == share.structure)
          groups.push_back({share.share, {line(i)}, series.common});
    return groups;
  }
  Group together{1, {}, series.common};
  for (std::size_t i = 0; i < structures_.size(); ++i)
    if (contacts_[i].struck) {
      together.lines.push_back(line(i));
      together.lines.back().stagger = contacts_[i].stagger;
      together.lines.back().lateral = contacts_[i].lateral;
      together.lines.back().vertical = contacts_[i].vertical;
    }
  if (!together.lines.empty())
    groups.push_back(std::move(together));
  return groups;
}

} // namespace crushwright
