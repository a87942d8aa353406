#include "emit/label_writer.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include <fmt/format.h>

#include "emit/label_page.hpp"

namespace waxwright {

namespace {

// All in mm.
constexpr double gap = 1;     // between blocks, and between a drawing and its words
constexpr double beside = 20; // least width of words beside pictograms
constexpr std::size_t most_caution_columns = 4;
constexpr double blank_line = 6; // to write something on
constexpr std::string_view blank = "________";
constexpr double least_x_height = 1.2; // where the label's sizes have none
constexpr double sign_share = 1.2;     // of the least size: a sign doesn't fill the whole square

class LabelWriter {
public:
    /// In two columns the left one has this share of the width; 0: there is one.
    LabelWriter(const Label& label, double width, double left_share)
        : label_(label), page_(label_edge, width - label_edge, label_edge), width_(width),
          left_share_(left_share),
          small_(std::max(label.sizes.x_height_mm, least_x_height) / x_height_share),
          sign_(label.sizes.symbol_mm * sign_share) {}

    /// False where a figure of the net quantity is wider than the label, or, in the United States,
    /// not in its lower 30 % (from memory of 16 CFR 500.6).
    bool fits() const { return fits_; }

    LabelDrawing write() {
        head();
        if (left_share_ > 0) {
            two_columns();
        } else {
            fire();
            hazards();
            maker();
        }
        return net();
    }

private:
    LetterStyle plain() const { return {small_, false}; }
    LetterStyle bold() const { return {small_, true}; }

    /// The cautions on the left, all else on the right.
    void two_columns() {
        const double top = page_.y;
        const double middle = label_edge + (width_ - 2 * label_edge) * left_share_;
        page_.within(label_edge, middle - gap);
        fire();
        const double left_end = std::exchange(page_.y, top);
        page_.within(middle + gap, width_ - label_edge);
        hazards();
        maker();
        page_.clear();
        floor_ = std::max(page_.y, left_end);
        if (label_.market == Market::us) { // free on either side too
            page_.y = floor_;
            page_.within(label_edge, width_ - label_edge);
        } else if (left_end < page_.y) { // below what is shorter
            page_.y = left_end;
            page_.within(label_edge, middle - gap);
        }
    }

    void block() {
        page_.clear();
        page_.rule(page_.y + gap / 2, 0.15);
        page_.y += gap;
    }

    void head() {
        if (label_.not_burned) page_.words(not_burned_words, {small_ * 1.4, true});
        if (label_.ask_supplier) page_.words(ask_supplier_words, {small_ * 1.4, true});
        if (label_.not_burned || label_.ask_supplier) block();
        page_.words(label_.title, {small_ * 1.5, true});
        page_.words(label_.identity, plain());
    }

    void fire() {
        const LabelFire& fire = label_.fire;
        if (fire.cautions.empty()) return;
        block();
        if (fire.head == FireHead::safety_alert) {
            alerted(fire);
        } else {
            signed_cautions(fire);
        }
    }

    /// The words alone: the symbol, its word at once behind it, and the messages.
    void alerted(const LabelFire& fire) {
        const LetterStyle style{small_ * 1.6, true};
        page_.symbol(symbol_of(fire.head), page_.left(), page_.y, sign_);
        const double x = page_.left() + sign_ + gap;
        const auto lines = lines_within(fire.word, page_.right() - x, style);
        const double height = static_cast<double>(lines.size()) * line_share * style.size;
        page_.lines(x, page_.y + std::max(0.0, (sign_ - height) / 2), lines, style);
        page_.y += std::max(sign_, height);
        for (const FireCaution& each : fire.cautions)
            page_.words(each.text, each.required ? bold() : plain());
    }

    /// A drawing and its words for each, in as many columns as take least height; the general sign
    /// first.
    void signed_cautions(const LabelFire& fire) {
        LabelPage best = page_;
        for (std::size_t columns = 1; columns <= most_caution_columns; ++columns) {
            LabelPage tried = page_;
            const bool whole = signed_cautions(fire, columns, tried);
            if (columns == 1 || (whole && tried.y < best.y - 1e-9)) best = std::move(tried);
        }
        page_ = std::move(best);
    }

