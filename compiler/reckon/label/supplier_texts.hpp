// The label that a supplier gives for a candle with their oil: its texts, put where each belongs,
// and held against what the arithmetic gives.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "reckon/label/classify.hpp"

namespace waxwright {

struct SupplierSentence {
    std::string code; // "H317", "P302+P352"; empty in a text that begins with none
    std::string text; // without the code
};

struct SupplierTexts {
    std::vector<int> pictograms; // n of GHS0n, ascending
    std::string signal;          // "WARNING", "DANGER", the graver where there are both; or empty
    std::vector<SupplierSentence> hazards, precautions;
    bool none = false; // the supplier says that there is nothing on it
    /// What can't be on one label, a sentence without a full stop each: "`GHS99` is no pictogram:
    /// they go from GHS01 to GHS09". Such a text is left out.
    std::vector<std::string> faults;
};

SupplierTexts read_supplier(std::span<const std::string_view> texts);

/// The statements that the arithmetic gives and the supplier's texts don't say, "H317", "EUH208":
/// by code or in words. What says a graver thing of the same kind says it too.
std::vector<std::string_view> not_said(const Classification& classified, const SupplierTexts& said);

/// True if one of its statements is of health or of physics, H2.. or H3..: such a mixture has a UFI
/// in the European Union (from memory of Article 45 and Annex VIII).
bool is_for_health(const SupplierTexts& said);

} // namespace waxwright
