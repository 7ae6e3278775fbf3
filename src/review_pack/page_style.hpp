#pragma once
#include <string_view>

namespace crushwright {

/// Style sheet of the review page: screen in light and dark, print on A4.
std::string_view page_style();

/// Draws the charts from the specifications in the page.
std::string_view page_script();

} // namespace crushwright
