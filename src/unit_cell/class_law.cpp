#include "unit_cell/class_law.hpp"

namespace crushwright {

namespace {

LawOrigin class_origin(const char* id, const char* remark, const char* source) {
  LawOrigin origin;
  origin.id = id;
  origin.evidence = Evidence::generic;
  origin.direction = "any";
  // Beyond about 0.3 a cellular solid turns into a solid with pores and the class laws lose their ground.
  origin.fitted_relative_density = {0.01, 0.30};
  origin.density_basis = DensityBasis::true_;
  origin.remark = remark;
  origin.source = {source, Standing::memory};
  return origin;
}

} // namespace

std::optional<PowerLaw> class_elastic_modulus(CellBehaviour behaviour) {
  switch (behaviour) {
  case CellBehaviour::bending:
    return PowerLaw{class_origin("class-bending-stiffness", "bending class; factors from 0.1 to 4 are found",
                                 "[gibson1997cellular] ch. 5; constant 1 recalled"),
                    1.0, 2.0, StressBasis::proof_stress};
  case CellBehaviour::stretching:
    return PowerLaw{class_origin("class-stretching-stiffness",
                                 "stretching class, one third of the struts along the load",
                                 "[deshpande2001topology]; recalled"),
                    1.0 / 3.0, 1.0, StressBasis::proof_stress};
  case CellBehaviour::folding:
    return std::nullopt;
  }
  return std::nullopt;
}

std::optional<PowerLaw> class_plateau_stress(CellBehaviour behaviour) {
  switch (behaviour) {
  case CellBehaviour::bending:
    return PowerLaw{class_origin("class-bending-strength", "bending class; factors from 0.25 to 0.35 are quoted",
                                 "[gibson1997cellular] ch. 5; constant 0.3 recalled"),
                    0.3, 1.5, StressBasis::proof_stress};
  case CellBehaviour::stretching:
    return PowerLaw{
        class_origin("class-stretching-strength",
                     "stretching class; a collapse load, so a first peak: the plateau behind it may lie lower",
                     "[deshpande2001topology]; recalled"),
        1.0 / 3.0, 1.0, StressBasis::proof_stress};
  case CellBehaviour::folding:
    return std::nullopt;
  }
  return std::nullopt;
}

DensificationLaw class_locking_strain() {
  DensificationLaw law;
  law.origin = class_origin("class-locking", "", "[gibson1997cellular] ch. 5; recalled");
  law.origin.fitted_relative_density = {0.01, 0.50};
  law.definition = DensificationDefinition::locking_strain;
  law.intercept = 1.0;
  law.slope = 1.4;
  return law;
}

DensificationLaw class_efficiency_strain() {
  DensificationLaw law;
  law.origin = class_origin(
      "class-efficiency", "0.72 of the locking strain; tests of printed lattices lie between 0.63 and 0.94",
      "spread of published tests, recalled; [coluccia_graded_lattices] Table 8 gives 0.69 for BCC and BCCz");
  law.definition = DensificationDefinition::efficiency_strain;
  law.intercept = 0.72;
  law.slope = 0.72 * 1.4;
  return law;
}

} // namespace crushwright
