// Prints every unit the language knows, a line each: symbol, dimension, factor and offset with 17
// digits, between tabs. units_check.py compares them with the world.
#include <fmt/format.h>

#include "units/dimension.hpp"
#include "units/unit.hpp"

int main() {
    for (const waxwright::Unit& unit : waxwright::all_units()) {
        fmt::print("{}\t{}\t{:.17g}\t{:.17g}\n", unit.symbol, waxwright::name_of(unit.dimension),
                   unit.factor, unit.offset);
    }
}
