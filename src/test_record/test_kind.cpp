#include "crushwright/test_record.hpp"

#include <stdexcept>

namespace crushwright {

std::string_view name_of(TestKind kind) {
  switch (kind) {
  case TestKind::lattice_compression:
    return "lattice_compression";
  case TestKind::metal_compression:
    return "metal_compression";
  case TestKind::metal_tension:
    return "metal_tension";
  }
  throw std::logic_error("unknown kind of test");
}

} // namespace crushwright
