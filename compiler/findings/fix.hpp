// A fix is a value too: what text to put in the place of which, and how sure that is.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "source/source.hpp"

namespace waxwright {

/// `text` in the place of what stands at `at`; an empty place is where it is put in.
struct Edit {
    Span at;
    std::string text;

    friend bool operator==(const Edit&, const Edit&) = default;
};

/// One way to mend a finding. A finding may have several, of which one is chosen.
struct Fix {
    std::string title;       // one line: "write `lavender`"
    std::vector<Edit> edits; // do not overlap; all in one file
    /// A careful person would do it without asking: there is one reading of what is there, and it
    /// is no hotter, no more scent and no fuller a vessel than what was written.
    bool certain = false;
};

/// `text` in the place of `at`, titled by it.
inline Fix put(Span at, std::string text, bool certain) {
    std::string title = "write `" + text + "`";
    return {std::move(title), {{at, std::move(text)}}, certain};
}

} // namespace waxwright
