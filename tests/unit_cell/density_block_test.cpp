#include "unit_cell/density_block.hpp"

#include "crushwright/errors.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

namespace {

DensityFit sample_fit() {
  DensityFit fit;
  fit.coefficients = {0, 2.356194490, -1.414213562};
  fit.size_ratio_range = {0.02, 0.55};
  fit.largest_error = 0.00021;
  fit.method = "volume of the union";
  return fit;
}

const std::string sample_block =
    "true_density:\n"
    "  coefficients: [0, 2.3561945, -1.4142136]\n"
    "  size_ratio_range: [0.02, 0.55]\n"
    "  largest_fit_error: 0.0003\n"
    "  source: \"volume of the union (scripts/update_catalogue, docs/method/unit_cell.md)\"\n"
    "  standing: derived\n";

} // namespace

TEST_CASE("The block holds coefficients, range and an error that is rounded up") {
  CHECK(true_density_block(sample_fit()) == sample_block);
}

TEST_CASE("Only the block true_density of an entry is rewritten") {
  const std::string before =
      "# our cell\nid: x\ntrue_density_note: kept\nnominal_density:\n  coefficients: [0, 2]\n\n";
  const std::string after = "\n# laws\nelastic_modulus:\n  true_density:\n    kept: 1\n";
  const std::string old_block = "true_density:   # old\n  coefficients:\n    [0, 1]\n\n  standing: memory\n";
  CHECK(with_true_density(before + old_block + after, sample_block, "x.yaml") == before + sample_block + after);
  CHECK(with_true_density(before + sample_block + after, sample_block, "x.yaml") == before + sample_block + after);
}

TEST_CASE("An entry without a true density gets it behind its nominal one") {
  CHECK_FALSE(has_true_density("nominal_density: {coefficients: [0, 2]}\nsymmetry: cubic\n"));
  CHECK(with_true_density("nominal_density: {coefficients: [0, 2]}\nsymmetry: cubic\n", sample_block, "x.yaml") ==
        "nominal_density: {coefficients: [0, 2]}\n" + sample_block + "symmetry: cubic\n");
  CHECK(with_true_density("nominal_density: {coefficients: [0, 2]}", sample_block, "x.yaml") ==
        "nominal_density: {coefficients: [0, 2]}\n" + sample_block);
  CHECK_THROWS_WITH(with_true_density("id: x\n", sample_block, "x.yaml"),
                    "x.yaml: expected nominal_density, edge_name or true_density at the left margin; found none. Add "
                    "nominal_density (docs/catalogue_format.md) and run again.");
}
