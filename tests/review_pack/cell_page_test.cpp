#include "review_pack/browser_bundles.hpp"
#include "review_pack/cell_page.hpp"
#include "review_pack/evidence_table.hpp"
#include "review_pack/html.hpp"
#include "review_pack/sample_estimate.hpp"

#include <catch2/catch.hpp>

#include <string>

using namespace crushwright;

namespace {

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// A simple cubic cell with invented results.
CellReport report() {
  CellReport result;
  UnitCell& cell = result.cell;
  cell.id = "simple_cubic";
  cell.name = "Simple cubic";
  cell.behaviour = CellBehaviour::stretching;
  cell.symmetry = "cubic";
  cell.struts = {{{0, 0, 0}, {1, 0, 0}}, {{0, 0, 0}, {0, 1, 0}}, {{0, 0, 0}, {0, 0, 1}}};
  cell.size_name = "strut diameter";
  cell.edge_name = "cell edge";
  cell.true_density_coefficients = {0, 2.3561945, -1.4142157};
  cell.nominal_density_coefficients = {0, 2.3561945};
  cell.size_ratio_range = {0.02, 0.5};
  result.material = hand_made::material();
  result.direction = "001";
  result.size_ratio = 0.25;
  result.cell_edge = 0.008;
  result.relative_density = relative_density(cell, 0.25);
  result.nominal_relative_density = relative_density(cell, 0.25, DensityBasis::nominal);
  StiffnessMatrix stiffness = StiffnessMatrix::Zero();
  stiffness.diagonal() << 0.05, 0.05, 0.05, 0.004, 0.004, 0.004;
  result.frame = FrameStiffness{0.25, result.relative_density, stiffness, 0.9 * stiffness};
  result.solids = {SolidStiffness{0.25, result.relative_density, 1.1 * stiffness, 64, 21, 4e-7, 16, 3}};
  const Eigen::Vector3d z = Eigen::Vector3d::UnitZ();
  result.loads = {FrameLoad{z, 0.046, 0.0001, 2}};
  result.collapses = {FrameCollapse{z, 0.0491, 0.0493, 12, {0, 0.1, 0.3}, {0.0492, 0.02, 0.01}, 0.0193}};
  for (int i = 0; i < 8; ++i) {
    result.yield_surface.push_back({0.0491 * std::cos(i * 0.785398), 0.0491 * std::sin(i * 0.785398)});
  }
  result.evidence = hand_made::cell_at("middle", 0.2, 0.12, 0.002).properties;
  FittedLaw law;
  law.property = "elastic modulus";
  law.law.coefficient = 0.37;
  law.law.exponent = 1.02;
  law.law.origin.direction = "001";
  law.computed = {0.02, 0.04, 0.06};
  law.largest_residual = 0.013;
  result.fitted_laws = {law};
  result.warnings = {"invented warning"};
  return result;
}

} // namespace

TEST_CASE("the page of a cell has its drawing, every section and every warning") {
  const std::string html = cell_page(report(), "0.1.0");
  CHECK(contains(html, "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"cell-drawing\""));
  CHECK(contains(html, ">crush 001</text>"));
  for (const char* id : {"stiffness", "collapse", "evidence", "fit", "cautions"}) {
    INFO(id);
    CHECK(contains(html, "<section id=\"" + std::string(id) + "\""));
  }
  CHECK(contains(html, "<li>invented warning</li>"));
  CHECK(contains(html, "<li>first peak from a law without a fitted range</li>"));
  CHECK(contains(html, "data-chart=\"frame-path\""));
}

TEST_CASE("stiffness and collapse are shown in the metal's units with the ratio beside") {
  const CellReport given = report();
  const std::string html = cell_page(given, "0.1.0");
  const double modulus = given.material.youngs_modulus->value, yield = given.material.proof_stress->value;
  CHECK(contains(html, value_html(0.055 * modulus, Dimension::stress) + "<br><span class=\"quiet\">0.055</span>"));
  CHECK(contains(html, value_html(0.0491 * yield, Dimension::stress) + "<br><span class=\"quiet\">0.0491</span>"));
  CHECK(contains(html, value_html(0.0493 * yield, Dimension::stress)));
}

