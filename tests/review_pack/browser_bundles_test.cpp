#include "review_pack/browser_bundles.hpp"

#include <catch2/catch.hpp>

#include <string_view>

using namespace crushwright;

namespace {

bool holds(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

} // namespace

TEST_CASE("an embedded chart script can stand inside one script element") {
  for (const std::string_view script : {vega_script(), vega_lite_script()}) {
    CHECK(script.size() > 100'000);
    CHECK_FALSE(holds(script, "</script"));
    CHECK_FALSE(holds(script, "<!--"));
    CHECK_FALSE(holds(script, "sourceMappingURL"));
  }
}

TEST_CASE("the embedded chart scripts are plain scripts that define the globals the page uses") {
  CHECK(holds(vega_script().substr(0, 500), ".vega={}"));
  CHECK(holds(vega_lite_script().substr(0, 500), ".vegaLite={}"));
}

TEST_CASE("the embedded chart scripts come with the licence of every package inside them") {
  for (const std::string_view package : {"vega 6.", "vega-lite 6.", "d3-scale ", "topojson-client ", "tslib "}) {
    INFO(package);
    CHECK(holds(bundle_notices(), package));
  }
  CHECK(holds(bundle_notices(), "Redistribution and use in source and binary forms"));
  CHECK(holds(bundle_notices(), "Permission to use, copy, modify, and/or distribute this software"));
}
