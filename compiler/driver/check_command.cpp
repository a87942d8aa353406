#include <algorithm>
#include <filesystem>
#include <utility>

#include <unistd.h>

#include <fmt/format.h>

#include "driver/changed.hpp"
#include "driver/commands.hpp"
#include "driver/files.hpp"
#include "driver/mend.hpp"
#include "driver/named_files.hpp"
#include "driver/parallel.hpp"
#include "emit/findings_json.hpp"
#include "emit/findings_text.hpp"
#include "emit/mend_text.hpp"
#include "emit/sarif.hpp"
#include "findings/nearest.hpp"
#include "pipeline/pipeline.hpp"

namespace waxwright {

namespace {

/// The rules that `--only` and `--without` leave, by the value of Rule; nothing, with the reason
/// told, where one of them can't be.
std::optional<std::vector<bool>> chosen_rules(const Options& options) {
    std::vector<bool> rules(all_rules().size(), options.only.empty());
    const auto set = [&](std::string_view option, const std::string& name, bool to) {
        const std::optional<Rule> rule = find_rule(name);
        if (!rule) {
            std::vector<std::string_view> names;
            for (const RuleInfo& known : all_rules())
                names.push_back(known.name);
            const std::string hint = did_you_mean(name, names);
            write_error(fmt::format("waxwright: {}: there is no rule `{}`{}{}\n", option, name,
                                    hint.empty() ? "" : "; ", hint));
            return false;
        }
        if (!to && info(*rule).severity == Severity::error) {
            write_error(fmt::format("waxwright: {}: `{}` is an error, and an error is never left "
                                    "out\n",
                                    option, name));
            return false;
        }
        rules[static_cast<std::size_t>(*rule)] = to;
        return true;
    };
    bool good = true;
    for (const std::string& name : options.only)
        good = set("--only", name, true) && good;
    for (const std::string& name : options.without)
        good = set("--without", name, false) && good;
    return good ? std::optional(rules) : std::nullopt;
}

/// What is told of a run that was worked out.
struct Outcome {
    const Workshop& workshop;
    Findings shown;
    std::size_t roots;
    bool all_read;
    std::size_t others; // that --changed-since has left out
};

/// The files of a call, read.
struct Roots {
    Sources sources;
    bool all_read = true;   // false where one could not be; it was told
    std::size_t others = 0; // that --changed-since has left out
};

/// The line that ends a report, and with it what is not in the report.
std::string last_line(const Outcome& outcome, const Options& options) {
    std::string text = counts_line(outcome.shown, outcome.roots);
    const auto hidden = [&](Severity severity) {
        return outcome.workshop.findings.count(severity) - outcome.shown.count(severity);
    };
    const std::size_t errors = hidden(Severity::error);
    const std::size_t others = hidden(Severity::warning) + hidden(Severity::note);
    if (errors > 0) text += fmt::format("; errors by other rules: {}", errors);
    if (others > 0) text += fmt::format("; other findings by other rules: {}", others);
    const bool count = options.warnings_as_errors && outcome.shown.count(Severity::warning) > 0;
    if (count) text += "; warnings count as errors";
    if (outcome.others > 0) {
        text += fmt::format("; not looked at, with no change since `{}`: {}", options.changed_since,
                            outcome.others);
    }
    return text + "\n";
}

/// For somebody who reads at a terminal: where there is more about the gravest finding.
std::string pointer_to_page(const Findings& findings) {
    const auto begin = findings.all().begin(), end = findings.all().end();
    const auto gravest = std::min_element(begin, end, [](const Finding& a, const Finding& b) {
        return std::pair(a.because.has_value(), a.severity) <
               std::pair(b.because.has_value(), b.severity);
    });
    if (gravest == end || gravest->because || gravest->severity == Severity::note) return {};
    return fmt::format("to read more: waxwright why {}\n", info(gravest->rule).name);
}

/// How much of it need not be mended by hand. As it was called, with `--mend`.
std::string pointer_to_mending(const Findings& findings, const Options& options) {
    const auto& all = findings.all();
    const auto sure = std::count_if(all.begin(), all.end(), [](const Finding& finding) {
        return std::any_of(finding.fixes.begin(), finding.fixes.end(),
                           [](const Fix& fix) { return fix.certain; });
    });
    if (sure == 0) return {};
    const std::string since =
        options.changed_since.empty() ? "" : "--changed-since " + options.changed_since + " ";
    return fmt::format("{} can be mended for you: waxwright check --mend {}{}\n",
                       sure == 1 ? "one of these" : fmt::format("{} of these", sure), since,
                       fmt::join(options.files, " "));
}

bool is_text(const Options& options) {
    return options.as != "json" && options.as != "sarif";
}

std::string report(const Outcome& outcome, const Options& options) {
    const Model& model = outcome.workshop.model;
    if (options.as == "json") return findings_json(outcome.shown, model);
    if (options.as == "sarif") {
        std::error_code ignored;
        const std::string folder = std::filesystem::current_path(ignored).generic_string();
        return sarif_log(
            outcome.shown, model,
            {.columns = options.columns == "utf16" ? Columns::utf16 : Columns::code_points,
             .folder = folder,
             .all_read = outcome.all_read});
    }
    const ReportStyle style{
        .notes = options.notes, .colour = may_colour(STDOUT_FILENO), .quiet = options.quiet};
    std::string text = findings_text(outcome.shown, model.sources, style, &model);
    // In a pipe or a file too, where it is seen as well; the counts stay the last line there.
    if (!options.quiet) text += pointer_to_mending(outcome.shown, options);
    text += last_line(outcome, options);
    if (!options.quiet && isatty(STDOUT_FILENO) != 0) text += pointer_to_page(outcome.shown);
    return text;
}

int print(std::string_view text) {
    const std::string problem = write_out(text);
    if (problem.empty()) return 0;
    write_error(fmt::format("waxwright: standard output: {}\n", problem));
    return 2;
}

/// An error counts whether it is shown or not.
int status_of(const Outcome& outcome, const Options& options) {
    const bool warned = options.warnings_as_errors && outcome.shown.count(Severity::warning) > 0;
    return outcome.workshop.findings.has_errors() || warned ? 1 : 0;
}

int check(Roots read, const Options& options, const std::vector<bool>& rules) {
    const std::size_t roots = read.sources.size();
    Workshop workshop = open_workshop(std::move(read.sources), read_from_disk(options));
    if (is_text(options) && !options.notes) workshop.note_hints = NoteHints::spared;
    work(workshop, on_all_cores);
    const Outcome outcome{workshop, workshop.findings.of_rules(rules), roots, read.all_read,
                          read.others};
    const int printed = print(report(outcome, options));
    if (printed != 0 || !read.all_read) return 2;
    return status_of(outcome, options);
}

/// Writes what was mended; false, with the reason told, where a file can't be written. Such a file
/// keeps the text it has.
bool write_mended(Mending& mending, const Sources& sources) {
    bool good = true;
    for (FileId file = 0; file < mending.texts.size(); ++file) {
        if (!mending.changed[file]) continue;
        const std::string problem = write_file(sources[file].name(), mending.texts[file]);
        if (problem.empty()) continue;
        good = false;
        write_error(fmt::format("waxwright: {}: {}\n", sources[file].name(), problem));
        mending.texts[file] = sources[file].text();
        for (Mend& each : mending.mends) {
            if (each.file == file && each.refused.empty())
                each.refused = "the file can't be written";
        }
    }
    return good;
}

int check_and_mend(Roots read, const Options& options, const std::vector<bool>& rules) {
    const std::size_t roots = read.sources.size();
    Workshop before = open_workshop(std::move(read.sources), read_from_disk(options));
    const Sources& sources = before.model.sources;
    work(before, on_all_cores);
    Mending mending = mend(sources, before, rules, read_from_disk(options));
    const bool written = write_mended(mending, sources);

    std::string text;
    std::size_t done = 0;
    for (const Mend& each : mending.mends) {
        text += mend_line(sources[each.file].name(), each.place, each.rule, each.was, each.is,
                          each.refused);
        done += each.refused.empty() ? 1U : 0U;
        for (const OtherPlace& other : each.others) {
            if (!each.refused.empty()) break;
            text += mend_line(sources[each.file].name(), other.place, each.rule, other.was,
                              other.is, {});
        }
    }
    Sources now;
    for (FileId file = 0; file < roots; ++file)
        now.add(sources[file].name(), std::move(mending.texts[file]));
    Workshop after = open_workshop(std::move(now), read_from_disk(options));
    work(after, on_all_cores);
    const Outcome outcome{after, after.findings.of_rules(rules), roots, read.all_read, read.others};
    if (options.as.empty() || options.as == "text") {
        text += left_lines(outcome.shown, after.model.sources, options.notes, options.quiet);
        text += fmt::format("{} mended; left: {}", done, last_line(outcome, options));
    } else {
        write_error(text);
        text = report(outcome, options);
    }
    const int printed = print(text);
    if (printed != 0 || !read.all_read || !written) return 2;
    return status_of(outcome, options);
}

Roots named_roots(const Options& options) {
    Roots roots;
    for (const std::string& file : named_files(options.files, roots.all_read)) {
        roots.all_read = add_root(roots.sources, file) && roots.all_read;
    }
    return roots;
}

/// What is said where --changed-since leaves nothing to check.
std::string nothing_changed(const ChangedFiles& changed, const Options& options) {
    if (!changed.any_changed) {
        return fmt::format("nothing to check: no .candle file has changed since `{}`\n",
                           options.changed_since);
    }
    return fmt::format("nothing to check: of {} file{} none has changed since `{}`, or uses one "
                       "that has\n",
                       changed.others, changed.others == 1 ? "" : "s", options.changed_since);
}

int check_changed(Options options, const std::vector<bool>& rules) {
    ChangedFiles changed = changed_files(options);
    if (!changed.problem.empty()) {
        write_error(fmt::format("waxwright: {}\n", changed.problem));
        return 2;
    }
    // A program gets the form that it asked for, of no files.
    const bool for_people = options.as.empty() || options.as == "text";
    if (changed.roots.size() == 0 && for_people) {
        const int printed = print(nothing_changed(changed, options));
        return changed.all_read ? printed : 2;
    }
    Roots roots{std::move(changed.roots), changed.all_read, changed.others};
    return options.mend ? check_and_mend(std::move(roots), options, rules)
                        : check(std::move(roots), options, rules);
}

} // namespace

int run_check(const Options& options) {
    const std::optional<std::vector<bool>> rules = chosen_rules(options);
    if (!rules) return 2;
    if (!options.changed_since.empty()) return check_changed(options, *rules);
    Roots roots = named_roots(options);
    if (roots.sources.size() == 0) return 2;
    return options.mend ? check_and_mend(std::move(roots), options, *rules)
                        : check(std::move(roots), options, *rules);
}

} // namespace waxwright
