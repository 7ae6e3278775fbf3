#include "crushwright/quantity.hpp"
#include "quantities/dimension_table.hpp"
#include "quantities/units.hpp"

#include <stdexcept>

namespace crushwright {

std::string_view name_of(Standing standing) {
  switch (standing) {
  case Standing::read:
    return "read";
  case Standing::memory:
    return "memory";
  case Standing::derived:
    return "derived";
  case Standing::common_practice:
    return "common_practice";
  }
  throw std::logic_error("a standing without a name");
}

std::string_view name_of(Evidence evidence) {
  switch (evidence) {
  case Evidence::measured:
    return "measured";
  case Evidence::published:
    return "published";
  case Evidence::computed:
    return "computed";
  case Evidence::generic:
    return "generic";
  case Evidence::prior:
    return "prior";
  }
  throw std::logic_error("an evidence without a name");
}

std::string_view name_of(Dimension dimension) {
  return row_of(dimension).name;
}

} // namespace crushwright
