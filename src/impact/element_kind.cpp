#include "crushwright/impact.hpp"

namespace crushwright {

std::string_view name_of(ElementKind kind) {
  switch (kind) {
  case ElementKind::face_block:
    return "face block";
  case ElementKind::attachment:
    return "attachment";
  case ElementKind::rest_of_body:
    return "rest of the body";
  }
  return "attachment";
}

} // namespace crushwright
