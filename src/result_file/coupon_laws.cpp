#include "result_file/coupon_laws.hpp"

#include <algorithm>
#include <map>

#include <fmt/format.h>

namespace crushwright {

namespace {

/// A density that was weighed holds the build's own strut size, so it does not carry over to a drawn one.
DensityBasis basis_of(const CouponReport& report) {
  const bool weighed = std::any_of(report.specimens.begin(), report.specimens.end(), [](const ReducedSpecimen& each) {
    return each.relative_density && !each.facts.relative_density;
  });
  return weighed ? DensityBasis::weighed : DensityBasis::true_;
}

std::optional<Range> rates_of(const CouponReport& report) {
  std::optional<Range> rates;
  for (const ReducedSpecimen& specimen : report.specimens) {
    const SpecimenFacts& facts = specimen.facts;
    std::optional<double> rate = facts.strain_rate;
    if (!rate && facts.speed && facts.height) {
      rate = *facts.speed / *facts.height;
    }
    if (rate) {
      rates = rates ? Range{std::min(rates->low, *rate), std::max(rates->high, *rate)} : Range{*rate, *rate};
    }
  }
  return rates;
}

LawOrigin origin_of(const CouponReport& report, const MeasuredLaw& law, const TestNote& note) {
  LawOrigin origin;
  origin.id = note.id;
  origin.evidence = Evidence::measured;
  origin.direction = report.direction.empty() ? "any" : report.direction;
  origin.material = report.material;
  origin.process = note.process;
  // One density is a point; the law holds a little about it.
  const double about = law.exponent_assumed ? 0.02 : 0;
  origin.fitted_relative_density = {law.density_low * (1 - about), law.density_high * (1 + about)};
  origin.density_basis = basis_of(report);
  origin.coefficient_of_variation = law.scatter;
  origin.source = report.source;
  if (origin.source.text.empty()) {
    origin.source.text = report.title;
  }
  if (!origin.source.standing) {
    origin.source.standing = Standing::read;
  }
  Measurement measurement;
  measurement.specimens = static_cast<int>(law.line ? law.line->count : report.specimens.size());
  measurement.files = note.files;
  measurement.plateau_window = Range{report.plateau_from, report.plateau_to};
  measurement.strain_rate = rates_of(report);
  measurement.coefficient_range = Range{law.coefficient_low, law.coefficient_high};
  measurement.exponent_range = Range{law.exponent_low, law.exponent_high};
  measurement.leave_one_out_error = law.leave_one_out_error;
  measurement.exponent_assumed = law.exponent_assumed;
  origin.measurement = measurement;
  return origin;
}

void add_densification(const CouponReport& report, const MeasuredLaw& law, const TestNote& note,
                       MeasuredLawLists& lists, std::vector<std::string>& remarks) {
  if (!(law.coefficient > 0 && law.coefficient <= 1)) {
    remarks.push_back(fmt::format("the efficiency strain's line starts at {:.3g} for no density, and a law of the "
                                  "catalogue starts between 0 and 1: it is not written",
                                  law.coefficient));
    return;
  }
  lists.densification.push_back(
      {origin_of(report, law, note), DensificationDefinition::efficiency_strain, law.coefficient, law.exponent});
}

std::string stress_text(double value) {
  return fmt::format("{:.5g} MPa", value * 1e-6);
}

std::string value_text(const PropertySummary& summary, double value) {
  return summary.unit == "Pa" ? stress_text(value) : fmt::format("{:.4g}", value);
}

std::string hashes(const std::vector<TestedFile>& files) {
  std::string text;
  for (const TestedFile& file : files) {
    text += fmt::format("{}{} SHA-256 {}", text.empty() ? "" : ", ", file.name, file.sha256);
  }
  return text;
}

bool modulus_is_doubted(const MetalReport& report) {
  return std::any_of(report.tests.begin(), report.tests.end(), [](const MetalTest& test) {
    return test.facts.machine_compliance
               ? false
               : std::any_of(test.warnings.begin(), test.warnings.end(),
                             [](const auto& text) { return text.find("machine and grips") != std::string::npos; });
  });
}

} // namespace

MeasuredLawLists catalogue_laws(const CouponReport& report, const TestNote& note, std::vector<std::string>& remarks) {
  MeasuredLawLists lists;
  for (const MeasuredLaw& law : report.laws) {
    if (!law.refusal.empty()) {
      remarks.push_back(fmt::format("{}: no law; {}", law.property, law.refusal));
    } else if (law.property == "plateau stress") {
      lists.plateau_stress.push_back(
          {origin_of(report, law, note), law.coefficient, law.exponent, StressBasis::proof_stress});
    } else if (law.property == "elastic gradient") {
      lists.elastic_modulus.push_back(
          {origin_of(report, law, note), law.coefficient, law.exponent, StressBasis::proof_stress});
    } else if (law.property == "efficiency strain") {
      add_densification(report, law, note, lists, remarks);
    } else {
      remarks.push_back(
          fmt::format("{}: not written; the gradient of a first loading is no modulus. Unload the coupons "
                      "once on the rise",
                      law.property));
    }
  }
  return lists;
}

std::vector<MeasuredProperty> catalogue_properties(const MetalReport& report, const TestNote& note,
                                                   std::vector<std::string>& remarks) {
  static const std::map<std::string, std::string> keys = {
      {"Young's modulus", "youngs_modulus"},          {"proof stress", "proof_stress"},
      {"ultimate stress", "ultimate_stress"},         {"uniform elongation", "uniform_elongation"},
      {"fracture elongation", "fracture_elongation"}, {"hardening exponent", "hardening_exponent"}};
  std::vector<MeasuredProperty> properties;
  for (const PropertySummary& summary : report.summaries) {
    if (summary.property == "Young's modulus" && modulus_is_doubted(report)) {
      remarks.emplace_back("Young's modulus: not written; it holds machine and grips");
      continue;
    }
    MeasuredProperty property;
    property.key = keys.at(summary.property);
    property.value = value_text(summary, summary.summary.mean);
    if (summary.summary.mean_low) {
      property.low = value_text(summary, *summary.summary.mean_low);
      property.high = value_text(summary, *summary.summary.mean_high);
      property.coefficient_of_variation = summary.summary.coefficient_of_variation;
    }
    property.source =
        fmt::format("{}: mean of {} {} ({}), interval of the mean 95 %; {}",
                    report.source.text.empty() ? report.title : report.source.text, summary.summary.count,
                    summary.summary.count == 1 ? "test" : "tests", name_of(report.kind), hashes(note.files));
    properties.push_back(property);
  }
  return properties;
}

} // namespace crushwright
