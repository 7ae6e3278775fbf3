#include "result_file/coupon_document.hpp"

#include "result_file/correlation_document.hpp"
#include "result_file/document_parts.hpp"

namespace crushwright {

namespace {

Json optional_json(const std::optional<double>& value, std::string_view unit) {
  return value ? quantity_json(*value, unit) : Json(nullptr);
}

Json facts_json(const SpecimenFacts& facts) {
  return Json{{"id", facts.id},
              {"area", optional_json(facts.area, "m2")},
              {"height", optional_json(facts.height, "m")},
              {"mass", optional_json(facts.mass, "kg")},
              {"speed", optional_json(facts.speed, "m/s")},
              {"strain_rate", optional_json(facts.strain_rate, "1/s")},
              {"machine_compliance", optional_json(facts.machine_compliance, "m/N")},
              {"temperature", optional_json(facts.temperature, "K")}};
}

Json test_json(const ConditionedTest& test) {
  Json json;
  json["strain"] = series_json(test.curve.strain, "1");
  json["stress"] = series_json(test.curve.stress, "Pa");
  json["toe_strain"] = quantity_json(test.toe_strain, "1");
  json["compliance_strain"] = quantity_json(test.compliance_strain, "1");
  json["unload_loops"] = list_of(test.loops, [](const UnloadLoop& loop) {
    return Json{{"strain", quantity_json(loop.strain, "1")},
                {"depth", quantity_json(loop.depth, "1")},
                {"gradient", quantity_json(loop.gradient, "Pa")},
                {"first_line", loop.first_line},
                {"last_line", loop.last_line}};
  });
  json["remarks"] = test.remarks;
  return json;
}

Json condition_json(const TestCondition& condition) {
  return Json{{"what", condition.what},
              {"found", condition.found},
              {"asked", condition.asked},
              {"holds", condition.holds ? Json(*condition.holds) : Json(nullptr)}};
}

Json specimen_json(const ReducedSpecimen& specimen) {
  const CompressionQuantities& found = specimen.quantities;
  Json json = facts_json(specimen.facts);
  json["relative_density"] = optional_json(specimen.relative_density, "1");
  json["plateau_stress"] = quantity_json(found.plateau_stress, "Pa");
  json["plateau_end"] = optional_json(found.plateau_end, "1");
  json["first_maximum"] = optional_json(found.first_maximum, "Pa");
  json["quasi_elastic_gradient"] = optional_json(found.quasi_elastic_gradient, "Pa");
  json["elastic_gradient"] = optional_json(specimen.elastic_gradient, "Pa");
  json["offset_stress"] = optional_json(specimen.offset_stress, "Pa");
  json["offset_by_unloading"] = specimen.offset_by_unloading;
  json["efficiency_strain"] = quantity_json(found.efficiency_strain, "1");
  json["greatest_efficiency"] = quantity_json(found.greatest_efficiency, "1");
  json["efficiency_still_rising"] = found.efficiency_still_rising;
  json["energy_to_efficiency_strain"] = quantity_json(found.energy_to_efficiency_strain, "J/m3");
  json["specific_energy"] = optional_json(specimen.specific_energy, "J/kg");
  json["conditions"] = list_of(specimen.conditions, condition_json);
  json["test"] = test_json(specimen.test);
  json["warnings"] = specimen.warnings;
  return json;
}

Json summary_json(const PropertySummary& property) {
  const SampleSummary& summary = property.summary;
  return Json{{"property", property.property},
              {"count", summary.count},
              {"mean", quantity_json(summary.mean, property.unit)},
              {"standard_deviation", optional_json(summary.standard_deviation, property.unit)},
              {"coefficient_of_variation", optional_json(summary.coefficient_of_variation, "1")},
              {"confidence", quantity_json(summary.confidence, "1")},
              {"mean_low", optional_json(summary.mean_low, property.unit)},
              {"mean_high", optional_json(summary.mean_high, property.unit)},
              {"tolerance_factor", quantity_json(property.factor, "1")},
              {"claimable_low", optional_json(property.claimable_low, property.unit)},
              {"claimable_high", optional_json(property.claimable_high, property.unit)},
              {"outliers", property.outliers}};
}

Json law_json(const MeasuredLaw& law) {
  Json json{{"property", law.property}};
  if (!law.refusal.empty()) {
    json["refusal"] = law.refusal;
    return json;
  }
  const auto interval = [](double value, double low, double high) {
    return Json{{"value", value}, {"low", low}, {"high", high}, {"unit", "1"}};
  };
  json["coefficient"] = interval(law.coefficient, law.coefficient_low, law.coefficient_high);
  json["exponent"] = interval(law.exponent, law.exponent_low, law.exponent_high);
  json["exponent_assumed"] = law.exponent_assumed;
  json["scatter"] = quantity_json(law.scatter, "1");
  json["leave_one_out_error"] = quantity_json(law.leave_one_out_error, "1");
  json["fitted_relative_density"] = Json::array({law.density_low, law.density_high});
  return json;
}

Json lattice_json(const CouponReport& report) {
  Json json{{"title", report.title},       {"cell", report.cell},       {"direction", report.direction},
            {"material", report.material}, {"process", report.process}, {"source", source_json(report.source)}};
  json["plateau_window"] = Json::array({report.plateau_from, report.plateau_to});
  json["specimens"] = list_of(report.specimens, specimen_json);
  json["summaries"] = list_of(report.summaries, summary_json);
  json["laws"] = list_of(report.laws, law_json);
  json["warnings"] = report.warnings;
  return json;
}

Json bar_json(const MetalTest& test) {
  Json json = facts_json(test.facts);
  json["youngs_modulus"] = optional_json(test.youngs_modulus, "Pa");
  json["proof_stress"] = optional_json(test.proof_stress, "Pa");
  json["ultimate_stress"] = optional_json(test.ultimate_stress, "Pa");
  json["uniform_elongation"] = optional_json(test.uniform_elongation, "1");
  json["fracture_elongation"] = optional_json(test.fracture_elongation, "1");
  json["hardening_coefficient"] = optional_json(test.hardening_coefficient, "Pa");
  json["hardening_exponent"] = optional_json(test.hardening_exponent, "1");
  json["test"] = test_json(test.test);
  json["warnings"] = test.warnings;
  return json;
}

Json rate_json(const RateFit& rate) {
  if (!rate.refusal.empty()) {
    return Json{{"refusal", rate.refusal}};
  }
  return Json{{"reference_rate", quantity_json(rate.reference_rate, "1/s")},
              {"reference_stress", quantity_json(rate.reference_stress, "Pa")},
              {"johnson_cook_C", quantity_json(rate.johnson_cook_C, "1")},
              {"johnson_cook_C_low", quantity_json(rate.johnson_cook_C_low, "1")},
              {"johnson_cook_C_high", quantity_json(rate.johnson_cook_C_high, "1")},
              {"cowper_symonds_D", optional_json(rate.cowper_symonds_D, "1/s")},
              {"cowper_symonds_q", optional_json(rate.cowper_symonds_q, "1")},
              {"largest_miss", quantity_json(rate.largest_miss, "1")}};
}

Json metal_json(const MetalReport& report) {
  Json json{{"title", report.title},
            {"material", report.material},
            {"process", report.process},
            {"kind", name_of(report.kind)},
            {"source", source_json(report.source)}};
  json["tests"] = list_of(report.tests, bar_json);
  json["summaries"] = list_of(report.summaries, summary_json);
  json["rate"] = rate_json(report.rate);
  json["warnings"] = report.warnings;
  return json;
}

Json prediction_json(const SpecimenPrediction& prediction) {
  Json json{{"specimen", prediction.specimen},
            {"relative_density", quantity_json(prediction.relative_density, "1")},
            {"law", prediction.law},
            {"evidence", name_of(prediction.evidence)}};
  json["correlation"] = correlation_json(prediction.correlation, "1");
  return json;
}

Json change_json(const VerdictChange& change) {
  const auto verdict = [](const VerdictInShort& judged) {
    return Json{{"word", name_of(judged.word)}, {"text", judged.text}};
  };
  return Json{{"case", change.case_id},
              {"title", change.title},
              {"before", verdict(change.before)},
              {"after", verdict(change.after)},
              {"coupons_to_pass", change.coupons_to_pass}};
}

} // namespace

std::string coupon_document(const CouponResult& result, const Provenance& provenance) {
  Json document = program_head("coupon", provenance);
  if (result.lattice) {
    document["lattice_tests"] = lattice_json(*result.lattice);
  }
  if (!result.predictions.empty()) {
    document["predictions"] = list_of(result.predictions, prediction_json);
  }
  if (result.metal) {
    document["metal_tests"] = metal_json(*result.metal);
  }
  if (result.change) {
    document["verdict_change"] = change_json(*result.change);
  }
  return json_text(document);
}

} // namespace crushwright
