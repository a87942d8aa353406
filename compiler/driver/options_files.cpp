// What stands behind the commands that take many files: check, tidy.
#include <CLI/CLI.hpp>

#include "driver/options_app.hpp"

namespace waxwright {

namespace {

void add_rules(CLI::App* command, const char* name, std::vector<std::string>& rules,
               const char* about) {
    command->add_option(name, rules, about)
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll)
        ->option_text("RULE");
}

} // namespace

void add_check_options(CLI::App* check, Options& options) {
    check->add_option("FILE", options.files, "recipe files, or folders of them")->required();
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
    add_use_from(check, options);
}

void add_tidy_options(CLI::App* tidy, Options& options) {
    tidy->add_option("FILE", options.files, "recipe files, or folders of them")->required();
    tidy->add_flag("--dry", options.dry,
                   "change nothing: print what would change, as a diff, and exit with 1");
}

} // namespace waxwright
