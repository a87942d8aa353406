#include "driver/options_app.hpp"

#include <CLI/CLI.hpp>

namespace waxwright {

namespace {

constexpr const char* about_all =
    "Checks container-candle recipes and turns them into batch sheets.\n"
    "A recipe is a text file that ends in .candle; `-` reads one from standard input.";

constexpr const char* footer =
    "Exit status: 0 done, warnings included; 1 an error in a recipe, or two versions that are\n"
    "different; 2 a wrong call, or a file that could not be read or written.\n"
    "The sheet is a plan, not a promise: the supplier's data sheet, local codes and licensed\n"
    "practice come first.";

} // namespace

std::shared_ptr<CLI::App> make_app(Options& options) {
    auto app = std::make_shared<CLI::App>(about_all, "waxwright");
    app->footer(footer);
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
