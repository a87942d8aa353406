// The TextMate grammar, and what an extension of the VS Code kind has beside it.
#include <nlohmann/json.hpp>

#include "grammar/editor/colours.hpp"
#include "grammar/editor/formats.hpp"

namespace waxwright::editor {

namespace {

using Json = nlohmann::ordered_json;

constexpr const char* scope_name = "source.candle";

std::string perl(const Pattern& pattern) {
    return render(pattern, Dialect::perl);
}

std::string scope(Class which) {
    return std::string(info(which).scope) + ".candle";
}

std::string start(Start where) {
    switch (where) {
    case Start::line:
        return "^[ \\t]*";
    case Start::opening:
        return "(?:^|\\{)[ \\t]*";
    case Start::anywhere:
        break;
    }
    return "";
}

std::string gap(Gap which) {
    return which == Gap::none ? "" : perl(which == Gap::blanks ? blanks() : some_blanks());
}

Json rule(const Piece& piece) {
    Json made{{"comment", piece.about}};
    std::string match = start(piece.start);
    Json captures = Json::object();
    int number = 0;
    for (const Stretch& each : piece.stretches) {
        if (number++ != 0) match += gap(each.gap);
        match += "(" + perl(each.pattern) + ")" + perl(each.behind);
        if (each.which != Class::none)
            captures[std::to_string(number)] = {{"name", scope(each.which)}};
    }
    made["match"] = match;
    made["captures"] = captures;
    return made;
}

Json text_rule() {
    const TextShape shape = text_shape();
    return {{"comment", "texts"},
            {"name", scope(Class::text)},
            {"begin", perl(shape.quote)},
            {"end", perl(shape.quote) + "|$"},
            {"patterns",
             {{{"name", scope(Class::escape)}, {"match", perl(shape.escape)}},
              {{"match", perl(shape.any_escape)}}}}};
}

} // namespace

std::string textmate_grammar() {
    Json patterns = Json::array();
    patterns.push_back({{"name", scope(Class::comment)}, {"match", perl(comment_shape())}});
    patterns.push_back(text_rule());
    for (const Piece& piece : pieces())
        patterns.push_back(rule(piece));
    const Json grammar{{"name", "Candle recipe"},
                       {"scopeName", scope_name},
                       {"fileTypes", {"candle"}},
                       {"patterns", patterns}};
    return grammar.dump(2) + "\n";
}

std::string vscode_package(std::string_view version) {
    const Json language{{"id", "candle"},
                        {"aliases", {"Candle recipe"}},
                        {"extensions", {".candle"}},
                        {"configuration", "./language-configuration.json"}};
    const Json grammar{
        {"language", "candle"}, {"scopeName", scope_name}, {"path", "./waxwright.tmLanguage.json"}};
    const Json command{{"type", "string"},
                       {"scope", "machine"}, // no folder that is opened may say what is run
                       {"default", "waxwright"},
                       {"description", "The program whose `lsp` is started; empty: none"}};
    // A new line is a new line: where a list is open, Tab takes from it, lest a unit or a material
    // be chosen by who only wanted to go on. Words that merely stand in the text are no proposals.
    // And two blanks as `tidy` writes them.
    const Json writing{{"editor.acceptSuggestionOnEnter", "off"},
                       {"editor.wordBasedSuggestions", "off"},
                       {"editor.suggest.snippetsPreventQuickSuggestions", false},
                       {"editor.insertSpaces", true},
                       {"editor.tabSize", 2},
                       {"editor.detectIndentation", false}};
    const Json package{
        {"name", "waxwright-candle"},
        {"displayName", "Candle recipes"},
        {"description", "Colours for recipes in .candle files, and what Waxwright finds in them"},
        {"version", version},
        {"publisher", "waxwright"},
        {"private", true},
        {"engines", {{"vscode", "^1.65.0"}}},
        {"categories", {"Programming Languages"}},
        {"main", "./extension.js"},
        {"activationEvents", {"onLanguage:candle"}},
        {"contributes",
         {{"languages", Json::array({language})},
          {"grammars", Json::array({grammar})},
          {"configurationDefaults", {{"[candle]", writing}}},
          {"configuration",
           {{"title", "Waxwright"}, {"properties", {{"waxwright.command", command}}}}}}}};
    return package.dump(2) + "\n";
}

std::string vscode_configuration() {
    const auto pair = [](const char* open, const char* close) {
        return Json::array({open, close});
    };
    const Json brackets = Json::array({pair("{", "}"), pair("(", ")")});
    const Json pairs = Json::array({pair("{", "}"), pair("(", ")"), pair("\"", "\"")});
    const Json quote{{"open", "\""}, {"close", "\""}, {"notIn", {"string", "comment"}}};
    Json closing = brackets;
    closing.push_back(quote);
    const Json configuration{{"comments", {{"lineComment", comment_sign}}},
                             {"brackets", brackets},
                             {"autoClosingPairs", closing},
                             {"surroundingPairs", pairs},
                             {"wordPattern", perl(word_shape())}};
    return configuration.dump(2) + "\n";
}

} // namespace waxwright::editor
