#pragma once
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

namespace crushwright {

using Json = nlohmann::ordered_json;

/// A number that was to be written is NaN or infinite. The place is a JSON pointer (RFC 6901) or a CSV file, row and
/// column.
class NotFinite : public std::runtime_error {
public:
  NotFinite(std::string where, double value);
  const std::string& where() const { return where_; }

private:
  std::string where_;
};

/// {"value": ..., "unit": ...}
Json quantity_json(double si_value, std::string_view unit);

/// {"unit": ..., "values": [...]}
Json series_json(const std::vector<double>& si_values, std::string_view unit);

/// One entry for each part, in order.
template <class Part, class Write>
Json list_of(const std::vector<Part>& parts, const Write& write) {
  Json list = Json::array();
  for (const Part& part : parts) {
    list.push_back(write(part));
  }
  return list;
}

/// The document as text: members in their order, two spaces a level, a list of plain values on one line, shortest
/// decimals that read back to the same double, one line feed at the end.
/// @throws NotFinite before a character is returned, naming the first faulty place.
std::string json_text(const Json& document);

/// The same on one line without spaces, for data inside a page. Errors as above.
std::string compact_json_text(const Json& document);

} // namespace crushwright
