// Asking git, as a program: no shell reads what is asked.
#pragma once

#include <string>
#include <vector>

namespace waxwright {

/// What a call of git gave.
struct GitAnswer {
    int status = 0;      // its exit status; not_run where it could not be run
    std::string out;     // its standard output
    std::string problem; // what it says went wrong, in one line; why it could not be run

    static constexpr int not_run = -1;
};

/// Runs `git WORDS…` in the current folder and waits for it.
GitAnswer ask_git(const std::vector<std::string>& words);

/// The parts of what git prints with -z, each of which ends with a NUL.
std::vector<std::string> parts_of(const std::string& out);

} // namespace waxwright
