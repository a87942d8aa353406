// The lexical shapes, as grammar/lexical.hpp has them, and where each kind of word stands, as
// grammar/rules.hpp has it. The words themselves are from words.hpp.
#include "grammar/editor/colours.hpp"

#include "grammar/editor/words.hpp"

namespace waxwright::editor {

namespace {

Pattern digits() {
    return plus(one_of("0-9"));
}
Pattern digit(int times) {
    return sequence(std::vector<Pattern>(static_cast<std::size_t>(times), one_of("0-9")));
}

/// 1 1/2, 3/4, 14.5; a minus belongs to it where nothing stands between.
Pattern number() {
    const Pattern fraction = sequence({digits(), literal("/"), digits(), not_ahead(literal("."))});
    return sequence({optional(literal("-")),
                     any({sequence({digits(), some_blanks(), fraction}), fraction,
                          sequence({digits(), optional(sequence({literal("."), digits()}))})})});
}

/// 2026-12-05, and with 09:00
Pattern date() {
    const Pattern day = sequence({digit(4), literal("-"), digit(2), literal("-"), digit(2)});
    const Pattern time = sequence({one_of("T "), digit(2), literal(":"), digit(2)});
    return sequence({day, optional(time)});
}

Pattern sign() {
    return any({literal("$"), literal("€"), literal("£")});
}

Pattern one_unit() {
    return any_word(units());
}
/// Those that end in no letter: behind `%`, `°` or `C°` a word may begin at once.
Pattern unit_without_end() {
    Words marks;
    for (const std::string_view unit : units()) {
        const auto last = static_cast<unsigned char>(unit.back());
        if (last == '%' || last >= 0x80) marks.push_back(unit);
    }
    return any_word(std::move(marks));
}
Pattern per() {
    return any({literal("/"), sequence({some_blanks(), literal("per"), some_blanks()})});
}
Pattern unit() {
    return sequence({one_unit(), star(sequence({per(), one_unit()}))});
}

Stretch words(Class which, Words list) {
    return {which, any_word(std::move(list)), word_end()};
}
/// One of the words, or several with commas, as one pattern.
Pattern list_of(Words list) {
    const Pattern one = any_word(std::move(list));
    return sequence({one, star(sequence({blanks(), literal(","), blanks(), one}))});
}
Stretch word_at_blank(std::string_view word) {
    return {Class::word, literal(word), ahead(some_blanks())};
}
Pattern colon_ahead() {
    return ahead(sequence({blanks(), literal(":")}));
}

// ---- the pieces, in the order of a file ----

void add_statements(std::vector<Piece>& all) {
    const Stretch declared{Class::declared, word_shape(), sequence({}), Gap::some_blanks};
    const Stretch module{Class::module_, list_of(modules()), word_end(), Gap::some_blanks};
    const Stretch code{Class::unit, any_word(currency_codes()), word_end(), Gap::some_blanks};
    all.push_back({"a block", Start::line, {words(Class::kind, kinds()), declared}});
    all.push_back({"let", Start::line, {word_at_blank("let"), declared}});
    all.push_back({"use", Start::line, {word_at_blank("use"), module}});
    all.push_back({"currency", Start::line, {word_at_blank("currency"), code}});
    all.push_back({"other statements",
                   Start::line,
                   {{Class::word, any_word(statement_words()), ahead(some_blanks())}}});
    // The list of a `use` goes on behind a comma, on the same line or on the next.
    const Pattern list_end =
        ahead(sequence({blanks(), any({literal(","), literal("#"), line_end()})}));
    const Stretch comma{Class::none, literal(",")};
    all.push_back({"modules behind a comma",
                   Start::anywhere,
                   {comma, {Class::module_, list_of(modules()), list_end}}});
    all.push_back({"modules on a line of their own",
                   Start::line,
                   {{Class::module_, list_of(modules()), list_end}}});
}

void add_properties(std::vector<Piece>& all) {
    for (const ChoiceOf& each : choices()) {
        all.push_back({word(each.key),
                       Start::anywhere,
                       {{Class::key, literal(word(each.key)), colon_ahead()},
                        {Class::none, literal(":")},
                        {Class::choice, list_of(each.words), word_end()}}});
    }
    all.push_back({"properties", Start::anywhere, {{Class::key, any_word(keys()), colon_ahead()}}});
    const Stretch rule{Class::rule, any_word(rule_names()), word_end(), Gap::some_blanks};
    all.push_back({"allow and a rule", Start::opening, {word_at_blank("allow"), rule}});
    all.push_back({"allow", Start::opening, {word_at_blank("allow")}});
    all.push_back({"have", Start::opening, {word_at_blank("have")}});
    const Pattern quote_ahead = ahead(sequence({some_blanks(), literal("\"")}));
    all.push_back({"lot", Start::anywhere, {{Class::word, literal("lot"), quote_ahead}}});
}

void add_steps(std::vector<Piece>& all) {
    const Stretch brace{Class::none, literal("{")};
    const Stretch steps{Class::word, literal("steps"), word_end()};
    all.push_back(
        {"steps on one line", Start::anywhere, {steps, brace, words(Class::verb, verbs())}});
    const Pattern brace_ahead = ahead(sequence({blanks(), literal("{")}));
    all.push_back({"steps", Start::anywhere, {{Class::word, literal("steps"), brace_ahead}}});
    all.push_back({"a step", Start::opening, {words(Class::verb, verbs())}});
    const Stretch comma{Class::none, literal(",")};
    all.push_back({"what follows it", Start::anywhere, {comma, words(Class::verb, verbs())}});
}

void add_values(std::vector<Piece>& all) {
    all.push_back({"dates", Start::anywhere, {{Class::date, date()}}});
    const Stretch money{Class::unit, sign()};
    const Stretch figure{Class::number, number()};
    const Stretch in_unit{Class::unit, unit(), word_end()};
    const Stretch in_mark{Class::unit, unit_without_end()};
    const Stretch each{Class::unit, plus(sequence({per(), one_unit()})), word_end(), Gap::none};
    all.push_back({"money for each", Start::anywhere, {money, figure, each}});
    all.push_back({"money", Start::anywhere, {money, figure}});
    const Stretch second{Class::number, number(), sequence({}), Gap::some_blanks};
    // Only nano needs this one: it can't use a blank twice.
    all.push_back({"quantities in two units", Start::anywhere, {figure, in_unit, second, in_unit}});
    all.push_back({"quantities", Start::anywhere, {figure, in_unit}});
    all.push_back({"quantities before a word", Start::anywhere, {figure, in_mark}});
    all.push_back({"numbers", Start::anywhere, {figure}});
    const Pattern operators =
        any({literal("+-"), literal("±"), literal("+"), literal("-"), literal("*"), literal("/")});
    all.push_back({"operators", Start::anywhere, {{Class::operator_, operators}}});
    const Stretch of{Class::word, literal("of"), word_end()};
    const Stretch basis{Class::word, word_shape(), sequence({}), Gap::some_blanks};
    all.push_back({"what a load is of", Start::anywhere, {of, basis}});
    all.push_back({"words of the language in two",
                   Start::anywhere,
                   {words(Class::word, {"by volume", "closed cup", "open cup"})}});
    all.push_back(
        {"words of the language", Start::anywhere, {words(Class::word, joining_words())}});
    all.push_back({"names", Start::anywhere, {{Class::name, word_shape()}}});
}

} // namespace

std::vector<Piece> pieces() {
    std::vector<Piece> all;
    add_statements(all);
    add_properties(all);
    add_steps(all);
    add_values(all);
    return all;
}

TextShape text_shape() {
    const Pattern number = sequence({literal("u{"), plus(one_of("0-9A-Fa-f")), literal("}")});
    const Pattern known = any({number, literal("n"), literal("\""), literal("\\")});
    return {literal("\""), sequence({literal("\\"), known}), sequence({literal("\\"), any_char()})};
}

Pattern comment_shape() {
    return sequence({literal(comment_sign), star(any_char())});
}

Pattern word_shape() {
    return sequence({one_of("A-Za-z"), star(sequence({star(literal("-")), one_of("A-Za-z0-9_")}))});
}

} // namespace waxwright::editor
