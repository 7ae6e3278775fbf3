#include "crushwright/errors.hpp"
#include "crushwright/lattice_body.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace crushwright {
namespace {

void require_places(const char* name, const std::vector<double>& places) {
  if (places.empty())
    throw OutOfDomain(fmt::format("size factor: `{}` is empty; expected at least one place", name));
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (!std::isfinite(places[i]))
      throw OutOfDomain(fmt::format("size factor: place {} of `{}` is not a number", i + 1, name));
    if (i > 0 && !(places[i] > places[i - 1]))
      throw OutOfDomain(fmt::format("size factor: `{}` has {:g} after {:g}; expected places that rise", name,
                                    places[i], places[i - 1]));
  }
}

/// The place below and the part of the way to the next.
struct Between {
  std::size_t below = 0, above = 0;
  double part = 0;
};

Between between(const std::vector<double>& places, double where) {
  if (!(where > places.front()))
    return {};
  const std::size_t last = places.size() - 1;
  if (where >= places.back())
    return {last, last, 0};
  const auto next = std::upper_bound(places.begin(), places.end(), where);
  const auto above = static_cast<std::size_t>(next - places.begin());
  return {above - 1, above, (where - places[above - 1]) / (places[above] - places[above - 1])};
}

double mixed(double from, double to, double part) {
  return from + (to - from) * part;
}

void require_size(const char* what, double value) {
  if (!(value > 0 && std::isfinite(value)))
    throw OutOfDomain(fmt::format("{} is {:g} m; expected more than 0", what, value));
}

} // namespace

void require_usable(const SizeField& field) {
  require_places("station", field.station);
  require_places("y", field.y);
  require_places("z", field.z);
  const std::size_t wanted = field.station.size() * field.y.size() * field.z.size();
  if (field.values.size() != wanted)
    throw OutOfDomain(fmt::format("size factor: `values` has {} numbers; expected {} stations x {} y x {} z = {}, "
                                  "station fastest",
                                  field.values.size(), field.station.size(), field.y.size(), field.z.size(), wanted));
  for (std::size_t i = 0; i < wanted; ++i)
    if (!(field.values[i] > 0 && std::isfinite(field.values[i])))
      throw OutOfDomain(
          fmt::format("size factor: number {} of `values` is {:g}; expected more than 0", i + 1, field.values[i]));
}

double factor_at(const SizeField& field, const std::array<double, 3>& point) {
  const Between x = between(field.station, point[0]);
  const Between y = between(field.y, point[1]);
  const Between z = between(field.z, point[2]);
  const auto along = [&](std::size_t row, std::size_t layer) {
    const std::size_t start = (layer * field.y.size() + row) * field.station.size();
    return mixed(field.values[start + x.below], field.values[start + x.above], x.part);
  };
  const auto across = [&](std::size_t layer) { return mixed(along(y.below, layer), along(y.above, layer), y.part); };
  return mixed(across(z.below), across(z.above), z.part);
}

SizeAt graded_size(double tip, double root, double length, std::optional<SizeField> factor) {
  require_size("the size at the struck end", tip);
  require_size("the size at the attachment", root);
  require_size("the length of the body", length);
  if (!factor)
    return
        [=](const std::array<double, 3>& point) { return mixed(tip, root, std::clamp(point[0] / length, 0.0, 1.0)); };
  require_usable(*factor);
  return [=, field = std::move(*factor)](const std::array<double, 3>& point) {
    return mixed(tip, root, std::clamp(point[0] / length, 0.0, 1.0)) * factor_at(field, point);
  };
}

} // namespace crushwright
