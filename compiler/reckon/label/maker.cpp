#include "reckon/label/maker.hpp"

namespace waxwright {

namespace {

constexpr Key needs[] = {Key::title, Key::address, Key::phone};

} // namespace

std::span<const Key> maker_needs(Market market) {
    return std::span(needs).first(has_clp(market) ? 3 : 2);
}

} // namespace waxwright
