#include "emit/svg.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "emit/svg_layout.hpp"
#include "emit/svg_text.hpp"

namespace waxwright {

namespace {

// All in mm.
constexpr double width = picture_width, least_height = 210;
constexpr double edge = 7;
constexpr double words = 3.1;     // the size of letters
constexpr double line_feed = 4.3; // from line to line
constexpr double list_left = edge + 20;
constexpr double list_top = plot_bottom + 22;
constexpr double marker = 2.3; // radius
constexpr std::string_view dashed = "1.6 1.2";

struct Marker {
    double x, y;   // of its middle
    double px, py; // the point of the curve it belongs to
    std::size_t number;
};

class Panel {
public:
    Panel(const Plan& plan, std::size_t recipe, const HeatPicture& picture, bool us)
        : plan_(plan), recipe_(recipe), picture_(picture), us_(us),
          at_(picture, steps_of(plan, recipe)) {}

    /// The panel as a group from y = `top` on; its height.
    double write(std::string& out, double top) {
        out_ = &out;
        const double height = std::max(least_height, list_top + list_height() + edge);
        fmt::format_to(it(), "<g transform=\"translate(0 {:.2f})\">\n", top);
        head();
        axes();
        marks();
        curve();
        markers();
        notes();
        list();
        out += "</g>\n";
        return height;
    }

    /// The same in words.
    std::string told() {
        std::string text = fmt::format("Heat plan of {}. ", title());
        for (const HeatMark& mark : picture_.marks)
            text += fmt::format("{}: {}. ", mark.name, degrees_of(mark.low_c, mark.high_c, us_));
        for (std::size_t i = 0; i < at_.numbered.size(); ++i)
            text +=
                fmt::format("{}. {}: {} ", i + 1, at_.time_of(i), sentence(at_.numbered[i].step));
        return text;
    }

private:
    std::back_insert_iterator<std::string> it() { return std::back_inserter(*out_); }
    const std::string& title() const { return plan_.recipes[recipe_].title; }
    std::string sentence(std::size_t step) const {
        return sentence_of(steps_of(plan_, recipe_)[step], us_);
    }

    void text(double x, double y, std::string_view what, double size = words,
              std::string_view anchor = "start") {
        fmt::format_to(
            it(), "<text x=\"{:.2f}\" y=\"{:.2f}\" font-size=\"{}\" text-anchor=\"{}\">{}</text>\n",
            x, y, size, anchor, xml_text(what));
    }
    void line(double x1, double y1, double x2, double y2, double thick,
              std::string_view dashes = "none") {
        fmt::format_to(
            it(),
            "<line stroke=\"#000\" x1=\"{:.2f}\" y1=\"{:.2f}\" x2=\"{:.2f}\" y2=\"{:.2f}\" "
            "stroke-width=\"{}\" stroke-dasharray=\"{}\"/>\n",
            x1, y1, x2, y2, thick, dashes);
    }

    void head() {
        const auto lines = broken(title(), width - 2 * edge - 6, 4.6);
        text(edge, 9, lines.empty() ? std::string() : lines[0] + (lines.size() > 1 ? " …" : ""),
             4.6);
        text(edge, 14.5, "Heat plan of one filling. The thermometer tells, not this curve.");
    }

    void axes() {
        text(plot_left - 11, plot_top - 3, us_ ? "°F" : "°C", words, "end");
        text(plot_left - 1.5, plot_top - 3, us_ ? "°C" : "°F", words, "end");
        // However far the temperatures lie apart, a page has room for a dozen marks or two.
        const double step = 10 * std::max(1.0, std::ceil((at_.high - at_.low) / 200));
        for (double celsius = at_.low; celsius <= at_.high + 0.5; celsius += step) {
            const double y = at_.y_of(celsius);
            line(plot_left, y, plot_right, y, 0.1);
            const std::string c = fmt::format("{:.0f}", celsius);
            const std::string f = fmt::format("{:.0f}", celsius * 1.8 + 32);
            text(plot_left - 11, y + 1, us_ ? f : c, words, "end");
            text(plot_left - 1.5, y + 1, us_ ? c : f, words, "end");
        }
        line(plot_left, plot_top, plot_left, plot_bottom, 0.3);
        line(plot_left, plot_bottom, plot_right, plot_bottom, 0.3);
        text(plot_left, plot_bottom + 8.5, "hours:minutes from when the pot goes on");
    }

