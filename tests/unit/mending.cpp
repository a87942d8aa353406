// Fixes: when one is certain, which go together, and the text that comes of them.
#include <array>

#include <doctest/doctest.h>

#include "findings/mending.hpp"
#include "findings/spelling.hpp"

using namespace waxwright;

namespace {

bool sure(std::string_view wrong, std::string_view meant, Spelling kind,
          std::string_view other = "something-else") {
    const std::array<std::string_view, 2> words{meant, other};
    return surely_meant(wrong, meant, words, kind);
}

} // namespace

TEST_CASE("a word of the language is certain when it is near and alone") {
    CHECK(sure("mlet", "melt", Spelling::word));
    CHECK(sure("ad", "add", Spelling::word) == false);
    CHECK(sure("fash-pont", "flash-point", Spelling::word));
    CHECK(sure("lad", "lid", Spelling::word, "led") == false);
    CHECK(sure("melt", "melt", Spelling::word) == false);
}

TEST_CASE("a name is certain only where no other thing could have it") {
    CHECK(sure("lavander", "lavender", Spelling::name));
    CHECK(sure("jamjar", "jam-jar", Spelling::name));
    CHECK(sure("cotton-brade-large", "cotton-braid-large", Spelling::name) == false); // two in five
    CHECK(sure("cotton-brad-large", "cotton-braid-large", Spelling::name) == false); // four letters
    CHECK(sure("coton-braid-large", "cotton-braid-large", Spelling::name));
    CHECK(sure("tin-6oz", "tin-8oz", Spelling::name) == false);
    CHECK(sure("tin-18", "tin-1-8", Spelling::name) == false);
    CHECK(sure("clover", "clove", Spelling::name) == false);
    CHECK(sure("fir", "fig", Spelling::name) == false);
    CHECK(sure("melon", "lemon", Spelling::name) == false);
    CHECK(sure("soy-b", "soy-a", Spelling::name) == false);
    CHECK(sure("lavander", "lavender", Spelling::name, "lavinder") == false);
}

TEST_CASE("edits are done from the front, whatever their order") {
    const std::vector<Edit> edits{{{0, 8, 9}, ""}, {{0, 0, 1}, "AA"}, {{0, 4, 4}, "+"}};
    CHECK(edited("a b cd e;\r\n", edits) == "AA b +cd e\r\n");
    CHECK(edited("", {}).empty());
}

TEST_CASE("fixes at one place don't go together") {
    const auto at = [](std::uint32_t begin, std::uint32_t end) {
        return put({0, begin, end}, "x", true);
    };
    CHECK(overlap(at(0, 4), at(3, 5)));
    CHECK(overlap(at(2, 2), at(2, 2)));
    CHECK(overlap(at(2, 2), at(2, 5)));
    CHECK_FALSE(overlap(at(0, 2), at(2, 4)));
    Fix other = at(0, 4);
    other.edits[0].at.file = 1;
    CHECK_FALSE(overlap(other, at(0, 4)));
}

TEST_CASE("a fix is carried out without asking only if it is the one certain, within a line") {
    Sources sources;
    sources.add("a.candle", "one\ntwo\n");
    Finding finding{Rule::syntax, Severity::error, {0, 0, 3}, "", "", {}, {}, {}};
    CHECK(certain_fix(finding, sources) == nullptr);
    finding.fixes = {put({0, 0, 3}, "x", false), put({0, 0, 3}, "y", true)};
    REQUIRE(certain_fix(finding, sources) != nullptr);
    CHECK(certain_fix(finding, sources)->edits[0].text == "y");
    finding.because = "so";
    CHECK(certain_fix(finding, sources) == nullptr);
    finding.because.reset();
    finding.fixes[0].certain = true;
    CHECK(certain_fix(finding, sources) == nullptr);
    finding.fixes = {put({0, 0, 5}, "x", true)};
    CHECK(certain_fix(finding, sources) == nullptr);
    finding.fixes = {put({0, 0, 3}, "x\r\ny", true)};
    CHECK(certain_fix(finding, sources) == nullptr);
    finding.fixes = {put({0, 0, 3}, "x\ny", true)}; // a title behind a head
    CHECK(certain_fix(finding, sources) != nullptr);
}

TEST_CASE("of fixes of recipes that are joined the same is one, and two certain ones are none") {
    Sources sources;
    sources.add("a.candle", "100\n");
    Findings findings;
    for (const std::uint32_t recipe : {0U, 1U, 2U}) {
        Finding& finding = findings.report(Rule::over_ceiling, {0, 0, 3}, "too hot");
        finding.subjects.push_back({recipe, nobody});
        finding.fixes.push_back(put({0, 0, 3}, recipe == 2 ? "80" : "90", true));
    }
    findings.sort_and_join(sources);
    REQUIRE(findings.all().size() == 1);
    REQUIRE(findings.all()[0].fixes.size() == 2);
    CHECK_FALSE(findings.all()[0].fixes[0].certain);
    CHECK_FALSE(findings.all()[0].fixes[1].certain);
}
