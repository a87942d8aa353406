#include "model/transcript.hpp"

#include <algorithm>

namespace waxwright {

std::span<const NameUse> Transcript::uses_in(FileId file) const {
    const auto range =
        std::ranges::equal_range(uses, file, {}, [](const NameUse& use) { return use.at.file; });
    return {range.begin(), range.end()};
}

std::span<const Figure> Transcript::figures_in(FileId file) const {
    const auto range = std::ranges::equal_range(figures, file, {},
                                                [](const Figure& each) { return each.at.file; });
    return {range.begin(), range.end()};
}

} // namespace waxwright
