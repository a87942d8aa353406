#include "findings/finding.hpp"

#include <algorithm>
#include <iterator>
#include <numeric>
#include <string_view>
#include <tuple>
#include <unordered_map>
#include <utility>

#include <fmt/format.h>

namespace waxwright {

namespace {

/// What the order of values is decided by, where they have no order of their own.
auto key(const Subject& subject) {
    return std::tuple(subject.recipe, subject.batch);
}
auto key(const Related& related) {
    return std::tuple(related.at.file, related.at.begin, related.at.end,
                      std::string_view(related.text));
}
/// Findings of one key are one finding.
auto key(const Finding& finding) {
    return std::tuple(finding.at.file, finding.at.begin, finding.at.end, finding.rule,
                      finding.because.has_value(),
                      finding.because ? std::string_view(*finding.because) : std::string_view());
}

/// Indices of `values` by key, and those of one key in the order in which they stand.
template <typename T>
std::vector<std::size_t> by_key(const T& values) {
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return key(values[a]) < key(values[b]); });
    return order;
}

/// Keeps those of `values` for which `kept` is true, in their order.
template <typename T>
void keep(T& values, const std::vector<bool>& kept) {
    std::size_t end = 0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (!kept[i]) continue;
        if (end != i) values[end] = std::move(values[i]);
        ++end;
    }
    values.erase(values.begin() + static_cast<std::ptrdiff_t>(end), values.end());
}

/// Drops what stands a second time; the rest stays in its order.
template <typename T>
void drop_repeats(T& values) {
    if (values.size() < 2) return;
    const std::vector<std::size_t> order = by_key(values);
    std::vector<bool> kept(values.size(), true);
    for (std::size_t i = 1; i < order.size(); ++i) {
        if (key(values[order[i - 1]]) == key(values[order[i]])) kept[order[i]] = false;
    }
    keep(values, kept);
}

/// Leaves the ends of a text that nobody would read to its end: a name of megabytes in its message.
void shorten(std::string& text) {
    constexpr std::size_t longest = 2000; // bytes
    constexpr std::size_t end = 600;      // of it at each side
    if (text.size() <= longest) return;
    const auto is_within = [&](std::size_t i) {
        return (static_cast<unsigned char>(text[i]) & 0xC0u) == 0x80;
    };
    std::size_t from = end;
    std::size_t to = text.size() - end;
    for (int i = 0; i < 3 && is_within(from); ++i)
        --from;
    for (int i = 0; i < 3 && is_within(to); ++i)
        ++to;
    std::string shorter = text.substr(0, from);
    shorter.append(" … ").append(text, to);
    text = std::move(shorter); // and gives the memory back
}

bool refused(const Allowance& allowance) {
    return info(allowance.rule).severity == Severity::error;
}

bool can_be_allowed(const Finding& finding) {
    return finding.severity != Severity::error && !finding.because &&
           finding.rule != Rule::allow_unused;
}

} // namespace

/// Of two allowances of one recipe for one rule the first is taken.
class Findings::Permits {
public:
    explicit Permits(const std::vector<Allowance>& allowances) {
        for (std::size_t i = 0; i < allowances.size(); ++i) {
            if (!refused(allowances[i])) {
                permits_.push_back({allowances[i].recipe, allowances[i].rule, i});
            }
        }
        std::sort(permits_.begin(), permits_.end());
    }

    /// Index of the allowance, or `none`.
    std::size_t find(std::uint32_t recipe, Rule rule) const {
        const Permit wanted{recipe, rule, 0};
        const auto found = std::lower_bound(permits_.begin(), permits_.end(), wanted);
        const bool fits =
            found != permits_.end() && std::get<0>(*found) == recipe && std::get<1>(*found) == rule;
        return fits ? std::get<2>(*found) : none;
    }

    static constexpr std::size_t none = static_cast<std::size_t>(-1);

private:
    using Permit = std::tuple<std::uint32_t, Rule, std::size_t>;
    std::vector<Permit> permits_;
};

/// The finding that was just reported stays the last one: the caller goes on with it.
void Findings::count_error(Rule rule, Span at) {
    if (!counted_.emplace(at.file, at.begin, at.end, rule).second) return;
    if (errors_.size() <= at.file) errors_.resize(at.file + 1);
    if (++errors_[at.file] != most_errors) return;
    Finding last = std::move(all_.back());
    all_.back() = {
        Rule::syntax,
        Severity::error,
        last.at,
        fmt::format("there are {} errors so far: the rest of the file is not read", most_errors),
        "is it a recipe at all?",
        {},
        {},
        {}};
    all_.push_back(std::move(last));
    ++errors_[at.file];
}

