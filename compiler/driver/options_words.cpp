// What stands behind the commands that look a word up: materials, why.
#include <CLI/CLI.hpp>

#include "driver/options_app.hpp"

namespace waxwright {

void add_materials_options(CLI::App* materials, Options& options) {
    materials->add_option("WORD", options.word, "part of a name, or a kind: soy, oil, vessel");
}

void add_why_options(CLI::App* why, Options& options) {
    why->add_option("RULE", options.word, "the name in brackets after a finding");
}

} // namespace waxwright