    /// Lines and the melting band across the plot; the two working ranges as bars beside it.
    void marks() {
        struct Label {
            double wanted, y;
            const HeatMark* mark;
            double from_x;
        };
        std::vector<Label> labels;
        double bar = plot_right + 3;
        std::vector<HeatMark> ordered = picture_.marks; // the band lies under the lines
        std::stable_partition(ordered.begin(), ordered.end(),
                              [](const HeatMark& mark) { return mark.name == "melting range"; });
        for (const HeatMark& mark : ordered) {
            if (!at_.in_scale(mark)) continue;
            const double top = at_.y_of(mark.high_c), bottom = at_.y_of(mark.low_c);
            double from_x = plot_right;
            if (mark.name == "melting range") {
                fmt::format_to(it(),
                               "<rect x=\"{}\" y=\"{:.2f}\" width=\"{}\" height=\"{:.2f}\" "
                               "fill=\"#ddd\" stroke=\"none\"/>\n",
                               plot_left, top, plot_right - plot_left, std::max(bottom - top, 0.3));
            } else if (mark.low_c == mark.high_c) {
                const bool flash = mark.name != "ceiling";
                line(plot_left, top, plot_right, top, flash ? 0.4 : 0.7, flash ? "3 1.2" : "none");
            } else {
                from_x = bar;
                line(bar, top, bar, bottom, 0.8);
                line(bar - 0.9, top, bar + 0.9, top, 0.4);
                line(bar - 0.9, bottom, bar + 0.9, bottom, 0.4);
                bar += 3.5;
            }
            const double middle = (top + bottom) / 2;
            labels.push_back({middle, middle, &mark, from_x});
        }
        std::stable_sort(labels.begin(), labels.end(),
                         [](const Label& a, const Label& b) { return a.wanted < b.wanted; });
        constexpr double apart = 8;
        double least = plot_top + 1;
        for (Label& label : labels) {
            label.y = std::max(label.y, least);
            least = label.y + apart;
        }
        double most = plot_bottom - 2; // what was pushed out below is pushed up again
        for (auto label = labels.rbegin(); label != labels.rend(); ++label) {
            label->y = std::min(label->y, most);
            most = label->y - apart;
        }
        constexpr double left = plot_right + 11;
        for (const Label& label : labels) {
            line(label.from_x, label.wanted, left - 1, label.y, 0.15);
            text(left, label.y, label.mark->name, 2.6);
            text(left, label.y + 3.2, degrees_of(label.mark->low_c, label.mark->high_c, us_), 2.5);
        }
    }

    void curve() {
        std::optional<std::pair<double, double>> last; // where the curve has got to
        bool gap = false;                              // since when it isn't reckoned
        for (const DrawnStretch& each : at_.drawn) {
            const HeatStretch& stretch = *each.stretch;
            if (each.cut) break_in_axis(each);
            if (stretch.from_c && last) {
                const std::string_view dashes = gap ? dashed : "none";
                line(last->first, last->second, each.left, at_.y_of(*stretch.from_c), 0.6, dashes);
            }
            if (stretch.from_c) last = {each.left, at_.y_of(*stretch.from_c)};
            if (stretch.from_c && stretch.to_c && stretch.known) {
                path(each);
            } else if (stretch.from_c && stretch.to_c) {
                line(each.left, at_.y_of(*stretch.from_c), each.right, at_.y_of(*stretch.to_c), 0.6,
                     dashed);
            }
            gap = !stretch.to_c;
            if (stretch.to_c) last = {each.right, at_.y_of(*stretch.to_c)};
        }
    }

    void path(const DrawnStretch& each) {
        const HeatStretch& stretch = *each.stretch;
        const int points = stretch.rate ? 16 : 1;
        const double length = stretch.ends_min - stretch.begins_min;
        *out_ += "<polyline stroke=\"#000\" fill=\"none\" stroke-width=\"0.6\" points=\"";
        for (int i = 0; i <= points; ++i) {
            const double part = static_cast<double>(i) / points;
            const double minute =
                i == points ? stretch.ends_min : stretch.begins_min + part * length;
            const auto celsius = celsius_at(stretch, picture_.room_c, minute);
            fmt::format_to(it(), "{:.2f},{:.2f} ", each.left + part * (each.right - each.left),
                           at_.y_of(celsius.value_or(*stretch.to_c)));
        }
        *out_ += "\"/>\n";
    }

    /// Two short strokes through the axis: here its time is cut short.
    void break_in_axis(const DrawnStretch& each) {
        if (each.right - each.left < 2) return;
        const double x = (each.left + each.right) / 2;
        for (const double to_side : {-0.7, 0.7})
            line(x + to_side - 0.6, plot_bottom + 1.2, x + to_side + 0.6, plot_bottom - 1.2, 0.3);
    }

