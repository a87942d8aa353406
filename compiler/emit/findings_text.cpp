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
        add_also(finding);
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

    using Names = std::vector<std::string>;

    /// Each recipe once.
    Names names_of(const std::vector<Subject>& subjects) const {
        Names names;
        std::unordered_set<std::uint32_t> recipes;
        for (const Subject& subject : subjects) {
            const bool fresh = subject.recipe != nobody && recipes.insert(subject.recipe).second;
            if (fresh) names.emplace_back(model_->name(subject.recipe));
        }
        return names;
    }

    void add_names(const Names& names) {
        for (std::size_t i = 0; i < names.size(); ++i) {
            text_.append(i > 0 ? ", " : "").append(names[i]);
        }
    }

    void add_recipes(const Finding& finding) {
        if (model_ == nullptr) return;
        std::vector<Subject> subjects = finding.subjects;
        bool others = false; // recipes of which other words are true
        for (const Also& also : finding.also) {
            if (also.message == finding.message) {
                subjects.insert(subjects.end(), also.subjects.begin(), also.subjects.end());
            } else {
                others = others || !also.subjects.empty();
            }
        }
        const Names names = names_of(subjects);
        if (names.empty()) return;
        if (names.size() == 1 && !others && !is_taken_over(finding.at, subjects[0].recipe)) return;
        text_.append(indent).append("in: ");
        add_names(names);
        text_ += '\n';
    }

    /// What else there is at this place: in other recipes, or in other words.
    void add_also(const Finding& finding) {
        for (const Also& also : finding.also) {
            if (also.message == finding.message) continue;
            const Names names = model_ == nullptr ? Names() : names_of(also.subjects);
            text_.append(indent).append(names.empty() ? "also" : "in ");
            add_names(names);
            text_.append(": ");
            append_visible(text_, also.message);
            text_ += '\n';
            if (also.hint != finding.hint) add_hint(also.hint);
        }
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
        if (finding.severity != Severity::error && style.quiet) continue;
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
