#pragma once
#include <string_view>

namespace crushwright {

/// The chart scripts as they are embedded in the program, UTF-8 and free of "</script", so that each can stand inside
/// one <script> element of a page that says <meta charset="utf-8">. vega_script() goes first; together they define
/// the globals `vega` and `vegaLite`. Versions are pinned in scripts/browser_bundles/package.json.
std::string_view vega_script();
std::string_view vega_lite_script();

/// Name, version and licence text of every package whose code is inside the two scripts; plain text, UTF-8. Their
/// licences ask that it travels with each copy, so a page that carries the scripts carries it too.
std::string_view bundle_notices();

} // namespace crushwright
