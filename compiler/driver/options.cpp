#include "driver/options.hpp"

#include <algorithm>
#include <charconv>
#include <utility>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "driver/wrong_call.hpp"

namespace waxwright {

namespace {

constexpr const char* about =
    "Checks container-candle recipes and turns them into batch sheets.\n"
    "A recipe is a text file that ends in .candle; `-` reads one from standard input.";

constexpr const char* footer =
    "Exit status: 0 done, warnings included; 1 an error in a recipe, or two versions that are\n"
    "different; 2 a wrong call, or a file that could not be read or written.\n"
    "The sheet is a plan, not a promise: the supplier's data sheet, local codes and licensed\n"
    "practice come first.";

/// The words an option takes.
auto one_of(std::vector<std::string> words) {
    return
        [words = std::move(words)](const std::string& value) { return takes_one_of(words, value); };
}

/// Checking other people's recipes must not read what lies elsewhere on this machine.
void add_use_from(CLI::App* command, Options& options) {
    command
        ->add_option("--use-from", options.use_from,
                     "files in this folder may be used too, not only those in the recipe's own")
        ->option_text("FOLDER");
}

/// For a file under another name than its own, in a folder of its own.
void add_beside(CLI::App* command, Options& options, const char* words) {
    command->add_option("--beside", options.beside, words)->option_text("FOLDER");
}

/// The report as a file; `sheet` has its own, which takes folders.
void add_out(CLI::App* command, Options& options) {
    command->add_option("-o", options.out, "write to this file")
        ->option_text("FILE")
        ->check([](const std::string& path) {
            return path.empty() ? std::string("names no file") : std::string();
        });
}

void add_check(CLI::App& app, Options& options) {
    CLI::App* check =
        app.add_subcommand("check", "Print every finding in the files, and count them");
    check->add_option("FILE", options.files, "recipe files, or folders of them")->required();
    check->add_flag("--notes", options.notes, "show notes too, instead of only counting them");
    check->add_flag("--quiet", options.quiet, "show errors only, and count the rest");
    check
        ->add_option(
            "--as", options.as,
            "form of the report: text (the default), or json or sarif, which have every finding")
        ->check(one_of({"text", "json", "sarif"}))
        ->option_text("FORM");
    check
        ->add_option("--columns", options.columns,
                     "what a column of --as sarif counts: points (the default) or utf16")
        ->check(one_of({"points", "utf16"}))
        ->option_text("KIND");
    check
        ->add_option("--only", options.only,
                     "only what this rule finds; may be given several times")
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll)
        ->option_text("RULE");
    check
        ->add_option(
            "--without", options.without,
            "leave out what this rule finds, unless it is an error; may be given several times")
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll)
        ->option_text("RULE");
    check->add_flag("--warnings-as-errors", options.warnings_as_errors,
                    "exit with 1 if there is a warning");
    check->add_flag("--mend", options.mend,
                    "mend what is certain in the files, and say what was mended");
    add_use_from(check, options);
}

void add_tidy(CLI::App& app, Options& options) {
    CLI::App* tidy = app.add_subcommand("tidy", "Write files in their one tidy form");
    tidy->add_option("FILE", options.files, "recipe files, or folders of them")->required();
    tidy->add_flag("--dry", options.dry,
                   "change nothing: print what would change, as a diff, and exit with 1");
}

void add_units(CLI::App* command, Options& options) {
    command
        ->add_option("--units", options.units,
                     "us or metric: lengths, volumes, and which degree comes first")
        ->check(one_of({"us", "metric"}))
        ->option_text("UNITS");
}

void add_make(CLI::App* command, Options& options) {
    command
        ->add_option_function<std::string>(
            "--make",
            [&options](const std::string& text) {
                std::int64_t number = 0;
                const char* end = text.data() + text.size();
                const auto [stop, problem] = std::from_chars(text.data(), end, number);
                if (problem != std::errc() || stop != end || number < 1 || number > 1'000'000'000) {
                    throw CLI::ValidationError("--make",
                                               "takes a whole number over 0, not " + text);
                }
                options.make = number;
            },
            "make so many, whatever the recipe says")
        ->option_text("N");
}

/// `--with cost,buy`.
void add_with(CLI::App* sheet, Options& options) {
    sheet
        ->add_option_function<std::vector<std::string>>(
            "--with",
            [&options](const std::vector<std::string>& parts) {
                for (const std::string& part : parts) {
                    if (part == "cost") {
                        options.with_cost = true;
                    } else if (part == "buy") {
                        options.with_buy = true;
                    } else if (part == "picture") {
                        options.with_picture = true;
                    } else {
                        throw CLI::ValidationError(
                            "--with",
                            fmt::format("takes cost, buy and picture, with commas between, not {}",
                                        part.empty() ? "nothing" : part));
                    }
                }
            },
            "cost, buy or both (cost,buy), printed after the record; toml always has them")
        ->delimiter(',')
        ->option_text("PARTS");
}

