#include "review_pack/loading_parts.hpp"

#include "quantities/units.hpp"
#include "review_pack/html.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string reach_text(const Contact& contact) {
  std::string text;
  const auto add = [&](double reach, const char* where) {
    if (reach > 0) {
      text += fmt::format("{}{} {}", text.empty() ? "" : ", ", show(reach, Dimension::length), where);
    }
  };
  add(contact.below, "below");
  add(contact.above, "above");
  add(contact.beside, "beside");
  return text.empty() ? "none" : text;
}

std::string first_crush_text(const ElementMotion& element) {
  return element.first_crush_time < 0 ? "stays elastic" : show(element.first_crush_time, Dimension::time);
}

std::string face_sentence(const FaceInput& face) {
  std::string text = fmt::format("Face: {}", name_of(face.shape));
  if (face.shape == FaceShape::pole) {
    text += fmt::format(", diameter {}", show(face.width.value, Dimension::length));
  }
  if (face.shape == FaceShape::flat) {
    text += fmt::format(", {} wide", show(face.width.value, Dimension::length));
    if (face.height.value > 0) {
      text += fmt::format(", {} to {} above ground", show(face.lower_edge.value, Dimension::length),
                          show(face.lower_edge.value + face.height.value, Dimension::length));
    }
  }
  if (face.shape != FaceShape::wall) {
    text += fmt::format(", its middle at y {}", show(face.lateral.value, Dimension::length));
  }
  if (face.angle.value != 0) {
    text +=
        fmt::format(", turned by {} (positive: its left end comes first)", show(face.angle.value, Dimension::angle));
  }
  text += face.blocks.empty() ? ", rigid." : ".";
  for (const FaceBlock& block : face.blocks) {
    text += fmt::format(" Block {}: {} over {} depth, locks at {}, {}.", block.id,
                        show(block.crush_pressure.value, Dimension::stress),
                        show(block.depth.value, Dimension::length), show(block.lock_up.value, Dimension::fraction),
                        block.spread == Spread::imprint ? "punched by each structure's own section"
                                                        : "pushed as a whole behind a plate");
  }
  return text;
}

} // namespace

std::string contact_part(const ImpactOutcome& impact) {
  if (!impact.face) {
    return {};
  }
  std::vector<std::vector<std::string>> rows;
  for (const Contact& contact : impact.contacts) {
    rows.push_back({element("span", escape_html(contact.structure), "id"), contact.struck ? "struck" : "missed",
                    value_html(contact.bearing_share, Dimension::fraction),
                    value_html(contact.bearing_area, Dimension::area), escape_html(reach_text(contact)),
                    contact.struck ? value_html(contact.stagger, Dimension::length) : "",
                    contact.struck ? fmt::format("{}, {}", value_html(contact.lateral, Dimension::length),
                                                 value_html(contact.vertical, Dimension::length))
                                   : ""});
  }
  return element("p", escape_html(face_sentence(*impact.face)), "small") + "\n" +
         table({{"Structure"},
                {"Face"},
                {"Share of the tip covered", true},
                {"Bearing area", true},
                {"Tip reaches past the face"},
                {"Met after closing by", true},
                {"Force at y, z", true}},
               rows);
}

std::string element_part(const ImpactOutcome& impact) {
  if (impact.motion.elements.empty()) {
    return {};
  }
  std::vector<std::vector<std::string>> rows;
  for (const ElementMotion& element_motion : impact.motion.elements) {
    rows.push_back(
        {element("span", escape_html(element_motion.id), "id"), std::string(name_of(element_motion.kind)),
         element_motion.structure.empty() ? "all together"
                                          : element("span", escape_html(element_motion.structure), "id"),
         value_html(element_motion.peak_force, Dimension::force),
         value_html(element_motion.peak_crush, Dimension::length) + (element_motion.locked ? ", locked" : ""),
         value_html(element_motion.lasting_crush, Dimension::length), escape_html(first_crush_text(element_motion)),
         value_html(element_motion.absorbed, Dimension::energy)});
  }
  return "<h4>In series with the structures, at nominal</h4>\n" + table({{"Element"},
                                                                         {"Kind"},
                                                                         {"Stands with"},
                                                                         {"Peak force", true},
                                                                         {"Greatest crush", true},
                                                                         {"Lasting", true},
                                                                         {"Crushes from", true},
                                                                         {"Absorbed", true}},
                                                                        rows);
}

std::string yaw_part(const ImpactOutcome& impact) {
  if (!impact.yaw) {
    return {};
  }
  const YawLoad& yaw = *impact.yaw;
  std::string text = fmt::format(
      "Yaw about the centre of mass, from the motion without turning: peak moment {}, resultant {} from the middle",
      show(yaw.peak_moment, Dimension::moment), show(yaw.arm, Dimension::length));
  if (yaw.rate != 0) {
    text += fmt::format("; left free, the body would turn to the {} at {:.0f} °/s and take {} of the energy with it",
                        yaw.rate > 0 ? "left" : "right", std::abs(yaw.rate) * 180 / std::numbers::pi,
                        show(yaw.share_of_energy, Dimension::fraction));
  } else if (yaw.peak_moment > 0) {
    text += "; without a `yaw_radius` of that body its turning cannot be told";
  }
  return element("p", prose_html(text + ". The motion itself is not turned."), "small") + "\n";
}

std::string after_hit_part(const ImpactOutcome& impact) {
  std::vector<std::string> texts;
  for (std::size_t i = 0; i < impact.after_hit.size(); ++i) {
    const AfterHit& left = impact.after_hit[i];
    const std::string text = fmt::format(
        "{} of the layers have collapsed, {} of length stand, {} ({}) of the energy is left to the end of the "
        "usable stroke",
        show(left.crushed_share, Dimension::fraction), show(left.length_left, Dimension::length),
        show(left.energy_left, Dimension::energy), show(left.share_of_energy, Dimension::fraction));
    const std::string& structure = impact.motion.columns.at(i).structure;
    const auto same = std::find_if(texts.begin(), texts.end(), [&](const std::string& other) {
      return other.size() > text.size() && other.compare(other.size() - text.size(), text.size(), text) == 0;
    });
    if (same == texts.end()) {
      texts.push_back(structure + ": " + text);
    } else {
      same->insert(same->size() - text.size() - 2, ", " + structure);
    }
  }
  std::string html;
  for (const std::string& text : texts) {
    html += element("p", escape_html("After this hit, " + text + "."), "small") + "\n";
  }
  return html;
}

} // namespace crushwright
