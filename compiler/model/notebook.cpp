#include "model/notebook.hpp"

#include <algorithm>

namespace waxwright {

namespace {

template <typename Placed>
std::span<const Placed> within(const std::vector<Placed>& placed, FileId file) {
    const auto of = [](const Placed& each) { return each.at.file; };
    return {std::ranges::lower_bound(placed, file, {}, of),
            std::ranges::upper_bound(placed, file, {}, of)};
}

} // namespace

std::span<const NameUse> Notebook::uses_in(FileId file) const {
    return within(uses, file);
}

std::span<const Figure> Notebook::figures_in(FileId file) const {
    return within(figures, file);
}

} // namespace waxwright
