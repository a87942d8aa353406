// The words of syntax findings: what stands at a place, and hints for common slips.
#pragma once

#include <cstdint>

#include "findings/finding.hpp"
#include "grammar/expectation.hpp"
#include "syntax/tree.hpp"

namespace waxwright {

/// Tells what was wanted at `offset` and what stands there instead.
void report_mistake(FileId file, const Source& source, std::uint32_t offset,
                    const grammar::Words& wanted, Findings& findings);
/// Tells what the tree marks without the parser having stopped: a `{` or `}` that is missing or
/// too many, lines outside any block.
void report_marks(const Tree& tree, Findings& findings);
/// Tells the first byte that is not UTF-8 and the first control character of a file.
void report_bad_characters(FileId file, const Source& source, Findings& findings);

} // namespace waxwright
