#include "result_file/json_text.hpp"

#include <cmath>
#include <utility>

#include <fmt/format.h>

namespace crushwright {

namespace {

std::string pointer_token(const std::string& key) {
  std::string token;
  for (const char c : key) {
    token += c == '~' || c == '/' ? '~' : c;
    token += c == '~' ? "0" : c == '/' ? "1" : "";
  }
  return token;
}

void require_finite(const Json& node, const std::string& where) {
  if (node.is_number_float() && !std::isfinite(node.get<double>())) {
    throw NotFinite(where, node.get<double>());
  }
  if (node.is_array()) {
    std::size_t index = 0;
    for (const Json& element : node) {
      // The path is built only where something can be wrong below: series hold most of the numbers.
      if (!element.is_number_float() || !std::isfinite(element.get<double>())) {
        require_finite(element, fmt::format("{}/{}", where, index));
      }
      ++index;
    }
  }
  if (node.is_object()) {
    for (const auto& member : node.items()) {
      require_finite(member.value(), where + "/" + pointer_token(member.key()));
    }
  }
}

bool holds_only_plain_values(const Json& node) {
  for (const Json& element : node) {
    if (element.is_structured()) {
      return false;
    }
  }
  return true;
}

void write_members_on_one_line(const Json& node, std::string& text) {
  text += '{';
  bool first = true;
  for (const auto& member : node.items()) {
    text += (first ? "" : ", ") + Json(member.key()).dump() + ": " + member.value().dump();
    first = false;
  }
  text += '}';
}

void write(const Json& node, std::size_t depth, std::string& text) {
  if (!node.is_structured()) {
    text += node.dump();
    return;
  }
  if (holds_only_plain_values(node) && node.is_array()) {
    text += node.dump();
    return;
  }
  if (holds_only_plain_values(node) && node.size() <= 2) {
    write_members_on_one_line(node, text);
    return;
  }
  const std::string indent(2 * (depth + 1), ' ');
  text += node.is_object() ? "{\n" : "[\n";
  std::size_t left = node.size();
  for (const auto& member : node.items()) {
    text += indent;
    if (node.is_object()) {
      text += Json(member.key()).dump() + ": ";
    }
    write(member.value(), depth + 1, text);
    text += --left > 0 ? ",\n" : "\n";
  }
  text += std::string(2 * depth, ' ') + (node.is_object() ? "}" : "]");
}

} // namespace

NotFinite::NotFinite(std::string where, double value)
    : std::runtime_error(
          fmt::format("the result holds {} at {}; nothing was written. This is a fault of the program, "
                      "not of the case: please report it together with the case file",
                      value, where)),
      where_(std::move(where)) {}

Json quantity_json(double si_value, std::string_view unit) {
  return Json{{"value", si_value}, {"unit", unit}};
}

Json series_json(const std::vector<double>& si_values, std::string_view unit) {
  return Json{{"unit", unit}, {"values", si_values}};
}

std::string json_text(const Json& document) {
  require_finite(document, "");
  std::string text;
  write(document, 0, text);
  text += '\n';
  return text;
}

std::string compact_json_text(const Json& document) {
  require_finite(document, "");
  return document.dump();
}

} // namespace crushwright
