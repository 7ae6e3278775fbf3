#include "result_file/impact_json.hpp"

#include "result_file/column_json.hpp"
#include "result_file/curve_files.hpp"
#include "result_file/packaging_json.hpp"
#include "result_file/rows_json.hpp"

namespace crushwright {

namespace {

Json body_json(const Body& body) {
  Json json{{"id", body.id}, {"held", body.held}};
  json["mass"] = body.held ? Json(nullptr) : quantity_json(body.mass, "kg");
  return json;
}

Json structure_outcome_json(const StructureOutcome& outcome) {
  Json json{{"structure", outcome.structure}};
  json["peak_crush"] = quantity_json(outcome.peak_crush, "m");
  json["peak_force"] = quantity_json(outcome.peak_force, "N");
  json["usable_stroke"] = quantity_json(outcome.usable_stroke, "m");
  json["stroke_used"] = quantity_json(outcome.stroke_used, "1");
  json["stroke_left"] = quantity_json(outcome.stroke_left, "m");
  json["reserve"] = quantity_json(outcome.reserve, "1");
  json["energy"] = quantity_json(outcome.energy, "J");
  json["bottoming_crush"] = quantity_json(outcome.bottoming_crush, "m");
  json["bottomed"] = outcome.bottomed;
  json["what_ends_stroke"] = outcome.what_ends_stroke;
  json["first_lock_station"] =
      outcome.first_lock_station < 0 ? Json(nullptr) : quantity_json(outcome.first_lock_station, "m");
  if (outcome.attachment_crush > 0) {
    json["attachment_crush"] = quantity_json(outcome.attachment_crush, "m");
  }
  if (!outcome.clearances.empty()) {
    json["clearances"] = clearances_json(outcome.clearances);
  }
  return json;
}

Json run_json(const RunOutcome& run) {
  Json json{{"side", name_of(run.side)}, {"stacked", run.stacked}};
  json["peak_total_force"] = quantity_json(run.peak_total_force, "N");
  json["striker_peak_acceleration"] = quantity_json(run.striker_peak_acceleration, "m/s^2");
  json["struck_peak_acceleration"] = quantity_json(run.struck_peak_acceleration, "m/s^2");
  json["stop_time"] = quantity_json(run.stop_time, "s");
  json["struck_speed_change"] = quantity_json(run.struck_speed_change, "m/s");
  json["structures"] = Json::array();
  for (const StructureOutcome& outcome : run.structures) {
    json["structures"].push_back(structure_outcome_json(outcome));
  }
  return json;
}

Json ledger_json(const EnergyLedger& ledger) {
  Json json;
  json["input"] = quantity_json(ledger.input, "J");
  json["absorbed"] = quantity_json(ledger.absorbed, "J");
  json["absorbed_elsewhere"] = quantity_json(ledger.elsewhere, "J");
  json["released"] = quantity_json(ledger.released, "J");
  json["returned"] = quantity_json(ledger.returned, "J");
  json["residual"] = quantity_json(ledger.residual, "J");
  return json;
}

Json history_json(const ImpactMotion& motion) {
  const ImpactHistory history = sample(motion, history_step(motion));
  Json json;
  json["time"] = series_json(history.time, "s");
  json["force"] = series_json(history.force, "N");
  json["structures"] = Json::array();
  for (std::size_t i = 0; i < motion.columns.size(); ++i) {
    json["structures"].push_back(Json{{"structure", motion.columns[i].structure},
                                      {"crush", series_json(history.column_crush.at(i), "m")},
                                      {"force", series_json(history.column_force.at(i), "N")}});
  }
  for (std::size_t i = 0; i < motion.elements.size(); ++i) {
    json["elements"].push_back(Json{{"element", motion.elements[i].id},
                                    {"crush", series_json(history.element_crush.at(i), "m")},
                                    {"force", series_json(history.element_force.at(i), "N")}});
  }
  json["striker_speed"] = series_json(history.striker_speed, "m/s");
  json["struck_speed"] = series_json(history.struck_speed, "m/s");
  json["striker_acceleration"] = series_json(history.striker_acceleration, "m/s^2");
  json["struck_acceleration"] = series_json(history.struck_acceleration, "m/s^2");
  return json;
}

Json more_energy_json(const MoreEnergy& more) {
  Json json;
  json["energy_factor"] = quantity_json(more.factor, "1");
  json["word"] = name_of(more.word);
  json["first_limit_missed"] = more.first_limit_missed;
  json["nominal"] = run_json(more.nominal);
  return json;
}

Json face_json(const FaceInput& face) {
  Json json{{"shape", name_of(face.shape)}};
  json["width"] = quantity_json(face.width.value, "m");
  json["height"] = quantity_json(face.height.value, "m");
  json["lower_edge"] = quantity_json(face.lower_edge.value, "m");
  json["lateral"] = quantity_json(face.lateral.value, "m");
  json["angle"] = quantity_json(face.angle.value, "rad");
  json["blocks"] = list_of(face.blocks, [](const FaceBlock& block) {
    return Json{{"id", block.id},
                {"crush_pressure", quantity_json(block.crush_pressure.value, "Pa")},
                {"depth", quantity_json(block.depth.value, "m")},
                {"lock_up", quantity_json(block.lock_up.value, "1")},
                {"spread", name_of(block.spread)}};
  });
  return json;
}

Json contact_json(const Contact& contact) {
  Json json{{"structure", contact.structure}, {"struck", contact.struck}};
  json["tip_area"] = quantity_json(contact.tip_area, "m^2");
  json["bearing_area"] = quantity_json(contact.bearing_area, "m^2");
  json["bearing_share"] = quantity_json(contact.bearing_share, "1");
  json["stagger"] = quantity_json(contact.stagger, "m");
  json["lateral"] = quantity_json(contact.lateral, "m");
  json["vertical"] = quantity_json(contact.vertical, "m");
  json["below"] = quantity_json(contact.below, "m");
  json["above"] = quantity_json(contact.above, "m");
  json["beside"] = quantity_json(contact.beside, "m");
  json["notes"] = contact.notes;
  return json;
}

/// What meets the structures and from where; nothing for a plain share.
void put_loading(const ImpactOutcome& impact, Json& json) {
  if (impact.face) {
    json["face"] = face_json(*impact.face);
    json["contacts"] = list_of(impact.contacts, contact_json);
  }
  if (impact.force_angle != 0) {
    json["force_angle"] = quantity_json(impact.force_angle, "rad");
  }
  if (!impact.notes.empty()) {
    json["notes"] = impact.notes;
  }
}

Json element_json(const ElementMotion& element) {
  Json json{{"id", element.id}, {"kind", name_of(element.kind)}};
  json["structure"] = element.structure.empty() ? Json(nullptr) : Json(element.structure);
  json["peak_crush"] = quantity_json(element.peak_crush, "m");
  json["peak_force"] = quantity_json(element.peak_force, "N");
  json["lasting_crush"] = quantity_json(element.lasting_crush, "m");
  json["first_crush_time"] =
      element.first_crush_time < 0 ? Json(nullptr) : quantity_json(element.first_crush_time, "s");
  json["absorbed"] = quantity_json(element.absorbed, "J");
  json["locked"] = element.locked;
  return json;
}

Json yaw_json(const YawLoad& yaw) {
  Json json;
  json["peak_moment"] = quantity_json(yaw.peak_moment, "N m");
  json["impulse"] = quantity_json(yaw.impulse, "N m s");
  json["arm"] = quantity_json(yaw.arm, "m");
  json["rate"] = quantity_json(yaw.rate, "rad/s");
  json["energy"] = quantity_json(yaw.energy, "J");
  json["share_of_energy"] = quantity_json(yaw.share_of_energy, "1");
  return json;
}

Json resolved_json(const ResolvedImpact& resolved) {
  Json json;
  json["step"] = quantity_json(resolved.step, "s");
  json["ledger"] = ledger_json(resolved.ledger);
  json["momentum_residual"] = quantity_json(resolved.momentum_residual, "1");
  json["greatest_difference"] = quantity_json(resolved.greatest_difference, "1");
  json["quasi_static_is_enough"] = resolved.quasi_static_is_enough;
  json["chains"] = list_of(resolved.chains, [](const ResolvedChain& chain) {
    Json one{{"structure", chain.structure}};
    one["peak_crush"] = quantity_json(chain.peak_crush, "m");
    one["struck_end_peak_force"] = quantity_json(chain.struck_end_peak_force, "N");
    one["attachment_peak_force"] = quantity_json(chain.attachment_peak_force, "N");
    one["quasi_static_crush"] = quantity_json(chain.quasi_static_crush, "m");
    one["quasi_static_peak_force"] = quantity_json(chain.quasi_static_peak_force, "N");
    one["inertia_energy"] = quantity_json(chain.inertia_energy, "J");
    one["front_from_struck_end"] = chain.front_from_struck_end;
    return one;
  });
  return json;
}

Json after_hit_json(const std::string& structure, const AfterHit& left) {
  Json json{{"structure", structure}};
  json["crushed_share"] = quantity_json(left.crushed_share, "1");
  json["length_left"] = quantity_json(left.length_left, "m");
  json["energy_left"] = quantity_json(left.energy_left, "J");
  json["share_of_energy"] = quantity_json(left.share_of_energy, "1");
  json["standing_at_root"] = quantity_json(left.standing_at_root, "m");
  return json;
}

/// What stands beside the runs, at nominal.
void put_figures(const ImpactOutcome& impact, Json& json) {
  if (!impact.motion.elements.empty()) {
    json["elements"] = list_of(impact.motion.elements, element_json);
  }
  if (!impact.layer_rates.empty()) {
    json["layer_rates"] = list_of(impact.layer_rates, layer_rates_json);
  }
  if (impact.yaw) {
    json["yaw"] = yaw_json(*impact.yaw);
  }
  for (std::size_t i = 0; i < impact.mapped.size(); ++i) {
    json["column_checks"].push_back(column_state_json(impact, i));
  }
  for (std::size_t i = 0; i < impact.after_hit.size(); ++i) {
    json["after_hit"].push_back(after_hit_json(impact.motion.columns.at(i).structure, impact.after_hit[i]));
  }
  if (impact.resolved) {
    json["resolved"] = resolved_json(*impact.resolved);
  }
}

} // namespace

Json impact_json(const ImpactOutcome& impact) {
  Json json{{"id", impact.id}, {"description", impact.description}};
  json["striker"] = body_json(impact.striker);
  json["struck"] = body_json(impact.struck);
  json["closing_speed"] = quantity_json(impact.closing_speed, "m/s");
  json["effective_mass"] = quantity_json(impact.effective_mass, "kg");
  json["available_energy"] = quantity_json(impact.available_energy, "J");
  json["shares"] = Json::array();
  for (const ShareInput& share : impact.shares) {
    json["shares"].push_back(Json{{"structure", share.structure}, {"share", quantity_json(share.share, "1")}});
  }
  put_loading(impact, json);
  json["runs"] = Json::array();
  for (const RunOutcome& run : impact.sides) {
    json["runs"].push_back(run_json(run));
  }
  json["more_energy"] = more_energy_json(impact.more_energy);
  put_figures(impact, json);
  json["ledger"] = ledger_json(impact.motion.ledger);
  json["history"] = history_json(impact.motion);
  return json;
}

} // namespace crushwright