    /// False where a word would have to be cut.
    bool signed_cautions(const LabelFire& fire, std::size_t columns, LabelPage& page) const {
        const double wide = page.width() / static_cast<double>(columns);
        const double left = page.left();
        double tallest = 0;
        bool whole = true;
        for (std::size_t i = 0; i < fire.cautions.size(); ++i) {
            const std::size_t column = i % columns;
            if (column == 0) page.y += std::exchange(tallest, 0);
            double x = left + wide * static_cast<double>(column);
            const double right = x + wide - (column + 1 < columns ? gap : 0);
            if (i == 0) {
                page.symbol(symbol_of(fire.head), x, page.y, sign_);
                x += sign_ + gap;
            }
            const FireCaution& each = fire.cautions[i];
            const double words = right - x - sign_ - gap;
            whole = whole && widest_word(each.text, caution_style(each)) <= words;
            tallest = std::max(tallest, caution(each, x, words, page));
        }
        page.y += tallest;
        return whole;
    }

    LetterStyle caution_style(const FireCaution& caution) const {
        return caution.required ? bold() : plain();
    }

    /// The height it takes, with words in so much width.
    double caution(const FireCaution& caution, double x, double words, LabelPage& page) const {
        page.symbol(symbol_of(caution.sign), x, page.y, sign_);
        const LetterStyle style = caution_style(caution);
        const auto lines = lines_within(caution.text, words, style);
        const double height = static_cast<double>(lines.size()) * line_share * small_;
        page.lines(x + sign_ + gap, page.y + std::max(0.0, (sign_ - height) / 2), lines, style);
        return std::max(sign_, height) + gap / 2;
    }

    void hazards() {
        const LabelHazards& hazards = label_.hazards;
        if (hazards.source == HazardSource::other_law || hazards.none) return;
        block();
        if (hazards.source == HazardSource::not_worked_out) {
            page_.words(hazards.instead, bold());
            return;
        }
        pictograms(hazards.pictograms);
        page_.words(hazards.signal, {small_ * 1.4, true});
        page_.words(run_on(hazards.hazards), bold());
        named(hazards.named);
        page_.words(hazards.euh208, plain());
        page_.words(run_on(hazards.precautions), plain());
        if (label_.ufi_blank) page_.words("UFI: " + std::string(blank), plain());
        page_.clear();
    }

    static std::string run_on(const std::vector<LabelSentence>& sentences) {
        std::string text;
        for (const LabelSentence& each : sentences)
            text += each.text + " ";
        return text;
    }

    void named(const std::vector<std::string>& substances) {
        if (substances.empty()) return;
        std::string text = "Contains ";
        for (std::size_t i = 0; i < substances.size(); ++i)
            text += (i == 0 ? "" : ", ") + substances[i];
        page_.words(text + ".", plain());
    }

    /// In rows; what follows stands beside the last one if there is room.
    void pictograms(const std::vector<int>& numbers) {
        const LabelSizePlan& sizes = label_.sizes;
        // A hair over the fifteenth, so that it is not under it where it is printed.
        const double side = std::max({sizes.pictogram_mm, sizes.better_pictogram_mm,
                                      std::sqrt(sizes.width_mm * sizes.height_mm / 15) + 0.02});
        const double cell = across(side);
        double x = page_.left();
        for (const int number : numbers) {
            const auto symbol = pictogram_of(number);
            if (!symbol) { // no class of the tables has it; what is lacking is said
                page_.words(fmt::format("GHS{:02}, which is not drawn here", number), bold());
                continue;
            }
            if (x > page_.left() && x + cell > page_.right()) {
                page_.y += cell + gap;
                x = page_.left();
            }
            page_.symbol(*symbol, x, page_.y, cell);
            x += cell + gap / 2;
        }
        if (x == page_.left()) return;
        if (page_.right() - x - gap / 2 < beside) {
            page_.y += cell + gap;
        } else {
            page_.set_in(x - page_.left() + gap / 2, page_.y + cell + gap / 2);
        }
    }

