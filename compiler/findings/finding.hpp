// A finding is a value: what rule, where, in what words, and what to do about it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <deque>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "findings/fix.hpp"
#include "findings/registry.hpp"
#include "source/source.hpp"

namespace waxwright {

/// Whose finding it is. The numbers are block ids of the model; the findings only compare them.
inline constexpr std::uint32_t nobody = 0xFFFFFFFF;
struct Subject {
    std::uint32_t recipe = nobody;
    std::uint32_t batch = nobody; // set where only this batch's pot, scale or count makes it so

    friend bool operator==(const Subject&, const Subject&) = default;
};

/// A second place that belongs to the finding, with what is there.
struct Related {
    Span at;
    std::string text;
};

/// What the same rule says at the same place in other words: of a recipe with other numbers, or of
/// the second oil of an accord.
struct Also {
    std::string message;
    std::string hint;
    std::vector<Subject> subjects;
};

struct Finding {
    Rule rule;
    Severity severity; // the registry's, or another where the rule's page says so
    Span at;
    std::string message; // one line, no capital, no full stop, units as the maker wrote them
    std::string hint;    // what to do; may be empty, may have several lines
    std::vector<Related> related;
    std::vector<Subject> subjects;      // the recipes and batches it is about; empty: the file
    std::optional<std::string> because; // the reason, where a recipe allows it
    std::vector<Also> also{};           // once settled; `subjects` are those of the message above
    std::vector<Fix> fixes{};           // one of them mends it; the first that was offered first
    std::optional<Rule> doubted{};      // of `within-doubt`: the rule that an end of a doubt breaks
};

/// A recipe's `allow RULE because "…"`.
struct Allowance {
    Rule rule;
    Span at;
    std::uint32_t recipe;
    std::string because;
};

/// A file with so many errors is no recipe: what comes after is not read, so that no input can take
/// all time and memory.
inline constexpr std::uint32_t most_errors = 10'000;

/// The sink. Findings come in as they are met and leave in the order people read them.
class Findings {
public:
    /// In a row that grows without moving what is in it: a reference to one stays good till they
    /// are sorted.
    using List = std::deque<Finding>;

    /// Reports with the registry's severity. The reference is good till sort_and_join(). Of a file
    /// that has too many errors no more are kept. Of a message or hint that quotes pages of a file
    /// the middle is left out.
    Finding& report(Rule rule, Span at, std::string message, std::string hint = {});
    /// The same for the case in which a rule is told otherwise than the registry has it.
    Finding& report_milder(Severity severity, Rule rule, Span at, std::string message,
                           std::string hint = {});
    /// Takes over those of `from` from `begin` to `end`, as if they were reported here one by one.
    void append(Findings& from, std::size_t begin, std::size_t end);
    void allow(Allowance allowance) { allowances_.push_back(std::move(allowance)); }

    /// True once a file has `most_errors` errors; that is told as one more, at the last of them.
    /// What a rule finds at one span is one error, however many recipes it is about.
    bool too_many(FileId file) const {
        return file < errors_.size() && errors_[file] > most_errors;
    }

    /// Applies what was allowed, tells allowances that were of no use, merges findings of one rule
    /// and span (other words about other recipes stay), and sorts by file (in the order of
    /// `sources`' names), line, column, rule name. Of a finding with several recipes, those that
    /// allow it become a finding of their own; a finding without a recipe, an error and
    /// `allow-unused` cannot be allowed. Done twice, nothing changes; more may be reported after it
    /// and settled again.
    void sort_and_join(const Sources& sources);

    const List& all() const { return all_; }
    /// Lets each be told better: its message, hint and fixes may change, its rule and place may
    /// not.
    template <typename Visit>
    void each(Visit visit) {
        for (Finding& finding : all_)
            visit(finding);
    }
    /// Those of some rules only, by the value of Rule. What was allowed stays so.
    Findings of_rules(const std::vector<bool>& wanted) const;
    bool has_errors() const;
    /// Number of findings of a severity that were not allowed.
    std::size_t count(Severity severity) const;

private:
    void count_error(Rule rule, Span at);
    class Permits; // which allowance a recipe has for a rule
    class Joined;  // findings of one rule and span
    void apply_allowances();
    void split_allowed(std::size_t index, const Permits& permits);
    void report_allowances();
    void merge();
    void sort(const Sources& sources);

    List all_;
    std::optional<Finding> dropped_;    // the last one of a file with too many errors
    std::vector<std::uint32_t> errors_; // by file
    std::set<std::tuple<FileId, std::uint32_t, std::uint32_t, Rule>> counted_; // those errors
    std::vector<Allowance> allowances_;
    std::vector<bool> used_; // of each allowance: it matched a finding
    std::vector<bool> told_; // of each allowance: it was reported as refused or of no use
};

} // namespace waxwright