void add_sheet(CLI::App& app, Options& options) {
    CLI::App* sheet = app.add_subcommand("sheet", "Print the batch sheet of a recipe or a batch");
    sheet->add_option("FILE", options.file, "the recipe file")->required();
    sheet->add_option("NAME", options.name,
                      "the recipe or batch; not needed if the file has only one");
    add_make(sheet, options);

    sheet
        ->add_option(
            "--from", options.from,
            "make as many as there is enough for, from \"10 lb soy\" or from all that `stock` has")
        ->option_text("WHAT")
        ->check([](const std::string& text) {
            return text.empty() ? std::string("says of what: \"10 lb soy\", or stock")
                                : std::string();
        });
    sheet->add_flag("--all", options.all, "the sheets of all the file's recipes");
    sheet
        ->add_option("--as", options.as,
                     "form of the sheet: markdown (the default), html for paper, or toml")
        ->check(one_of({"markdown", "html", "toml"}))
        ->option_text("FORM");
    add_units(sheet, options);
    add_with(sheet, options);
    sheet
        ->add_option("--picture", options.picture,
                     "draw temperature against time into this file too, as SVG")
        ->option_text("FILE")
        ->check([](const std::string& path) {
            return path.empty() || path.back() == '/' ? std::string("names no file")
                                                      : std::string();
        });
    add_use_from(sheet, options);
    add_beside(sheet, options, "where used files are that don't stand beside the recipe's own");
    sheet
        ->add_option("-o", options.out,
                     "write to this file; a folder (ending in /) gets a file for each sheet")
        ->option_text("FILE")
        ->check([](const std::string& path) {
            return path.empty() ? std::string("names no file") : std::string();
        });
}

void add_buy(CLI::App& app, Options& options) {
    CLI::App* buy = app.add_subcommand("buy", "Print what to buy for it, and what it costs");
    buy->add_option("FILE", options.file, "the recipe file")->required();
    buy->add_option("NAME", options.name,
                    "the recipe or batch; not needed if the file has only one");
    add_make(buy, options);
    add_use_from(buy, options);
    add_out(buy, options);
}

void add_compare(CLI::App& app, Options& options) {
    CLI::App* compare = app.add_subcommand(
        "compare", "Print what is different at the bench between two versions of a file");
    compare->add_option("OLD", options.before, "the old version; /dev/null where it is new");
    compare->add_option("NEW", options.after, "the new version; /dev/null where it is gone");
    compare
        ->add_option("--as", options.as,
                     "form of the comparison: markdown (the default), or json for programs")
        ->check(one_of({"markdown", "json"}))
        ->option_text("FORM");
    add_units(compare, options);
    add_beside(compare, options,
               "where used files are that don't stand beside a version itself; without it, the "
               "folder of the other version");
    compare
        ->add_option("--git", options.git,
                     "what git hands to an external diff, in the place of OLD and NEW")
        ->expected(1, 9)
        ->option_text("WORDS");
    add_use_from(compare, options);
    add_out(compare, options);
}

void add_materials(CLI::App& app, Options& options) {
    CLI::App* materials = app.add_subcommand(
        "materials", "Print the standard library's materials, their figures and sources");
    materials->add_option("WORD", options.word, "part of a name, or a kind: soy, oil, vessel");
}

void add_why(CLI::App& app, Options& options) {
    CLI::App* why = app.add_subcommand(
        "why", "Print a rule's page: why it matters and what to do; or all rules");
    why->add_option("RULE", options.word, "the name in brackets after a finding");
}

void add_begin(CLI::App& app, Options& options) {
    CLI::App* begin = app.add_subcommand(
        "begin", "Write a small set of files to start from: a recipe, a bench, a stock");
    begin->add_option("FOLDER", options.folder, "where to; it is made if it isn't there")
        ->required()
        ->check([](const std::string& folder) {
            if (folder.empty() || folder == "-") return std::string("names no folder");
            const bool file = folder.ends_with(".candle");
            return file ? std::string("names a file; leave the `.candle` away") : std::string();
        });
    begin
        ->add_option("--units", options.units, "metric (the default), or us: ounces, inches and °F")
        ->check(one_of({"us", "metric"}))
        ->option_text("UNITS");
}

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
    if (options.mend && input) return "--mend writes into files, and `-` is none";
    if (!options.columns.empty() && options.as != "sarif") return "--columns is for --as sarif";
    if (options.quiet && options.notes) return "--quiet and --notes do not go together";
    return options.command == Command::compare ? clash_of_versions(options) : std::string();
}

} // namespace

ReadOptions read_options(int count, const char* const* words) {
    ReadOptions result;
    Options& options = result.options;
    CLI::App app(about, "waxwright");
    app.footer(footer);
    app.set_version_flag("--version", "waxwright " WAXWRIGHT_VERSION);
    app.require_subcommand(1);
    app.get_formatter()->label("TEXT", "");
    app.get_formatter()->label("REQUIRED", "");
    app.get_formatter()->label("SUBCOMMAND", "COMMAND");
    app.get_formatter()->label("Subcommands", "Commands");
    if (count > 0) options.program = words[0];
    add_begin(app, options);
    add_check(app, options);
    add_tidy(app, options);
    add_sheet(app, options);
    add_buy(app, options);
    add_compare(app, options);
    add_materials(app, options);
    add_why(app, options);
    try {
        app.parse(count, words);
    } catch (const CLI::CallForHelp&) {
        result.answer = {app.help(), 0, false};
    } catch (const CLI::CallForVersion& call) {
        result.answer = {std::string(call.what()) + "\n", 0, false};
    } catch (const CLI::ParseError& error) {
        result.answer = wrong_call(wrong_call_words(app, error));
    }
    const std::string command =
        app.get_subcommands().empty() ? std::string() : app.get_subcommands()[0]->get_name();
    if (command == "tidy") options.command = Command::tidy;
    if (command == "sheet") options.command = Command::sheet;
    if (command == "buy") options.command = Command::buy;
    if (command == "compare") options.command = Command::compare;
    if (command == "materials") options.command = Command::materials;
    if (command == "begin") options.command = Command::begin;
    if (command == "why") options.command = Command::why;
    const std::string problem = clash(options);
    if (!result.answer && !problem.empty()) result.answer = wrong_call(problem);
    return result;
}

} // namespace waxwright
