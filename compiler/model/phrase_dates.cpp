// Dates as people write them: 12 December 2026 9:00, 12.12.2026, 5/12/2026, 2026-12-5 9 am.
#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "model/phrase_slips.hpp"
#include "units/date.hpp"

namespace waxwright {

namespace {

constexpr std::string_view months[] = {"january",   "february", "march",    "april",
                                       "may",       "june",     "july",     "august",
                                       "september", "october",  "november", "december"};

/// 1 to 12; 0 for a word that is no month, nor its first three letters or more.
int month_of(std::string_view word) {
    if (word.size() < 3) return 0;
    const auto found = std::find_if(std::begin(months), std::end(months), [&](auto month) {
        return month.starts_with(word) || (word == "sept" && month == "september");
    });
    return found == std::end(months) ? 0 : static_cast<int>(found - std::begin(months)) + 1;
}

/// What a date is written with: numbers, words in small letters, and single signs.
std::vector<std::string> tokens_of(std::string_view text) {
    std::vector<std::string> tokens;
    bool goes_on = false;
    for (const char c : text) {
        const bool sign = !is_digit(c) && !is_letter(c);
        const bool same = goes_on && is_digit(c) == is_digit(tokens.back().back());
        if (is_blank(c) || c == ',') {
            goes_on = false;
        } else if (same && !sign) {
            tokens.back() += small(c);
        } else {
            tokens.emplace_back(1, small(c));
            goes_on = !sign;
        }
    }
    return tokens;
}

bool is_number(const std::string& token) {
    return is_digit(token.front()) && token.size() <= 4;
}

/// Takes the time from the end: `9:00`, `9:00 pm`, `9 am`, each with `at` before it. Empty where
/// there is none.
std::string take_time(std::vector<std::string>& tokens) {
    const auto from_end = [&](std::size_t i) { return tokens[tokens.size() - i]; };
    std::string half;
    if (!tokens.empty() && (tokens.back() == "am" || tokens.back() == "pm")) {
        half = tokens.back();
        tokens.pop_back();
    }
    const bool minutes = tokens.size() >= 3 && from_end(2) == ":" && is_number(from_end(1));
    const bool hour_alone = tokens.size() >= 2 && from_end(2) == "at"; // `at 9`
    if (!minutes && half.empty() && !hour_alone) return {};
    const std::size_t used = minutes ? 3 : 1;
    if (tokens.size() < used || !is_number(from_end(used))) return {};
    int hour = std::stoi(from_end(used));
    if (half == "pm" && hour < 12) hour += 12;
    if (half == "am" && hour == 12) hour = 0;
    std::string time = fmt::format(" {:02}:{}", hour, minutes ? from_end(1) : "00");
    tokens.resize(tokens.size() - used);
    if (!tokens.empty() && tokens.back() == "at") tokens.pop_back();
    return time;
}

} // namespace

DatesMeant dates_meant(std::string_view written) {
    std::vector<std::string> tokens = tokens_of(written);
    const std::string time = take_time(tokens);
    DatesMeant meant;
    const auto add = [&](int year, int month, int day) {
        std::string date = fmt::format("{:04}-{:02}-{:02}{}", year, month, day, time);
        const bool twice = !meant.dates.empty() && meant.dates.front() == date;
        if (year >= 1000 && !twice && read_date(date)) meant.dates.push_back(std::move(date));
    };
    std::vector<int> numbers;
    int month = 0;
    char sign = '\0';
    for (const std::string& token : tokens) {
        if (is_number(token)) {
            numbers.push_back(std::stoi(token));
        } else if (const int named = month_of(token); named != 0 && month == 0) {
            month = named;
        } else if (token == "." || token == "/" || token == "-") {
            sign = token[0];
        } else if (token != "th" && token != "st" && token != "nd" && token != "rd" &&
                   token != "of" && !token.ends_with("day")) {
            return {};
        }
    }
    if (month != 0 && numbers.size() == 2) { // 12 December 2026
        add(std::max(numbers[0], numbers[1]), month, std::min(numbers[0], numbers[1]));
    } else if (month == 0 && numbers.size() == 3 && numbers[0] >= 1000) {
        add(numbers[0], numbers[1], numbers[2]);
        meant.certain = sign == '-' && meant.dates.size() == 1;
    } else if (month == 0 && numbers.size() == 3) {
        add(numbers[2], numbers[1], numbers[0]);
        if (sign != '.') add(numbers[2], numbers[0], numbers[1]); // the month before the day
    }
    return meant;
}

} // namespace waxwright
