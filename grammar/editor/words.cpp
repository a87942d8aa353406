#include "grammar/editor/words.hpp"

#include <algorithm>
#include <array>
#include <variant>

#include "findings/registry.hpp"
#include "model/library.hpp"
#include "units/money.hpp"
#include "units/unit.hpp"

namespace waxwright::editor {

namespace {

// What the tables know as the language's own words, and has a place where nothing else can stand:
// the statements at the head of a line, the shares of a blend behind a number, what a load is of
// behind `of`. All others are joining words.
constexpr std::array<std::string_view, 4> statements = {"language", "use", "let", "currency"};
constexpr std::array<std::string_view, 2> shares = {"part", "parts"};
constexpr std::array<std::string_view, 5> placed = {"allow", "steps", "total", "water", "volume"};

bool has(std::span<const std::string_view> words, std::string_view word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

bool begins_a_verb(std::string_view word) {
    for (const VerbInfo& verb : all_verbs()) {
        if (verb.words.substr(0, verb.words.find(' ')) == word) return true;
    }
    return false;
}

} // namespace

Words kinds() {
    return {block_kind_words().begin(), block_kind_words().end()};
}

Words keys() {
    return {
#define KEY(identifier, text) text,
#include "model/keys.def"
#undef KEY
    };
}

Words verbs() {
    Words all;
    for (const VerbInfo& verb : all_verbs())
        all.push_back(verb.words);
    return all;
}

Words rule_names() {
    Words all;
    for (const RuleInfo& rule : all_rules())
        all.push_back(rule.name);
    return all;
}

Words modules() {
    Words all;
    for (const LibraryModule& module : library_modules())
        all.push_back(module.name);
    return all;
}

Words currency_codes() {
    Words all;
    for (const CurrencyInfo& currency : all_currencies())
        all.push_back(currency.code);
    return all;
}

Words units() {
    Words all = currency_codes();
    for (const Unit& unit : all_units())
        all.push_back(unit.symbol);
    all.insert(all.end(), shares.begin(), shares.end());
    return all;
}

Words joining_words() {
    Words all{"in-room"}; // the one of the grammar with a hyphen, so that it can be no name anyway
    for (const std::string_view word : language_words()) {
        if (!has(statements, word) && !has(shares, word) && !has(placed, word) &&
            !begins_a_verb(word))
            all.push_back(word);
    }
    return all;
}

Words statement_words() {
    return {statements.begin(), statements.end()};
}

std::vector<ChoiceOf> choices() {
    std::vector<ChoiceOf> all;
    for (const PropertyInfo& property : all_properties()) {
        std::string_view rest = property.words;
        if (rest.empty()) continue;
        auto found = std::find_if(all.begin(), all.end(),
                                  [&](const ChoiceOf& each) { return each.key == property.key; });
        if (found == all.end()) found = all.insert(all.end(), {property.key, {}});
        while (!rest.empty()) {
            const auto end = std::min(rest.find(' '), rest.size());
            if (!has(found->words, rest.substr(0, end)))
                found->words.push_back(rest.substr(0, end));
            rest.remove_prefix(std::min(end + 1, rest.size()));
        }
    }
    return all;
}

bool is_unit(std::string_view text) {
    return has(shares, text) || std::holds_alternative<UnitReading>(read_unit(text));
}

} // namespace waxwright::editor
