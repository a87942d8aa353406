// Findings as people read them in a terminal, in the form of the GNU coding standards.
#pragma once

#include <cstddef>
#include <string>

#include "findings/finding.hpp"
#include "model/model.hpp"

namespace waxwright {

struct ReportStyle {
    bool notes = false; // notes too
    bool colour = false;
    bool quiet = false; // errors only
};

/// Every finding that was not allowed, in its order:
///
///     tide-line.candle:24:11: error: 12 % of the wax is more than … holds [load-over-limit]
///           load:   12% of wax
///                   ==========
///         hint: …
///         stdlib/waxes.candle:3:14: the limit is said here
///         in: tide-line, tide-line-strong
///         in neap-tide: 11 % of the wax is more than … holds
///
/// The names stand where a finding is about several recipes; the model has them. What is so of one
/// in other words, with its own numbers, comes last.
std::string findings_text(const Findings& findings, const Sources& sources,
                          const ReportStyle& style, const Model* model = nullptr);

/// "2 errors, 1 warning, 3 notes in 1 file", "no findings in 2 files", and ", 1 allowed" behind it.
/// Without a line end.
std::string counts_line(const Findings& findings, std::size_t files);

} // namespace waxwright
