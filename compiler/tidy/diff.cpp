#include "tidy/diff.hpp"

#include <algorithm>
#include <cstddef>
#include <vector>

#include <fmt/format.h>

namespace waxwright {

namespace {

constexpr std::size_t context = 3;

using Lines = std::vector<std::string_view>;

/// The lines with their line ends; the last may have none.
Lines lines_of(std::string_view text) {
    Lines lines;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size() - 1) + 1;
        lines.push_back(text.substr(0, end));
        text.remove_prefix(end);
    }
    return lines;
}

/// Lines [old_begin, old_end) become [new_begin, new_end).
struct Change {
    std::size_t old_begin;
    std::size_t old_end;
    std::size_t new_begin;
    std::size_t new_end;
};

std::vector<Change> changes_between(const Lines& old, const Lines& now,
                                    const std::vector<std::uint32_t>& origins) {
    std::vector<Change> changes;
    std::size_t i = 0, j = 0; // the first lines that are in no change and no match
    const auto match = [&](std::size_t to_old, std::size_t to_now) {
        if (to_old > i || to_now > j) changes.push_back({i, to_old, j, to_now});
        i = to_old + 1;
        j = to_now + 1;
    };
    for (std::size_t line = 0; line < now.size(); ++line) {
        const std::size_t origin = origins[line];
        if (origin > i && origin <= old.size() && old[origin - 1] == now[line]) {
            match(origin - 1, line);
        }
    }
    match(old.size(), now.size());
    return changes;
}

/// `3,7`, `3`, and `2,0` for no lines behind the second.
std::string range(std::size_t begin, std::size_t end) {
    const std::size_t count = end - begin;
    if (count == 1) return fmt::format("{}", begin + 1);
    return fmt::format("{},{}", count == 0 ? begin : begin + 1, count);
}

void put_lines(std::string& text, char mark, const Lines& lines, std::size_t begin,
               std::size_t end) {
    for (; begin < end; ++begin) {
        text += mark;
        text += lines[begin];
        if (!lines[begin].ends_with('\n')) text += "\n\\ No newline at end of file\n";
    }
}

/// Changes that are so near one another that their context meets, in one hunk.
void put_hunk(std::string& text, const Lines& old, const Lines& now, const Change* first,
              const Change* last) {
    const std::size_t above = std::min(context, first->old_begin);
    const std::size_t below = std::min(context, old.size() - last->old_end);
    text += fmt::format("@@ -{} +{} @@\n", range(first->old_begin - above, last->old_end + below),
                        range(first->new_begin - above, last->new_end + below));
    std::size_t at = first->old_begin - above;
    for (const Change* each = first; each <= last; ++each) {
        put_lines(text, ' ', old, at, each->old_begin);
        put_lines(text, '-', old, each->old_begin, each->old_end);
        put_lines(text, '+', now, each->new_begin, each->new_end);
        at = each->old_end;
    }
    put_lines(text, ' ', old, at, at + below);
}

/// A name as the head of a diff has it. A tab ends one with blanks in it.
std::string head_name(std::string_view name) {
    const auto is_odd = [](char c) {
        return static_cast<unsigned char>(c) < 0x20 || c == 0x7F || c == '"' || c == '\\';
    };
    if (std::none_of(name.begin(), name.end(), is_odd)) {
        return fmt::format("{}{}", name, name.find(' ') == std::string_view::npos ? "" : "\t");
    }
    std::string quoted = "\"";
    for (const char c : name) {
        if (c == '"' || c == '\\') {
            quoted += '\\';
            quoted += c;
        } else if (is_odd(c)) {
            quoted += fmt::format("\\{:03o}", static_cast<unsigned char>(c));
        } else {
            quoted += c;
        }
    }
    return quoted + '"';
}

} // namespace

std::string unified_diff(std::string_view name, std::string_view before, const Tidied& after) {
    const Lines old = lines_of(before);
    const Lines now = lines_of(after.text);
    const std::vector<Change> changes = changes_between(old, now, after.origins);
    if (changes.empty()) return {};
    const std::string head = head_name(name);
    std::string text = fmt::format("--- {}\n+++ {}\n", head, head);
    for (std::size_t first = 0; first < changes.size();) {
        std::size_t last = first;
        while (last + 1 < changes.size() &&
               changes[last + 1].old_begin - changes[last].old_end <= 2 * context)
            ++last;
        put_hunk(text, old, now, &changes[first], &changes[last]);
        first = last + 1;
    }
    return text;
}

} // namespace waxwright
