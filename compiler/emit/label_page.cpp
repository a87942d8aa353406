#include "emit/label_page.hpp"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "emit/svg_text.hpp"

namespace waxwright {

namespace {

/// `textLength` keeps a line as wide as it was measured, whatever face a viewer has; it squeezes
/// the letters' width alone. A line with an estimated letter goes without.
void put(std::string& out, double x, double baseline, std::string_view line, LetterStyle style) {
    fmt::format_to(std::back_inserter(out),
                   "<text x=\"{:.2f}\" y=\"{:.2f}\" font-size=\"{:.3f}\"{}", x, baseline,
                   style.size, style.bold ? " font-weight=\"bold\"" : "");
    if (is_measured(line)) {
        fmt::format_to(std::back_inserter(out),
                       " textLength=\"{:.2f}\" lengthAdjust=\"spacingAndGlyphs\"",
                       label_width(line, style));
    }
    fmt::format_to(std::back_inserter(out), ">{}</text>\n", xml_text(line));
}

} // namespace

void LabelPage::words(std::string_view text, LetterStyle style) {
    for (;;) {
        const std::string_view line = take_line(text, right() - left(), style);
        if (line.empty()) return;
        put(group, left(), y + baseline_share * style.size, line, style);
        y += line_share * style.size;
    }
}

void LabelPage::lines(double x, double top, const std::vector<std::string_view>& each,
                      LetterStyle style) {
    for (const std::string_view line : each) {
        put(group, x, top + baseline_share * style.size, line, style);
        top += line_share * style.size;
    }
}

void LabelPage::symbol(LabelSymbol symbol, double x, double top, double size) {
    group += svg_symbol(symbol, x, top, size);
}

void LabelPage::rule_from(double x, double top, double thick) {
    fmt::format_to(std::back_inserter(group),
                   "<path d=\"M{:.2f} {:.2f}H{:.2f}\" stroke=\"#000\" stroke-width=\"{}\"/>\n", x,
                   top, right_, thick);
}

void LabelPage::set_in(double by, double until) {
    inset_ = by;
    inset_until_ = until;
}

void LabelPage::clear() {
    y = std::max(y, inset_until_);
    inset_until_ = 0;
}

std::vector<std::string_view> lines_within(std::string_view text, double width, LetterStyle style) {
    std::vector<std::string_view> lines;
    for (;;) {
        const std::string_view line = take_line(text, width, style);
        if (line.empty()) return lines;
        lines.push_back(line);
    }
}

} // namespace waxwright
