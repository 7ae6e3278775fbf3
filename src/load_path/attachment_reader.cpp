#include "load_path/attachment_reader.hpp"

#include "quantities/units.hpp"
#include "yaml_input/spread.hpp"

#include <fmt/format.h>

namespace crushwright {
namespace {

std::optional<Quantity> optional_with_ends(const Mapping& holder, std::string_view key, const Bounds& bounds) {
  return holder.has(key) ? std::optional<Quantity>(with_ends(holder, key, Dimension::stiffness, bounds))
                         : std::nullopt;
}

std::optional<Quantity> read_room(const Mapping& holder, const Quantity& capacity,
                                  const std::optional<Quantity>& stiffness) {
  if (!holder.has("crush_room"))
    return std::nullopt;
  const Quantity room = without_spread(holder, "crush_room", Dimension::length, Bounds::positive());
  const double yield_crush = stiffness ? capacity.high_end() / stiffness->low_end() : 0;
  if (!(room.value > yield_crush))
    holder.fail("crush_room",
                fmt::format("it would lock before it crushes: capacity over stiffness is {}",
                            show(yield_crush, Dimension::length)),
                "The room is the whole length that it can lose; give more, or delete the line.");
  return room;
}

} // namespace

AttachmentInput read_attachment(Mapping attachment) {
  attachment.allow({"capacity", "stiffness", "crush_room", "bolts"});
  AttachmentInput input;
  input.capacity = with_ends(attachment, "capacity", Dimension::force, Bounds::positive());
  input.stiffness = optional_with_ends(attachment, "stiffness", Bounds::positive());
  input.crush_room = read_room(attachment, input.capacity, input.stiffness);
  return input;
}

RestOfBodyInput read_rest_of_body(Mapping rest) {
  rest.allow({"stiffness", "capacity", "hardening", "crush_room"});
  RestOfBodyInput input;
  input.stiffness = with_ends(rest, "stiffness", Dimension::stiffness, Bounds::positive());
  input.capacity = with_ends(rest, "capacity", Dimension::force, Bounds::positive());
  input.hardening = optional_with_ends(rest, "hardening", Bounds::not_negative());
  if (input.hardening && !(input.hardening->high_end() < input.stiffness.low_end()))
    rest.fail("hardening",
              fmt::format("the slope beyond the capacity reaches the elastic stiffness, {}",
                          show(input.stiffness.low_end(), Dimension::stiffness)),
              "Give a smaller slope, or delete the line for a flat force.");
  input.crush_room = read_room(rest, input.capacity, input.stiffness);
  return input;
}

} // namespace crushwright
