#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "findings/finding.hpp"
#include "findings/nearest.hpp"
#include "findings/registry.hpp"
#include "source/utf8.hpp"

using namespace waxwright;

namespace {

Sources two_files() {
    Sources sources;
    sources.add("b.candle", std::string(1000, ' '));
    sources.add("a.candle", std::string(1000, ' '));
    return sources;
}

/// A finding with recipes.
void report(Findings& findings, Rule rule, std::uint32_t begin, std::string message,
            std::vector<std::uint32_t> recipes, FileId file = 0) {
    Finding& finding = findings.report(rule, {file, begin, begin + 4}, std::move(message));
    for (const std::uint32_t recipe : recipes)
        finding.subjects.push_back({recipe, nobody});
}

/// All that settling decides, as text.
std::string told(const Findings& findings) {
    std::string text;
    for (const Finding& f : findings.all()) {
        text += std::to_string(f.at.file) + ":" + std::to_string(f.at.begin) + " ";
        text += std::string(info(f.rule).name) + " " + std::string(word(f.severity));
        for (const Subject& s : f.subjects)
            text += " " + std::to_string(s.recipe);
        if (f.because) text += " because " + *f.because;
        text += " | " + f.message;
        for (const Also& also : f.also) {
            text += ",";
            for (const Subject& s : also.subjects)
                text += " " + std::to_string(s.recipe);
            text += " | " + also.message;
        }
        text += "\n";
    }
    return text;
}

std::string settled(Findings& findings) {
    const Sources sources = two_files();
    findings.sort_and_join(sources);
    const std::string once = told(findings);
    findings.sort_and_join(sources);
    CHECK(told(findings) == once);
    return once;
}

} // namespace

TEST_CASE("a rule is found by its name") {
    for (const RuleInfo& rule : all_rules()) {
        CHECK(find_rule(rule.name) == rule.rule);
        CHECK(&info(rule.rule) == &rule);
        CHECK_FALSE(rule.about.empty());
        CHECK(word(rule.family) != "");
    }
    CHECK_FALSE(find_rule("load-over-limits"));
    CHECK_FALSE(find_rule(""));
    CHECK(word(Severity::warning) == "warning");
    CHECK(word(Family::bench) == "bench");
    CHECK(info(Rule::load_over_limit).name == "load-over-limit");
}

TEST_CASE("findings are sorted by file name, place and rule") {
    Findings findings;
    report(findings, Rule::wick_missing, 5, "w", {}, 0);
    report(findings, Rule::no_stir, 5, "second", {}, 0);
    report(findings, Rule::no_stir, 1, "first", {}, 0);
    report(findings, Rule::no_pour, 900, "other file", {}, 1);
    CHECK(settled(findings) == "1:900 no-pour error | other file\n"
                               "0:1 no-stir warning | first\n"
                               "0:5 no-stir warning | second\n"
                               "0:5 wick-missing warning | w\n");
}

TEST_CASE("what one rule finds at one span is one finding") {
    Findings findings;
    report(findings, Rule::no_stir, 5, "of the first", {1});
    findings.report(Rule::no_stir, {0, 5, 9}, "of the second").severity = Severity::error;
    report(findings, Rule::no_stir, 5, "of the third", {1, 3});
    findings.report(Rule::no_stir, {0, 5, 10}, "longer span");
    CHECK(settled(findings) == "0:5 no-stir error 1 | of the first, 1 3 | of the third\n"
                               "0:5 no-stir warning | longer span\n");
    CHECK(findings.has_errors());
    CHECK(findings.count(Severity::error) == 1);
}

TEST_CASE("what is so in the same words is told once, of all recipes") {
    Findings findings;
    report(findings, Rule::no_stir, 5, "short", {1});
    report(findings, Rule::no_stir, 5, "shorter", {2});
    report(findings, Rule::no_stir, 5, "short", {3, 1});
    report(findings, Rule::no_stir, 5, "shorter", {4});
    report(findings, Rule::no_stir, 5, "a consequence", {});
    CHECK(settled(findings) == "0:5 no-stir warning 1 3 | short, 2 4 | shorter\n");
    CHECK(findings.count(Severity::warning) == 1);
}

