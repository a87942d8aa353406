#include "syntax/slip_fixes.hpp"

#include <array>
#include <string>

#include "findings/spelling.hpp"

namespace waxwright {

namespace {

/// `2,5` is 2.5. `2,500` may be two and a half or two and a half thousand: both are offered, and
/// neither is certain. More commas than one are left to the maker.
void offer_decimal(Finding& finding, std::string_view found) {
    const std::size_t comma = found.find(',');
    if (comma == std::string_view::npos || comma == 0 || comma + 1 == found.size()) return;
    const std::string_view whole = found.substr(0, comma);
    const std::string_view behind = found.substr(comma + 1);
    constexpr std::string_view digits = "0123456789";
    if (whole.find_first_not_of(digits) != std::string_view::npos ||
        behind.find_first_not_of(digits) != std::string_view::npos) {
        return;
    }
    const bool thousands = behind.size() == 3 && whole.front() != '0';
    const std::string decimal = std::string(whole) + "." + std::string(behind);
    finding.fixes.push_back(put(finding.at, decimal, !thousands));
    if (thousands) {
        finding.fixes.push_back(put(finding.at, std::string(whole) + std::string(behind), false));
    }
}

/// True if nothing but blanks or a comment stands between `offset` and the end of its line.
bool ends_line(std::string_view text, std::size_t offset) {
    const std::size_t next = text.find_first_not_of(" \t", offset);
    return next == std::string_view::npos || text[next] == '\n' || text[next] == '\r' ||
           text[next] == '#';
}

/// `2 1/2"`
bool is_inch_mark(std::string_view text, std::size_t offset, std::string_view found,
                  grammar::Expectation expected) {
    return expected == grammar::Expectation::line_end && (found == "\"" || found == "”") &&
           offset > 0 && text[offset - 1] >= '0' && text[offset - 1] <= '9';
}

/// `6.00 €`: a sign that stands behind its amount. There is no second reading of it.
void offer_sign_first(Finding& finding, std::string_view text, std::string_view sign) {
    const std::string_view before = text.substr(0, finding.at.begin);
    const std::size_t last = before.find_last_not_of(" \t");
    if (last == std::string_view::npos || before[last] < '0' || before[last] > '9') return;
    const std::size_t begin = before.find_last_not_of("0123456789.", last) + 1;
    if (begin == 0 || begin > last) return;
    const std::string better = std::string(sign).append(before.substr(begin, last + 1 - begin));
    finding.hint = "the sign goes before its amount: `" + better + "`";
    if (sign == "€") finding.hint += "; behind it, write EUR";
    if (sign == "£") finding.hint += "; behind it, write GBP";
    const Span whole{finding.at.file, static_cast<std::uint32_t>(begin), finding.at.end};
    const bool ends = ends_line(text, finding.at.end) || text.substr(finding.at.end, 1) == ",";
    finding.fixes.push_back(put(whole, better, ends));
}

} // namespace

void offer_slip_fixes(Finding& finding, std::string_view text, std::string_view found,
                      grammar::Expectation expected) {
    using enum grammar::Expectation;
    if (expected == decimal_point) {
        offer_decimal(finding, found);
    } else if (expected == digit_before_point) {
        finding.fixes.push_back(put(finding.at, "0" + std::string(found), true));
    } else if (found == ";" && expected == line_end && ends_line(text, finding.at.end)) {
        finding.fixes.push_back({"take the `;` away", {{finding.at, {}}}, true});
    } else if (is_inch_mark(text, finding.at.begin, found, expected)) {
        finding.hint = "inches are written `in`";
        finding.fixes.push_back(put(finding.at, " in", ends_line(text, finding.at.end)));
    } else if (expected == line_end && (found == "€" || found == "£" || found == "$")) {
        offer_sign_first(finding, text, found);
    } else if (found == "=" && expected == colon) {
        finding.fixes.push_back(put(finding.at, ":", true));
    } else if (found == "×") {
        finding.fixes.push_back(put(finding.at, "*", false));
    } else if (expected == statement) {
        constexpr std::array<std::string_view, 4> words{"language", "use", "let", "currency"};
        offer_nearest(finding, finding.at, found, words, Spelling::word);
    }
}

} // namespace waxwright
