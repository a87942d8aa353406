// Shapes that any block may have: texts, words, figures, ranges, loads, dates.
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "findings/nearest.hpp"
#include "findings/spelling.hpp"
#include "model/phrase_text.hpp"
#include "model/texts.hpp"
#include "model/value_reader.hpp"
#include "units/show.hpp"

namespace waxwright {

Value ValueReader::read_value(const PropertyInfo& info, At value, BlockKind block) {
    context_.wanted = info.dimension;
    // A name bound by `let` stands for the whole value, but not where a word or a name is wanted.
    const bool literal = info.shape == Shape::word || info.shape == Shape::words ||
                         info.shape == Shape::hazards || info.shape == Shape::ref ||
                         info.shape == Shape::one_of || info.shape == Shape::some_of;
    if (literal) return read_shape(info, value, block);
    const std::optional<At> real = evaluator_.resolved(value);
    if (!real) return {};
    const bool by_name = real->file != value.file || real->node != value.node;
    const std::optional<Span> outer =
        std::exchange(context_.used_at, by_name ? std::optional(span(value)) : std::nullopt);
    Value result = read_shape(info, *real, block);
    context_.used_at = outer;
    return result;
}

/// The same once it is known where the value is written.
Value ValueReader::read_shape(const PropertyInfo& info, At value, BlockKind block) {
    const Children phrases = children(value);
    const At last{value.file, phrases[phrases.size() - 1]};
    if (kind(last) == Kind::by_volume && info.shape != Shape::blend) {
        evaluator_.not_expected(last);
        return {};
    }
    switch (info.shape) {
    case Shape::text:
        return read_text(value);
    case Shape::word:
        return read_word(info, value);
    case Shape::words:
        return read_words(info, value);
    case Shape::texts:
        return read_texts(value);
    case Shape::hazards:
        return read_hazards(value);
    case Shape::limits:
        return read_limits(info, value);
    case Shape::factors:
        return read_factors(info, value);
    case Shape::cas:
        return read_cas(value);
    case Shape::figure:
    case Shape::share:
    case Shape::depth:
    case Shape::overhead:
        return read_figure(info, value);
    case Shape::number:
    case Shape::whole:
        return read_bare_number(info, value);
    case Shape::range:
        return read_range(info, value);
    case Shape::load:
    case Shape::kept:
        return read_load(info, value);
    case Shape::blend:
    case Shape::shares:
        return blends_.read_blend(info, value);
    case Shape::one_of:
    case Shape::some_of:
        return counts_.read_counts(info, value);
    case Shape::ref:
        return counts_.read_ref(info, value);
    case Shape::capacity:
        return read_capacity(info, value);
    case Shape::inside:
        return read_inside(info, value);
    case Shape::density:
    case Shape::densities:
        return read_densities(info, value);
    case Shape::flash:
        return read_flash(info, value);
    case Shape::cools:
        return read_cools(info, value);
    case Shape::bath:
        return read_bath(info, value);
    case Shape::wage:
        return read_wage(value);
    case Shape::fees:
        return read_fees(info, value);
    case Shape::date:
        return read_date(value);
    case Shape::packs:
        return read_packs(value, block);
    }
    return {};
}

/// A text with its escapes resolved. What has none stays where it is, in the source.
std::string_view ValueReader::stored_text(At node) {
    const std::string_view quoted = text(node);
    if (quoted.find('\\') == std::string_view::npos) return quoted.substr(1, quoted.size() - 2);
    if (const std::optional<BadEscape> bad = bad_escape(quoted)) {
        const auto begin = span(node).begin + static_cast<std::uint32_t>(bad->offset);
        const auto end = begin + static_cast<std::uint32_t>(bad->length);
        const Span at{node.file, begin, end};
        findings_.report(Rule::syntax, at,
                         fmt::format("`{}` is not an escape", model_.sources.slice(at)),
                         "the escapes are \\\" \\\\ \\n and \\u{1F56F}, a scalar value");
        return {};
    }
    model_.texts.push_back(decoded_text(quoted).value_or(std::string()));
    return model_.texts.back();
}

Value ValueReader::read_text(At value) {
    const std::optional<At> operand = evaluator_.only_operand(value, "a text");
    if (!operand) return {};
    if (kind(*operand) == Kind::text) return Text{stored_text(*operand)};
    const std::string_view words = text(*operand);
    const bool quotes = words.find('"') != std::string_view::npos;
    std::string quoted = fmt::format("\"{}\"", words);
    Finding& finding = findings_.report(
        Rule::syntax, span(*operand), fmt::format("a text is wanted here, not {}", words),
        quotes ? "write one text" : fmt::format("put it in quotes: {}", quoted));
    add_use(finding);
    // A name may stand for a text of its own, and a text ends with its line.
    if (!quotes && !context_.used_at && words.find_first_of("\\\r\n") == std::string_view::npos) {
        const bool name = kind(*operand) == Kind::name && is_kebab(words);
        finding.fixes.push_back(put(span(*operand), std::move(quoted), !name));
    }
    return {};
}

std::string_view ValueReader::pick_word(const PropertyInfo& info, At phrase) {
    const Children parts = children(phrase);
    const At operand{phrase.file, parts[0]};
    std::vector<std::string_view> choice;
    for (std::size_t at = 0; at < info.words.size();) {
        const std::size_t end = std::min(info.words.find(' ', at), info.words.size());
        choice.push_back(info.words.substr(at, end - at));
        if (parts.size() == 1 && choice.back() == text(operand)) return choice.back();
        at = end + 1;
    }
    const At wrong = parts.size() == 1 ? operand : At{phrase.file, parts[1]};
    const auto market = info.key == Key::sells_in ? market_meant(text(wrong)) : std::nullopt;
    std::string hint = market ? fmt::format("did you mean `{}`?", waxwright::word(*market))
                              : did_you_mean(text(wrong), choice);
    if (hint.empty()) hint = fmt::format("write one of: {}", fmt::join(choice, ", "));
    Finding& finding =
        findings_.report(kind(wrong) == Kind::name ? Rule::unknown_name : Rule::syntax, span(wrong),
                         fmt::format("`{}` is not one of the words for `{}` ({})", text(wrong),
                                     waxwright::word(info.key), fmt::join(choice, ", ")),
                         std::move(hint));
    if (market) {
        finding.fixes.push_back(put(span(wrong), std::string(waxwright::word(*market)), false));
    } else if (parts.size() == 1) {
        offer_nearest(finding, span(wrong), text(wrong), choice, Spelling::word);
    }
    return {};
}

Value ValueReader::read_word(const PropertyInfo& info, At value) {
    const std::optional<At> phrase = evaluator_.only_phrase(value);
    if (!phrase) return {};
    const std::string_view picked = pick_word(info, *phrase);
    if (picked.empty()) return {};
    return Word{find_choice(picked)};
}

Value ValueReader::read_words(const PropertyInfo& info, At value) {
    std::vector<std::string_view> picked;
    bool good = true;
    for (const NodeId phrase : children(value)) {
        picked.push_back(pick_word(info, {value.file, phrase}));
        good = good && !picked.back().empty();
    }
    if (!good) return {};
    const Slice slice{static_cast<std::uint32_t>(model_.words.size()),
                      static_cast<std::uint32_t>(picked.size())};
    model_.words.insert(model_.words.end(), picked.begin(), picked.end());
    return Words{slice};
}

Value ValueReader::read_texts(At value) {
    std::vector<std::string_view> texts;
    for (const NodeId phrase : children(value)) {
        const Children parts = children({value.file, phrase});
        const At operand{value.file, parts[0]};
        if (parts.size() > 1 || kind(operand) != Kind::text) {
            add_use(findings_.report(
                Rule::syntax, span({value.file, phrase}),
                fmt::format("a text is wanted here, not {}", text({value.file, phrase})),
                "write each in quotes, with commas between: \"B771\", \"CV-07\""));
            return {};
        }
        texts.push_back(stored_text(operand));
    }
    const auto first = static_cast<std::uint32_t>(model_.words.size());
    model_.words.insert(model_.words.end(), texts.begin(), texts.end());
    return Texts{{first, static_cast<std::uint32_t>(texts.size())}};
}

/// Within the row's own bounds; told otherwise.
bool ValueReader::within(const PropertyInfo& info, const Quantity& quantity, At at) {
    if (quantity.value >= info.from && quantity.value <= info.to) return true;
    findings_.report(Rule::out_of_range, span(at),
                     fmt::format("{} is surely not meant here", text(at)),
                     fmt::format("this has to be from {} to {}",
                                 show_in(info.from, quantity.unit, info.dimension),
                                 show_in(info.to, quantity.unit, info.dimension)));
    return false;
}

Value ValueReader::read_figure(const PropertyInfo& info, At value) {
    const std::optional<At> operand = evaluator_.only_operand(value, name_of(info.dimension));
    if (!operand) return {};
    const std::optional<Quantity> quantity = evaluator_.figure(*operand);
    if (!quantity) return {};
    const bool other = (info.shape == Shape::depth && quantity->dimension == dimension::mass) ||
                       (info.shape == Shape::overhead && quantity->dimension == dimension::ratio);
    if (!other && !evaluator_.has_dimension(*quantity, info.dimension, *operand)) return {};
    if (!evaluator_.in_range(*quantity, info.least, span(*operand))) return {};
    if (!within(info, *quantity, *operand)) return {};
    const bool across = info.key == Key::bore || info.key == Key::mouth;
    if (info.block == BlockKind::vessel &&
        !evaluator_.fits_a_vessel(*quantity, across, span(*operand))) {
        return {};
    }
    if (quantity->dimension == dimension::money &&
        !fits_minor_units(quantity->value, quantity->currency)) {
        findings_.report(Rule::out_of_range, span(*operand),
                         fmt::format("{} has more decimals than {} has", text(*operand),
                                     code_of(quantity->currency)));
        return {};
    }
    return Figure{*quantity, span(*operand)};
}

Value ValueReader::read_bare_number(const PropertyInfo& info, At value) {
    const std::optional<At> operand = evaluator_.only_operand(value, "a number");
    if (!operand) return {};
    const std::optional<Quantity> quantity =
        evaluator_.wanted(*operand, dimension::count, info.least);
    if (!quantity) return {};
    if (info.shape == Shape::whole && quantity->value != std::floor(quantity->value)) {
        findings_.report(Rule::out_of_range, span(*operand),
                         fmt::format("{} is no whole number", text(*operand)));
        return {};
    }
    if (info.shape == Shape::factors && !is_tenfold(info, quantity->value, *operand)) return {};
    return Figure{*quantity, span(*operand)};
}

/// `48 - 54 °C`: tells that it is a difference; nobody takes one number from another for a range.
bool ValueReader::dashed_range(At operand) {
    const Children terms = children(operand);
    if (kind(operand) != Kind::sum || terms.size() != 3) return false;
    const At low{operand.file, terms[0]}, minus{operand.file, terms[1]};
    const At high{operand.file, terms[2]};
    if (kind(low) != Kind::measure || kind(minus) != Kind::minus || kind(high) != Kind::measure) {
        return false;
    }
    add_use(findings_.report(
        Rule::syntax, span(operand),
        fmt::format("{} is a difference, and a range is wanted here", text(operand)),
        fmt::format("write {} to {}", text(low), text(high))));
    return true;
}

Value ValueReader::read_range(const PropertyInfo& info, At value) {
    const std::optional<At> phrase = evaluator_.only_phrase(value);
    if (!phrase) return {};
    const Children parts = children(*phrase);
    const At low_at{value.file, parts[0]};
    if (parts.size() == 1) {
        if (dashed_range(low_at)) return {};
        const std::optional<Quantity> only = evaluator_.wanted(low_at, info.dimension, info.least);
        if (!only) return {};
        return Range{*only, only->value, span(low_at), only->doubt};
    }
    const At tail{value.file, parts[1]};
    if (kind(tail) != Kind::to || parts.size() > 2) {
        evaluator_.not_expected(parts.size() > 2 ? At{value.file, parts[2]} : tail);
        return {};
    }
    const At high_at{value.file, tree(value.file).last_child(tail.node)};
    const std::optional<Quantity> high = evaluator_.wanted(high_at, info.dimension, info.least);
    std::optional<Quantity> low = evaluator_.figure(low_at);
    if (!low) return {};
    if (!high) {
        if (low->dimension != dimension::count)
            evaluator_.has_dimension(*low, info.dimension, low_at);
        return {};
    }
    if (low->dimension == dimension::count && high->unit != no_unit) {
        // `65 to 85 °C`: the first number is in the second's unit
        low->value = to_inside(low->value, high->unit);
        low->doubt *= unit(high->unit).factor;
        low->dimension = high->dimension;
        low->unit = high->unit;
    }
    if (!evaluator_.has_dimension(*low, info.dimension, low_at)) return {};
    if (!evaluator_.in_range(*low, info.least, span(low_at))) return {};
    if (low->value > high->value) {
        findings_.report(Rule::out_of_range, span(*phrase),
                         fmt::format("{} is more than {}", text(low_at), text(high_at)),
                         "write the lower one first");
        return {};
    }
    return Range{*low, high->value, span(*phrase), high->doubt};
}

Value ValueReader::read_date(At value) {
    const std::optional<At> operand = evaluator_.only_operand(value, "a date");
    if (!operand) return {};
    if (kind(*operand) != Kind::date) {
        add_use(findings_.report(Rule::unit_mismatch, span(*operand),
                                 fmt::format("a date is wanted here, not {}", text(*operand)),
                                 "write 2026-12-05, or 2026-12-05 09:00"));
        return {};
    }
    const std::optional<Date> date = read_date_text(*operand);
    if (!date) return {};
    return DateAt{*date, span(*operand)};
}

std::optional<Date> ValueReader::read_date_text(At node) {
    const std::optional<Date> date = waxwright::read_date(text(node));
    if (!date) {
        findings_.report(Rule::out_of_range, span(node), fmt::format("there is no {}", text(node)),
                         "a date is year-month-day, a time from 00:00 to 23:59");
    }
    return date;
}

} // namespace waxwright
