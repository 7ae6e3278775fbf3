#pragma once
#include "review_pack/page.hpp"

#include <string>

namespace crushwright {

/// Strengths that the case states for what holds the structures' roots and for metals under cycles, each with source
/// and standing; HTML, empty where none is stated.
std::string root_strengths(const PageContent& content);

} // namespace crushwright