    void maker() {
        block();
        if (std::ranges::count(label_.maker, std::string()) == 0) {
            std::string all;
            for (const std::string& line : label_.maker)
                all += (all.empty() ? "" : " · ") + in_one_piece(line);
            page_.words(all, plain());
        } else {
            for (const std::string& line : label_.maker)
                maker_line(line);
        }
        std::string made = "Lot " + (label_.lot.empty() ? std::string(blank) : label_.lot);
        if (label_.made_on) made += " · made " + show(*label_.made_on);
        if (label_.ready_on) made += " · ready " + show(*label_.ready_on);
        page_.words(made, plain());
    }

    /// A number of figures and signs, as a telephone's, isn't parted between lines.
    static std::string in_one_piece(const std::string& line) {
        if (line.find_first_not_of("0123456789 +-()./") != std::string::npos) return line;
        std::string whole;
        for (const char c : line)
            whole += c == ' ' ? std::string("\u00A0") : std::string(1, c);
        return whole;
    }

    void maker_line(const std::string& line) {
        if (!line.empty()) return page_.words(line, plain());
        page_.y += blank_line;
        page_.rule(page_.y - gap / 2, 0.2);
    }

    /// At the foot, with as much free above it as its figures are high.
    LabelDrawing net() {
        std::string words =
            label_.net.words.empty() ? "Net " + std::string(blank) : label_.net.words;
        keep_together(words);
        const LetterStyle style{std::max(small_, label_.net.figure_height_mm / figure_share), true};
        const auto lines = lines_within(words, page_.width(), style);
        fits_ = widest_word(words, style) <= page_.width();
        const double high = static_cast<double>(lines.size()) * line_share * style.size;
        page_.clear();
        page_.y += style.size * figure_share;
        const double height =
            std::max({least_height(), page_.y + high + label_edge, floor_ + label_edge});
        constexpr double lower = 0.3;
        if (label_.market == Market::us) fits_ = fits_ && high + label_edge <= lower * height;
        page_.lines(page_.left(), height - label_edge - high, lines, style);
        std::string group = across_it(height);
        return {width_, height, std::move(group += page_.group)};
    }

    /// It may lie on its side; and in the United States no rule that we know of keeps it higher
    /// than its vessel.
    double least_height() const {
        const LabelSizePlan& sizes = label_.sizes;
        const double least = width_ < sizes.height_mm ? sizes.height_mm : sizes.width_mm;
        return label_.market == Market::us && sizes.tall_mm > 0 ? std::min(least, sizes.tall_mm)
                                                                : least;
    }

    /// No line ends between a figure and its unit.
    static void keep_together(std::string& words) {
        for (std::size_t at = 1; at + 1 < words.size(); ++at)
            if (words[at] == ' ' && words[at - 1] >= '0' && words[at - 1] <= '9')
                words.replace(at, 1, "\u00A0");
    }

    std::string across_it(double height) const {
        // Both are in the head; across it there is room for one, and the hazards are the graver.
        if (label_.ask_supplier) return across_it(height, ask_supplier_words);
        return label_.not_burned ? across_it(height, not_burned_words) : std::string();
    }

    /// Pale and under all else, so that every word stays to be read.
    std::string across_it(double height, std::string_view words) const {
        constexpr double share = 0.8; // of the diagonal
        const double angle = std::atan2(height, width_) * 180 / std::acos(-1.0);
        const double size = share * std::hypot(width_, height) / label_width(words, {1, true});
        return fmt::format(
            "<text transform=\"translate({:.2f} {:.2f}) rotate({:.2f})\" y=\"{:.2f}\" "
            "font-size=\"{:.2f}\" font-weight=\"bold\" text-anchor=\"middle\" "
            "fill=\"#ccc\">{}</text>\n",
            width_ / 2, height / 2, -angle, size / 3, size, words);
    }

    const Label& label_;
    LabelPage page_;
    double width_, left_share_;
    double small_; // the size of most letters
    double sign_;
    double floor_ = 0; // where the longer of two columns ends
    bool fits_ = true;
};

} // namespace

WrittenLabel write_label(const Label& label, double width, double left_share) {
    LabelWriter writer(label, width, left_share);
    LabelDrawing drawn = writer.write();
    return {std::move(drawn), writer.fits()};
}

} // namespace waxwright
