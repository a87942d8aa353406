#include <algorithm>
#include <set>
#include <utility>

#include <unistd.h>

#include <fmt/format.h>

#include "driver/commands.hpp"
#include "driver/files.hpp"
#include "driver/pipeline.hpp"
#include "emit/findings_text.hpp"

namespace waxwright {

namespace {

/// The files to check: folders become their `.candle` files, and each file comes once.
std::vector<std::string> expanded(const std::vector<std::string>& named, bool& missing) {
    std::vector<std::string> files;
    std::set<std::string> seen;
    const auto take = [&](const std::string& file) {
        if (seen.insert(path_from("", file)).second) files.push_back(file);
    };
    for (const std::string& file : named) {
        if (!is_folder(file)) {
            take(file);
            continue;
        }
        const std::vector<std::string> inside = candle_files(file);
        if (inside.empty()) {
            missing = true;
            write_error(fmt::format("waxwright: {}: has no .candle files\n", file));
        }
        for (const std::string& each : inside) {
            take(each);
        }
    }
    return files;
}

/// For somebody who reads at a terminal: where there is more about the gravest finding.
std::string pointer_to_page(const Findings& findings) {
    const auto begin = findings.all().begin(), end = findings.all().end();
    const auto gravest = std::min_element(begin, end, [](const Finding& a, const Finding& b) {
        return std::pair(a.because.has_value(), a.severity) <
               std::pair(b.because.has_value(), b.severity);
    });
    if (gravest == end || gravest->because || gravest->severity == Severity::note) return {};
    return fmt::format("more about a rule: waxwright why {}\n", info(gravest->rule).name);
}

} // namespace

int run_check(const Options& options) {
    bool failed = false;
    Sources sources;
    for (const std::string& file : expanded(options.files, failed)) {
        failed = !add_root(sources, file) || failed;
    }
    if (sources.size() == 0) return 2;
    const std::size_t roots = sources.size();
    Workshop workshop = open_workshop(sources, read_from_disk());
    work(workshop);
    const ReportStyle style{.notes = options.notes, .colour = may_colour(STDOUT_FILENO)};
    std::string report = findings_text(workshop.findings, sources, style, &workshop.model) +
                         counts_line(workshop.findings, roots) + "\n";
    if (isatty(STDOUT_FILENO) != 0) report += pointer_to_page(workshop.findings);
    const std::string problem = write_out(report);
    if (!problem.empty()) {
        write_error(fmt::format("waxwright: standard output: {}\n", problem));
        return 2;
    }
    if (failed) return 2;
    return workshop.findings.has_errors() ? 1 : 0;
}

} // namespace waxwright
