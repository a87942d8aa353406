#include <cstdint>
#include <limits>

#include <doctest/doctest.h>

#include "units/date.hpp"

using namespace waxwright;

namespace {

std::string after(const char* text, std::int64_t minutes) {
    return show(later(read_date(text).value(), minutes));
}

constexpr std::int64_t day = 24 * 60;

} // namespace

TEST_CASE("days that are and days that are not") {
    // ISO 8601-1:2019, from memory: calendar dates, and the Gregorian rule for leap years.
    CHECK(read_date("2024-02-29"));
    CHECK(read_date("2000-02-29"));
    CHECK_FALSE(read_date("2023-02-29"));
    CHECK_FALSE(read_date("1900-02-29"));
    CHECK_FALSE(read_date("2024-13-01"));
    CHECK_FALSE(read_date("2024-00-01"));
    CHECK_FALSE(read_date("2024-04-31"));
    CHECK_FALSE(read_date("2024-04-00"));
    CHECK(read_date("0000-01-01"));
    CHECK(read_date("9999-12-31"));
}

TEST_CASE("dates as they are written") {
    CHECK(read_date("2026-12-05") == Date{2026, 12, 5});
    CHECK(read_date("2026-12-05 09:30") == Date{2026, 12, 5, 9, 30, true});
    CHECK(read_date("2026-12-05T23:59") == Date{2026, 12, 5, 23, 59, true});
    CHECK(read_date("2026-12-05 00:00") == Date{2026, 12, 5, 0, 0, true});
    for (const char* bad :
         {"", "2026-12-5", "26-12-05", "2026/12/05", "2026-12-05 24:00", "2026-12-05 09:60",
          "2026-12-05  9:00", "2026-12-05t09:00", "2026-12-05 09.00", "2026-12-05 09:00:00",
          "2026-12-05 ", " 2026-12-05", "-026-12-05", "2026-1a-05", "2026-12-05T09:0x",
          "2026-12-05Z", "20261205"}) {
        CAPTURE(bad);
        CHECK_FALSE(read_date(bad));
    }
}

TEST_CASE("later, over midnight, months and years") {
    CHECK(after("2026-12-05 09:00", 150) == "2026-12-05 11:30");
    CHECK(after("2026-12-31 23:30", 45) == "2027-01-01 00:15");
    CHECK(after("2024-02-28 12:00", day) == "2024-02-29 12:00");
    CHECK(after("2023-02-28 12:00", day) == "2023-03-01 12:00");
    CHECK(after("2026-12-05", 14 * day) == "2026-12-19");
    CHECK(after("2026-03-01 00:10", -20) == "2026-02-28 23:50");
    CHECK(after("1969-12-31 23:59", 1) == "1970-01-01 00:00");
    CHECK(after("1960-01-01 00:00", -1) == "1959-12-31 23:59");
    CHECK(after("2000-01-01 00:00", 146097 * day) == "2400-01-01 00:00"); // one Gregorian cycle
}

TEST_CASE("a date without a time goes on counting") {
    Date date = read_date("2026-12-05").value();
    for (int i = 0; i < 3; ++i)
        date = later(date, 8 * 60);
    CHECK(show(date) == "2026-12-06");
    CHECK_FALSE(date.has_time);
}

TEST_CASE("time stops at the ends of the calendar") {
    constexpr auto most = std::numeric_limits<std::int64_t>::max();
    constexpr auto least = std::numeric_limits<std::int64_t>::min();
    CHECK(after("2026-12-05 09:00", most) == "9999-12-31 23:59");
    CHECK(after("2026-12-05 09:00", least) == "0000-01-01 00:00");
    CHECK(after("9999-12-31", 1440) == "9999-12-31");
    CHECK(after("0000-01-01", -1) == "0000-01-01");
}
