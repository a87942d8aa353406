#include "units/date.hpp"

#include <algorithm>
#include <chrono>

#include <fmt/format.h>

namespace waxwright {

namespace {

constexpr std::int64_t minutes_a_day = std::int64_t{24} * 60;

std::chrono::year_month_day calendar(const Date& date) {
    return std::chrono::year(date.year) / std::chrono::month(static_cast<unsigned>(date.month)) /
           std::chrono::day(static_cast<unsigned>(date.day));
}

/// Minutes from 1970-01-01 00:00.
std::int64_t minutes_of(const Date& date) {
    const auto days = std::chrono::sys_days(calendar(date)).time_since_epoch().count();
    return days * minutes_a_day + std::int64_t{date.hour} * 60 + date.minute;
}

/// The number that `count` digits at `at` make; -1 if one of them is no digit.
int digits(std::string_view text, std::size_t at, std::size_t count) {
    int number = 0;
    for (const char c : text.substr(at, count)) {
        if (c < '0' || c > '9') return -1;
        number = number * 10 + (c - '0');
    }
    return number;
}

} // namespace

std::optional<Date> read_date(std::string_view text) {
    const bool has_time = text.size() == 16; // YYYY-MM-DD HH:MM
    if (text.size() != 10 && !has_time) return std::nullopt;
    Date date{digits(text, 0, 4), digits(text, 5, 2), digits(text, 8, 2)};
    if (text[4] != '-' || text[7] != '-') return std::nullopt;
    if (date.year < 0 || date.month < 1 || date.day < 1) return std::nullopt;
    if (!calendar(date).ok()) return std::nullopt;
    if (!has_time) return date;

    date.has_time = true;
    date.hour = digits(text, 11, 2);
    date.minute = digits(text, 14, 2);
    if ((text[10] != ' ' && text[10] != 'T') || text[13] != ':') return std::nullopt;
    if (date.hour < 0 || date.hour > 23 || date.minute < 0 || date.minute > 59) return std::nullopt;
    return date;
}

Date later(const Date& date, std::int64_t minutes) {
    const std::int64_t first = minutes_of({0, 1, 1});
    const std::int64_t last = minutes_of({9999, 12, 31, 23, 59});
    const std::int64_t start = std::clamp(minutes_of(date), first, last);
    // Clamped before it is added, so that nothing can overflow.
    const std::int64_t sum = start + std::clamp(minutes, first - start, last - start);

    const std::int64_t day =
        sum >= 0 ? sum / minutes_a_day : -((-sum + minutes_a_day - 1) / minutes_a_day);
    const int rest = static_cast<int>(sum - day * minutes_a_day);
    const std::chrono::year_month_day then{
        std::chrono::sys_days(std::chrono::days(static_cast<int>(day)))};
    return {static_cast<int>(then.year()),
            static_cast<int>(static_cast<unsigned>(then.month())),
            static_cast<int>(static_cast<unsigned>(then.day())),
            rest / 60,
            rest % 60,
            date.has_time};
}

std::string show(const Date& date) {
    std::string text = fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day);
    if (date.has_time) text += fmt::format(" {:02}:{:02}", date.hour, date.minute);
    return text;
}

} // namespace waxwright
