// The yardstick of the benchmark: reads one TOML file with toml++ and does nothing with it.
// Exit 0: it is TOML. 1: it is not, or could not be read, or no file was named.

#include <exception>
#include <iostream>

#include <toml++/toml.h>

int main(int argc, char** argv) {
    if (argc != 2) {
        std::cerr << "usage: bench-toml-parse FILE\n";
        return 1;
    }
    try {
        const toml::table table = toml::parse_file(argv[1]);
        // An empty table is no benchmark; looking also keeps the parse from being thrown away.
        return table.empty() ? 1 : 0;
    } catch (const toml::parse_error& error) {
        std::cerr << argv[1] << ": " << error << '\n';
    } catch (const std::exception& error) {
        std::cerr << argv[1] << ": " << error.what() << '\n';
    }
    return 1;
}