TEST_CASE("related places are joined without repeats") {
    Findings findings;
    for (const char* text : {"here", "there", "here"}) {
        findings.report(Rule::defined_twice, {0, 5, 9}, "twice")
            .related.push_back({{0, 1, 2}, text});
    }
    settled(findings);
    REQUIRE(findings.all().size() == 1);
    REQUIRE(findings.all()[0].related.size() == 2);
    CHECK(findings.all()[0].related[0].text == "here");
    CHECK(findings.all()[0].related[1].text == "there");
}

TEST_CASE("a recipe allows for itself") {
    Findings findings;
    report(findings, Rule::no_stir, 5, "short", {1, 2, 3, 4});
    findings.allow({Rule::no_stir, {0, 50, 60}, 2, "tried"});
    findings.allow({Rule::no_stir, {0, 70, 80}, 3, "tried"});
    findings.allow({Rule::no_stir, {0, 90, 99}, 4, "other"});
    CHECK(settled(findings) == "0:5 no-stir warning 1 | short\n"
                               "0:5 no-stir warning 2 3 because tried | short\n"
                               "0:5 no-stir warning 4 because other | short\n");
    CHECK(findings.count(Severity::warning) == 1);
}

TEST_CASE("a finding that all its recipes allow is allowed as a whole") {
    Findings findings;
    report(findings, Rule::no_stir, 5, "short", {1, 2});
    findings.allow({Rule::no_stir, {0, 50, 60}, 1, "one"});
    findings.allow({Rule::no_stir, {0, 70, 80}, 2, "two"});
    settled(findings);
    CHECK(findings.all().size() == 2);
    CHECK(findings.count(Severity::warning) == 0);
    CHECK_FALSE(findings.has_errors());
}

TEST_CASE("a recipe allows for its batches too") {
    Findings findings;
    Finding& finding = findings.report(Rule::over_scale, {0, 5, 9}, "heavy");
    finding.subjects = {{1, 7}, {1, 8}, {2, 7}};
    findings.allow({Rule::over_scale, {0, 50, 60}, 1, "weighed in two"});
    settled(findings);
    REQUIRE(findings.all().size() == 2);
    CHECK(findings.all()[0].subjects == std::vector<Subject>{{2, 7}});
    CHECK(findings.all()[1].subjects == std::vector<Subject>{{1, 7}, {1, 8}});
}

TEST_CASE("an error is never allowed") {
    Findings findings;
    report(findings, Rule::over_ceiling, 5, "hot", {1});
    findings.allow({Rule::over_ceiling, {0, 50, 60}, 1, "I like it hot"});
    const std::string text = settled(findings);
    CHECK(text.find("0:5 over-ceiling error 1 | hot") == 0);
    CHECK(text.find("0:50 allow-refused error 1 | `over-ceiling` is an error") != text.npos);
    CHECK(findings.count(Severity::error) == 2);
    CHECK(findings.count(Severity::note) == 0);
}

TEST_CASE("nor one that is told milder than its rule") {
    Findings findings;
    report(findings, Rule::over_ceiling, 5, "hot", {1});
    const_cast<Finding&>(findings.all()[0]).severity = Severity::warning;
    findings.allow({Rule::over_ceiling, {0, 50, 60}, 1, "x"});
    settled(findings);
    CHECK(findings.count(Severity::warning) == 1);
    CHECK(findings.count(Severity::error) == 1);
}

TEST_CASE("an allowance that found nothing is noted once") {
    Findings findings;
    report(findings, Rule::no_stir, 5, "of the file", {}); // no subject, so nobody's to allow
    report(findings, Rule::wick_missing, 8, "bare", {1});
    findings.allow({Rule::no_stir, {0, 50, 60}, 1, "x"});
    findings.allow({Rule::wick_missing, {0, 70, 80}, 2, "another recipe"});
    findings.allow({Rule::wick_missing, {0, 80, 90}, 1, "used"});
    findings.allow({Rule::wick_missing, {0, 90, 99}, 1, "said twice"});
    findings.allow({Rule::allow_unused, {0, 100, 101}, 1, "quiet"});
    const std::string text = settled(findings);
    CHECK(text.find("0:50 allow-unused note 1 |") != text.npos);
    CHECK(text.find("0:70 allow-unused note 2 |") != text.npos);
    CHECK(text.find("0:80 allow-unused") == text.npos);
    CHECK(text.find("0:90 allow-unused note 1 |") != text.npos);
    CHECK(text.find("0:100 allow-unused note 1 |") != text.npos);
    CHECK(findings.count(Severity::note) == 4);
}