TEST_CASE("a strut that buckles before the cell collapses is called out") {
  CellReport given = report();
  const char* call = "Along 001 a strut buckles before the cell collapses plastically";
  CHECK(contains(cell_page(given, "0.1.0"), call));
  given.loads[0].first_buckling = 0.01;
  CHECK_FALSE(contains(cell_page(given, "0.1.0"), call));
}

TEST_CASE("what a report does not hold is named as missing") {
  CellReport given = report();
  given.frame.reset();
  given.solids.clear();
  given.collapses.clear();
  given.evidence.reset();
  given.fitted_laws.clear();
  const std::string html = cell_page(given, "0.1.0");
  CHECK(contains(html, "No stiffness was computed."));
  CHECK(contains(html, "No collapse was computed."));
  CHECK(contains(html, "The catalogue holds no law that serves this cell in this metal."));
  CHECK_FALSE(contains(html, "<section id=\"fit\""));
}

TEST_CASE("a size below what is usually printed is marked") {
  CellReport given = report();
  given.cell.printable_minimum = hand_made::quantity(0.0025, Dimension::length, "printable_minimum");
  CHECK(contains(cell_page(given, "0.1.0"), "this one has 2 mm"));
  given.cell_edge = 0.02;
  CHECK_FALSE(contains(cell_page(given, "0.1.0"), "this one has"));
}

TEST_CASE("hostile names stay text on the page of a cell") {
  CellReport given = report();
  given.cell.name = "</title><script>alert(1)</script>";
  given.cell.description = given.cell.name;
  given.material.name = given.cell.name;
  given.warnings = {given.cell.name};
  CHECK_FALSE(contains(cell_page(given, "0.1.0"), "<script>alert(1)"));
}

TEST_CASE("evidence stands side by side by kind, and the one used is framed") {
  CellProperties properties = hand_made::cell_at("middle", 0.2, 0.12, 0.002).properties;
  const std::string html = evidence_table(properties);
  CHECK(contains(html, "<th scope=\"col\">Measured</th><th scope=\"col\">Published</th>"
                       "<th scope=\"col\">Computed</th><th scope=\"col\">Generic</th>"));
  CHECK(contains(html, "<span class=\"chosen\">" +
                           value_html(properties.plateau_stress.all[0].value, Dimension::stress) + "</span>"));
  for (const PropertyEvidence& evidence : properties.plateau_stress.all) {
    CHECK(contains(html, evidence.law));
    CHECK(contains(html, value_html(evidence.value, Dimension::stress)));
  }
  CHECK(contains(html, "Why this one: published, same cell"));
  CHECK_FALSE(contains(html, "Prior"));
}

TEST_CASE("evidence more than 30 % off the one used carries the difference") {
  CellProperties properties = hand_made::cell_at("middle", 0.2, 0.12, 0.002).properties;
  CHECK_FALSE(contains(evidence_table(properties), "off the one used"));
  properties.plateau_stress.all[1].value = 0.69 * properties.plateau_stress.all[0].value;
  CHECK(contains(evidence_table(properties), "\u221231\u00a0% off the one used"));
}

TEST_CASE("two laws of one kind share its column") {
  CellProperties properties = hand_made::cell_at("middle", 0.2, 0.12, 0.002).properties;
  PropertyEvidence second = properties.plateau_stress.all[0];
  second.law = "second-series";
  properties.plateau_stress.all.push_back(second);
  const std::string html = evidence_table(properties);
  const std::size_t first_at = html.find("coupon-series-plateau");
  const std::size_t second_at = html.find("second-series");
  REQUIRE(second_at != std::string::npos);
  CHECK(first_at < second_at);
  CHECK(html.substr(first_at, second_at - first_at).find("</td>") == std::string::npos);
}
