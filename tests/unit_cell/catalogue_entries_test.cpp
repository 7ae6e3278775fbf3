// Identities that hold for every entry of the catalogue.
#include "scaling_law/bounds.hpp"
#include "unit_cell/catalogue_folder.hpp"
#include "unit_cell/class_law.hpp"
#include "unit_cell/strut_identity.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <iterator>
#include <regex>
#include <set>

using namespace crushwright;

namespace {

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  REQUIRE(stream);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

std::set<std::string> matches_of(const std::string& text, const std::regex& pattern) {
  std::set<std::string> found;
  for (std::sregex_iterator match(text.begin(), text.end(), pattern), end; match != end; ++match) {
    found.insert((*match)[1]);
  }
  return found;
}

std::vector<LawOrigin> origins_of(const UnitCell& cell) {
  std::vector<LawOrigin> origins;
  for (const auto* laws : {&cell.elastic_modulus, &cell.plateau_stress, &cell.first_peak_ratio}) {
    for (const PowerLaw& law : *laws) {
      origins.push_back(law.origin);
    }
  }
  for (const DensificationLaw& law : cell.densification) {
    origins.push_back(law.origin);
  }
  return origins;
}

/// Calls check(true ρ̄, law value) over the part of the law's range that the cell can have.
template <class Law, class Check>
void over_range(const UnitCell& cell, const Law& law, Check&& check) {
  for (int step = 0; step <= 40; ++step) {
    const double part = step / 40.0;
    double density =
        (1 - part) * law.origin.fitted_relative_density.low + part * law.origin.fitted_relative_density.high;
    if (cell.cell_class != CellClass::foam) {
      const double ratio = (1 - part) * cell.size_ratio_range.low + part * cell.size_ratio_range.high;
      density = relative_density(cell, ratio);
    }
    const double argument = in_basis(cell, density, law.origin.density_basis);
    if (law.origin.fitted_relative_density.contains(argument)) {
      check(density, evaluate(law, argument).value);
    }
  }
}

} // namespace

TEST_CASE("every entry of the catalogue loads and says what it is") {
  Catalogue catalogue = own_catalogue();
  CHECK(catalogue.cell_ids().size() >= 12);
  CHECK(catalogue.material_ids().size() >= 10);
  for (const std::string& id : catalogue.cell_ids()) {
    INFO(id);
    CHECK(catalogue.cell(id).id == id);
    CHECK_FALSE(catalogue.cell(id).description.empty());
  }
  for (const std::string& id : catalogue.material_ids()) {
    INFO(id);
    CHECK(catalogue.material(id).id == id);
    CHECK(catalogue.material(id).density.has_value());
  }
}

TEST_CASE("no strut of an entry is another one moved by whole cells") {
  Catalogue catalogue = own_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    INFO(id);
    CHECK_FALSE(repeated_strut(catalogue.cell(id).struts).has_value());
  }
}

TEST_CASE("the nominal density of a strut cell is the volume of its struts") {
  Catalogue catalogue = own_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    if (cell.cell_class != CellClass::strut) {
      continue;
    }
    INFO(id);
    double length = 0;
    for (const Strut& strut : cell.struts) {
      length += strut_length(strut);
    }
    const double ratio = 0.05;
    CHECK(relative_density(cell, ratio, DensityBasis::nominal) ==
          Approx(M_PI / 4 * ratio * ratio * length).epsilon(1e-8));
  }
}

TEST_CASE("every strut ends where another one ends") {
  Catalogue catalogue = own_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    std::map<std::array<double, 3>, int> ends;
    const auto folded = [](const std::array<double, 3>& point) {
      std::array<double, 3> inside{};
      for (std::size_t axis = 0; axis < 3; ++axis) {
        inside[axis] = std::round((point[axis] - std::floor(point[axis] + 1e-9)) * 1e6) / 1e6;
      }
      return inside;
    };
    for (const Strut& strut : catalogue.cell(id).struts) {
      ++ends[folded(strut.from)];
      ++ends[folded(strut.to)];
    }
    for (const auto& [point, count] : ends) {
      INFO(id << " at " << point[0] << ' ' << point[1] << ' ' << point[2]);
      CHECK(count >= 2);
    }
  }
}

TEST_CASE("a cubic cell is the same seen along x, y and z") {
  Catalogue catalogue = own_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    if (cell.symmetry != "cubic" || cell.cell_class != CellClass::strut) {
      continue;
    }
    std::set<std::pair<std::array<double, 3>, std::array<double, 3>>> here;
    for (const Strut& strut : cell.struts) {
      const Strut folded = folded_strut(strut);
      here.insert({folded.from, folded.to});
    }
    for (const Strut& strut : cell.struts) {
      const Strut turned =
          folded_strut({{strut.from[1], strut.from[2], strut.from[0]}, {strut.to[1], strut.to[2], strut.to[0]}});
      INFO(id);
      CHECK(here.count({turned.from, turned.to}) == 1);
    }
  }
}

