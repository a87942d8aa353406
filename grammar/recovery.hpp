// What happens after a mistake. The finding has been told by then; these rules only see to it that
// the next line is read as if nothing had happened. Each eats at least one byte, or marks a place
// inside a rule that does.
#pragma once

#include <tao/pegtl/contrib/analyze_traits.hpp>

#include "grammar/lexical.hpp"

namespace waxwright::grammar {

/// Thrown by the parser's control once a mistake has been recorded; nothing else is caught.
struct Broken {};

/// Tries a line; a mistake in it ends it here and the next alternative takes over.
template <typename Rule>
struct recoverable : try_catch_type<Broken, Rule> {};

/// A `}` that ends its line closes a block even when the line before it is broken.
struct closing_end : seq<one<'}'>, blanks, opt<comment>, sor<line_end, eof>> {};

/// The rest of a broken line: everything to the end of the line in which the mistake was found
/// (a value in parentheses may run over several), but not a `}` that closes the block.
struct broken_rest {
    using rule_t = broken_rest;
    using subs_t = empty_list;

    template <apply_mode, rewind_mode, template <typename...> class, template <typename...> class,
              typename Input, typename State>
    static bool match(Input& in, State& state) {
        if (in.empty()) return false;
        const char* at = in.current();
        const char* const end = in.end();
        const char* const mistake = state.mistake(); // where the last one was recorded
        const auto ends_line = [](char c) { return c == '\n' || c == '\r'; };
        const auto closes = [&](const char* p) {
            if (*p != '}') return false;
            for (++p; p != end && (*p == ' ' || *p == '\t'); ++p) {
            }
            return p == end || ends_line(*p) || *p == '#';
        };
        do {
            ++at;
        } while (at != end && (at < mistake || !(ends_line(*at) || closes(at))));
        in.bump(static_cast<std::size_t>(at - in.current()));
        return true;
    }
};
/// A line that goes on with the sum of a broken one.
struct plus_line : seq<blanks, one<'+'>, blank, star<not_one<'\r', '\n', '}'>>, opt<line_end>> {};
struct broken : seq<broken_rest, opt<blanks, opt<comment>, line_end, star<plus_line>>> {};

/// A head that can't be read, up to its `{`: the block's lines still belong together.
struct broken_head : plus<not_one<'{', '\r', '\n'>> {};
/// Stands where a `{` or a `}` should; the parser tells it from the tree.
struct unopened : success {};
struct unopened_colon : one<':', '='> {};
struct unclosed : success {};
/// What stands behind a block's `}` on its line.
struct stray_after : plus<not_one<'\r', '\n'>> {};
struct some_blanks_needed : some_blanks {};

/// A whole line, whatever is in it.
struct any_line : sor<seq<star<not_one<'\r', '\n'>>, line_end>, plus<not_one<'\r', '\n'>>> {};
/// A block within a block that is not `steps`: one mistake, up to its `}`.
struct nest_start : seq<word, blanks, opt<one<':'>, blanks>, one<'{'>> {};
struct nest_end : seq<blanks, sor<one<'}'>, next_block, eof>> {};
struct nest_line : star<not_one<'}', '\r', '\n'>> {};
struct nest_lines : seq<nest_line, line_end, star<not_at<nest_end>, any_line>, blanks> {};
struct broken_nest : seq<at<nest_start>, word, sor<nest_lines, nest_line>, opt<one<'}'>>,
                         opt<blanks, opt<comment>, line_end>> {};

/// An `allow` with steps behind it, or with the end of the steps and then more of the recipe: it
/// stands among the steps. Otherwise they were not closed before it.
struct allow_line : seq<blanks, word_allow, some_blanks, any_line, star<blank_line>> {};
struct more_of_recipe : seq<blanks, sor<one<'}'>, key_start, seq<word_allow, some_blanks>>> {};
struct closed_behind
    : seq<one<'}'>, blanks, opt<comment>, line_end, star<blank_line>, more_of_recipe> {};
struct step_behind
    : not_at<sor<one<'}'>, eof, key_start, next_block, steps_start, seq<word_allow, some_blanks>>> {
};
struct allow_in_steps
    : seq<allow_line, rep_opt<8, allow_line>, blanks, sor<closed_behind, step_behind>> {};

/// A `}` behind a step or between two, where steps go on below and have a `}` of their own with
/// more of the recipe behind: it is one too many. So many lines are looked at, and no more.
struct line_of_steps : seq<blanks, step_behind, any_line> {};
struct brace_in_steps
    : seq<one<'}'>, blanks, opt<comment>, line_end, star<blank_line>, line_of_steps,
          rep_opt<40, sor<blank_line, line_of_steps>>, blanks, closed_behind> {};
struct stray_brace : seq<at<brace_in_steps>, one<'}'>> {};

/// Lines that only a block can have, outside any: one mistake (a `}` too many), told once.
struct orphan_start
    : sor<key_start, steps_start, seq<sor<word_allow, word_pour, word_have>, some_blanks>> {};
struct orphan_end
    : seq<blanks, sor<block_start, eof,
                      seq<sor<word_language, word_use, word_let, word_currency>, some_blanks>>> {};
struct orphans : seq<at<orphan_start>, any_line, star<not_at<orphan_end>, any_line>> {};

} // namespace waxwright::grammar

namespace tao::pegtl {
template <typename Name>
struct analyze_traits<Name, waxwright::grammar::broken_rest> : analyze_any_traits<> {};
} // namespace tao::pegtl
