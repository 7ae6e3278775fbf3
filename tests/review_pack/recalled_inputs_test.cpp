#include "review_pack/review_pack.hpp"
#include "review_pack/sample_estimate.hpp"

#include <catch2/catch.hpp>

using namespace crushwright;

TEST_CASE("a value that the case has from memory is marked so in its row of the inputs") {
  CrashCase crash_case = hand_made::crash_case();
  const std::string path = "impacts.full_width.striker.mass";
  crash_case.all_quantities = {
      hand_made::quantity(1100, Dimension::mass, path,
                          hand_made::source("recalled; confirm against the edition", Standing::memory)),
      hand_made::quantity(1400, Dimension::mass, "impacts.full_width.struck.mass",
                          hand_made::source("seen in the protocol", Standing::read))};
  const std::string html = review_page(crash_case, hand_made::estimate(), {"0.1.0", "0123456789abcdef"},
                                       {hand_made::material()}, {hand_made::sizing(), hand_made::comparison()});
  const std::size_t row = html.find(path), end = html.find("</tr>", row);
  REQUIRE(row != std::string::npos);
  const std::string shown = html.substr(row, end - row);
  INFO(shown);
  CHECK(shown.find("1100 kg") != std::string::npos);
  CHECK(shown.find("recalled; confirm against the edition") != std::string::npos);
  CHECK(shown.find("from memory") != std::string::npos);
  const std::size_t other = html.find("impacts.full_width.struck.mass");
  CHECK(html.substr(other, html.find("</tr>", other) - other).find("from memory") == std::string::npos);
}
