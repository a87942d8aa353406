// Findings in the Static Analysis Results Interchange Format, SARIF 2.1.0 (OASIS Standard).
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "findings/finding.hpp"
#include "model/model.hpp"

namespace waxwright {

/// What a column of the log counts (§3.14.27, columnKind).
enum class Columns : std::uint8_t { code_points, utf16 };

struct SarifStyle {
    Columns columns = Columns::code_points;
    std::string_view folder{}; // absolute: what absolute file names are made relative to
    bool all_read = true;      // false where a file of the call could not be read
};

/// One run with all rules, all files and all findings: notes too, and what was allowed as
/// suppressed. Names of files are relative, percent-encoded URI references; nothing in it depends
/// on the clock.
std::string sarif_log(const Findings& findings, const Model& model, const SarifStyle& style);

/// A file's name as a relative URI reference (RFC 3986); `standard-input` for `-`.
std::string uri_of(std::string_view name, std::string_view folder);

} // namespace waxwright