TEST_CASE("more may be reported after settling") {
    Findings findings;
    const Sources sources = two_files();
    report(findings, Rule::no_stir, 5, "first", {1});
    findings.allow({Rule::no_stir, {0, 50, 60}, 1, "x"});
    findings.sort_and_join(sources);
    report(findings, Rule::no_stir, 3, "second", {1});
    findings.sort_and_join(sources);
    CHECK(told(findings) == "0:3 no-stir warning 1 because x | second\n"
                            "0:5 no-stir warning 1 because x | first\n");
}

TEST_CASE("of a file with too many errors no more are kept") {
    Findings findings;
    for (std::uint32_t i = 0; i < 3 * most_errors; ++i) {
        Finding& finding = findings.report(Rule::no_pour, {0, i, i + 1}, std::to_string(i));
        CHECK(finding.message == std::to_string(i));
        findings.report(Rule::wick_missing, {0, i, i + 1}, "bare");
    }
    CHECK(findings.too_many(0));
    CHECK_FALSE(findings.too_many(1));
    CHECK(findings.count(Severity::error) == most_errors + 1);
    CHECK(findings.count(Severity::warning) == 3 * most_errors);
}

TEST_CASE("what is one finding, or milder than an error, does not make too many") {
    Findings findings;
    for (std::uint32_t i = 0; i < 3 * most_errors; ++i) {
        findings.report(Rule::vessel_burns, {0, 5, 9}, "wood").subjects.push_back({i, nobody});
        findings.report_milder(Severity::note, Rule::overfull, {0, i, i + 1}, "full");
    }
    CHECK_FALSE(findings.too_many(0));
    findings.sort_and_join(two_files());
    CHECK(findings.count(Severity::error) == 1);
    CHECK(findings.count(Severity::note) == 3 * most_errors);
}

TEST_CASE("of a message nobody would read to its end the middle is left out") {
    Findings findings;
    const std::string whole = "begin " + std::string(1988, 'x') + " end";
    CHECK(findings.report(Rule::syntax, {0, 1, 2}, whole).message == whole);
    std::string large = "begin ";
    for (int i = 0; i < 100000; ++i)
        large += "°";
    const std::string& cut = findings.report(Rule::syntax, {0, 1, 2}, large + " end").message;
    CHECK(cut.size() < 1300);
    CHECK(cut.starts_with("begin °"));
    CHECK(cut.ends_with("° end"));
    CHECK(first_bad_utf8(cut) == cut.size());
}

TEST_CASE("a hundred thousand findings settle at once") {
    Findings findings;
    for (std::uint32_t i = 0; i < 100000; ++i) {
        report(findings, Rule::no_stir, i % 7 == 0 ? 3 : 100000 - i, "m", {i, i + 1});
        if (i % 5 == 0) findings.allow({Rule::no_stir, {0, i, i + 1}, i, "r"});
    }
    Sources sources;
    sources.add("a", std::string(100010, ' '));
    findings.sort_and_join(sources); // a square here would take minutes
    CHECK(findings.all().size() > 80000);
}

TEST_CASE("the nearest word") {
    constexpr std::string_view words[] = {"lavender", "rosemary", "cedarwood", "soy", "oz"};
    CHECK(nearest("lavendar", words) == "lavender");
    CHECK(nearest("lavnder", words) == "lavender");
    CHECK(nearest("lvaender", words) == "lavender"); // two swapped are one edit
    CHECK(nearest("rosmarry", words) == "rosemary");
    CHECK(nearest("cedrwod", words) == "cedarwood");
    CHECK(nearest("cdrwood", words) == "cedarwood");
    CHECK(nearest("vanilla", words) == "");
    CHECK(nearest("say", words) == "soy");
    CHECK(nearest("sya", words) == "");
    CHECK(nearest("o", words) == "");
    CHECK(nearest("", words) == "");
    CHECK(nearest("soy", {}) == "");
    CHECK(nearest(std::string(100000, 'a'), words) == "");
    constexpr std::string_view ties[] = {"bat", "cat"};
    CHECK(nearest("hat", ties) == "bat");
    CHECK(nearest("cat", ties) == "cat");
    CHECK(did_you_mean("lavendar", words) == "did you mean `lavender`?");
    CHECK(did_you_mean("vanilla", words) == "");
}
