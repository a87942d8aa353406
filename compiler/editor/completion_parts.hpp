// The parts of a completion: each adds its items to what is asked for.
#pragma once

#include <functional>
#include <initializer_list>
#include <string_view>
#include <vector>

#include "editor/completion_items.hpp"

namespace waxwright {

/// What stands in a value or a step before the word at the cursor.
struct TypedWord {
    enum class What : std::uint8_t { number, word, sign } what;
    std::string_view text;
};
struct TypedWords {
    std::vector<TypedWord> all;  // without the word at the cursor
    std::size_t word_length = 0; // of that word, in bytes; a unit's signs belong to it
    bool blank = false;          // a blank stands before it

    bool empty() const { return all.empty(); }
    bool ends_in(TypedWord::What what) const { return !all.empty() && all.back().what == what; }
    bool ends_in(std::string_view word) const { return !all.empty() && all.back().text == word; }
    bool has(std::string_view word) const;
    /// A unit may be written here: a number and a blank, or a number and the unit's begin.
    bool wants_unit() const;
    bool ends_in_unit() const;
    bool ends_in_doubt() const; // `+- 0.2`: its unit may be left out
};
TypedWords tokens_of(std::string_view typed);
/// The words that may be names: of a list, what is in it already.
std::vector<std::string_view> names_in(const TypedWords& tokens);

/// The files whose names are visible in the file: itself first.
std::vector<FileId> files_seen_from(const Look& look, FileId file);

/// The block round the cursor as the model has it; no_block where its head is half typed.
BlockId block_here(const Completing& c);

struct NamesWanted {
    std::function<bool(BlockKind)> of;
    std::string_view before{};              // `rest `
    std::vector<std::string_view> except{}; // not once more
    bool but_own_head = false;              // not the block at whose head the cursor is
};
void add_names(Completing& c, const NamesWanted& wanted, Group group);
std::function<bool(BlockKind)> only(BlockKind kind);

/// The library's modules that a file does not use by itself.
void add_modules(Completing& c, Group group);
/// Recipe files that are known here, with their quotes or behind the opening one.
void add_files(Completing& c, bool quotes);

void add_words(Completing& c, std::initializer_list<std::string_view> words,
               Group group = Group::first);
/// Units behind a number; those that the file has most come first.
void add_units(Completing& c, const TypedWords& tokens, Dimension dimension,
               Group group = Group::first, std::string_view behind = {});
/// Currencies by their codes, `/h` behind them for a wage.
void add_money(Completing& c, std::string_view behind = {});
void add_lets(Completing& c, const PropertyInfo& info);
/// What the property's value may look like, in the units that the file has most. Where a supplier
/// or a burn says the figure, its numbers are left open.
void add_examples(Completing& c, const PropertyInfo& info);
/// One of these: its numbers, or the `…` in it, are places to fill in. Without snippets it is put
/// in as it is, up to the first `…`.
void add_example(Completing& c, Group group, std::string_view example, std::string_view words);
/// A step's example with its temperature on the scale that the file goes by, in whole degrees.
std::string step_example(const Completing& c, std::string_view example);
/// Behind a step's `to` or `at`, or before a time: figures that this recipe's materials ask for,
/// each with where it is from, and the one of the table.
void add_step_figures(Completing& c, const VerbInfo& verb, std::string_view named);
/// The verb's example with the first of those, where there is one: `pour at 60 °C` for what is
/// poured at 55 to 68 °C.
std::string with_own_figure(const Completing& c, const VerbInfo& verb, std::string_view named,
                            std::string example);
/// True if the file has more US units than metric ones.
bool is_in_us_units(const Asked& asked);

// A room each
void complete_statement(Completing& c); // of a file
void complete_member(Completing& c);    // of a block
void complete_step(Completing& c);
void complete_value(Completing& c, const PropertyInfo& info, std::string_view typed);
/// Of the shapes `blend` and `shares`, `load` and `kept`.
void complete_blend(Completing& c, const PropertyInfo& info, const TypedWords& tokens);
void complete_load(Completing& c, const PropertyInfo& info, const TypedWords& tokens);
void complete_let(Completing& c, std::string_view typed);

/// What people of the trade write on the cursor's line, in the language's words.
void complete_phrases(Completing& c);

} // namespace waxwright
