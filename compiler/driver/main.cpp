#include <csignal>

#include "driver/commands.hpp"

int main(int count, char** words) {
    std::signal(SIGXFSZ, SIG_IGN); // a file over the limit then fails with a reason
    return waxwright::run(count, words);
}
