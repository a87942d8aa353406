// What is said to a call that is wrong. The library that reads options has words of its own for it,
// made for those who write programs; these are for those who type the call.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace CLI {
class App;
class ParseError;
} // namespace CLI

namespace waxwright {

/// What was wrong, in one line without a line end.
std::string wrong_call_words(const CLI::App& app, const CLI::ParseError& error);

/// A check of an option's value: "" where it is one of `words`, else what it takes, with the word
/// that is `meant`, or else the nearest.
std::string takes_one_of(const std::vector<std::string>& words, const std::string& value,
                         std::string_view meant = {});

} // namespace waxwright
