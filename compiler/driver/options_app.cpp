#include "driver/options_app.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace waxwright {

namespace {

/// At most 90 letters in a line.
std::string wrapped(const std::string& text) {
    constexpr std::size_t widest = 90;
    std::string out;
    std::size_t begin = 0;
    while (text.size() - begin > widest) {
        const std::size_t space = text.rfind(' ', begin + widest);
        out += text.substr(begin, space - begin) + "\n";
        begin = space + 1;
    }
    return out + text.substr(begin);
}

std::string footer() {
    std::string statuses = "Exit status:";
    for (const ExitStatus& each : exit_statuses)
        statuses += fmt::format("{} {} {}", each.status == 0 ? "" : ";", each.status, each.about);
    return fmt::format("{}.\n{}", wrapped(statuses), no_promise);
}

} // namespace

std::shared_ptr<CLI::App> make_app(Options& options) {
    auto app = std::make_shared<CLI::App>(std::string(long_about), "waxwright");
    app->footer(footer());
    app->set_version_flag("--version", "waxwright " WAXWRIGHT_VERSION);
    app->require_subcommand(1);
    app->get_formatter()->label("TEXT", "");
    app->get_formatter()->label("REQUIRED", "");
    app->get_formatter()->label("SUBCOMMAND", "COMMAND");
    app->get_formatter()->label("Subcommands", "Commands");
#define COMMAND(identifier, word, run, about)                                                      \
    {                                                                                              \
        CLI::App* command = app->add_subcommand(word, about);                                      \
        command->callback([&options] { options.command = Command::identifier; });                  \
        add_##identifier##_options(command, options);                                              \
    }
#include "driver/commands.def"
#undef COMMAND
    return app;
}

} // namespace waxwright
