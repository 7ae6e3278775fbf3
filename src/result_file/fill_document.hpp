#pragma once
#include "crushwright/filling.hpp"
#include "result_file/provenance.hpp"

#include <optional>
#include <string>

namespace crushwright {

/// What `fill` did to one structure.
struct FillResult {
  const FilledStructure* filled = nullptr;
  const BodyPrintFigures* print = nullptr; ///< null without a block `printing`
  const BestDirection* best = nullptr;     ///< null where it was not asked for
  std::string currency;
  std::vector<std::string> files;
};

/// Everything `fill` says, as one document; docs/result_format.md. Same inputs, same bytes.
/// @throws NotFinite (result_file/json_text.hpp) when a number is NaN or infinite.
std::string fill_document(const CrashCase& crash_case, const std::vector<FillResult>& results,
                          const Provenance& provenance);

} // namespace crushwright
