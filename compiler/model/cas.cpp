#include "model/cas.hpp"

#include <algorithm>
#include <string>

namespace waxwright {

namespace {

bool is_digits(std::string_view text, std::size_t least, std::size_t most) {
    return text.size() >= least && text.size() <= most &&
           std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

} // namespace

std::optional<int> cas_check_digit(std::string_view number) {
    constexpr std::size_t tail = 5; // "-70-6"
    if (number.size() <= tail) return std::nullopt;
    const std::string_view head = number.substr(0, number.size() - tail);
    const std::string_view middle = number.substr(head.size() + 1, 2);
    const bool well_formed = is_digits(head, 2, 7) && is_digits(middle, 2, 2) &&
                             is_digits(number.substr(number.size() - 1), 1, 1) &&
                             number[head.size()] == '-' && number[number.size() - 2] == '-';
    if (!well_formed) return std::nullopt;
    const std::string digits = std::string(head) + std::string(middle);
    int sum = 0;
    for (std::size_t i = 0; i < digits.size(); ++i) {
        sum += static_cast<int>(digits.size() - i) * (digits[i] - '0');
    }
    return sum % 10;
}

} // namespace waxwright
