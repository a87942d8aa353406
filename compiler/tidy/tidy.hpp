// The one canonical form of a file: two blanks for each level, one statement a line, values under
// one another, comments kept. What is written stays as it is written, and in its order.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "findings/finding.hpp"
#include "source/source.hpp"

namespace waxwright {

/// A file in its canonical form, and of each of its lines the line of the source (from 1, as LF
/// alone ends lines) that it begins with; 0 for a line that none stands for. The numbers never go
/// down, but for those that are 0.
struct Tidied {
    std::string text;
    std::vector<std::uint32_t> origins;
};

/// The canonical form; nothing where the file has mistakes of writing, which are then in
/// `findings`. Takes time and memory in proportion to the text. Tidied again, the text stays as it
/// is; its tokens are those of the source but for the spelling of a few units (`C` is `°C`, `F`
/// `°F`, `mL` `ml`, `L` `l`) and the commas between properties on one line.
std::optional<Tidied> tidied(FileId file, const Source& source, Findings& findings);

} // namespace waxwright
