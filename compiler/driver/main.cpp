#include "driver/commands.hpp"

int main(int count, char** words) {
    return waxwright::run(count, words);
}
