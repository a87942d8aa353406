// The command line as a value.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace waxwright {

enum class Command : std::uint8_t {
#define COMMAND(identifier, word, run, about) identifier,
#include "driver/commands.def"
#undef COMMAND
};

struct Options {
    Command command{};
    std::string program;            // as it was called
    std::vector<std::string> files; // check, tidy: any number
    std::string file;               // sheet
    std::string name;               // sheet: the recipe or batch
    std::string before;             // compare: the old version
    std::string after;              // compare: the new one
    std::vector<std::string> git;   // compare: what git hands to an external diff, in their place
    std::string beside;             // sheet, compare: used files that are nowhere else are here
    std::string word;               // materials; why: a rule's name
    std::string folder;             // begin
    bool notes = false;
    bool quiet = false;               // check: errors only
    bool warnings_as_errors = false;  // check
    bool mend = false;                // check
    std::string changed_since;        // check: a revision of git
    bool dry = false;                 // tidy: only tell
    std::vector<std::string> only;    // check: rules
    std::vector<std::string> without; // check: rules
    std::string columns;              // check --as sarif: points, utf16
    std::string as;                   // check: text, json, sarif; sheet: markdown, toml
    std::string units;                // "", us, metric
    std::optional<std::int64_t> make;
    std::string market; // label: "", us, eu, gb
    std::string paper;  // label --as html: "", a4, letter
    std::string from;   // an amount of something, or `stock`
    bool all = false;
    bool with_cost = false; // sheet: what comes behind the record
    bool with_buy = false;
    bool with_label = false;
    bool with_picture = false;         // in a page of HTML
    std::vector<std::string> use_from; // folders beside the recipe's own that files are used from
    std::string picture;               // sheet: the file of the heat plan
    std::string out;
};

/// What to do instead of running a command: print this and exit with that.
struct Answer {
    std::string text;
    int status;
    bool to_error;
};

/// Reads the command line; an Answer for --help, --version and calls that are wrong (status 2).
struct ReadOptions {
    Options options;
    std::optional<Answer> answer;
};
ReadOptions read_options(int count, const char* const* words);

} // namespace waxwright
