#include <string>
#include <string_view>

#include <unistd.h>

#include <fmt/format.h>

#include "driver/commands.hpp"
#include "driver/files.hpp"
#include "driver/named_files.hpp"
#include "emit/findings_text.hpp"
#include "tidy/diff.hpp"
#include "tidy/tidy.hpp"

namespace waxwright {

namespace {

/// What a run comes to: the gravest of its files.
struct Tidying {
    bool all_done = true;       // nothing that can't be read or written
    bool would_change = false;  // with --dry
    std::size_t left_alone = 0; // files with mistakes of writing

    int status() const { return !all_done ? 2 : would_change || left_alone > 0 ? 1 : 0; }
};

/// Tells what can't be written; true where there is nothing to tell.
bool written(std::string_view where, std::string_view problem) {
    if (!problem.empty()) write_error(fmt::format("waxwright: {}: {}\n", where, problem));
    return problem.empty();
}

/// Hands on one file's canonical form: to the file, to standard output, or as a diff.
void hand_on(const Source& source, const Tidied& form, bool dry, Tidying& run) {
    const bool changes = form.text != source.text();
    const bool input = source.name() == "-";
    if (dry) {
        if (!changes) return;
        run.would_change = true;
        const std::string diff = unified_diff(source.name(), source.text(), form);
        if (!written("standard output", write_out(diff))) run.all_done = false;
    } else if (input) {
        if (!written("standard output", write_out(form.text))) run.all_done = false;
    } else if (changes) {
        const std::string problem = is_plain_file(source.name())
                                        ? write_file(source.name(), form.text)
                                        : "is no plain file; give it to `tidy -`";
        if (!written(source.name(), problem)) run.all_done = false;
    }
}

} // namespace

int run_tidy(const Options& options) {
    Tidying run;
    Sources sources;
    Findings findings;
    for (const std::string& file : named_files(options.files, run.all_done)) {
        const auto id = static_cast<FileId>(sources.size());
        if (!add_root(sources, file)) {
            run.all_done = false;
        } else if (const auto form = tidied(id, sources[id], findings)) {
            hand_on(sources[id], *form, options.dry, run);
        } else {
            ++run.left_alone;
        }
    }
    if (run.left_alone > 0) {
        findings.sort_and_join(sources);
        const ReportStyle style{.colour = may_colour(STDERR_FILENO)};
        write_error(findings_text(findings, sources, style));
        write_error(
            fmt::format("{}; {}\n", counts_line(findings, run.left_alone),
                        run.left_alone == 1 ? "it is left as it is" : "they are left as they are"));
    }
    return run.status();
}

} // namespace waxwright
