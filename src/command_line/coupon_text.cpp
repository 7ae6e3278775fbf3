#include "command_line/coupon_text.hpp"

#include "quantities/units.hpp"
#include "review_pack/coupon_words.hpp"
#include "review_pack/text_table.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace crushwright {

namespace {

using Rows = std::vector<std::vector<std::string>>;

constexpr std::size_t width = 100;

std::string list_text(const std::string& heading, const std::vector<std::string>& sentences) {
  std::string text;
  for (const std::string& sentence : sentences) {
    text += fmt::format("{}{}", text.empty() ? heading : "", wrapped("  - " + sentence, width, 4));
  }
  return text;
}

std::string indented(const Rows& rows) {
  std::vector<bool> figures(rows.front().size(), true);
  figures.front() = false;
  std::string text = "  ";
  for (const char letter : text_table(figures, rows)) {
    text += letter;
    text += letter == '\n' ? "  " : "";
  }
  text.erase(text.size() - 2);
  return text;
}

std::string stress(const std::optional<double>& value) {
  return value ? show(*value, Dimension::stress) : "none";
}

std::string percent(const std::optional<double>& value) {
  return value ? fmt::format("{:.1f} %", 100 * *value) : "none";
}

std::string specimen_table(const CouponReport& report) {
  Rows rows = {
      {"specimen", "density", "plateau", "1 % offset", "first max", "gradient", "used up at", "energy/mass"}};
  for (const ReducedSpecimen& each : report.specimens) {
    rows.push_back(
        {each.facts.id, percent(each.relative_density), stress(each.quantities.plateau_stress),
         stress(each.offset_stress), stress(each.quantities.first_maximum),
         stress(each.elastic_gradient ? each.elastic_gradient : each.quantities.quasi_elastic_gradient),
         percent(each.quantities.efficiency_strain) + (each.quantities.efficiency_still_rising ? " or later" : ""),
         each.specific_energy ? show(*each.specific_energy, Dimension::specific_energy) : "none"});
  }
  return fmt::format("Specimens (plateau: mean from {:.0f} to {:.0f} % strain)\n", 100 * report.plateau_from,
                     100 * report.plateau_to) +
         indented(rows);
}

/// What a reader decides by; the page and the document hold the rest.
bool is_shown(const std::string& property) {
  for (const char* shown : {"plateau stress", "efficiency strain", "specific energy", "Young's modulus",
                            "proof stress", "ultimate stress", "fracture elongation", "hardening exponent"}) {
    if (property.rfind(shown, 0) == 0) {
      return true;
    }
  }
  return false;
}

std::string summary_table(const std::vector<PropertySummary>& summaries) {
  Rows rows = {{"property", "n", "mean", "scatter", "claim at least", "survive up to"}};
  for (const PropertySummary& each : summaries) {
    if (!is_shown(each.property)) {
      continue;
    }
    const auto value = [&](const std::optional<double>& number) {
      return number ? value_text(each, *number) : "none";
    };
    rows.push_back({short_name(each.property), fmt::format("{}", each.summary.count),
                    value_text(each, each.summary.mean), percent(each.summary.coefficient_of_variation),
                    value(each.claimable_low), value(each.claimable_high)});
  }
  return rows.size() == 1
             ? ""
             : fmt::format("\nWhat they say together (claims: 90 % of all specimens, confidence 95 %)\n{}",
                           indented(rows));
}

std::string law_lines(const CouponReport& report) {
  std::string text = "\nLaws over relative density\n";
  for (const MeasuredLaw& law : report.laws) {
    std::string line = "  " + law.property + ": ";
    if (!law.refusal.empty()) {
      line += "no law; " + law.refusal + ".";
    } else {
      const bool strain = law.property == "efficiency strain";
      line += strain ? fmt::format("{:.3g} - {:.3g} x density", law.coefficient, law.exponent)
                     : fmt::format("C = {:.4g} ({:.3g} to {:.3g}), exponent {:.3g}", law.coefficient,
                                   law.coefficient_low, law.coefficient_high, law.exponent);
      line += law.exponent_assumed ? ", assumed"
              : strain             ? fmt::format(" (slope {:.2g} to {:.2g})", law.exponent_low, law.exponent_high)
                                   : fmt::format(" ({:.3g} to {:.3g})", law.exponent_low, law.exponent_high);
      line += fmt::format("; density {:.1f} to {:.1f} %, scatter {:.1f} %, left-out points missed by {:.1f} %.",
                          100 * law.density_low, 100 * law.density_high, 100 * law.scatter,
                          100 * law.leave_one_out_error);
    }
    text += wrapped(line, width, 4);
  }
  return text;
}

/// Each condition once, with the specimens that it does not hold for.
std::string condition_lines(const CouponReport& report) {
  std::vector<std::pair<std::string, std::vector<std::string>>> kinds;
  for (const ReducedSpecimen& specimen : report.specimens) {
    for (const TestCondition& condition : specimen.conditions) {
      if (condition.holds == true) {
        continue;
      }
      const std::string words = fmt::format("{}: {}, asked {}", condition.what, condition.found, condition.asked);
      const auto same =
          std::find_if(kinds.begin(), kinds.end(), [&](const auto& kind) { return kind.first == words; });
      (same == kinds.end() ? kinds.emplace_back(words, std::vector<std::string>{}) : *same)
          .second.push_back(specimen.facts.id);
    }
  }
  std::vector<std::string> sentences;
  for (const auto& [words, specimens] : kinds) {
    const bool all = specimens.size() == report.specimens.size();
    sentences.push_back(
        fmt::format("{} ({})", words, all ? "all specimens" : fmt::format("{}", fmt::join(specimens, ", "))));
  }
  return list_text(
      "\nConditions of ISO 13314 that do not hold or were not stated (from memory: confirm in the edition)\n",
      sentences);
}

/// The first few; a series of many specimens repeats itself.
std::string handled_text(const std::vector<std::string>& handled) {
  constexpr std::size_t shown = 6;
  std::vector<std::string> first(handled.begin(),
                                 handled.begin() + static_cast<std::ptrdiff_t>(std::min(shown, handled.size())));
  if (handled.size() > shown) {
    first.push_back(fmt::format("and {} more like these, on the page and in the document", handled.size() - shown));
  }
  return list_text("\nHandled on the way\n", first);
}

std::vector<std::string> remarks_of(const std::string& specimen, const ConditionedTest& test,
                                    const std::vector<std::string>& warnings) {
  std::vector<std::string> sentences;
  for (const std::vector<std::string>* list : {&test.remarks, &warnings}) {
    for (const std::string& sentence : *list) {
      sentences.push_back(specimen + ": " + sentence);
    }
  }
  return sentences;
}

std::string lattice_text(const CouponReport& report) {
  std::string text = fmt::format("{}\n", report.title);
  if (!report.cell.empty()) {
    text += fmt::format("{} along {}, {}\n", report.cell,
                        report.direction.empty() ? "a direction not stated" : report.direction,
                        report.material.empty() ? "metal not stated" : report.material);
  }
  text += fmt::format("\n{}{}{}{}", specimen_table(report), summary_table(report.summaries), law_lines(report),
                      condition_lines(report));
  std::vector<std::string> handled;
  for (const ReducedSpecimen& specimen : report.specimens) {
    for (std::string& sentence : remarks_of(specimen.facts.id, specimen.test, specimen.warnings)) {
      handled.push_back(std::move(sentence));
    }
  }
  return text + handled_text(handled) + list_text("\nWarnings\n", report.warnings);
}

std::string bar_table(const MetalReport& report) {
  Rows rows = {{"specimen", "modulus", "0.2 % proof", "ultimate", "uniform", "fracture", "hardening n", "rate"}};
  for (const MetalTest& each : report.tests) {
    rows.push_back({each.facts.id,
                    each.youngs_modulus ? fmt::format("{:.4g} GPa", *each.youngs_modulus * 1e-9) : "none",
                    stress(each.proof_stress), stress(each.ultimate_stress), percent(each.uniform_elongation),
                    percent(each.fracture_elongation),
                    each.hardening_exponent ? fmt::format("{:.3f}", *each.hardening_exponent) : "none",
                    each.strain_rate ? fmt::format("{:.3g} 1/s", *each.strain_rate) : "none"});
  }
  return "Specimens\n" + indented(rows);
}

std::string rate_lines(const RateFit& rate) {
  if (!rate.refusal.empty()) {
    return wrapped(fmt::format("Rate: no law; {}.", rate.refusal), width, 2);
  }
  std::string line =
      fmt::format("Rate: Johnson-Cook C = {:.3g} ({:.2g} to {:.2g}) over {:.3g} 1/s", rate.johnson_cook_C,
                  rate.johnson_cook_C_low, rate.johnson_cook_C_high, rate.reference_rate);
  if (rate.cowper_symonds_D) {
    line +=
        fmt::format("; Cowper-Symonds D = {:.3g} 1/s, q = {:.3g}", *rate.cowper_symonds_D, *rate.cowper_symonds_q);
  }
  return wrapped(line + fmt::format("; largest miss of the better one {:.1f} %.", 100 * rate.largest_miss), width,
                 2) +
         "\n";
}

std::string metal_text(const MetalReport& report) {
  std::string text = fmt::format("{}\n{}, {}\n\n", report.title, name_of(report.kind),
                                 report.material.empty() ? "metal not stated" : report.material);
  text += bar_table(report) + summary_table(report.summaries) + "\n" + rate_lines(report.rate);
  std::vector<std::string> handled;
  for (const MetalTest& test : report.tests) {
    for (std::string& sentence : remarks_of(test.facts.id, test.test, {})) {
      handled.push_back(std::move(sentence));
    }
  }
  return text + handled_text(handled) + list_text("\nWarnings\n", report.warnings);
}

std::string prediction_table(const std::vector<SpecimenPrediction>& predictions) {
  if (predictions.empty()) {
    return {};
  }
  Rows rows = {{"specimen", "by", "plateau", "energy", "peak", "rating"}};
  for (const SpecimenPrediction& each : predictions) {
    const Correlation& found = each.correlation;
    const auto error = [](double value) { return fmt::format("{:+.0f} %", 100 * value); };
    rows.push_back({each.specimen, fmt::format("{}, {}", each.law, name_of(each.evidence)),
                    found.plateau_error ? error(*found.plateau_error) : "none", error(found.energy_error),
                    error(found.peak_error), fmt::format("{:.2f} {}", found.rating.overall, found.rating.word)});
  }
  return "\nPredicted without these tests, over measured, up to where the specimen is used up\n" + indented(rows);
}

std::string change_text(const VerdictChange& change) {
  const auto line = [](const char* when, const VerdictInShort& verdict) {
    return wrapped(fmt::format("  {}: {}. {}", when, name_of(verdict.word), verdict.text), width, 4);
  };
  std::string text = fmt::format("\nVerdict on {} ({})\n", change.case_id, change.title);
  text += line("without these tests", change.before) + line("with them", change.after);
  return change.coupons_to_pass.empty() ? text : text + wrapped("  " + change.coupons_to_pass, width, 4);
}

} // namespace

std::string coupon_text(const CouponResult& result) {
  std::string text = result.lattice ? lattice_text(*result.lattice) : result.metal ? metal_text(*result.metal) : "";
  text += prediction_table(result.predictions);
  if (result.change) {
    text += change_text(*result.change);
  }
  return text + "\n" +
         wrapped("A coupon says what its build, batch and machine gave. Where structures protect people, the test "
                 "plan and "
                 "its evaluation are for a qualified laboratory.",
                 width, 2) +
         "\n";
}

} // namespace crushwright
