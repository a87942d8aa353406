// Calendar dates and clock times (ISO 8601, proleptic Gregorian), without time zones.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace waxwright {

struct Date {
    int year;  // 0 to 9999
    int month; // 1 to 12
    int day;   // 1 to 31
    int hour = 0;
    int minute = 0;
    bool has_time = false;

    friend bool operator==(const Date&, const Date&) = default;
};

/// Reads `YYYY-MM-DD`, `YYYY-MM-DD HH:MM`, `YYYY-MM-DDTHH:MM`; empty if there is no such day or
/// time (2023-02-29, 24:00).
std::optional<Date> read_date(std::string_view text);
/// `minutes` later (or earlier), over midnight, months and years. A date without a time starts at
/// 00:00 and the result keeps has_time (its hour and minute go on being counted). Stops at the ends
/// of the years 0000 and 9999, between which a date has four digits.
Date later(const Date& date, std::int64_t minutes);
/// "2026-12-05", or "2026-12-05 09:00" with a time.
std::string show(const Date& date);

} // namespace waxwright
