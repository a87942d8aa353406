#include "units/money.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "units/currency_table.hpp"
#include "units/figures.hpp"

namespace waxwright {

namespace {

constexpr bool in_order =
    std::is_sorted(std::begin(currency_table), std::end(currency_table),
                   [](const CurrencyInfo& a, const CurrencyInfo& b) { return a.code < b.code; });
static_assert(in_order, "currencies are looked up by their order");

constexpr int minor_of(Currency currency) {
    return currency == no_money ? 2 : currency_table[currency].minor;
}

} // namespace

std::span<const CurrencyInfo> all_currencies() {
    return currency_table;
}

Currency find_currency(std::string_view code) {
    if (code.size() != 3) return no_money;
    const auto* found =
        std::partition_point(std::begin(currency_table), std::end(currency_table),
                             [&](const CurrencyInfo& one) { return one.code < code; });
    if (found == std::end(currency_table) || found->code != code) return no_money;
    return static_cast<Currency>(found - std::begin(currency_table));
}

std::string_view code_of(Currency currency) {
    return currency == no_money ? std::string_view() : currency_table[currency].code;
}

std::string show_money(double amount, Currency currency) {
    // What is worked out is a hair off the decimal it stands for: 0.625 is a tie, and goes up.
    constexpr double fine = 1e9;
    const double decimal = std::abs(amount) < 1e6 ? std::round(amount * fine) / fine : amount;
    std::string text = figures(decimal, minor_of(currency), Zeros::kept, Ties::up);
    if (currency != no_money) text.append(" ").append(code_of(currency));
    return text;
}

bool fits_minor_units(double amount, Currency currency) {
    const double minor = amount * std::pow(10, minor_of(currency));
    // A double is a hair off what was written, and the more so the larger it is.
    return std::abs(minor - std::round(minor)) <= std::max(1e-6, 1e-14 * std::abs(minor));
}

} // namespace waxwright