Finding& Findings::report(Rule rule, Span at, std::string message, std::string hint) {
    return report_milder(info(rule).severity, rule, at, std::move(message), std::move(hint));
}

Finding& Findings::report_milder(Severity severity, Rule rule, Span at, std::string message,
                                 std::string hint) {
    shorten(message);
    shorten(hint);
    Finding made{rule, severity, at, std::move(message), std::move(hint), {}, {}, {}};
    if (severity != Severity::error) return all_.emplace_back(std::move(made));
    if (too_many(at.file)) return dropped_.emplace(std::move(made));
    all_.push_back(std::move(made));
    count_error(rule, at);
    return all_.back();
}

void Findings::append(Findings& from, std::size_t begin, std::size_t end) {
    for (std::size_t i = begin; i < end; ++i) {
        Finding& finding = from.all_[i];
        const bool error = finding.severity == Severity::error;
        if (error && too_many(finding.at.file)) continue;
        const Rule rule = finding.rule;
        const Span at = finding.at;
        all_.push_back(std::move(finding));
        if (error) count_error(rule, at);
    }
}

void Findings::sort_and_join(const Sources& sources) {
    used_.resize(allowances_.size());
    told_.resize(allowances_.size());
    apply_allowances();
    report_allowances();
    merge();
    sort(sources);
}

void Findings::apply_allowances() {
    const Permits permits(allowances_);
    const std::size_t reported = all_.size(); // what is split off is added behind
    for (std::size_t i = 0; i < reported; ++i) {
        if (can_be_allowed(all_[i])) split_allowed(i, permits);
    }
}

/// Moves each subject whose recipe allows the finding to a copy of it that has the reason; a
/// finding that loses all its subjects so becomes the last of the copies itself.
void Findings::split_allowed(std::size_t index, const Permits& permits) {
    std::vector<std::pair<std::size_t, Subject>> allowed; // by allowance
    std::vector<Subject> left;
    for (const Subject& subject : all_[index].subjects) {
        const std::size_t permit = permits.find(subject.recipe, all_[index].rule);
        if (permit == Permits::none) {
            left.push_back(subject);
        } else {
            allowed.emplace_back(permit, subject);
        }
    }
    if (allowed.empty()) return;
    std::stable_sort(allowed.begin(), allowed.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });

    all_[index].subjects.clear(); // so that the copies are cheap
    for (std::size_t i = 0; i < allowed.size();) {
        const std::size_t permit = allowed[i].first;
        std::vector<Subject> subjects;
        for (; i < allowed.size() && allowed[i].first == permit; ++i) {
            subjects.push_back(allowed[i].second);
        }
        std::size_t target = index;
        if (!left.empty() || i < allowed.size()) {
            Finding copy = all_[index];
            target = all_.size();
            all_.push_back(std::move(copy));
        }
        all_[target].subjects = std::move(subjects);
        all_[target].because = allowances_[permit].because;
        used_[permit] = true;
    }
    if (!left.empty()) all_[index].subjects = std::move(left);
}

void Findings::report_allowances() {
    // What an error has kept from being worked out may have been what was allowed.
    const bool all_is_known = !has_errors();
    for (std::size_t i = 0; i < allowances_.size(); ++i) {
        const Allowance& allowance = allowances_[i];
        const bool sure =
            all_is_known || refused(allowance) || allowance.rule == Rule::allow_unused;
        if (used_[i] || told_[i] || !sure) continue;
        told_[i] = true;
        const std::string_view name = info(allowance.rule).name;
        Finding& told =
            refused(allowance)
                ? report(Rule::allow_refused, allowance.at,
                         fmt::format("`{}` is an error, and an error is never allowed", name),
                         "take this line out; where your supplier or your own test gives another "
                         "figure than\nthe material has, write it in a block of yours `like` the "
                         "material's")
                : report(Rule::allow_unused, allowance.at,
                         fmt::format("there is no `{}` here to allow", name), "take this line out");
        told.subjects.push_back({allowance.recipe, nobody});
    }
}

