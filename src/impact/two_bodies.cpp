#include "crushwright/errors.hpp"
#include "crushwright/impact.hpp"

#include <fmt/format.h>

namespace crushwright {
namespace {

void check_mass(const Body& body) {
  if (!body.held && !(body.mass > 0))
    throw OutOfDomain(
        fmt::format("body {} has a mass of {} kg; it must be above 0, or the body must be held", body.id, body.mass));
}

} // namespace

double effective_mass(const Body& first, const Body& second) {
  check_mass(first);
  check_mass(second);
  if (first.held && second.held)
    throw OutOfDomain(
        fmt::format("{} and {} are both held; one body of an impact must be free", first.id, second.id));
  if (first.held)
    return second.mass;
  if (second.held)
    return first.mass;
  return first.mass * second.mass / (first.mass + second.mass);
}

double available_energy(const Body& first, const Body& second, double closing_speed) {
  return 0.5 * effective_mass(first, second) * closing_speed * closing_speed;
}

SpeedsAfter speeds_after(const Body& first, const Body& second, double first_speed, double second_speed,
                         double restitution) {
  if (!(restitution >= 0 && restitution <= 1))
    throw OutOfDomain(fmt::format("the coefficient of restitution is {}; it must be from 0 to 1", restitution));
  const double impulse = (1 + restitution) * effective_mass(first, second) * (first_speed - second_speed);
  return {first.held ? first_speed : first_speed - impulse / first.mass,
          second.held ? second_speed : second_speed + impulse / second.mass};
}

} // namespace crushwright
