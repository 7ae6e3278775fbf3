#include "result_file/correlation_document.hpp"

#include "result_file/document_parts.hpp"

namespace crushwright {

Json correlation_json(const Correlation& correlation, const char* axis_unit) {
  Json json;
  json["plateau_error"] = correlation.plateau_error ? quantity_json(*correlation.plateau_error, "1") : Json(nullptr);
  json["energy_error"] = quantity_json(correlation.energy_error, "1");
  json["peak_error"] = quantity_json(correlation.peak_error, "1");
  json["normalised_error"] = quantity_json(correlation.normalised_error, "1");
  json["cross_correlation"] = quantity_json(correlation.cross_correlation, "1");
  json["shift"] = quantity_json(correlation.shift, axis_unit);
  json["rating"] = Json{{"corridor", correlation.rating.corridor},   {"phase", correlation.rating.phase},
                        {"magnitude", correlation.rating.magnitude}, {"slope", correlation.rating.slope},
                        {"overall", correlation.rating.overall},     {"word", correlation.rating.word}};
  json["warnings"] = correlation.warnings;
  return json;
}

std::string correlation_document(const CrashCase& crash_case, const ComponentComparison& comparison,
                                 const Provenance& provenance) {
  Json document = document_head("correlate", crash_case, provenance);
  document["structure"] = comparison.structure;
  document["specimen"] = comparison.specimen;
  document["correlation"] = correlation_json(comparison.correlation, "m");
  document["share_inside"] = quantity_json(comparison.share_inside, "1");
  document["share_below"] = quantity_json(comparison.share_below, "1");
  document["share_above"] = quantity_json(comparison.share_above, "1");
  document["crush"] = series_json(comparison.correlation.measured.x, "m");
  document["measured"] = series_json(comparison.correlation.measured.y, "N");
  document["nominal"] = series_json(comparison.correlation.predicted.y, "N");
  document["weak"] = series_json(comparison.weak.y, "N");
  document["strong"] = series_json(comparison.strong.y, "N");
  document["remarks"] = comparison.remarks;
  return json_text(document);
}

} // namespace crushwright
