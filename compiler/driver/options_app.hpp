// The command line as CLI11 knows it: what reads a call, what is completed in a shell and what the
// manual page says all come from this.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "driver/options.hpp"

namespace CLI {
class App;
class Option;
} // namespace CLI

namespace waxwright {

// What is said of the whole.
inline constexpr std::string_view short_about =
    "checks container-candle recipes and turns them into batch sheets";
inline constexpr std::string_view long_about =
    "Checks container-candle recipes and turns them into batch sheets.\n"
    "A recipe is a text file that ends in .candle; `-` reads one from standard input.";
inline constexpr std::string_view no_promise =
    "The sheet is a plan, not a promise: the supplier's data sheet, local codes and licensed\n"
    "practice come first.";
struct ExitStatus {
    int status;
    std::string_view about;
};
inline constexpr ExitStatus exit_statuses[] = {
    {0, "done, warnings included"},
    {1, "an error in a recipe, or two versions that are different"},
    {2, "a wrong call, or a file that could not be read or written"},
};

/// The whole command line. What is read goes into `options`, which must outlive it.
std::shared_ptr<CLI::App> make_app(Options& options);

/// Says of each command what may stand behind its name.
#define COMMAND(identifier, word, run, about)                                                      \
    void add_##identifier##_options(CLI::App* command, Options& options);
#include "driver/commands.def"
#undef COMMAND

/// Lets an option take these words only. `takes`, if given, is said to any other, in the place of a
/// list of them.
void take_one_of(CLI::Option* option, const std::vector<std::string>& words,
                 const std::string& takes = {});
/// Such a word in letters of either size: `A4`, `EU`.
void in_either_size(CLI::Option* option, const std::vector<std::string>& words);
/// Lets an option be given several times, each time with one word: what comes behind is another's.
void take_one_each_time(CLI::Option* option);
/// The words that `take_one_of` gave to an option; empty where it takes anything.
std::vector<std::string> words_of(CLI::Option* option);

// What several commands have.

/// Checking other people's recipes must not read what lies elsewhere on this machine.
void add_use_from(CLI::App* command, Options& options);
/// For a file under another name than its own, in a folder of its own.
void add_beside(CLI::App* command, Options& options, const char* about);
/// Where to write, in place of standard output.
void add_out(CLI::App* command, Options& options, const char* about);
void add_units(CLI::App* command, Options& options);
void add_make(CLI::App* command, Options& options);
/// The recipe or batch of `file`.
void add_name(CLI::App* command, Options& options);
/// Refuses an option's empty value.
void take_file_name(CLI::Option* option);

} // namespace waxwright
