// What stands behind the commands that take many files: check, tidy.
#include <CLI/CLI.hpp>

#include "driver/options_app.hpp"

namespace waxwright {

namespace {

void add_rules(CLI::App* command, const char* name, std::vector<std::string>& rules,
               const char* about) {
    take_one_each_time(command->add_option(name, rules, about)->option_text("RULE"));
}

void add_changed_since(CLI::App* check, Options& options) {
    check
        ->add_option(
            "--changed-since", options.changed_since,
            "only files changed since this revision of git, and those that use them; FILE may "
            "be left out")
        ->option_text("REV")
        ->check([](const std::string& revision) {
            // git would take it for an option.
            const bool good = !revision.empty() && revision.front() != '-';
            return good ? std::string() : std::string("takes a revision: HEAD, main, HEAD~3");
        });
}

} // namespace

void add_check_options(CLI::App* check, Options& options) {
    check->add_option("FILE", options.files, "recipe files, or folders of them");
    check->add_flag("--notes", options.notes, "show notes too, instead of only counting them");
    check->add_flag("--quiet", options.quiet, "show errors only, and count the rest");
    take_one_of(
        check
            ->add_option("--as", options.as,
                         "form of the report: text (the default), or json or sarif, which have "
                         "every finding")
            ->option_text("FORM"),
        {"text", "json", "sarif"});
    take_one_of(
        check
            ->add_option("--columns", options.columns,
                         "what a column of --as sarif counts: points (the default) or utf16")
            ->option_text("KIND"),
        {"points", "utf16"});
    add_rules(check, "--only", options.only,
              "only what this rule finds; may be given several times");
    add_rules(check, "--without", options.without,
              "leave out what this rule finds, unless it is an error; may be given several times");
    check->add_flag("--warnings-as-errors", options.warnings_as_errors,
                    "exit with 1 if there is a warning");
    check->add_flag("--mend", options.mend,
                    "mend what is certain in the files, and say what was mended");
    add_changed_since(check, options);
    add_use_from(check, options);
}

void add_tidy_options(CLI::App* tidy, Options& options) {
    tidy->add_option("FILE", options.files, "recipe files, or folders of them")->required();
    tidy->add_flag("--dry", options.dry,
                   "change nothing: print what would change, as a diff, and exit with 1");
}

} // namespace waxwright
