#include "scaling_law/law_reader.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace crushwright {

namespace {

template <class Word>
Word word_read(const Mapping& law, std::string_view key, std::initializer_list<Word> words) {
  std::vector<std::string> spellings;
  for (Word word : words) {
    spellings.emplace_back(name_of(word));
  }
  const std::string chosen = law.choice(key, spellings);
  const auto place = std::find(spellings.begin(), spellings.end(), chosen);
  return *(words.begin() + (place - spellings.begin()));
}

Range fitted_range(const Mapping& law) {
  const std::vector<Quantity> ends =
      law.quantity_list("fitted_relative_density", Dimension::fraction, Bounds::open(0, 1));
  if (ends.size() != 2 || ends[0].value > ends[1].value) {
    law.fail("fitted_relative_density", "a fitted range is two relative densities, the lower one first",
             "Write for instance [0.05, 0.30].");
  }
  return {ends[0].value, ends[1].value};
}

Source law_source(const Mapping& law) {
  const Source source = law.source();
  if (source.text.empty() && !source.standing) {
    law.fail("source", "this law has neither source nor standing",
             "Say where the law comes from, or at least how sure it is with standing: memory.");
  }
  return source;
}

Computation read_computation(Mapping block) {
  block.allow({"method", "grid", "spread", "largest_residual", "version"});
  Computation computation;
  computation.method = block.choice("method", {"frame", "voxels"});
  computation.grid = block.integer("grid", 0, 4096);
  if ((computation.method == "voxels") != (computation.grid > 0)) {
    block.fail("grid", fmt::format("grid {} does not go with method {}", computation.grid, computation.method),
               "Voxels have a grid above 0, frames have grid 0. Compute the law again with `crushwright cell FILE "
               "--laws LOW HIGH --write`.");
  }
  computation.spread = block.number("spread", Bounds::not_negative());
  computation.largest_residual = block.number("largest_residual", Bounds::not_negative());
  computation.version = block.text("version");
  return computation;
}

std::optional<Computation> computation_of(const Mapping& law, Evidence evidence) {
  const bool computed = evidence == Evidence::computed;
  if (computed && !law.has("computed_by")) {
    law.fail(
        "computed_by", "a computed law says what computed it, and this one does not",
        "Write it with `crushwright cell FILE --laws LOW HIGH --write`, or state where else the numbers come from "
        "as evidence.");
  }
  if (!computed && law.has("computed_by")) {
    law.fail("computed_by",
             fmt::format("only a law of evidence computed has this, and the law is {}", name_of(evidence)),
             "Remove the line or correct evidence.");
  }
  return computed ? std::optional(read_computation(law.mapping("computed_by"))) : std::nullopt;
}

std::optional<Range> read_range(const Mapping& block, std::string_view key) {
  if (!block.has(key)) {
    return std::nullopt;
  }
  const std::vector<Quantity> ends = block.quantity_list(key, Dimension::number, Bounds::any());
  if (ends.size() != 2 || ends[0].value > ends[1].value) {
    block.fail(key, "a range is two numbers, the lower one first", "Write for instance [0.2, 0.4].");
  }
  return Range{ends[0].value, ends[1].value};
}

Measurement read_measurement(Mapping block) {
  block.allow({"specimens", "files", "plateau_window", "strain_rate", "coefficient_range", "exponent_range",
               "leave_one_out_error", "exponent_assumed"});
  Measurement measurement;
  measurement.specimens = block.integer("specimens", 1, 100000);
  for (Mapping& file : block.list("files")) {
    file.allow({"name", "sha256"});
    measurement.files.push_back({file.text("name"), file.text("sha256")});
    if (measurement.files.back().sha256.size() != 64) {
      file.fail("sha256", "a SHA-256 has 64 hexadecimal digits",
                "Let `crushwright coupon --write` write the law again.");
    }
  }
  measurement.plateau_window = read_range(block, "plateau_window");
  measurement.strain_rate = read_range(block, "strain_rate");
  measurement.coefficient_range = read_range(block, "coefficient_range");
  measurement.exponent_range = read_range(block, "exponent_range");
  measurement.leave_one_out_error = block.optional_number("leave_one_out_error", Bounds::not_negative());
  measurement.exponent_assumed = block.flag_or("exponent_assumed", false);
  return measurement;
}

std::optional<Measurement> measurement_of(const Mapping& law, Evidence evidence) {
  if (!law.has("measured_by")) {
    return std::nullopt;
  }
  if (evidence != Evidence::measured) {
    law.fail("measured_by",
             fmt::format("only a law of evidence measured has this, and the law is {}", name_of(evidence)),
             "Remove the block or correct evidence.");
  }
  return read_measurement(law.mapping("measured_by"));
}

LawOrigin read_origin(const Mapping& law) {
  LawOrigin origin;
  origin.id = law.text("id");
  origin.evidence =
      word_read(law, "evidence",
                {Evidence::measured, Evidence::published, Evidence::computed, Evidence::generic, Evidence::prior});
  origin.direction = law.text("direction");
  origin.material = law.text_or("material", "");
  origin.process = law.text_or("process", "");
  origin.fitted_relative_density = fitted_range(law);
  origin.density_basis =
      word_read(law, "density_basis", {DensityBasis::nominal, DensityBasis::true_, DensityBasis::weighed});
  origin.coefficient_of_variation = law.optional_number("coefficient_of_variation", Bounds::not_negative());
  origin.remark = law.text_or("remark", "");
  origin.source = law_source(law);
  origin.computation = computation_of(law, origin.evidence);
  origin.measurement = measurement_of(law, origin.evidence);
  return origin;
}

template <class Law>
void refuse_second_id(const Mapping& law, const std::vector<Law>& earlier, const std::string& id) {
  for (const Law& other : earlier) {
    if (other.origin.id == id) {
      law.fail("id", fmt::format("two laws of this list are called '{}'", id), "Give each law of a list its own id.");
    }
  }
}

PowerLaw read_power_law(Mapping& law, LawKind kind) {
  if (kind == LawKind::strength) {
    law.allow({"id", "evidence", "direction", "material", "process", "fitted_relative_density", "density_basis",
               "coefficient_of_variation", "remark", "source", "standing", "computed_by", "measured_by",
               "node_to_node", "coefficient", "exponent", "stress_basis"});
  } else {
    law.allow({"id", "evidence", "direction", "material", "process", "fitted_relative_density", "density_basis",
               "coefficient_of_variation", "remark", "source", "standing", "computed_by", "measured_by",
               "node_to_node", "coefficient", "exponent"});
  }
  PowerLaw read;
  read.origin = read_origin(law);
  read.origin.node_to_node = law.flag_or("node_to_node", false);
  read.coefficient = law.number("coefficient", Bounds::positive());
  // A stiffness or strength grows with density; the ratio of two strengths may fall.
  read.exponent = law.number("exponent", kind == LawKind::ratio ? Bounds::any() : Bounds::not_negative());
  if (kind == LawKind::strength) {
    read.stress_basis = word_read(
        law, "stress_basis", {StressBasis::proof_stress, StressBasis::flow_stress, StressBasis::ultimate_stress});
  }
  return read;
}

DensificationLaw read_densification_law(Mapping& law) {
  law.allow({"id", "evidence", "direction", "material", "process", "fitted_relative_density", "density_basis",
             "coefficient_of_variation", "remark", "source", "standing", "computed_by", "measured_by", "definition",
             "intercept", "slope"});
  DensificationLaw read;
  read.origin = read_origin(law);
  read.definition = word_read(law, "definition",
                              {DensificationDefinition::locking_strain, DensificationDefinition::efficiency_strain,
                               DensificationDefinition::plateau_end});
  read.intercept = law.number("intercept", {0, 1, true, false});
  read.slope = law.number("slope", Bounds::not_negative());
  const double least = read.intercept - read.slope * read.origin.fitted_relative_density.high;
  if (least <= 0) {
    law.fail("slope",
             fmt::format("the strain falls to {:.4g} at the upper end of the fitted range, {:g}", least,
                         read.origin.fitted_relative_density.high),
             "Shorten the fitted range or correct intercept and slope: the strain must stay between 0 and 1.");
  }
  return read;
}

} // namespace

std::vector<PowerLaw> read_power_laws(const Mapping& cell, std::string_view key, LawKind kind) {
  std::vector<PowerLaw> laws;
  for (Mapping& law : cell.list(key)) {
    PowerLaw read = read_power_law(law, kind);
    refuse_second_id(law, laws, read.origin.id);
    laws.push_back(std::move(read));
  }
  return laws;
}

std::vector<DensificationLaw> read_densification_laws(const Mapping& cell) {
  std::vector<DensificationLaw> laws;
  for (Mapping& law : cell.list("densification")) {
    DensificationLaw read = read_densification_law(law);
    refuse_second_id(law, laws, read.origin.id);
    laws.push_back(std::move(read));
  }
  return laws;
}

} // namespace crushwright
