#include "emit/label_html.hpp"

#include <algorithm>
#include <cstddef>
#include <iterator>

#include <fmt/format.h>

#include "emit/label_fit.hpp"
#include "emit/svg_text.hpp"

namespace waxwright {

namespace {

// All in mm.
constexpr double margin = 10; // what no printer leaves blank
constexpr double gap = 4;     // between labels, for the cut marks
constexpr double foot = 5;    // from the paper's edge to the words below the labels
constexpr double mark_from = 0.5, mark_to = 1.8; // from a label's corner

constexpr std::string_view style = R"css(
@page { size: @size@; margin: 0 }
html, body { margin: 0; background: #fff; color: #000 }
.page { break-after: page; break-inside: avoid }
.page:last-child { break-after: auto }
.page svg { display: block }
@media screen { .page { margin: 0 0 4mm; outline: 1px solid #777 } }
)css";

struct PaperSize {
    std::string_view word, css;
    double width, height;
};

const PaperSize& size_of(Paper paper) {
    static constexpr PaperSize a4{"a4", "210mm 297mm", 210, 297};
    static constexpr PaperSize letter{"letter", "215.9mm 279.4mm", 215.9, 279.4};
    return paper == Paper::a4 ? a4 : letter;
}

/// How many labels stand side by side, one at least.
std::size_t how_many(double room, double each) {
    return std::max<std::size_t>(1, static_cast<std::size_t>((room + gap + 1e-9) / (each + gap)));
}

class Sheets {
public:
    explicit Sheets(Paper paper) : paper_(size_of(paper)) {}

    void add(const Label& label) {
        const LabelDrawing drawn = draw_label(label);
        const std::size_t columns = how_many(paper_.width - 2 * margin, drawn.width);
        const std::size_t rows = how_many(paper_.height - 2 * margin, drawn.height);
        const auto count = static_cast<std::size_t>(std::max<std::int64_t>(1, label.count));
        // The first is drawn, the others are the same again.
        const std::string name = fmt::format("label-{}", ++labels_);
        for (std::size_t done = 0; done < count;) {
            begin_sheet(label, drawn);
            for (std::size_t i = 0; i < columns * rows && done < count; ++i, ++done) {
                const std::size_t row = i / columns, column = i % columns;
                const double x = margin + static_cast<double>(column) * (drawn.width + gap);
                const double y = margin + static_cast<double>(row) * (drawn.height + gap);
                if (done == 0) {
                    fmt::format_to(it(),
                                   "<g transform=\"translate({:.2f} {:.2f})\"><g id=\"{}\">\n"
                                   "{}</g></g>\n",
                                   x, y, name, drawn.group);
                } else {
                    fmt::format_to(it(), "<use href=\"#{}\" x=\"{:.2f}\" y=\"{:.2f}\"/>\n", name, x,
                                   y);
                }
                cut_marks(x, y, drawn);
            }
            html += "</svg></section>\n";
        }
    }

    std::string html;

private:
    std::back_insert_iterator<std::string> it() { return std::back_inserter(html); }

    void begin_sheet(const Label& label, const LabelDrawing& drawn) {
        const double height = std::max(paper_.height, drawn.height + 2 * margin);
        fmt::format_to(it(),
                       "<section class=\"page\"><svg xmlns=\"http://www.w3.org/2000/svg\" "
                       "width=\"{0}mm\" height=\"{1:.2f}mm\" viewBox=\"0 0 {0} {1:.2f}\" {2}>\n",
                       paper_.width, height, label_letters);
        const double y = height - foot;
        fmt::format_to(it(),
                       "<path d=\"M{0} {1:.2f}v-1.5m0 .75h50m0 .75v-1.5\" stroke=\"#000\" "
                       "stroke-width=\"0.2\" fill=\"none\"/>\n"
                       "<text x=\"{2}\" y=\"{1:.2f}\" font-size=\"2.6\">50 mm: print at 100 %, not "
                       "fitted to the page, and measure this line. Each label is {4}. {3}</text>\n",
                       margin, y, margin + 52,
                       label.hazards.pictograms.empty() ? "" : "In colour: borders are red.",
                       drawn_size(drawn));
    }

    void cut_marks(double x, double y, const LabelDrawing& drawn) {
        html += "<path stroke=\"#000\" stroke-width=\"0.1\" d=\"";
        for (const double corner_x : {x, x + drawn.width}) {
            for (const double corner_y : {y, y + drawn.height}) {
                const double out_x = corner_x == x ? -1 : 1, out_y = corner_y == y ? -1 : 1;
                fmt::format_to(it(), "M{:.2f} {:.2f}h{:.2f}M{:.2f} {:.2f}v{:.2f}",
                               corner_x + out_x * mark_from, corner_y,
                               out_x * (mark_to - mark_from), corner_x,
                               corner_y + out_y * mark_from, out_y * (mark_to - mark_from));
            }
        }
        html += "\"/>\n";
    }

    const PaperSize& paper_;
    std::size_t labels_ = 0;
};

} // namespace

std::optional<Paper> find_paper(std::string_view word) {
    for (const Paper each : {Paper::a4, Paper::letter})
        if (size_of(each).word == word) return each;
    return std::nullopt;
}

std::string html_labels(std::span<const Label> labels, Paper paper, std::string_view title) {
    Sheets sheets(paper);
    for (const Label& label : labels)
        sheets.add(label);
    std::string css(style);
    constexpr std::string_view size = "@size@";
    css.replace(css.find(size), size.size(), size_of(paper).css);
    return fmt::format(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta http-equiv=\"Content-Security-Policy\" "
        "content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
        "<title>{}</title>\n<style>{}</style>\n</head>\n<body>\n{}</body>\n</html>\n",
        xml_text(title), css, sheets.html);
}

std::string html_label_part(std::span<const Label> labels) {
    std::string html = "<h2>Labels at true size, printed at 100 %</h2>\n";
    html += fmt::format("<p>{}</p>\n", which_markets_html());
    for (const Label& label : labels) {
        const std::string svg = svg_labels({&label, 1});
        fmt::format_to(std::back_inserter(html), "<div><p>{}, for {}: {}</p>\n{}</div>\n",
                       xml_text(label.title), name(label.market), drawn_size(draw_label(label)),
                       svg.substr(svg.find("<svg")));
    }
    return html;
}

} // namespace waxwright
