// Names of files as URIs; the rest of the form is held to its schema by outside/sarif_check.py.
#include <doctest/doctest.h>

#include "emit/sarif.hpp"

using namespace waxwright;

TEST_CASE("a file's name is a relative URI") {
    CHECK(uri_of("a/b.candle", "/home") == "a/b.candle");
    CHECK(uri_of("../a b%.candle", "/home") == "../a%20b%25.candle");
    CHECK(uri_of("c:d.candle", "/home") == "c%3Ad.candle");
    CHECK(uri_of("é.candle", "/home") == "%C3%A9.candle");
    CHECK(uri_of("/home/a/b.candle", "/home/c") == "../a/b.candle");
    CHECK(uri_of("-", "/home") == "standard-input");
}
