#pragma once
#include "crushwright/envelope.hpp"

namespace crushwright {

/// Section at a part of the way, in [0, 1], between two of the same shape; every dimension linear.
/// @throws OutOfDomain when their shapes or numbers of corners differ.
Section section_between(const Section& nearer, const Section& farther, double part);

} // namespace crushwright
