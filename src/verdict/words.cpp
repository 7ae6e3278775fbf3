#include "crushwright/verdict.hpp"

#include "quantities/units.hpp"
#include "verdict/limit_words.hpp"
#include "verdict/pulse_statistic.hpp"

#include <fmt/format.h>

namespace crushwright {

const std::vector<std::pair<LimitedQuantity, std::string>>& quantity_words() {
  static const std::vector<std::pair<LimitedQuantity, std::string>> words{
      {LimitedQuantity::acceleration, "acceleration"},
      {LimitedQuantity::force, "force"},
      {LimitedQuantity::crush, "crush"},
      {LimitedQuantity::energy, "energy"},
      {LimitedQuantity::mass, "mass"},
      {LimitedQuantity::wall, "wall"},
      {LimitedQuantity::cells_across, "cells_across"},
      {LimitedQuantity::stroke_used, "stroke_used"},
      {LimitedQuantity::reserve, "reserve"},
      {LimitedQuantity::clearance, "clearance"},
      {LimitedQuantity::clearance_after_crush, "clearance_after_crush"},
      {LimitedQuantity::ramp_angle, "ramp_angle"},
      {LimitedQuantity::build_height, "build_height"},
      {LimitedQuantity::build_time, "build_time"},
      {LimitedQuantity::build_cost, "build_cost"},
      {LimitedQuantity::build_pieces, "build_pieces"},
      {LimitedQuantity::unsupported_share, "unsupported_share"},
      {LimitedQuantity::unsupported_span, "unsupported_span"},
      {LimitedQuantity::overhang_area, "overhang_area"},
      {LimitedQuantity::escape_opening, "escape_opening"},
      {LimitedQuantity::speed_change, "speed_change"},
      {LimitedQuantity::yaw_moment, "yaw_moment"},
      {LimitedQuantity::bearing_share, "bearing_share"},
      {LimitedQuantity::attachment_crush, "attachment_crush"},
      {LimitedQuantity::section_use, "section_use"},
      {LimitedQuantity::bolt_use, "bolt_use"},
      {LimitedQuantity::stability_reserve, "stability_reserve"},
      {LimitedQuantity::critical_angle, "critical_angle"},
      {LimitedQuantity::bending_frequency, "bending_frequency"},
      {LimitedQuantity::service_use, "service_use"},
      {LimitedQuantity::fatigue_damage, "fatigue_damage"}};
  return words;
}

const std::vector<std::pair<Statistic, std::string>>& statistic_words() {
  static const std::vector<std::pair<Statistic, std::string>> words{
      {Statistic::peak, "peak"},
      {Statistic::mean_over_time, "mean_over_time"},
      {Statistic::mean_over_distance, "mean_over_distance"},
      {Statistic::cumulative_time, "cumulative_time"},
      {Statistic::continuous_time, "continuous_time"},
      {Statistic::moving_average, "moving_average"},
      {Statistic::occupant_load, "occupant_load"},
      {Statistic::pulse_index, "pulse_index"}};
  return words;
}

const std::vector<std::pair<LimitStatus, std::string>>& status_words() {
  static const std::vector<std::pair<LimitStatus, std::string>> words{{LimitStatus::regulation, "regulation"},
                                                                      {LimitStatus::series_rule, "series_rule"},
                                                                      {LimitStatus::internal, "internal"}};
  return words;
}

namespace {

template <class Value>
std::string_view word_of(const std::vector<std::pair<Value, std::string>>& words, Value value) {
  for (const auto& [each, word] : words)
    if (each == value)
      return word;
  return "";
}

std::string in_words(std::string_view word) {
  std::string text(word);
  for (char& letter : text)
    if (letter == '_')
      letter = ' ';
  return text;
}

} // namespace

std::string_view name_of(LimitedQuantity quantity) {
  return word_of(quantity_words(), quantity);
}

std::string_view name_of(Statistic statistic) {
  return word_of(statistic_words(), statistic);
}

std::string_view name_of(LimitStatus status) {
  return word_of(status_words(), status);
}

std::string_view name_of(Side side) {
  return side == Side::weak ? "weak" : side == Side::nominal ? "nominal" : "strong";
}

std::string_view name_of(Word word) {
  return word == Word::pass ? "pass" : word == Word::open ? "open" : "fail";
}

Dimension dimension_of(LimitedQuantity quantity) {
  switch (quantity) {
  case LimitedQuantity::acceleration:
    return Dimension::acceleration;
  case LimitedQuantity::force:
    return Dimension::force;
  case LimitedQuantity::crush:
  case LimitedQuantity::wall:
  case LimitedQuantity::clearance:
  case LimitedQuantity::clearance_after_crush:
    return Dimension::length;
  case LimitedQuantity::ramp_angle:
    return Dimension::angle;
  case LimitedQuantity::build_height:
  case LimitedQuantity::unsupported_span:
  case LimitedQuantity::escape_opening:
    return Dimension::length;
  case LimitedQuantity::build_time:
    return Dimension::duration;
  case LimitedQuantity::build_cost:
  case LimitedQuantity::build_pieces:
    return Dimension::number;
  case LimitedQuantity::unsupported_share:
    return Dimension::fraction;
  case LimitedQuantity::overhang_area:
    return Dimension::area;
  case LimitedQuantity::energy:
    return Dimension::energy;
  case LimitedQuantity::mass:
    return Dimension::mass;
  case LimitedQuantity::cells_across:
    return Dimension::number;
  case LimitedQuantity::stroke_used:
  case LimitedQuantity::reserve:
  case LimitedQuantity::bearing_share:
  case LimitedQuantity::section_use:
  case LimitedQuantity::bolt_use:
  case LimitedQuantity::stability_reserve:
  case LimitedQuantity::service_use:
    return Dimension::fraction;
  case LimitedQuantity::speed_change:
    return Dimension::speed;
  case LimitedQuantity::yaw_moment:
    return Dimension::moment;
  case LimitedQuantity::attachment_crush:
    return Dimension::length;
  case LimitedQuantity::critical_angle:
    return Dimension::angle;
  case LimitedQuantity::bending_frequency:
    return Dimension::frequency;
  case LimitedQuantity::fatigue_damage:
    return Dimension::number;
  }
  return Dimension::number;
}

bool is_of_printing(LimitedQuantity quantity) {
  switch (quantity) {
  case LimitedQuantity::build_height:
  case LimitedQuantity::build_time:
  case LimitedQuantity::build_cost:
  case LimitedQuantity::build_pieces:
  case LimitedQuantity::unsupported_share:
  case LimitedQuantity::unsupported_span:
  case LimitedQuantity::overhang_area:
  case LimitedQuantity::escape_opening:
    return true;
  default:
    return false;
  }
}

bool limits_collapse_of_part(const Limit& limit) {
  return limit.quantity == LimitedQuantity::crush && limit.of.find('.') != std::string::npos;
}

std::string describe(const Limit& limit) {
  std::string text;
  const bool has_statistic =
      limit.quantity == LimitedQuantity::acceleration || limit.quantity == LimitedQuantity::force;
  const std::string time = show(limit.statistic_time, Dimension::time);
  if (has_statistic && limit.statistic == Statistic::cumulative_time)
    text = fmt::format("{} held for {} in all", name_of(limit.quantity), time);
  else if (has_statistic && limit.statistic == Statistic::continuous_time)
    text = fmt::format("{} held for {} without break", name_of(limit.quantity), time);
  else if (has_statistic && limit.statistic == Statistic::moving_average)
    text = fmt::format("greatest mean {} over any {}", name_of(limit.quantity), time);
  else if (has_statistic && is_of_occupant(limit.statistic))
    text = in_words(name_of(limit.statistic));
  else if (has_statistic)
    text = fmt::format("{} {}", in_words(name_of(limit.statistic)), name_of(limit.quantity));
  else if (limit.quantity == LimitedQuantity::wall)
    text = "thinnest strut or wall";
  else if (limit.quantity == LimitedQuantity::reserve)
    text = "energy reserve";
  else if (limit.quantity == LimitedQuantity::section_use)
    text = "use of the plastic section";
  else if (limit.quantity == LimitedQuantity::attachment_crush)
    text = "lasting crush of the attachment";
  else if (limit.quantity == LimitedQuantity::bearing_share)
    text = "share of the tip that the face covers";
  else if (limits_collapse_of_part(limit))
    text = "collapse";
  else
    text = in_words(name_of(limit.quantity));
  text += fmt::format(" of {}", limit.of);
  if (limit.channel_class > 0)
    text += fmt::format(", class {}", limit.channel_class);
  if (limit.window.kind == WindowKind::first_crush)
    text += fmt::format(", first {}", show(limit.window.extent, Dimension::length));
  if (limit.window.kind == WindowKind::first_energy)
    text += fmt::format(", first {}", show(limit.window.extent, Dimension::energy));
  return text;
}

} // namespace crushwright
