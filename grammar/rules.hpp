// The language itself: values, steps, blocks, statements. One rule a line in reading order, no
// actions. A rule behind must<> has its words in errors.hpp; what happens after a mistake is in
// recovery.hpp.
#pragma once

#include "grammar/lexical.hpp"
#include "grammar/recovery.hpp"

namespace waxwright::grammar {

// Figures: 14.5 g, 2 lb 3 oz, $7.25, 0.92 g/ml +- 0.02
struct comma_in_number : failure {};
struct point_first : failure {};
struct bad_number : sor<seq<at<number_with_comma>, must<comma_in_number>>,
                        seq<at<number_from_point>, must<point_first>>> {};
struct no_exponent : not_at<exponent_mark> {};
struct measure : sor<bad_number, seq<number, must<no_exponent>, opt<blanks, unit>>> {};
struct compound : list<measure, some_blanks> {};
struct cash_number : sor<bad_number, number> {};
struct cash : seq<sign, blanks, must<cash_number>, opt<cash_unit>> {};
struct amount : sor<cash, compound> {};
struct doubt_figure : amount {};
struct doubt : seq<amount, opt<blanks, plus_minus, blanks, must<doubt_figure>>> {};
struct named : seq<name, opt<blanks, plus_minus, blanks, must<doubt_figure>>> {};

// Operands: a figure, a name, a text, a blend's item, or a sum of such
template <typename Room>
struct sum;
struct group_operand : seq<sum<gap>> {};
struct group_close : one<')'> {};
struct group : seq<one<'('>, gap, must<group_operand>, gap, must<group_close>> {};
struct rest_name : seq<name> {};
struct rest : seq<word_rest, blanks, must<rest_name>> {};
struct item : seq<sor<group, doubt>, opt<blanks, name>> {};
struct factor : sor<rest, date, item, text, named> {};
struct factor_needed : factor {};

// An operator makes a node, so what tells it from a sign belongs to its own rule: a rule that makes
// no node does not take back those made within it.
struct operator_end : at<sor<blank, line_end, one<'#'>, eof>> {};
struct plus_sign : seq<one<'+'>, operator_end> {};
struct minus_sign : seq<one<'-'>, operator_end> {};
struct times_sign : seq<one<'*'>, operator_end> {};
struct divided_sign : seq<one<'/'>, operator_end> {};
template <typename Room>
struct times_or_divided : seq<Room, sor<times_sign, divided_sign>, gap> {};
template <typename Room>
struct plus_or_minus : seq<Room, sor<plus_sign, minus_sign>, gap> {};
template <typename Room>
struct product : seq<factor, star<times_or_divided<Room>, must<factor_needed>>> {};
template <typename Room>
struct product_needed : seq<product<Room>> {};
template <typename Room>
struct sum : seq<product<Room>, star<plus_or_minus<Room>, must<product_needed<Room>>>> {};
struct operand : seq<sum<blanks>> {};
struct operand_needed : seq<operand> {};

// What may stand behind an operand: 65 to 85 °C, 0.9 g/ml at 25 °C, 7% of wax, 10 lb for $38.00
template <typename Word>
struct tail_word : seq<some_blanks, Word, some_blanks> {};
struct basis : seq<name> {};
struct to : seq<word_to, blanks, must<operand_needed>> {};
struct at_ : seq<word_at, blanks, must<operand_needed>> {};
struct of_ : seq<word_of, blanks, must<basis>> {};
struct for_ : seq<word_for, blanks, must<operand_needed>> {};
struct over : seq<word_over, blanks, must<operand_needed>> {};
struct with : seq<word_with, blanks, must<operand_needed>> {};
struct in_room : seq<word_in_room, blanks, must<operand_needed>> {};
struct across : word_across {};
struct deep : word_deep {};
struct closed_cup : seq<word_closed, some_blanks, word_cup> {};
struct open_cup : seq<word_open, some_blanks, word_cup> {};
struct tail : sor<to, at_, of_, for_, over, with, in_room, across, deep, closed_cup, open_cup> {};

// A value: one phrase, or several with commas
struct phrase : seq<operand, star<some_blanks, tail>> {};
struct phrase_needed : seq<phrase> {};
struct comma : seq<blanks, one<','>, not_at<seq<blanks, key_start>>, gap> {};
struct by_volume : seq<word_by, some_blanks, word_volume> {};
struct value : seq<phrase, star<comma, must<phrase_needed>>, opt<some_blanks, by_volume>> {};
struct value_needed : seq<value> {};

// The end of a line: its line end, a block's `}` behind it, or `, key:` in a block on one line
struct line_close : seq<blanks, opt<comment>, sor<line_end, eof>> {};
struct plus_ends_line : failure {};
/// A sum that goes on with a `+` at the head of the next line: told there, and the sum is broken.
struct plus_below : seq<blanks, opt<comment>, line_end, star<blank_line>, blanks, at<plus_sign>,
                        must<plus_ends_line>> {};
struct member_close
    : sor<line_close, seq<blanks, at<one<'}'>>>, seq<blanks, one<','>, blanks, at<key_start>>> {};
struct statement_close : line_close {};

// Steps
struct because_text : seq<text> {};
struct because_blank : some_blanks {};
struct because : seq<word_because, must<because_blank>, must<because_text>> {};
struct clause_part : sor<to, at_, for_, seq<not_at<joining_word>, operand>> {};
struct verb : seq<word> {};
struct clause : seq<verb, star<some_blanks, clause_part>> {};
struct clause_needed : seq<clause> {};
struct step_needed : seq<clause> {};
struct step : seq<must<step_needed>, opt<blanks, one<','>, gap, must<clause_needed>>,
                  opt<some_blanks, because>, must<member_close>> {};
/// `allow` among the steps: one mistake, and the steps go on behind it.
struct allow_out_of_steps : failure {};
struct stray_allow : seq<at<allow_in_steps>, must<allow_out_of_steps>> {};
struct steps_end
    : seq<blanks, sor<seq<not_at<brace_in_steps>, one<'}'>>, eof, key_start, next_block,
                      seq<not_at<allow_in_steps>, word_allow, some_blanks>>> {};
struct step_line : sor<blank_line, seq<blanks, stray_brace>,
                       seq<blanks, not_at<eof>, sor<recoverable<sor<stray_allow, step>>, broken>>> {
};
struct steps
    : seq<word_steps, blanks,
          sor<one<'{'>, seq<unopened_colon, blanks, opt<one<'{'>>>,
              seq<not_at<one<':', '='>>, unopened>>,
          star<not_at<steps_end>, step_line>, blanks, sor<one<'}'>, unclosed>, opt<member_close>> {
};

// Lines of a block
struct lot_text : seq<text> {};
struct key : seq<word> {};
struct key_colon : one<':'> {};
struct property : seq<key, blanks, must<key_colon>, blanks, must<value_needed>, opt<plus_below>,
                      must<member_close>> {};
struct allow_rule : seq<word> {};
struct allow_because : seq<because> {};
struct allow : seq<word_allow, blanks, must<allow_rule>, must<some_blanks_needed>,
                   must<allow_because>, must<member_close>> {};
struct pour_needed : seq<value> {};
struct pour : seq<word_pour, blanks, must<pour_needed>, must<member_close>> {};
struct lot : seq<word_lot, blanks, must<lot_text>> {};
struct have_needed : seq<value> {};
struct have : seq<word_have, blanks, must<have_needed>, opt<some_blanks, lot>, must<member_close>> {
};
struct member_needed : failure {};
struct member : sor<steps, allow, pour, have, property, must<member_needed>> {};
struct block_end : seq<blanks, sor<one<'}'>, eof, next_block>> {};
struct block_line
    : sor<blank_line, seq<blanks, not_at<eof>, sor<recoverable<member>, broken_nest, broken>>> {};

// Blocks
struct block_kind : word {};
struct head_name : seq<not_at<word_like>, name> {};
struct head_like : seq<name> {};
struct head_open : at<one<'{'>> {};
struct head
    : seq<block_kind, blanks, must<head_name>,
          opt<some_blanks, word_like, some_blanks, must<head_like>>, blanks, must<head_open>> {};
/// A head that lost its `{`: only where the next line can't be anything but a block's.
struct bare_head : seq<not_at<sor<word_language, word_use, word_let, word_currency>>, block_kind,
                       some_blanks, name, opt<some_blanks, word_like, some_blanks, name>,
                       at<seq<blank_line, star<blank_line>, blanks, sor<one<'{'>, orphan_start>>>> {
};
struct block_close : sor<line_close, stray_after> {};
struct block_body
    : seq<star<not_at<block_end>, block_line>, blanks, sor<seq<one<'}'>, block_close>, unclosed>> {
};
struct full_block : seq<at<block_start>, sor<recoverable<head>, broken_head>, one<'{'>> {};
struct bare_block : seq<bare_head, unopened, opt<star<blank_line>, blanks, one<'{'>>> {};
struct block : seq<sor<full_block, bare_block>, block_body> {};

// Statements of a file
struct language_number : sor<bad_number, number> {};
struct language : seq<word_language, blanks, must<language_number>, must<statement_close>> {};
struct use_item : sor<text, name> {};
struct use_comma : seq<blanks, one<','>, gap> {};
struct use : seq<word_use, blanks, must<use_item>, star<use_comma, must<use_item>>,
                 must<statement_close>> {};
struct currency_code : word {};
struct currency : seq<word_currency, blanks, must<currency_code>, must<statement_close>> {};
struct let_name : seq<name> {};
struct let_equals : one<'='> {};
struct let : seq<word_let, some_blanks, must<let_name>, blanks, must<let_equals>, blanks,
                 must<value_needed>, opt<plus_below>, must<statement_close>> {};
struct stray : seq<one<'}'>, line_close> {};
struct statement_needed : failure {};
struct statement
    : sor<language, use, currency, let, orphans, block, stray, must<statement_needed>> {};
struct last_line : seq<sor<seq<some_blanks, opt<comment>>, comment>, eof> {};
struct line : sor<blank_line, last_line, seq<blanks, sor<recoverable<statement>, broken>>> {};
struct file : seq<opt<mark>, star<not_at<eof>, line>> {};

} // namespace waxwright::grammar
