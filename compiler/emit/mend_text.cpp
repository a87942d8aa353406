#include "emit/mend_text.hpp"

#include <fmt/format.h>

#include "emit/visible.hpp"

namespace waxwright {

namespace {

std::string on_one_line(std::string_view text) {
    std::string shown;
    append_visible(shown, text);
    return shown;
}

/// "`a {`, then `b`": a mend of several lines, on one.
std::string line_by_line(std::string_view text) {
    std::string lines;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != '\n') {
            lines += text[i];
            continue;
        }
        lines += "`, then `";
        while (i + 1 < text.size() && text[i + 1] == ' ')
            ++i;
    }
    return lines;
}

std::string place_words(std::string_view file, const Place& place) {
    return fmt::format("{}:{}:{}: ", on_one_line(file), place.line, place.column);
}

} // namespace

std::string mend_line(std::string_view file, const Place& place, Rule rule, std::string_view was,
                      std::string_view is_now, std::string_view refused) {
    const bool line = is_now.ends_with('\n'); // a whole one: its blanks are of no interest
    if (line) is_now.remove_suffix(1);
    if (line) is_now.remove_prefix(std::min(is_now.find_first_not_of(' '), is_now.size()));
    const std::string is = line_by_line(is_now);
    std::string what = is.empty()    ? fmt::format("`{}` is taken away", was)
                       : was.empty() ? fmt::format("`{}` is put in", is)
                                     : fmt::format("`{}` is now `{}`", was, is);
    if (!refused.empty()) {
        what = is.empty() ? fmt::format("`{}` is not taken away: {}", was, refused)
                          : fmt::format("`{}` is not made `{}`: {}", was, is, refused);
    }
    return fmt::format("{}{}: {} [{}]\n", place_words(file, place),
                       refused.empty() ? "mended" : "not mended", on_one_line(what),
                       info(rule).name);
}

std::string left_lines(const Findings& findings, const Sources& sources, bool notes, bool quiet) {
    std::string text;
    for (const Finding& finding : findings.all()) {
        const bool hidden = (finding.severity == Severity::note && !notes) ||
                            (finding.severity != Severity::error && quiet);
        if (finding.because || hidden) continue;
        const Source& source = sources[finding.at.file];
        text += fmt::format(
            "{}left: {}: {} [{}]", place_words(source.name(), source.place(finding.at.begin)),
            word(finding.severity), on_one_line(finding.message), info(finding.rule).name);
        std::string_view before = "; on offer: ";
        for (const Fix& fix : finding.fixes) {
            text.append(before).append(on_one_line(line_by_line(fix.title)));
            before = "; or: ";
        }
        text += '\n';
    }
    return text;
}

} // namespace waxwright
