// PEGTL's own analysis of the grammar: a rule that can repeat without eating text would hang.
#include <cstdio>

#include <tao/pegtl/contrib/analyze.hpp>

#include "grammar/rules.hpp"

int main() {
    const std::size_t problems = tao::pegtl::analyze<waxwright::grammar::file>(1);
    std::printf("%zu problems in the grammar\n", problems);
    return problems == 0 ? 0 : 1;
}
