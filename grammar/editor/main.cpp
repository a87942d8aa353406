// Writes what editors colour recipe files by, and shows what a test compares it with.
//
//   waxwright-editor-files --into FOLDER   the files, in the folders of FOLDER they belong to
//   waxwright-editor-files --tokens FILE   the tokens of FILE as the compiler has them, a line
//   each:
//                                          class, first byte, byte behind it, between tabs
//   waxwright-editor-files --words         every word of the tables: class, word and a line in
//   which
//                                          it is that, between tabs
//
// Exit status 0: done; 1: FILE has mistakes; 2: a wrong call, or a file can't be read or written.
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "findings/finding.hpp"
#include "grammar/editor/formats.hpp"
#include "grammar/editor/tokens.hpp"
#include "grammar/editor/words.hpp"
#include "syntax/parse.hpp"

namespace waxwright::editor {

namespace {

namespace fs = std::filesystem;

bool write(const fs::path& path, const std::string& text) {
    std::error_code failed;
    fs::create_directories(path.parent_path(), failed);
    std::ofstream file(path, std::ios::binary);
    file << text;
    file.close();
    if (!file) fmt::print(stderr, "{} can't be written\n", path.string());
    return static_cast<bool>(file);
}

int write_all(const fs::path& folder) {
    const std::string grammar = textmate_grammar();
    const fs::path extension = folder / "vscode";
    const bool done = write(folder / "waxwright.tmLanguage.json", grammar) &&
                      write(extension / "waxwright.tmLanguage.json", grammar) &&
                      write(extension / "package.json", vscode_package(WAXWRIGHT_VERSION)) &&
                      write(extension / "language-configuration.json", vscode_configuration()) &&
                      write(folder / "vim/syntax/candle.vim", vim_syntax()) &&
                      write(folder / "gtksourceview/candle.lang", gtksourceview_language()) &&
                      write(folder / "nano/candle.nanorc", nano_syntax());
    return done ? 0 : 2;
}

int print_tokens(const char* name) {
    std::ifstream file(name, std::ios::binary);
    if (!file) {
        fmt::print(stderr, "{} can't be read\n", name);
        return 2;
    }
    std::string text((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
    const Source source(name, std::move(text), false);
    Findings findings;
    const Tree tree = parse(0, source, findings);
    for (const ClassedToken& token : classed_tokens(tree))
        fmt::print("{}\t{}\t{}\n", info(token.which).name, token.begin, token.end);
    return findings.has_errors() ? 1 : 0;
}

/// `line` is a format with a place for the word.
void print_words(Class which, const Words& words, std::string_view line) {
    for (const std::string_view word : words)
        fmt::print("{}\t{}\t{}\n", info(which).name, word, fmt::format(fmt::runtime(line), word));
}

int print_all_words() {
    print_words(Class::kind, kinds(), "{} a-b {{");
    print_words(Class::key, keys(), "  {}: 1 g");
    print_words(Class::verb, verbs(), "    {}");
    print_words(Class::rule, rule_names(), "  allow {} because \"x\"");
    print_words(Class::module_, modules(), "use {}");
    print_words(Class::unit, units(), "  load: 2 {}");
    print_words(Class::word, joining_words(), "  wax: 1 {} 2");
    print_words(Class::word, statement_words(), "{} x");
    for (const ChoiceOf& each : choices())
        print_words(Class::choice, each.words, fmt::format("  {}: {{}}", word(each.key)));
    return 0;
}

} // namespace

} // namespace waxwright::editor

int main(int count, char** words) {
    using namespace waxwright::editor;
    const std::string_view what = count > 1 ? words[1] : "";
    if (what == "--into" && count == 3) return write_all(words[2]);
    if (what == "--tokens" && count == 3) return print_tokens(words[2]);
    if (what == "--words" && count == 2) return print_all_words();
    fmt::print(stderr, "usage: waxwright-editor-files --into FOLDER | --tokens FILE | --words\n");
    return 2;
}
