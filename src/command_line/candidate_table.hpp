#pragma once
#include "crushwright/study.hpp"

#include <string>
#include <vector>

namespace crushwright {

/// What a text of a study is wide: characters a line.
constexpr std::size_t text_width = 100;

/// "1.38 mm", "1.8–2.05 mm" from tip to root; a foam's relative density in per cent; "none" for an empty skin.
std::string size_text(const Candidate& candidate);

/// Designs one a line in the order given: word, what they are made of, size, mass, margin, and as many further
/// columns as the width leaves room for.
std::string candidate_table(const std::vector<Candidate>& candidates);

/// The same for designs at stated relative densities.
std::string density_table(const std::vector<Candidate>& candidates);

/// The same for designs that differ in cell edge and size alone.
std::string sizing_table(const std::vector<Candidate>& candidates);

/// The same for designs that differ in their skin.
std::string baseline_table(const std::vector<Candidate>& candidates);

/// What is to be known of single designs, each remark once with the designs that it is about.
std::string remark_lines(const std::vector<Candidate>& candidates);

} // namespace crushwright
