#include "crushwright/errors.hpp"
#include "crushwright/homogenisation.hpp"
#include "homogenisation/declared_symmetry.hpp"
#include "unit_cell/catalogue_folder.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

TEST_CASE("a cell that declares a symmetry which its stiffness lacks is refused and told which one it has") {
  Catalogue catalogue = own_catalogue();
  UnitCell cell = catalogue.cell("bccz");
  const StiffnessMatrix stiffness = frame_stiffness(cell, 0.1, 0.3).over_youngs_modulus;
  CHECK_NOTHROW(require_declared_symmetry(cell, stiffness, frame_symmetry_limit));
  cell.symmetry = "cubic";
  CHECK_THROWS_WITH(require_declared_symmetry(cell, stiffness, frame_symmetry_limit),
                    Catch::Contains("symmetry is `cubic`, but its stiffness misses that by") &&
                        Catch::Contains("Write `tetragonal`."));
}

TEST_CASE("every strut cell of the catalogue has the symmetry that it declares") {
  Catalogue catalogue = own_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    if (cell.cell_class == CellClass::strut) {
      INFO(id);
      CHECK_NOTHROW(
          require_declared_symmetry(cell, frame_stiffness(cell, 0.1, 0.3).over_youngs_modulus, frame_symmetry_limit));
    }
  }
}
