// The nodes of a value: its only phrase, its only operand, and what a name that is bound by `let`
// stands for.
#include <algorithm>

#include <fmt/format.h>

#include "model/evaluator.hpp"
#include "syntax/parse.hpp"

namespace waxwright {

void Evaluator::not_expected(At node) {
    add_use(findings_.report(Rule::syntax, span(node),
                             fmt::format("`{}` does not belong here", text(node)), "take it away"));
}

std::optional<At> Evaluator::only_phrase(At value) {
    const Children phrases = children(value);
    if (phrases.size() > 1) {
        not_expected({value.file, phrases[1]});
        return std::nullopt;
    }
    return At{value.file, phrases[0]};
}

std::optional<At> Evaluator::only_operand(At value, std::string_view wanted_thing) {
    const std::optional<At> phrase = only_phrase(value);
    if (!phrase) return std::nullopt;
    const Children parts = children(*phrase);
    if (parts.size() == 1) return At{value.file, parts[0]};
    const At tail{value.file, parts[1]};
    add_use(findings_.report(Rule::syntax, span(tail),
                             fmt::format("{} is wanted here, and `{}` does not belong after it",
                                         wanted_thing, text(tail))));
    return std::nullopt;
}

std::optional<At> Evaluator::resolved(At value) {
    std::vector<LetId> path;
    for (;;) {
        const Children phrases = children(value);
        if (phrases.size() != 1) return value;
        const Children parts = children({value.file, phrases[0]});
        if (parts.size() != 1) return value;
        const At name{value.file, parts[0]};
        if (kind(name) != Kind::name) return value;
        const Symbol* symbol = names_.find(value.file, text(name));
        if (symbol == nullptr || symbol->what != Symbol::What::let) return value;
        names_.found(span(name), *symbol);
        Let& let = names_.lets[symbol->id];
        let.used = true;
        if (let.looped) return std::nullopt;
        if (std::find(path.begin(), path.end(), symbol->id) != path.end()) {
            report_let_loop(symbol->id, path);
            return std::nullopt;
        }
        if (path.size() >= deepest_nesting) {
            findings_.report(
                Rule::nesting, let.name_at,
                fmt::format("names are made of names more than {} deep", deepest_nesting));
            return std::nullopt;
        }
        path.push_back(symbol->id);
        value = {let.file, let.value};
    }
}

/// Tells a loop once: `path` holds the lets that led back to `id`.
void Evaluator::report_let_loop(LetId id, const std::vector<LetId>& path) {
    std::string way;
    for (auto step = std::find(path.begin(), path.end(), id); step != path.end(); ++step) {
        names_.lets[*step].looped = true;
        if (*step == id) continue;
        way += fmt::format("{}`{}`", way.empty() ? ", by way of " : ", ", names_.lets[*step].name);
    }
    findings_.report(Rule::let_loop, names_.lets[id].name_at,
                     fmt::format("`{}` is worked out from itself{}", names_.lets[id].name, way),
                     way.empty() ? "write what it is without its own name"
                                 : "write what one of them is without the others");
}

} // namespace waxwright