    /// A number for each step, over the curve, moved up till it meets no other.
    void markers() {
        std::vector<Marker> placed;
        double label_ends = 0;
        double celsius = at_.low; // as last known
        std::size_t seen = 0;
        for (std::size_t i = 0; i < at_.numbered.size(); ++i) {
            const DrawnStretch& each = at_.drawn[at_.numbered[i].stretch];
            for (; seen < at_.numbered[i].stretch; ++seen) {
                const HeatStretch& before = *at_.drawn[seen].stretch;
                celsius = before.to_c.value_or(before.from_c.value_or(celsius));
            }
            celsius = each.stretch->from_c.value_or(celsius);
            const double x = std::clamp(each.left, plot_left + marker, plot_right - marker);
            Marker made{x, at_.y_of(celsius) - 5, each.left, at_.y_of(celsius), i + 1};
            // So many numbers nobody can tell apart: the rest lie where they fall.
            constexpr std::size_t most_apart = 150;
            const auto meets = [&] {
                return placed.size() < most_apart &&
                       std::any_of(placed.begin(), placed.end(), [&](const Marker& other) {
                           return std::hypot(other.x - made.x, other.y - made.y) < 2 * marker + 0.3;
                       });
            };
            // Up while there is room, then from the foot of the plot up.
            while (meets() && made.y > plot_top + marker)
                made.y -= 1;
            if (meets()) made.y = plot_bottom - marker - 0.5;
            while (meets() && made.y > plot_top + marker)
                made.y -= 1;
            while (meets() && made.x < plot_right - marker) // so many at one place: to the side
                made.x += 1;
            placed.push_back(made);
            const std::string time = at_.time_of(i);
            const double wide = text_width(time, 2.6);
            if (each.left - wide / 2 > label_ends && each.left + wide / 2 < plot_right + 6) {
                line(each.left, plot_bottom, each.left, plot_bottom + 1, 0.3);
                text(each.left, plot_bottom + 4, time, 2.6, "middle");
                label_ends = each.left + wide / 2 + 1;
            }
        }
        for (const Marker& each : placed)
            line(each.px, each.py, each.x, each.y, 0.15);
        for (const Marker& each : placed) {
            fmt::format_to(it(),
                           "<circle cx=\"{:.2f}\" cy=\"{:.2f}\" r=\"{}\" fill=\"#fff\" "
                           "stroke=\"#000\" stroke-width=\"0.25\"/>\n",
                           each.x, each.y, marker);
            text(each.x, each.y + 0.95, fmt::format("{}", each.number), 2.6, "middle");
        }
    }

    void notes() {
        std::vector<std::string> notes;
        for (const HeatMark& mark : picture_.marks) {
            if (!at_.in_scale(mark)) {
                notes.push_back(fmt::format("Off the scale: {}, {}.", mark.name,
                                            degrees_of(mark.low_c, mark.high_c, us_)));
            }
        }
        const bool unsure =
            std::any_of(at_.drawn.begin(), at_.drawn.end(), [](const DrawnStretch& each) {
                return !each.stretch->known || !each.stretch->to_c;
            });
        if (unsure) notes.emplace_back("Dashed: not reckoned. A time with a + is the earliest.");
        double y = plot_bottom + 12.5;
        for (const std::string& note : notes) {
            text(plot_left, y, note);
            y += line_feed;
            if (y > list_top - 2) break;
        }
    }

    std::vector<std::string> lines_of(std::size_t number) const {
        return broken(sentence(at_.numbered[number].step), width - edge - list_left, words);
    }
    double list_height() {
        double height = 0;
        for (std::size_t i = 0; i < at_.numbered.size(); ++i)
            height +=
                line_feed * static_cast<double>(std::max<std::size_t>(lines_of(i).size(), 1)) + 0.8;
        return height;
    }
    void list() {
        double y = list_top;
        for (std::size_t i = 0; i < at_.numbered.size(); ++i) {
            text(edge + 3, y, fmt::format("{}", i + 1), words, "end");
            text(edge + 17, y, at_.time_of(i), words, "end");
            for (const std::string& each : lines_of(i)) {
                text(list_left, y, each);
                y += line_feed;
            }
            y += 0.8;
        }
    }

    const Plan& plan_;
    std::size_t recipe_;
    const HeatPicture& picture_;
    bool us_;
    PictureLayout at_;
    std::string* out_ = nullptr;
};

} // namespace

std::string svg_picture(const Plan& plan, std::span<const HeatPicture> pictures, bool us) {
    std::string panels, told;
    double height = 0;
    for (std::size_t i = 0; i < pictures.size(); ++i) {
        Panel panel(plan, i, pictures[i], us);
        height += panel.write(panels, height);
        told += panel.told();
    }
    return fmt::format(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{0}mm\" "
        "height=\"{1:.2f}mm\" viewBox=\"0 0 {0} {1:.2f}\" role=\"img\" "
        "aria-labelledby=\"title told\" font-family=\"sans-serif\" stroke=\"none\">\n"
        "<title id=\"title\">Heat plan: {2}</title>\n<desc id=\"told\">{3}</desc>\n"
        "<rect width=\"{0}\" height=\"{1:.2f}\" fill=\"#fff\"/>\n{4}</svg>\n",
        width, height, xml_text(plan.title), xml_text(told), panels);
}

} // namespace waxwright
