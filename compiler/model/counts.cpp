// Names of blocks, and whole numbers of them: 6 dune-tumbler, 1 cork-lid + 1 gift-box.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "model/count_reader.hpp"
#include "model/phrase_text.hpp"

namespace waxwright {

namespace {

/// What comes out of leftovers, and what is put where they belong, has a line to go to.
std::string hint_on_kind(std::string_view name, BlockKind kind, BlockKind refers) {
    if (kind == BlockKind::leftover)
        return fmt::format("leftovers have a line of their own in a recipe, a share of the whole "
                           "candle: `leftovers: 20% {}`",
                           name);
    if (refers == BlockKind::leftover && kind == BlockKind::recipe)
        return fmt::format("what is left of it has a block of its own: `leftover {0}-ends {{`, and "
                           "in it `of: {0}`",
                           name);
    if (refers == BlockKind::vessel)
        return "write the name of a vessel: one of the library, or of a `vessel` block of your own "
               "with what it holds";
    return fmt::format("write the name of {}", with_article(refers));
}

} // namespace

bool CountReader::of_kind(BlockId id, BlockKind refers, Span at) {
    if (model_.blocks[id].kind == refers) {
        blocks_.ensure(id);
        return true;
    }
    add_use(
        findings_.report(Rule::wrong_kind, at,
                         fmt::format("`{}` is {}, and {} is wanted here", model_.name(id),
                                     with_article(model_.blocks[id].kind), with_article(refers)),
                         hint_on_kind(model_.name(id), model_.blocks[id].kind, refers)));
    return false;
}

/// The block a name stands for, if it is of the kind that is wanted.
std::optional<BlockId> CountReader::block_named(FileId file, std::string_view name, Span at,
                                                BlockKind refers) {
    const Symbol* symbol = names_.find(file, name);
    if (symbol == nullptr) {
        lookup_.unknown_name(file, name, at, refers);
        return std::nullopt;
    }
    names_.found(at, *symbol);
    if (symbol->what == Symbol::What::poisoned) return std::nullopt;
    if (symbol->what == Symbol::What::let) {
        names_.lets[symbol->id].used = true;
        findings_.report(
            Rule::wrong_kind, at,
            fmt::format("`{}` is a `let`, and {} is wanted here", name, with_article(refers)));
        return std::nullopt;
    }
    if (!of_kind(symbol->id, refers, at)) return std::nullopt;
    return symbol->id;
}

Value CountReader::read_ref(const PropertyInfo& info, At value) {
    const std::optional<At> operand = evaluator_.only_operand(value, with_article(info.refers));
    if (!operand) return {};
    if (kind(*operand) != Kind::name) {
        findings_.report(Rule::syntax, span(*operand),
                         fmt::format("the name of {} is wanted here, not {}",
                                     with_article(info.refers), text(*operand)));
        return {};
    }
    const auto block = block_named(operand->file, text(*operand), span(*operand), info.refers);
    if (!block) return {};
    return Ref{*block, span(*operand)};
}

/// What to do with a second kind of a thing where one can be.
std::string CountReader::one_each(const PropertyInfo& info, const Count& second) const {
    if (info.key != Key::makes) return "take the others away";
    if (info.block == BlockKind::batch) return "write a line for each: `pour 24 tide-line`";
    const std::string_view text = model_.sources[second.at.file].text();
    std::string_view name = block_around(text, second.at.begin).lines; // `recipe low-water {`
    name.remove_prefix(std::min(name.find(' '), name.size()));
    name = trimmed(name);
    name = name.substr(0, name.find_first_of(" \t{\n"));
    if (!is_kebab(name)) name = "my-recipe";
    return fmt::format("write a recipe for each vessel: here the first, and another like it, "
                       "`recipe {0}-2 like {0} {{ makes: {1} }}`; a `batch` pours both: `pour … "
                       "{0}` and `pour … {0}-2`, on a line each",
                       name, model_.sources.slice(second.at));
}

Value CountReader::read_counts(const PropertyInfo& info, At value) {
    std::vector<Count> counts;
    bool good = true;
    const auto take = [&](At operand) {
        const std::optional<Count> count = read_count(operand, info.refers);
        good = good && count;
        if (count) counts.push_back(*count);
    };
    for (const NodeId child : children(value)) {
        const Children parts = children({value.file, child});
        if (parts.size() > 1) {
            evaluator_.not_expected({value.file, parts[1]});
            return {};
        }
        const At operand{value.file, parts[0]};
        if (kind(operand) != Kind::sum) {
            take(operand);
            continue;
        }
        for (const NodeId term : children(operand)) {
            const Kind term_kind = tree(value.file).kind(term);
            if (term_kind == Kind::minus) {
                evaluator_.not_expected({value.file, term});
                return {};
            }
            if (term_kind != Kind::plus) take({value.file, term});
        }
    }
    if (!good) return {};
    if (info.shape == Shape::one_of && counts.size() > 1) {
        findings_.report(Rule::syntax, counts[1].at,
                         fmt::format("only one kind of {} can be here", word(info.refers)),
                         one_each(info, counts[1]));
        return {};
    }
    const Slice slice{static_cast<std::uint32_t>(model_.counts.size()),
                      static_cast<std::uint32_t>(counts.size())};
    model_.counts.insert(model_.counts.end(), counts.begin(), counts.end());
    return Counts{slice};
}

/// `my jar` of `4 my jar`: the word behind the number, which is no unit, and the next.
std::optional<Span> CountReader::two_words(At operand) {
    if (kind(operand) != Kind::item) return std::nullopt;
    const Children parts = children(operand);
    const At amount{operand.file, parts[0]};
    if (kind(amount) != Kind::measure || children(amount).size() < 2) return std::nullopt;
    const At word{operand.file, children(amount)[1]};
    if (!std::holds_alternative<UnknownUnit>(read_unit(text(word)))) return std::nullopt;
    return Span{operand.file, span(word).begin, span({operand.file, parts[1]}).end};
}

/// `6 dune-tumbler`, `dune-tumbler` (one of it) or `(2 * 3) dune-tumbler`.
std::optional<Count> CountReader::read_count(At operand, BlockKind refers) {
    const Span at = span(operand);
    std::optional<Quantity> number = Quantity{.value = 1};
    std::optional<BlockId> block;
    const Children parts = children(operand);
    if (kind(operand) == Kind::name) {
        block = block_named(operand.file, text(operand), at, refers);
    } else if (kind(operand) == Kind::measure && parts.size() == 2) {
        const At name{operand.file, parts[1]};
        if (find_unit(text(name)) != no_unit) {
            // Somebody may have named a block so, which has been told.
            if (names_.find(name.file, text(name)) != nullptr) return std::nullopt;
            findings_.report(Rule::unit_mismatch, at,
                             fmt::format("{} is a quantity, and a number of {}s is wanted here",
                                         text(operand), word(refers)),
                             fmt::format("write a whole number and the {}'s name", word(refers)));
            return std::nullopt;
        }
        number->value = read_number(text({operand.file, parts[0]})).value_or(-1);
        block = block_named(name.file, text(name), span(name), refers);
    } else if (const std::optional<Span> two = two_words(operand)) {
        const std::string joined = joined_by_hyphens(model_.sources.slice(*two));
        findings_.report(
            Rule::syntax, *two, fmt::format("`{}` can't be a name", model_.sources.slice(*two)),
            fmt::format("a name is one word, its parts joined by hyphens: `{}`", joined));
        return std::nullopt;
    } else if (kind(operand) == Kind::item) {
        const At name{operand.file, parts[1]};
        number = evaluator_.wanted({operand.file, parts[0]}, dimension::count, Least::any);
        block = block_named(name.file, text(name), span(name), refers);
    } else {
        findings_.report(Rule::syntax, at,
                         fmt::format("the name of {} is missing here", with_article(refers)),
                         fmt::format("write a whole number and the {}'s name", word(refers)));
        return std::nullopt;
    }
    if (!number || !block) return std::nullopt;
    if (!(number->value >= 1 && number->value <= 1e9)) {
        findings_.report(Rule::out_of_range, at,
                         fmt::format("`{}` is not a number of {}s that can be made", text(operand),
                                     word(refers)),
                         "write a whole number, 1 or more");
        return std::nullopt;
    }
    if (number->value != std::floor(number->value)) {
        findings_.report(
            Rule::out_of_range, at,
            fmt::format("`{}` is not a whole number of {}s", text(operand), word(refers)),
            "write how many whole ones");
        return std::nullopt;
    }
    return Count{*block, static_cast<std::int64_t>(number->value), at};
}

} // namespace waxwright
