// What stands behind the commands that look a word up: materials, why.
#include <cstdint>

#include <CLI/CLI.hpp>

#include "driver/options_app.hpp"

namespace waxwright {

void add_materials_options(CLI::App* materials, Options& options) {
    materials->add_option("WORD", options.word, "part of a name, or a kind: soy, oil, vessel");
}

void add_why_options(CLI::App* why, Options& options) {
    why->add_option("RULE", options.word, "the name in brackets after a finding");
}

/// What an editor has to say comes in messages. Some add `--stdio`, which is the only way there is.
void add_lsp_options(CLI::App* lsp, Options&) {
    lsp->add_flag_function(
        "--stdio", [](std::int64_t) {}, "what it does anyway: some editors say so");
}

} // namespace waxwright
