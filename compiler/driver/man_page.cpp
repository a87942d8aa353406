#include "driver/man_page.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "driver/options_app.hpp"
#include "syntax/parse.hpp"

namespace waxwright {

namespace {

struct Example {
    std::string_view call;
    std::string_view about;
};
/// In a folder that has the examples of the documents.
constexpr Example examples[] = {
    {"waxwright check .", "Checks every recipe file in this folder and in the folders inside it."},
    {"waxwright sheet first.candle", "Prints the batch sheet of the file's only recipe."},
    {"waxwright sheet market.candle saturday-market --as html -o market.html",
     "Writes the sheet of a batch as a page to print."},
    {"waxwright sheet tide-line.candle tide-line --make 12 --with cost,buy",
     "The sheet for twelve, with what to buy and what one costs."},
    {"waxwright tidy --dry .", "Shows what tidying would change, and changes nothing."},
    {"waxwright check --changed-since main",
     "In a repository of git: checks what is not as it is in `main`, and what uses that."},
    {"waxwright why missing-basis", "Why a finding matters at the stove, and what to do."},
};

/// Plain text as roff: `code` in bold, and hyphens that can be copied into a call.
std::string roff(std::string_view text) {
    std::string out;
    bool code = false;
    for (const char c : text) {
        if (c == '`') {
            code = !code;
            out += code ? "\\fB" : "\\fR";
        } else if (c == '\\') {
            out += "\\e";
        } else if (c == '-') {
            out += "\\-";
        } else if ((c == '.' || c == '\'') && (out.empty() || out.back() == '\n')) {
            out += std::string("\\&") + c; // no request
        } else {
            out += c;
        }
    }
    return out;
}

/// "FILE", "[NAME]", "[FILE]..."
std::string positional(const CLI::Option* option) {
    std::string word = fmt::format("\\fI{}\\fR", roff(option->get_name(true)));
    if (!option->get_required()) word = fmt::format("[{}]", word);
    return option->get_items_expected_max() > 1 ? word + "...\\&" : word;
}

std::vector<const CLI::Option*> options_of(const CLI::App& app, bool positionals) {
    return app.get_options(
        [&](const CLI::Option* option) { return option->nonpositional() != positionals; });
}

std::string synopsis(const CLI::App& command) {
    std::string text = fmt::format(".B waxwright {}\n", command.get_name());
    for (const CLI::Option* option : options_of(command, true))
        text += positional(option) + "\n";
    return text + "[\\fIOPTION\\fR]...\\&\n";
}

/// An option or an argument with what it is.
std::string item(const CLI::Option* option) {
    std::string names;
    if (!option->nonpositional()) {
        names = fmt::format("\\fI{}\\fR", roff(option->get_name(true)));
    } else {
        for (const std::string& name : option->get_snames())
            names += fmt::format("{}\\fB\\-{}\\fR", names.empty() ? "" : ", ", roff(name));
        for (const std::string& name : option->get_lnames())
            names += fmt::format("{}\\fB\\-\\-{}\\fR", names.empty() ? "" : ", ", roff(name));
        if (!option->get_option_text().empty())
            names += fmt::format(" \\fI{}\\fR", roff(option->get_option_text()));
    }
    return fmt::format(".TP\n{}\n{}\n", names, roff(option->get_description()));
}

std::string command_section(const CLI::App& command) {
    std::string text =
        fmt::format(".SS {}\n{}.\n", command.get_name(), roff(command.get_description()));
    for (const CLI::Option* option : options_of(command, true))
        text += item(option);
    for (const CLI::Option* option : options_of(command, false)) {
        if (!option->check_lname("help")) text += item(option);
    }
    return text;
}

std::string exit_section() {
    std::string text = ".SH EXIT STATUS\n";
    for (const ExitStatus& each : exit_statuses)
        text += fmt::format(".TP\n.B {}\n{}\n", each.status, roff(each.about));
    return text;
}

std::string files_section() {
    return fmt::format(
        ".SH FILES\n"
        ".TP\n.I *.candle\nRecipe files: plain text in UTF\\-8, of {} MiB at most.\n"
        ".TP\n.I share/doc/waxwright\nIn the folder that waxwright is installed under: all "
        "documents,\nand whole recipes to borrow from.\n",
        largest_file >> 20);
}

std::string examples_section() {
    std::string text = ".SH EXAMPLES\n";
    for (const Example& each : examples)
        text += fmt::format(".TP\n.B {}\n{}\n", roff(each.call), roff(each.about));
    return text;
}

} // namespace

std::string man_page(std::string_view date) {
    Options options;
    const std::shared_ptr<CLI::App> app = make_app(options);
    const auto commands = app->get_subcommands([](const CLI::App*) { return true; });
    std::string text =
        fmt::format(".TH WAXWRIGHT 1 \"{}\" \"waxwright " WAXWRIGHT_VERSION "\" \"User Commands\"\n"
                    ".nh\n.ad l\n.SH NAME\nwaxwright \\- {}\n.SH SYNOPSIS\n",
                    date, roff(short_about));
    for (const CLI::App* command : commands)
        text += (command == commands.front() ? "" : ".br\n") + synopsis(*command);
    text += fmt::format(".SH DESCRIPTION\n{}\n.PP\n{}\n.SH COMMANDS\n", roff(long_about),
                        roff(no_promise));
    for (const CLI::App* command : commands)
        text += command_section(*command);
    text += ".SH OPTIONS\nThese stand without a command; \\fB\\-\\-help\\fR behind one tells of "
            "that one.\n";
    for (const CLI::Option* option : options_of(*app, false))
        text += item(option);
    return text + exit_section() + files_section() + examples_section();
}

} // namespace waxwright
