#include "result_file/rows_json.hpp"

#include "result_file/document_parts.hpp"

namespace crushwright {

namespace {

Json later_peaks_json(const StructureModel& structure) {
  Json json = Json::array();
  for (std::size_t i = 0; i < structure.later_peaks.size(); ++i) {
    const LaterPeak& peak = structure.later_peaks[i];
    Json one;
    one["station"] = quantity_json(structure.row_starts.at(i).station, "m");
    one["crush"] = quantity_json(structure.row_starts.at(i).crush, "m");
    one["start_force"] = quantity_json(peak.start_force, "N");
    one["ratio"] = quantity_json(peak.ratio, "1");
    one["fall_crush"] = quantity_json(peak.fall_crush, "m");
    json.push_back(std::move(one));
  }
  return json;
}

Json trigger_json(const StructureModel& structure) {
  const TriggerEffect& effect = *structure.trigger_effect;
  Json json;
  json["length"] = quantity_json(structure.trigger_length, "m");
  json["first_peak_with"] = quantity_json(effect.first_peak_with, "N");
  json["peak_without"] = quantity_json(effect.peak_without, "N");
  json["peak_with"] = quantity_json(effect.peak_with, "N");
  json["plateau_without"] = quantity_json(effect.plateau_without, "N");
  json["plateau_with"] = quantity_json(effect.plateau_with, "N");
  json["energy_cost"] = quantity_json(effect.energy_cost, "J");
  json["mass_change"] = quantity_json(effect.mass_change, "kg");
  return json;
}

/// The law with its constants as material files call them.
Json law_json(const std::optional<RateLaw>& law) {
  if (!law) {
    return nullptr;
  }
  Json json;
  if (law->form == RateForm::cowper_symonds) {
    json["form"] = "cowper_symonds";
    json["D"] = quantity_json(law->first, "1/s");
    json["q"] = quantity_json(law->second, "1");
  } else {
    json["form"] = "johnson_cook";
    json["C"] = quantity_json(law->first, "1");
    json["reference_rate"] = quantity_json(law->second, "1/s");
  }
  json["source"] = source_json(law->source);
  return json;
}

Json metal_json(const MetalRate& metal) {
  return metal.peak ? Json{{"energy", law_json(metal.energy)}, {"peak", law_json(metal.peak)}} : Json(nullptr);
}

} // namespace

void put_rows(const StructureModel& structure, Json& json) {
  if (!structure.later_peaks.empty()) {
    json["later_peaks"] = later_peaks_json(structure);
  }
  if (structure.trigger_effect) {
    json["trigger"] = trigger_json(structure);
  }
  if (structure.heat) {
    json["heat"] = Json{{"temperature", series_json(structure.heat->temperature, "K")},
                        {"factor", series_json(structure.heat->factor, "1")}};
  }
  if (structure.has_rate_law) {
    json["rate_laws"] =
        Json{{"lattice", metal_json(structure.lattice_rate)}, {"skin", metal_json(structure.skin_rate)}};
  }
  if (structure.fracture_low < 1) {
    json["fracture_factor"] = quantity_json(structure.fracture_low, "1");
  }
}

Json layer_rates_json(const LayerRates& rates) {
  Json json{{"structure", rates.structure}};
  json["strain_rate"] = series_json(rates.strain_rate, "1/s");
  json["energy_factor"] = series_json(rates.energy_factor, "1");
  json["peak_factor"] = series_json(rates.peak_factor, "1");
  return json;
}

} // namespace crushwright
