#include "result_file/result_document.hpp"

#include "result_file/document_parts.hpp"
#include "result_file/impact_json.hpp"

namespace crushwright {

std::string result_document(const CrashCase& crash_case, const Estimate& estimate, const Provenance& provenance) {
  Json json = document_head("estimate", crash_case, provenance);
  json["level"] = quantity_json(crash_case.level, "1");
  json["verdict"] = verdict_json(estimate.deciding);
  json["other_verdicts"] = list_of(estimate.others, verdict_json);
  if (estimate.without_measured) {
    // As the verdict, of the same scatter set; without checks where nothing else carries the case.
    JudgedSet set;
    set.scatter_set = estimate.deciding.scatter_set;
    set.verdict = *estimate.without_measured;
    json["verdict_without_measured"] = set.verdict.checks.empty() ? Json(nullptr) : verdict_json(set);
  }
  json["structures"] = list_of(estimate.structures, structure_json);
  json["curves"] = list_of(estimate.deciding.curves, curves_json);
  json["impacts"] = list_of(estimate.deciding.impacts, impact_json);
  json["inputs"] = list_of(crash_case.all_quantities, input_json);
  json["warnings"] = estimate.warnings;
  return json_text(json);
}

std::string result_document(const CrashCase& crash_case, const SizingResult& sizing, const Provenance& provenance) {
  Json json = document_head("size", crash_case, provenance);
  json["found"] = sizing.found;
  json["binding"] = sizing.binding;
  json["best"] = candidate_json(sizing.best);
  json["per_choice"] = list_of(sizing.per_choice, candidate_json);
  json["scanned"] = list_of(sizing.scanned, candidate_json);
  return json_text(json);
}

std::string result_document(const CrashCase& crash_case, const ComparisonResult& comparison,
                            const Provenance& provenance) {
  Json json = document_head("compare", crash_case, provenance);
  json["sized"] = list_of(comparison.sized, candidate_json);
  json["fixed"] = list_of(comparison.fixed, candidate_json);
  json["baselines"] = list_of(comparison.baselines, candidate_json);
  json["notes"] = comparison.notes;
  return json_text(json);
}

} // namespace crushwright
