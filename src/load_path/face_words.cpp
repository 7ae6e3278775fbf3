#include "crushwright/load_path.hpp"

namespace crushwright {

std::string_view name_of(FaceShape shape) {
  switch (shape) {
  case FaceShape::flat:
    return "flat";
  case FaceShape::pole:
    return "pole";
  case FaceShape::wall:
    return "wall";
  }
  return "";
}

std::string_view name_of(Spread spread) {
  return spread == Spread::imprint ? "imprint" : "plate";
}

} // namespace crushwright
