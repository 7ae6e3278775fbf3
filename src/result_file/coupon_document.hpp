#pragma once
#include "crushwright/coupon_prediction.hpp"
#include "crushwright/coupon_series.hpp"
#include "crushwright/metal_test.hpp"
#include "result_file/provenance.hpp"

#include <optional>
#include <string>
#include <vector>

namespace crushwright {

/// One verdict on a case, in short.
struct VerdictInShort {
  Word word = Word::open;
  std::string text; ///< headline and what governs, as the terminal shows them
};

/// A case judged without and with what a series of tests says.
struct VerdictChange {
  std::string case_id, title;
  VerdictInShort before, after;
  std::string coupons_to_pass; ///< sentence; empty when not asked or passing
};

/// What the command `coupon` found: one of the two reports.
struct CouponResult {
  std::optional<CouponReport> lattice;
  std::optional<MetalReport> metal;
  std::vector<SpecimenPrediction> predictions; ///< of the lattice's specimens with a density, from other evidence
  std::optional<VerdictChange> change;
};

/// Everything `coupon` says, as one document; docs/result_format.md. Same inputs, same bytes.
/// @throws NotFinite (result_file/json_text.hpp) when a number is NaN or infinite.
std::string coupon_document(const CouponResult& result, const Provenance& provenance);

} // namespace crushwright
