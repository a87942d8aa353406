// Currencies of ISO 4217: code and minor units.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace waxwright {

/// Index into all_currencies().
using Currency = std::uint16_t;
inline constexpr Currency no_money = 0xFFFF;

struct CurrencyInfo {
    std::string_view code; // "USD"
    std::uint16_t number;  // ISO numeric code; printed with three digits
    std::uint8_t minor;    // decimals of the minor unit
};

/// The active codes of ISO 4217, in alphabetical order; no funds, metals, test codes.
std::span<const CurrencyInfo> all_currencies();
/// no_money if there is no such code (codes are upper case).
Currency find_currency(std::string_view code);
/// "USD"; empty for no_money.
std::string_view code_of(Currency currency);

/// An amount with its currency's decimals and code: "7.25 EUR", "1200 JPY"; ties to the even digit,
/// groups of three from five digits on as in show_number. Without a currency two decimals, no code.
std::string show_money(double amount, Currency currency);
/// True if the amount is a whole number of minor units (12.5 JPY is not).
bool fits_minor_units(double amount, Currency currency);

} // namespace waxwright
