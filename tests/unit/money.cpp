#include <fmt/format.h>

#include <doctest/doctest.h>

#include "units/money.hpp"

using namespace waxwright;

TEST_CASE("minor units") {
    // ISO 4217, table A.1, as the "Data Packages" project keeps it: JPY has no minor unit, KWD
    // three decimals, USD two.
    CHECK_FALSE(fits_minor_units(12.5, find_currency("JPY")));
    CHECK(fits_minor_units(1200, find_currency("JPY")));
    CHECK(fits_minor_units(1.234, find_currency("KWD")));
    CHECK_FALSE(fits_minor_units(1.2345, find_currency("KWD")));
    CHECK_FALSE(fits_minor_units(1.234, find_currency("USD")));
    CHECK(fits_minor_units(41.50, find_currency("USD")));
    CHECK_FALSE(fits_minor_units(1e9 + 0.001, find_currency("USD")));
    for (int cents = -30000; cents <= 30000; ++cents) {
        CHECK(fits_minor_units(cents / 100.0, find_currency("EUR")));
        CHECK(fits_minor_units(cents * 0.01, find_currency("EUR")));
    }
}

TEST_CASE("codes and numbers") {
    // ISO 4217, the same table. Numbers keep their leading zeros.
    const auto number = [](const char* code) {
        return fmt::format("{:03}", all_currencies()[find_currency(code)].number);
    };
    CHECK(number("AUD") == "036");
    CHECK(number("BHD") == "048");
    CHECK(number("USD") == "840");
    CHECK(number("EUR") == "978");
    CHECK(number("GBP") == "826");
    CHECK(find_currency("ZZZ") == no_money);
    CHECK(find_currency("usd") == no_money);
    CHECK(find_currency("US") == no_money);
    CHECK(find_currency("") == no_money);
    // Withdrawn for the euro at the start of 2023: from memory of the amendments to ISO 4217.
    CHECK(find_currency("HRK") == no_money);
    // In the standard, but nobody pays with them: tests, no currency, gold.
    for (const char* code : {"XTS", "XXX", "XAU"})
        CHECK(find_currency(code) == no_money);
}

TEST_CASE("every currency is found by its code") {
    for (const CurrencyInfo& one : all_currencies()) {
        const Currency found = find_currency(one.code);
        REQUIRE(found != no_money);
        CHECK(code_of(found) == one.code);
        CHECK(one.number < 1000);
        CHECK(one.minor <= 3);
    }
    CHECK(code_of(no_money) == "");
}

TEST_CASE("money as it is shown") {
    CHECK(show_money(7.25, find_currency("EUR")) == "7.25 EUR");
    CHECK(show_money(7, find_currency("EUR")) == "7.00 EUR");
    CHECK(show_money(1200, find_currency("JPY")) == "1200 JPY");
    CHECK(show_money(0.5, find_currency("KWD")) == "0.500 KWD");
    CHECK(show_money(12345.678, find_currency("USD")) == "12\u202F345.68 USD");
    CHECK(show_money(-3.1, find_currency("GBP")) == "-3.10 GBP");
    CHECK(show_money(-0.001, find_currency("GBP")) == "0.00 GBP");
    CHECK(show_money(0.125, find_currency("USD")) == "0.13 USD"); // half up, in decimal
    CHECK(show_money(0.625, find_currency("EUR")) == "0.63 EUR");
    CHECK(show_money(1.005, find_currency("EUR")) == "1.01 EUR"); // 1.00499999999999989 in binary
    CHECK(show_money(0.1 + 0.005, find_currency("EUR")) == "0.11 EUR");
    CHECK(show_money(-0.625, find_currency("EUR")) == "-0.63 EUR"); // half to even
    CHECK(show_money(0.135, find_currency("USD")) == "0.14 USD");
    CHECK(show_money(0.999, find_currency("USD")) == "1.00 USD");
    CHECK(show_money(3, no_money) == "3.00");
}