TEST_CASE("density rises with size and stays between 0 and 1") {
  Catalogue catalogue = own_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    if (cell.cell_class == CellClass::foam) {
      continue;
    }
    double before = 0;
    for (int step = 0; step <= 100; ++step) {
      const double part = step / 100.0;
      const double ratio = (1 - part) * cell.size_ratio_range.low + part * cell.size_ratio_range.high;
      const double density = relative_density(cell, ratio);
      INFO(id << " at " << ratio);
      CHECK(density > before);
      CHECK(density < 1);
      before = density;
    }
  }
}

TEST_CASE("every law is positive and no plateau exceeds the relative density times the base stress") {
  Catalogue catalogue = own_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    for (const PowerLaw& law : cell.plateau_stress) {
      over_range(cell, law, [&](double density, double value) {
        INFO(id << ", " << law.origin.id << " at " << density);
        CHECK(value > 0);
        CHECK(value <= density);
      });
    }
    for (const PowerLaw& law : cell.elastic_modulus) {
      over_range(cell, law, [&](double density, double value) {
        INFO(id << ", " << law.origin.id << " at " << density);
        CHECK(value > 0);
        // A nominal law may pass the true density by what the nodes are counted twice.
        CHECK(value <= in_basis(cell, density, law.origin.density_basis));
      });
    }
  }
}

TEST_CASE("isotropic entries and class laws stay under the bounds on stiffness and collapse") {
  // ν = 0.33, the lightest metals of the catalogue; Hashin and Shtrikman (1963), Suquet (1993), recalled.
  Catalogue catalogue = own_catalogue();
  UnitCell foam = catalogue.cell("metal_foam_closed");
  for (const CellBehaviour behaviour : {CellBehaviour::bending, CellBehaviour::stretching}) {
    foam.elastic_modulus.push_back(*class_elastic_modulus(behaviour));
    foam.plateau_stress.push_back(*class_plateau_stress(behaviour));
  }
  for (const PowerLaw& law : foam.elastic_modulus) {
    over_range(foam, law, [&](double density, double value) {
      INFO(law.origin.id << " at " << density);
      CHECK(value <= hashin_shtrikman_modulus(density, 0.33));
    });
  }
  for (const PowerLaw& law : foam.plateau_stress) {
    over_range(foam, law, [&](double density, double value) {
      INFO(law.origin.id << " at " << density);
      CHECK(value <= suquet_collapse_stress(density));
    });
  }
}

TEST_CASE("the efficiency strain of every entry lies below its locking strain") {
  Catalogue catalogue = own_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    const UnitCell& cell = catalogue.cell(id);
    for (const DensificationLaw& efficiency : cell.densification) {
      for (const DensificationLaw& locking : cell.densification) {
        if (efficiency.definition != DensificationDefinition::efficiency_strain ||
            locking.definition != DensificationDefinition::locking_strain) {
          continue;
        }
        over_range(cell, efficiency, [&](double density, double value) {
          INFO(id << " at " << density);
          CHECK(value < 0.97 * evaluate(locking, density).value);
        });
      }
    }
  }
}

TEST_CASE("every law has a source and a standing") {
  Catalogue catalogue = own_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    for (const LawOrigin& origin : origins_of(catalogue.cell(id))) {
      INFO(id << ", " << origin.id);
      CHECK_FALSE(origin.source.text.empty());
      CHECK(origin.source.standing.has_value());
    }
  }
}

TEST_CASE("every material property has a source and a standing") {
  Catalogue catalogue = own_catalogue();
  for (const std::string& id : catalogue.material_ids()) {
    const BaseMaterial& material = catalogue.material(id);
    for (const auto* property :
         {&material.density, &material.youngs_modulus, &material.poissons_ratio, &material.proof_stress,
          &material.ultimate_stress, &material.uniform_elongation, &material.fracture_elongation,
          &material.hardening_exponent, &material.rate_factor}) {
      if (*property) {
        INFO(id << ", " << (*property)->path);
        CHECK_FALSE((*property)->source.text.empty());
        CHECK((*property)->source.standing.has_value());
      }
    }
  }
}

TEST_CASE("every work cited by the catalogue stands in the bibliography") {
  const std::filesystem::path root = CRUSHWRIGHT_SOURCE_DIR;
  const std::set<std::string> known =
      matches_of(bytes_of(root / "docs/references.bib"), std::regex(R"(@\w+\{([^,\s]+),)"));
  Catalogue catalogue = own_catalogue();
  for (const std::string& id : catalogue.cell_ids()) {
    catalogue.cell(id);
  }
  for (const std::string& id : catalogue.material_ids()) {
    catalogue.material(id);
  }
  std::string all = bytes_of(root / "src/unit_cell/class_law.cpp") + bytes_of(root / "src/scaling_law/bounds.hpp");
  for (const auto& [name, bytes] : catalogue.files_used()) {
    all += bytes;
  }
  const std::set<std::string> cited = matches_of(all, std::regex(R"(\[([a-z][a-z0-9_]*[a-z0-9])\])"));
  CHECK(cited.size() >= 10);
  for (const std::string& key : cited) {
    INFO(key);
    CHECK(known.count(key) == 1);
  }
}
