#include <string>

#include <doctest/doctest.h>

#include "emit/findings_text.hpp"

using namespace waxwright;

namespace {

constexpr ReportStyle with_notes{.notes = true};

/// The report of one finding on `text`, at [begin, end), below its first line.
std::string excerpt(std::string text, std::uint32_t begin, std::uint32_t end) {
    Sources sources;
    const FileId file = sources.add("a.candle", std::move(text));
    Findings findings;
    findings.report(Rule::syntax, {file, begin, end}, "x");
    const std::string report = findings_text(findings, sources, {});
    return report.substr(report.find('\n') + 1);
}

std::uint32_t place_of(std::string_view text, std::string_view part) {
    return static_cast<std::uint32_t>(text.find(part));
}

Block recipe_block(FileId file, std::string_view name) {
    const Span nowhere{file, 0, 0};
    return {.kind = BlockKind::recipe,
            .file = file,
            .name = name,
            .name_at = nowhere,
            .head_at = nowhere,
            .whole_at = nowhere};
}

} // namespace

TEST_CASE("a finding with all that may come with it") {
    const std::string text = "wax: soy\n  load:   12% of wax\n";
    Sources given;
    const FileId file = given.add("tide-line.candle", text);
    const FileId library = given.add("stdlib/waxes.candle", "max-load: 10% of wax\n", true);
    Model model(std::move(given));
    const Sources& sources = model.sources;
    model.blocks = {recipe_block(file, "tide-line"), recipe_block(file, "tide-line-strong")};

    Findings findings;
    const std::uint32_t at = place_of(text, "12%");
    Finding& finding = findings.report(Rule::load_over_limit, {file, at, at + 10},
                                       "12 % of the wax is more scent than this blend holds (10 %)",
                                       "bring it to 10 % or less, or write\na wax of your own");
    finding.related.push_back({{library, 10, 20}, "the limit is said here"});
    finding.subjects = {{0, nobody}, {1, nobody}, {1, 7}};

    CHECK(
        findings_text(findings, sources, {}, &model) ==
        "tide-line.candle:2:11: error: 12 % of the wax is more scent than this blend holds (10 %) "
        "[load-over-limit]\n"
        "      load:   12% of wax\n"
        "              ==========\n"
        "    hint: bring it to 10 % or less, or write\n"
        "          a wax of your own\n"
        "    stdlib/waxes.candle:1:11: the limit is said here\n"
        "    in: tide-line, tide-line-strong\n");
    // One recipe needs no list of them, and without a model there are no names.
    finding.subjects = {{1, nobody}, {1, 7}};
    CHECK(findings_text(findings, sources, {}, &model).find("in: ") == std::string::npos);
    CHECK(findings_text(findings, sources, {}).find("in: ") == std::string::npos);
}

TEST_CASE("the marker stands under the characters of the span") {
    CHECK(excerpt("load: 6%\n", 6, 7) == "    load: 6%\n          =\n");
    CHECK(excerpt("load: 6%\n", 6, 6) == "    load: 6%\n          =\n");
    // At the end of a line, and at the end of the file.
    CHECK(excerpt("load:\nwax: soy", 5, 5) == "    load:\n         =\n");
    CHECK(excerpt("load:\nwax: soy", 14, 14) == "    wax: soy\n            =\n");
    CHECK(excerpt("load:\n", 6, 6) == "\n    =\n");
    CHECK(excerpt("", 0, 0) == "\n    =\n");
    // Over several lines it goes to the end of the first.
    CHECK(excerpt("steps {\n  melt\n}\n", 6, 16) == "    steps {\n          =\n");
    CHECK(excerpt("wax: soy +\n  coconut\n", 5, 20) == "    wax: soy +\n         =====\n");
    CHECK(excerpt("\xEF\xBB\xBFwax: soy\n", 3, 6) == "    wax: soy\n    ===\n");
}

TEST_CASE("a tab goes to the next stop of the line") {
    CHECK(excerpt("\tload: 6%\n", 1, 5) == "            load: 6%\n            ====\n");
    CHECK(excerpt("ab\tload\n", 3, 7) == "    ab      load\n            ====\n");
    CHECK(excerpt("ab\tload\n", 2, 3) == "    ab      load\n      ======\n");
}

TEST_CASE("wide characters and marks") {
    // One of two columns before, and a combining accent that takes none.
    const std::string text = "title: \"\U0001F56F\u6F6E e\u0301\" x\n";
    const std::uint32_t at = place_of(text, "\u6F6E");
    CHECK(excerpt(text, at, at + 3) ==
          "    title: \"\U0001F56F\u6F6E e\u0301\" x\n             ==\n");
    const std::uint32_t x = place_of(text, "x\n");
    CHECK(excerpt(text, x, x + 1) ==
          "    title: \"\U0001F56F\u6F6E e\u0301\" x\n                   =\n");
    // An empty span before a wide character is one sign.
    CHECK(excerpt("\u6F6E", 0, 0) == "    \u6F6E\n    =\n");
}

