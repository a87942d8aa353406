// `check --changed-since`: of the files that could be checked, those that need it.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "driver/options.hpp"
#include "source/source.hpp"

namespace waxwright {

/// The files to check, and what is said of the others.
struct ChangedFiles {
    Sources roots;            // changed, or using a changed one directly or through others
    std::size_t others = 0;   // that were looked at, and need no check
    bool any_changed = false; // git names one at all, deleted ones too
    bool all_read = true;     // false where a named file could not be read; it was told
    std::string problem;      // why nothing could be found out; "" where it could
};

/// Asks git what has changed since `options.changed_since`: committed, staged, in the folder,
/// new and not ignored, deleted. Takes of `options.files` those that have changed and those that
/// use one; `use` is followed as by any check. Where no files are named, it looks at all that git
/// has or has not been told to ignore, and the repository's folder is put into `options.files`.
ChangedFiles changed_files(Options& options);

} // namespace waxwright
