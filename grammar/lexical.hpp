// The words of the language: blanks, comments, names, numbers, units, texts, dates.
// No actions here; read top to bottom. Included by compiler/syntax/parse.cpp and the grammar test.
#pragma once

#include <tao/pegtl.hpp>

namespace waxwright::grammar {

using namespace tao::pegtl; // NOLINT: the grammar reads as PEGTL's own words

// Blanks and line ends
struct blanks : star<blank> {};
struct some_blanks : plus<blank> {};
struct line_end : sor<string<'\r', '\n'>, one<'\n'>, one<'\r'>> {};
struct comment : seq<one<'#'>, star<not_one<'\r', '\n'>>> {};
struct blank_line : seq<blanks, opt<comment>, line_end> {};
struct mark : string<'\xEF', '\xBB', '\xBF'> {};

// Words. A word ends where a letter, a digit or a joined hyphen can't go on.
struct word_char : ranges<'a', 'z', 'A', 'Z', '0', '9', '_'> {};
struct joint : seq<plus<one<'-'>>, at<word_char>> {}; // `a--b` is one word, and no good name
struct word_end : not_at<sor<word_char, joint>> {};
struct word : seq<ranges<'a', 'z', 'A', 'Z'>, star<sor<word_char, joint>>> {};
template <char... letters>
struct key_word : seq<one<letters>..., word_end> {}; // not string<>: it fails on the first letter

// clang-format off
struct word_to      : key_word<'t', 'o'> {};
struct word_at      : key_word<'a', 't'> {};
struct word_of      : key_word<'o', 'f'> {};
struct word_for     : key_word<'f', 'o', 'r'> {};
struct word_per     : key_word<'p', 'e', 'r'> {};
struct word_by      : key_word<'b', 'y'> {};
struct word_volume  : key_word<'v', 'o', 'l', 'u', 'm', 'e'> {};
struct word_over    : key_word<'o', 'v', 'e', 'r'> {};
struct word_with    : key_word<'w', 'i', 't', 'h'> {};
struct word_in_room : key_word<'i', 'n', '-', 'r', 'o', 'o', 'm'> {};
struct word_across  : key_word<'a', 'c', 'r', 'o', 's', 's'> {};
struct word_deep    : key_word<'d', 'e', 'e', 'p'> {};
struct word_closed  : key_word<'c', 'l', 'o', 's', 'e', 'd'> {};
struct word_open    : key_word<'o', 'p', 'e', 'n'> {};
struct word_cup     : key_word<'c', 'u', 'p'> {};
struct word_rest    : key_word<'r', 'e', 's', 't'> {};
struct word_because : key_word<'b', 'e', 'c', 'a', 'u', 's', 'e'> {};
struct word_allow   : key_word<'a', 'l', 'l', 'o', 'w'> {};
struct word_pour    : key_word<'p', 'o', 'u', 'r'> {};
struct word_have    : key_word<'h', 'a', 'v', 'e'> {};
struct word_lot     : key_word<'l', 'o', 't'> {};
struct word_steps   : key_word<'s', 't', 'e', 'p', 's'> {};
struct word_like    : key_word<'l', 'i', 'k', 'e'> {};
struct word_let     : key_word<'l', 'e', 't'> {};
struct word_use     : key_word<'u', 's', 'e'> {};
struct word_language : key_word<'l', 'a', 'n', 'g', 'u', 'a', 'g', 'e'> {};
struct word_currency : key_word<'c', 'u', 'r', 'r', 'e', 'n', 'c', 'y'> {};
// clang-format on

/// Words that join the parts of a value and so can be neither unit nor name in it.
struct joining_word
    : sor<word_to, word_at, word_of, word_for, word_per, word_by, word_over, word_with,
          word_in_room, word_across, word_deep, word_because, seq<word_lot, some_blanks, one<'"'>>,
          seq<sor<word_closed, word_open>, some_blanks, word_cup>> {};

struct key_start : seq<word, blanks, one<':'>> {};
struct steps_start : seq<word_steps, blanks, opt<one<':', '='>, blanks>, one<'{'>> {};
struct quoted : seq<one<'"'>, star<not_one<'"', '\r', '\n'>>, one<'"'>> {};
struct opening : seq<star<sor<quoted, not_one<'"', '#', '{', '}', '\r', '\n'>>>, one<'{'>> {};
/// A line that opens a block, of whatever kind and however misspelt.
struct block_start : seq<not_at<steps_start>, word, not_at<seq<blanks, one<':'>>>, opening> {};
/// The same within a block, where `word {` is no block of its own: `steps`, misspelt.
struct next_block : seq<not_at<steps_start>, word, not_at<seq<blanks, one<':', '{'>>>, opening> {};
/// What can only be the start of a new line: a value never goes on over it.
struct line_start : sor<key_start, one<'}'>, steps_start, block_start,
                        seq<sor<word_allow, word_let, word_use>, some_blanks>, eof> {};

/// Room inside a value: after `,` and `+`, and within parentheses, the line may end.
struct line_gap
    : seq<blanks, opt<comment>, line_end, star<blank_line>, blanks, not_at<line_start>> {};
struct gap : sor<line_gap, blanks> {};
struct name : seq<not_at<joining_word>, word> {};

// Numbers: 14.5, 3/4, 1 1/2; a minus belongs to the number when nothing stands between.
struct digits : plus<digit> {};
struct fraction : seq<digits, one<'/'>, digits> {};
struct mixed : seq<digits, some_blanks, fraction, not_at<one<'.'>>> {};
struct decimal : seq<digits, opt<one<'.'>, digits>> {};
struct number : seq<opt<one<'-'>>, sor<mixed, seq<fraction, not_at<one<'.'>>>, decimal>> {};
/// `2,5` and `1,000`: a comma inside a number, told with a hint of its own.
struct number_with_comma : seq<digits, one<','>, digit> {};
struct number_from_point : seq<one<'.'>, digit> {};
/// `2e9`: what follows the number.
struct exponent_mark : seq<one<'e', 'E'>, opt<one<'+', '-'>>, digits, not_at<word_char>> {};

// Units: any word, with a degree sign before or behind it; the model knows which exist.
struct degree : seq<one<'\xC2'>, one<'\xB0', '\xBA'>> {};
struct degree_word : sor<seq<one<'\xE2'>, one<'\x84'>, one<'\x83', '\x89'>>,
                         seq<degree, opt<ranges<'a', 'z', 'A', 'Z'>>, word_end>,
                         seq<ranges<'a', 'z', 'A', 'Z'>, degree>> {};
struct fluid_ounce : seq<one<'f'>, one<'l'>, some_blanks, key_word<'o', 'z'>> {};
struct imperial
    : seq<one<'i'>, one<'m'>, one<'p'>, some_blanks,
          sor<fluid_ounce, key_word<'p', 'i', 'n', 't'>, key_word<'p', 'i', 'n', 't', 's'>>> {};
struct unit_name : seq<not_at<joining_word>, word> {};
struct unit_word : sor<one<'%'>, degree_word, imperial, fluid_ounce, unit_name> {};
struct per : sor<seq<one<'/'>, at<unit_word>>, seq<some_blanks, word_per, some_blanks>> {};
struct unit : list<unit_word, per> {};
struct cash_unit : plus<per, unit_word> {};

// Money signs: the dollar, the euro, the pound
struct sign
    : sor<one<'$'>, seq<one<'\xE2'>, one<'\x82'>, one<'\xAC'>>, seq<one<'\xC2'>, one<'\xA3'>>> {};
struct plus_minus : sor<seq<one<'+'>, one<'-'>>, seq<one<'\xC2'>, one<'\xB1'>>> {};

// Texts in double quotes; the escapes are read, and judged, by the model.
struct text_char : sor<seq<one<'\\'>, not_one<'\r', '\n'>>, not_one<'"', '\\', '\r', '\n'>> {};
struct text_close : one<'"'> {};
struct text : seq<one<'"'>, star<text_char>, must<text_close>> {};

// Dates: 2026-12-05, 2026-12-05 09:00, 2026-12-05T09:00
struct date_day : seq<rep<4, digit>, one<'-'>, rep<2, digit>, one<'-'>, rep<2, digit>> {};
struct date_time : seq<rep<2, digit>, one<':'>, rep<2, digit>> {};
struct date
    : seq<date_day, opt<sor<one<'T'>, one<' '>>, date_time>, not_at<sor<word_char, one<':'>>>> {};

} // namespace waxwright::grammar
