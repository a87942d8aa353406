#include "driver/options.hpp"

#include <algorithm>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "driver/options_app.hpp"
#include "driver/wrong_call.hpp"

namespace waxwright {

namespace {

Answer wrong_call(std::string_view words) {
    return {
        fmt::format("waxwright: {}\nwaxwright: `waxwright --help` shows how to use it\n", words), 2,
        true};
}

std::string clash_of_versions(const Options& options) {
    if (options.git.empty()) {
        if (options.after.empty()) return "`compare` needs two files: the old version and the new";
        if (options.before == "-" && options.after == "-") {
            return "only one of two versions can be read from `-`";
        }
        return {};
    }
    if (!options.before.empty()) return "--git names both versions: give no others";
    const std::size_t words = options.git.size();
    if (words != 1 && words != 7 && words != 9) {
        return "--git takes the words that git hands to an external diff: 7, or 9 of a file that "
               "was renamed";
    }
    return {};
}

/// What each option may be, but not with another; "" where all is well.
std::string clash(const Options& options) {
    const bool input =
        std::find(options.files.begin(), options.files.end(), "-") != options.files.end();
    const bool check = options.command == Command::check;
    if (check && options.files.empty() && options.changed_since.empty()) {
        return "`check` needs a FILE: say which";
    }
    if (!options.changed_since.empty() && input) {
        return "--changed-since asks git about files, and `-` is none";
    }
    if (options.mend && input) return "--mend writes into files, and `-` is none";
    if (!options.columns.empty() && options.as != "sarif") return "--columns is for --as sarif";
    if (options.quiet && options.notes) return "--quiet and --notes do not go together";
    return options.command == Command::compare ? clash_of_versions(options) : std::string();
}

} // namespace

ReadOptions read_options(int count, const char* const* words) {
    ReadOptions result;
    if (count > 0) result.options.program = words[0];
    const std::shared_ptr<CLI::App> app = make_app(result.options);
    try {
        app->parse(count, words);
        const std::string problem = clash(result.options);
        if (!problem.empty()) result.answer = wrong_call(problem);
    } catch (const CLI::CallForHelp&) {
        result.answer = {app->help(), 0, false};
    } catch (const CLI::CallForVersion& call) {
        result.answer = {std::string(call.what()) + "\n", 0, false};
    } catch (const CLI::ParseError& error) {
        result.answer = wrong_call(wrong_call_words(*app, error));
    }
    return result;
}

} // namespace waxwright
