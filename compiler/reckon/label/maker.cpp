#include "reckon/label/maker.hpp"

namespace waxwright {

namespace {

constexpr Key needs[] = {Key::title, Key::address, Key::phone};

/// The last run of letters in `text` by `is`, which goes with what is behind it.
template <typename Is>
std::string_view take_last(std::string_view& text, Is is) {
    while (!text.empty() && !is(text.back()))
        text.remove_suffix(1);
    std::size_t begin = text.size();
    while (begin > 0 && is(text[begin - 1]))
        --begin;
    const std::string_view last = text.substr(begin);
    text = text.substr(0, begin);
    return last;
}

bool is_letter(char c) {
    return ('a' <= c && c <= 'z') || ('A' <= c && c <= 'Z');
}

} // namespace

bool looks_like_us_place(std::string_view address) {
    constexpr std::size_t zip = 5, zip_more = 4;
    const auto is_digit = [](char c) { return '0' <= c && c <= '9'; };
    const std::size_t end = address.find_last_of("0123456789");
    if (end == std::string_view::npos) return false;
    // Behind it a country, after a comma or in a line of its own.
    const std::size_t behind = address.find_first_not_of(' ', end + 1);
    if (behind != std::string_view::npos && is_letter(address[behind])) return false;
    std::string_view code = take_last(address, is_digit);
    if (code.size() == zip_more && address.ends_with('-')) code = take_last(address, is_digit);
    if (code.size() != zip) return false;
    if (address.find_last_not_of(" ,.\n") == std::string_view::npos) return false;
    // Its two letters, or its name; at once before the code.
    address = address.substr(0, address.find_last_not_of(" ,.\n") + 1);
    if (!is_letter(address.back()) || take_last(address, is_letter).size() < 2) return false;
    const std::size_t city = address.find_last_not_of(" ,.\n");
    return city != std::string_view::npos && is_letter(address[city]);
}

std::span<const Key> maker_needs(Market market) {
    return std::span(needs).first(has_clp(market) ? 3 : 2);
}

} // namespace waxwright
