#include "emit/findings_text.hpp"

#include <algorithm>
#include <string_view>
#include <unordered_set>
#include <vector>

#include "emit/excerpt.hpp"
#include "emit/visible.hpp"

namespace waxwright {

namespace {

constexpr std::string_view indent = "    ";

/// The SGR code a severity is shown in.
std::string_view paint(Severity severity) {
    switch (severity) {
    case Severity::error:
        return "\x1b[1;31m";
    case Severity::warning:
        return "\x1b[33m";
    case Severity::note:
        return "\x1b[36m";
    }
    return "";
}
constexpr std::string_view unpaint = "\x1b[0m";

class Report {
public:
    Report(const Sources& sources, const ReportStyle& style, const Model* model)
        : sources_(sources), style_(style), model_(model) {}

    void add(const Finding& finding) {
        add_first_line(finding);
        const bool colour = style_.colour;
        append_excerpt(text_, sources_[finding.at.file], finding.at,
                       colour ? paint(finding.severity) : "", colour ? unpaint : "");
        add_hint(finding.hint);
        for (const Related& related : finding.related) {
            text_ += indent;
            add_place(related.at);
            append_visible(text_, related.text);
            text_ += '\n';
        }
        add_recipes(finding);
    }

    std::string take() { return std::move(text_); }

private:
    /// "tide-line.candle:24:11: "
    void add_place(Span at) {
        const Source& source = sources_[at.file];
        const Place place = source.place(at.begin);
        append_visible(text_, source.name());
        text_.append(":").append(std::to_string(place.line));
        text_.append(":").append(std::to_string(place.column)).append(": ");
    }

    void add_first_line(const Finding& finding) {
        add_place(finding.at);
        if (style_.colour) text_ += paint(finding.severity);
        text_.append(word(finding.severity)).append(":");
        if (style_.colour) text_ += unpaint;
        text_ += ' ';
        append_visible(text_, finding.message);
        text_.append(" [").append(info(finding.rule).name).append("]\n");
    }

    void add_hint(std::string_view hint) {
        std::string_view label = "hint: ";
        while (!hint.empty()) {
            const std::size_t end = std::min(hint.find('\n'), hint.size());
            text_.append(indent).append(label);
            append_visible(text_, hint.substr(0, end));
            text_ += '\n';
            hint.remove_prefix(std::min(end + 1, hint.size()));
            label = "      "; // later lines stand under the first
        }
    }

    /// True for a place in a recipe that this one is like, however far back.
    bool is_taken_over(Span at, std::uint32_t recipe) const {
        const auto holds = [&](BlockId id) {
            const Span& whole = model_->blocks[id].whole_at;
            return whole.file == at.file && whole.begin <= at.begin && at.end <= whole.end;
        };
        if (holds(recipe)) return false;
        for (BlockId id = model_->blocks[recipe].like; id != no_block;
             id = model_->blocks[id].like) {
            if (holds(id)) return true;
        }
        return false;
    }

    void add_recipes(const Finding& finding) {
        if (model_ == nullptr) return;
        std::vector<std::uint32_t> recipes;
        std::unordered_set<std::uint32_t> seen;
        for (const Subject& subject : finding.subjects) {
            const bool fresh = subject.recipe != nobody && seen.insert(subject.recipe).second;
            if (fresh) recipes.push_back(subject.recipe);
        }
        if (recipes.empty()) return;
        if (recipes.size() == 1 && !is_taken_over(finding.at, recipes[0])) return;
        text_.append(indent).append("in: ");
        for (std::size_t i = 0; i < recipes.size(); ++i) {
            text_.append(i > 0 ? ", " : "").append(model_->name(recipes[i]));
        }
        text_ += '\n';
    }

    const Sources& sources_;
    const ReportStyle& style_;
    const Model* model_;
    std::string text_;
};

/// Appends "2 errors" behind what is there, unless there are none.
void add_count(std::string& text, std::size_t count, std::string_view what) {
    if (count == 0) return;
    if (!text.empty()) text += ", ";
    text.append(std::to_string(count)).append(" ").append(what).append(count == 1 ? "" : "s");
}

} // namespace

std::string findings_text(const Findings& findings, const Sources& sources,
                          const ReportStyle& style, const Model* model) {
    Report report(sources, style, model);
    for (const Finding& finding : findings.all()) {
        if (finding.because) continue;
        if (finding.severity == Severity::note && !style.notes) continue;
        report.add(finding);
    }
    return report.take();
}

std::string counts_line(const Findings& findings, std::size_t files) {
    std::string text;
    for (const Severity severity : {Severity::error, Severity::warning, Severity::note}) {
        add_count(text, findings.count(severity), word(severity));
    }
    if (text.empty()) text = "no findings";
    text.append(" in ").append(std::to_string(files)).append(files == 1 ? " file" : " files");
    const auto& all = findings.all();
    const auto allowed = std::count_if(
        all.begin(), all.end(), [](const Finding& finding) { return finding.because.has_value(); });
    if (allowed > 0) text.append(", ").append(std::to_string(allowed)).append(" allowed");
    return text;
}

} // namespace waxwright