/// Joins findings of one rule and span into the first of them.
class Findings::Joined {
public:
    explicit Joined(Finding& into) : into_(into) {}

    void add(Finding& other) {
        into_.severity = std::min(into_.severity, other.severity); // the gravest comes first
        append(into_.related, other.related);
        append(into_.fixes, other.fixes);
        take(other);
        for (Also& also : other.also)
            take(also);
    }
    void finish() {
        drop_repeats(into_.subjects);
        drop_repeats(into_.related);
        choose_fixes();
        for (Also& also : into_.also)
            drop_repeats(also.subjects);
    }

private:
    /// Of fixes with the same edits the first stays. Where what is certain for one recipe is not
    /// what is certain for another, none is.
    void choose_fixes() {
        std::vector<Fix> chosen;
        std::size_t certain = 0;
        for (Fix& fix : into_.fixes) {
            const bool known = std::any_of(chosen.begin(), chosen.end(), [&](const Fix& each) {
                return each.edits == fix.edits;
            });
            if (known) continue;
            certain += fix.certain ? 1U : 0U;
            chosen.push_back(std::move(fix));
        }
        into_.fixes = std::move(chosen);
        if (certain < 2) return;
        for (Fix& fix : into_.fixes)
            fix.certain = false;
    }

    template <typename T>
    static void append(std::vector<T>& into, std::vector<T>& from) {
        std::move(from.begin(), from.end(), std::back_inserter(into));
    }

    /// A Finding or an Also: its words and whom they are about. Where that is nobody, they are
    /// those of a consequence, and the first ones stand for it.
    template <typename Words>
    void take(Words& words) {
        if (words.subjects.empty()) return;
        if (words.message == into_.message && words.hint == into_.hint) {
            append(into_.subjects, words.subjects);
            return;
        }
        if (places_.empty()) { // settled before, it may have some already
            for (std::size_t i = 0; i < into_.also.size(); ++i)
                places_.emplace(both(into_.also[i]), i);
        }
        const auto [place, fresh] = places_.emplace(both(words), into_.also.size());
        if (fresh) into_.also.push_back({std::move(words.message), std::move(words.hint), {}});
        append(into_.also[place->second].subjects, words.subjects);
    }

    template <typename Words>
    static std::string both(const Words& words) {
        return fmt::format("{}\n{}", words.message, words.hint); // a message has no line end
    }

    Finding& into_;
    std::unordered_map<std::string, std::size_t> places_; // in `also`, by the words
};

void Findings::merge() {
    const std::vector<std::size_t> order = by_key(all_);
    std::vector<bool> kept(all_.size(), true);
    for (std::size_t i = 0; i < order.size();) {
        Finding& first = all_[order[i]];
        Joined joined(first);
        for (++i; i < order.size() && key(all_[order[i]]) == key(first); ++i) {
            joined.add(all_[order[i]]);
            kept[order[i]] = false;
        }
        joined.finish();
    }
    keep(all_, kept);
}

void Findings::sort(const Sources& sources) {
    std::vector<FileId> files(sources.size());
    std::iota(files.begin(), files.end(), FileId{0});
    std::stable_sort(files.begin(), files.end(),
                     [&](FileId a, FileId b) { return sources[a].name() < sources[b].name(); });
    std::vector<std::size_t> rank(files.size());
    for (std::size_t i = 0; i < files.size(); ++i)
        rank[files[i]] = i;

    const auto place = [&](const Finding& finding) {
        return std::tuple(rank[finding.at.file], finding.at.begin, info(finding.rule).name);
    };
    std::stable_sort(all_.begin(), all_.end(),
                     [&](const Finding& a, const Finding& b) { return place(a) < place(b); });
}

Findings Findings::of_rules(const std::vector<bool>& wanted) const {
    Findings some;
    std::copy_if(
        all_.begin(), all_.end(), std::back_inserter(some.all_),
        [&](const Finding& finding) { return wanted[static_cast<std::size_t>(finding.rule)]; });
    return some;
}

bool Findings::has_errors() const {
    return std::any_of(all_.begin(), all_.end(),
                       [](const Finding& finding) { return finding.severity == Severity::error; });
}

std::size_t Findings::count(Severity severity) const {
    return static_cast<std::size_t>(
        std::count_if(all_.begin(), all_.end(), [&](const Finding& finding) {
            return finding.severity == severity && !finding.because;
        }));
}

} // namespace waxwright