TEST_CASE("a file cannot steer the terminal") {
    CHECK(excerpt("a\x1b[31mb\n", 6, 7) == "    a\uFFFD[31mb\n          =\n");
    CHECK(excerpt("a\u009B31mb\u202Ec\x7F\n", 6, 7) ==
          "    a\uFFFD31mb\uFFFDc\uFFFD\n         =\n");
    // A broken byte is one character, as in its column.
    CHECK(excerpt("a\xFF\xC3z\n", 3, 4) == "    a\uFFFD\uFFFDz\n       =\n");

    Sources sources;
    const FileId file = sources.add("\x1b]0;a.candle", "x\n");
    Findings findings;
    Finding& finding =
        findings.report(Rule::syntax, {file, 0, 1}, "`\x1b[2J` is\nno word", "h\x1b");
    finding.related.push_back({{file, 0, 1}, "r\x07"});
    const std::string report = findings_text(findings, sources, {});
    CHECK(report.find('\x1b') == std::string::npos);
    CHECK(report.find('\x07') == std::string::npos);
    CHECK(report.starts_with("\uFFFD]0;a.candle:1:1: error: `\uFFFD[2J` is no word [syntax]\n"));
}

TEST_CASE("a long line is cut to what is around the span") {
    const std::string many(200, 'a');
    // Uncut until it is wider than the window of 96 columns.
    CHECK(excerpt(std::string(96, 'a'), 0, 1) == "    " + std::string(96, 'a') + "\n    =\n");
    CHECK(excerpt(many, 0, 2) == "    " + std::string(95, 'a') + "…\n    ==\n");
    CHECK(excerpt(many, 199, 200) ==
          "    …" + std::string(95, 'a') + "\n" + std::string(99, ' ') + "=\n");
    CHECK(excerpt(many, 100, 103) ==
          "    …" + std::string(94, 'a') + "…\n" + std::string(36, ' ') + "===\n");
    // A span longer than the window is marked to the window's end.
    CHECK(excerpt(many, 0, 200) ==
          "    " + std::string(95, 'a') + "…\n    " + std::string(96, '=') + "\n");

    std::string huge;
    for (int i = 0; i < 100000; ++i)
        huge += "\u6F6E ";
    const std::string cut = excerpt(huge, 200000, 200003);
    CHECK(cut.starts_with("    …"));
    CHECK(cut.size() < 400);
    CHECK(cut.ends_with("  ==\n"));
}

TEST_CASE("what is shown: no notes unless asked for, nothing that was allowed") {
    Sources sources;
    const FileId file = sources.add("a.candle", "one\ntwo\nthree\n");
    Findings findings;
    findings.report(Rule::unused_name, {file, 0, 3}, "`one` is never used");
    findings.report(Rule::load_near_limit, {file, 4, 7}, "near").subjects = {{0, nobody}};
    findings.allow({Rule::load_near_limit, {file, 8, 13}, 0, "tested"});
    findings.sort_and_join(sources);
    CHECK(findings_text(findings, sources, {}).empty());
    CHECK(findings_text(findings, sources, with_notes) ==
          "a.candle:1:1: note: `one` is never used [unused-name]\n    one\n    ===\n");
    CHECK(counts_line(findings, 1) == "1 note in 1 file, 1 allowed");
}

TEST_CASE("colour is put round the severity and the marker") {
    Sources sources;
    const FileId file = sources.add("a.candle", "one\n");
    Findings findings;
    findings.report(Rule::syntax, {file, 0, 3}, "e");
    findings.report(Rule::load_near_limit, {file, 0, 3}, "w");
    findings.report(Rule::unused_name, {file, 0, 3}, "n");
    CHECK(findings_text(findings, sources, {.notes = true, .colour = true}) ==
          "a.candle:1:1: \x1b[1;31merror:\x1b[0m e [syntax]\n"
          "    one\n    \x1b[1;31m===\x1b[0m\n"
          "a.candle:1:1: \x1b[33mwarning:\x1b[0m w [load-near-limit]\n"
          "    one\n    \x1b[33m===\x1b[0m\n"
          "a.candle:1:1: \x1b[36mnote:\x1b[0m n [unused-name]\n"
          "    one\n    \x1b[36m===\x1b[0m\n");
}

TEST_CASE("the line of counts") {
    Findings findings;
    const Span at{0, 0, 1};
    CHECK(counts_line(findings, 1) == "no findings in 1 file");
    findings.report(Rule::syntax, at, "");
    CHECK(counts_line(findings, 2) == "1 error in 2 files");
    findings.report(Rule::syntax, at, "");
    findings.report(Rule::load_near_limit, at, "");
    for (int i = 0; i < 3; ++i)
        findings.report(Rule::unused_name, at, "");
    CHECK(counts_line(findings, 1) == "2 errors, 1 warning, 3 notes in 1 file");
}
