#include "driver/wrong_call.hpp"

#include <algorithm>
#include <string_view>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "findings/nearest.hpp"

namespace waxwright {

namespace {

/// "check, sheet or materials"
std::string listed(const std::vector<std::string>& words) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const bool last = i + 1 == words.size();
        text += (i == 0 ? "" : last ? " or " : ", ") + words[i];
    }
    return text;
}

template <typename Kind>
bool is(const CLI::ParseError& error) {
    return dynamic_cast<const Kind*>(&error) != nullptr;
}

std::string with_nearest(const std::string& text, std::string_view wrong,
                         const std::vector<std::string>& words) {
    const std::vector<std::string_view> views(words.begin(), words.end());
    const std::string hint = did_you_mean(wrong, views);
    return hint.empty() ? text : text + "; " + hint;
}

std::string no_command(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
        names.push_back(command->get_name());
    for (const std::string& word : app.remaining()) {
        if (word.starts_with('-')) continue;
        return with_nearest(fmt::format("`{}` is no command: say {}", word, listed(names)), word,
                            names);
    }
    return "say what to do: " + listed(names);
}

std::string unexpected(const CLI::App& command, std::string_view word) {
    if (!word.starts_with('-') || word == "-") {
        return fmt::format("`{}` is one word too many for `{}`", word, command.get_name());
    }
    std::vector<std::string> names;
    for (const CLI::Option* option : command.get_options())
        names.push_back(option->get_name());
    return with_nearest(fmt::format("`{}` has no option `{}`", command.get_name(), word), word,
                        names);
}

} // namespace

std::string wrong_call_words(const CLI::App& app, const CLI::ParseError& error) {
    const std::string said = error.what();
    if (app.get_subcommands().empty()) return no_command(app);
    const CLI::App& command = *app.get_subcommands()[0];
    const std::size_t colon = said.find(": ");
    const std::string before = said.substr(0, colon);
    const std::string behind = colon == std::string::npos ? "" : said.substr(colon + 2);
    if (is<CLI::RequiredError>(error)) {
        return fmt::format("`{}` needs a {}: say which", command.get_name(),
                           said.substr(0, said.find(' ')));
    }
    if (is<CLI::ExtrasError>(error)) return unexpected(command, behind.substr(0, behind.find(' ')));
    if (is<CLI::ConversionError>(error)) { // of a flag: no other option converts
        const std::size_t name = std::min(said.find('-'), said.size());
        return fmt::format("`{}` takes nothing after it",
                           said.substr(name, said.find(' ', name) - name));
    }
    if (is<CLI::ArgumentMismatch>(error)) {
        const bool twice = behind.starts_with("At Most");
        return fmt::format("`{}` {}", before,
                           twice ? "is given more than once" : "needs something after it");
    }
    // A value that was refused, in our own words.
    return colon == std::string::npos ? said : fmt::format("{} {}", before, behind);
}

std::string takes_one_of(const std::vector<std::string>& words, const std::string& value,
                         std::string_view meant) {
    for (const std::string& word : words) {
        if (word == value) return {};
    }
    const std::string text = fmt::format("takes {}, not `{}`", listed(words), value);
    return meant.empty() ? with_nearest(text, value, words)
                         : fmt::format("{}; did you mean `{}`?", text, meant);
}

} // namespace waxwright
