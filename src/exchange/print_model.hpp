#pragma once
#include "crushwright/exchange.hpp"

#include <string>

namespace crushwright {

/// The model part of a 3MF file, XML in UTF-8.
std::string model_of_struts(const StrutBody& body, const TriangleMesh& skin, const PrintFileText& text);
std::string model_of_mesh(const TriangleMesh& mesh, const PrintFileText& text);

} // namespace crushwright
