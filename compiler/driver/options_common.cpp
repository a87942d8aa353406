#include <algorithm>
#include <charconv>
#include <cstdint>
#include <sstream>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "driver/options_app.hpp"
#include "driver/wrong_call.hpp"

namespace waxwright {

namespace {

constexpr const char* of_words = "one-of"; // a validator that has its words as its description

} // namespace

void take_one_of(CLI::Option* option, const std::vector<std::string>& words,
                 const std::string& takes) {
    const auto refusal = [words, takes](const std::string& value) {
        std::string problem = takes_one_of(words, value);
        if (problem.empty() || takes.empty()) return problem;
        return fmt::format("takes {}, not {}", takes, value.empty() ? "nothing" : value);
    };
    option->check(CLI::Validator(refusal, fmt::format("{}", fmt::join(words, " ")), of_words));
}

void in_either_size(CLI::Option* option, const std::vector<std::string>& words) {
    option->transform([words](const std::string& value) {
        const std::string small = CLI::detail::to_lower(value);
        return std::find(words.begin(), words.end(), small) == words.end() ? value : small;
    });
}

std::vector<std::string> words_of(CLI::Option* option) {
    try {
        std::istringstream words(option->get_validator(of_words)->get_description());
        return {std::istream_iterator<std::string>(words), {}};
    } catch (const CLI::OptionNotFound&) {
        return {};
    }
}

void take_one_each_time(CLI::Option* option) {
    option->expected(1)->allow_extra_args(false)->multi_option_policy(
        CLI::MultiOptionPolicy::TakeAll);
}

void take_file_name(CLI::Option* option) {
    option->check([](const std::string& path) {
        return path.empty() ? std::string("names no file") : std::string();
    });
}

void add_use_from(CLI::App* command, Options& options) {
    take_one_each_time(
        command
            ->add_option("--use-from", options.use_from,
                         "files in this folder may be used too, not only those in the recipe's own")
            ->option_text("FOLDER"));
}

void add_beside(CLI::App* command, Options& options, const char* about) {
    command->add_option("--beside", options.beside, about)->option_text("FOLDER");
}

void add_out(CLI::App* command, Options& options, const char* about) {
    take_file_name(command->add_option("-o", options.out, about)->option_text("FILE"));
}

void add_units(CLI::App* command, Options& options) {
    take_one_of(command
                    ->add_option("--units", options.units,
                                 "us or metric: lengths, volumes, and which degree comes first")
                    ->option_text("UNITS"),
                {"us", "metric"});
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

void add_name(CLI::App* command, Options& options) {
    command->add_option("NAME", options.name,
                        "the recipe or batch; not needed if the file has only one");
}

} // namespace waxwright
