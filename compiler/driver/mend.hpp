// `check --mend`: carries out what is certain, looks whether the files are better for it, and only
// then writes them.
#pragma once

#include <string>
#include <vector>

#include "pipeline/pipeline.hpp"

namespace waxwright {

struct OtherPlace {
    Place place;
    std::string was;
    std::string is;
};
/// A fix that was carried out, or why it was not. Both in the words and at the place of the text as
/// its round found it.
struct Mend {
    FileId file;
    Place place;
    Rule rule;
    std::string was;                  // what stood there
    std::string is;                   // what stands there now
    std::string refused;              // the reason; empty where it was carried out
    std::vector<OtherPlace> others{}; // of the same file, that the same fix changes
};

struct Mending {
    std::vector<Mend> mends;        // in the order of the findings
    std::vector<std::string> texts; // of each named file, as it would be written
    std::vector<bool> changed;      // of each named file
};

/// Mends the named files of a run that has been worked out, and, as long as that changes something,
/// what comes up then. A fix is refused where
/// - it is for a used file that was not named;
/// - it changes what an earlier one changes (the next round may do it);
/// - with it there are more errors than without;
/// - with it there is an error that was not there. What a line's mistake of writing had hidden is
///   no such error; but a name that brings one up may be the wrong one, and is left to the maker.
/// `wanted` says of each rule whether its findings are to be mended.
Mending mend(const Sources& sources, const Workshop& before, const std::vector<bool>& wanted,
             const ReadFile& read);

} // namespace waxwright
