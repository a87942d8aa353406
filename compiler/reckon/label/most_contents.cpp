#include "reckon/label/most_contents.hpp"

#include "reckon/reckoning.hpp"
#include "reckon/uncertain.hpp"

namespace waxwright {

namespace {

constexpr signed char both_ends[] = {-1, 1};

} // namespace

std::optional<double> most_contents(const Inputs& in) {
    if (!any_doubt(in)) return std::nullopt;
    UncertainInputs doubtful(in);
    const std::size_t count = doubtful.all().size();
    const auto fill_at = [&](const Ends& ends) { return amounts_of(doubtful.at(ends)).fill_ml; };
    const std::optional<double> written = fill_at(Ends(count, 0));
    // What it holds goes one way with each figure by itself, so the most is at a corner.
    Ends most(count, 0);
    for (std::size_t i = 0; i < count; ++i) {
        for (const signed char way : both_ends) {
            Ends one(count, 0);
            one[i] = way;
            if (const auto fill = fill_at(one); fill && written && *fill > *written) most[i] = way;
        }
    }
    const std::optional<double> fill = fill_at(most);
    return fill && written && *fill > *written ? fill : std::nullopt;
}

} // namespace waxwright
