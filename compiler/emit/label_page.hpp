// A sheet of words and drawings that is filled from its top downwards: what a label is written on.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "emit/label_text.hpp"
#include "emit/symbols.hpp"

namespace waxwright {

/// Lines are so much of their letters' size apart, and letters stand so far below a line's top.
inline constexpr double line_share = 1.22, baseline_share = 0.96;

/// All in mm, from the top left. Lines never overlap: each has a band of its own.
class LabelPage {
public:
    LabelPage(double left, double right, double top) : y(top), left_(left), right_(right) {}

    double y;          // where the next line begins
    std::string group; // what has been drawn

    /// Where a line at `y` may stand: beside what is set in.
    double left() const { return y < inset_until_ ? left_ + inset_ : left_; }
    double right() const { return right_; }
    double width() const { return right_ - left_; }

    /// Words from `y` on, as many lines as they need; `y` is behind them then.
    void words(std::string_view text, LetterStyle style);
    /// Lines of words whose band begins at `top`, and nothing moves.
    void lines(double x, double top, const std::vector<std::string_view>& each, LetterStyle style);
    void symbol(LabelSymbol symbol, double x, double top, double size);
    /// From edge to edge, or from `x` on.
    void rule(double top, double thick) { rule_from(left_, top, thick); }
    void rule_from(double x, double top, double thick);
    /// From here on between these edges.
    void within(double left, double right) {
        left_ = left;
        right_ = right;
    }
    /// What comes until `y` has got to `until` stands `by` further in.
    void set_in(double by, double until);
    /// `y` behind what is set in.
    void clear();

private:
    double left_, right_;
    double inset_ = 0, inset_until_ = 0;
};

/// A text in lines of no more than `width`.
std::vector<std::string_view> lines_within(std::string_view text, double width, LetterStyle style);

} // namespace waxwright
