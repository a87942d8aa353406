#include "model/line_fault.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "findings/mending.hpp"
#include "findings/nearest.hpp"
#include "findings/spelling.hpp"
#include "model/build.hpp"
#include "model/library.hpp"
#include "model/step_meant.hpp"

namespace waxwright {

BlockKind library_kind(std::string_view name) {
    if (!is_kebab(name)) return BlockKind::unknown;
    const std::string wanted = fmt::format(" {} ", name); // `oil lavender {`
    for (const LibraryModule& module : library_modules()) {
        for (std::size_t at = module.text.find(wanted); at != std::string_view::npos;
             at = module.text.find(wanted, at + 1)) {
            const std::size_t begin = module.text.rfind('\n', at) + 1;
            const BlockKind kind = find_block_kind(module.text.substr(begin, at - begin));
            if (kind != BlockKind::unknown) return kind;
        }
    }
    return BlockKind::unknown;
}

std::vector<std::string_view> names_of(const BookLine& book, BlockKind kind) {
    std::vector<std::string_view> names;
    const auto take = [&](std::string_view name, BlockKind its) {
        if (kind == BlockKind::unknown || kind == its) names.push_back(name);
    };
    for (const auto& [name, its] : book.declared)
        take(name, its);
    for (const LibraryModule& module : library_modules()) {
        const Declared library = declared_in(module.text);
        for (const auto& [name, its] : library)
            take(name, its);
    }
    return names;
}

BlockKind kind_of_name(const BookLine& book, std::string_view name) {
    const auto found = book.declared.find(name);
    return found != book.declared.end() ? found->second : library_kind(name);
}

namespace {

/// A name may be a `let`, or come from another file that is used.
bool may_be_known(const BookLine& book, std::string_view name) {
    return kind_of_name(book, name) != BlockKind::unknown ||
           book.text.find("use \"") != std::string_view::npos ||
           book.text.find(fmt::format("let {}", name)) != std::string_view::npos;
}

/// What is wrong with a line's words; that a figure lacks its basis, say, is another question.
bool is_of_reading(Rule rule) {
    constexpr std::array rules{Rule::syntax,       Rule::unknown_verb,  Rule::unknown_property,
                               Rule::unknown_unit, Rule::unit_mismatch, Rule::unknown_name};
    return std::find(rules.begin(), rules.end(), rule) != rules.end();
}

/// The finding told of the line in the book's place, its fixes as whole lines.
Finding moved(const Finding& from, std::string_view line, std::size_t begin, Span to) {
    Finding finding{from.rule, from.severity, to, from.message, from.hint, {}, {}, {}};
    for (const Fix& fix : from.fixes) {
        const bool inside = std::all_of(fix.edits.begin(), fix.edits.end(), [&](const Edit& e) {
            return e.at.begin >= begin && e.at.end <= begin + line.size();
        });
        if (!inside) continue;
        std::vector<Edit> edits = fix.edits;
        for (Edit& edit : edits) {
            edit.at.begin -= static_cast<std::uint32_t>(begin);
            edit.at.end -= static_cast<std::uint32_t>(begin);
        }
        finding.fixes.push_back(put(to, edited(line, std::move(edits)), fix.certain));
    }
    return finding;
}

} // namespace

std::optional<Finding> fault_of_line(std::string_view line, const BookLine& book) {
    if (line.find_first_of("{}\n") != std::string_view::npos) return std::nullopt;
    const bool step = steps_above(book.text, book.at.begin).has_value();
    const bool margin = book.at.begin == 0 || book.text[book.at.begin - 1] == '\n';
    // In the depth of a very long block it isn't known where the line stands.
    if (!margin && !step && book.block.kind == BlockKind::unknown) return std::nullopt;
    const bool inside = step || !margin;
    std::string text = !inside ? "" : fmt::format("{} its-own {{\n", word(book.block.kind));
    if (step) text += "steps {\n";
    const std::size_t begin = text.size();
    text += line;
    text += !inside ? "\n" : step ? "\n}\n}\n" : "\n}\n";
    Sources sources;
    sources.add("line", std::move(text));
    Findings findings;
    const Model model = build_model(
        std::move(sources), [](const std::string& /*path*/) { return std::nullopt; }, findings);
    for (const Finding& finding : findings.all()) {
        const Span at = finding.at;
        if (at.file != 0 || at.begin < begin || at.begin > begin + line.size()) continue;
        if (!is_of_reading(finding.rule)) continue;
        const bool name = finding.rule == Rule::unknown_name;
        if (name && may_be_known(book, model.sources.slice(at))) continue;
        Finding fault = moved(finding, line, begin, book.at);
        if (!name) return fault;
        const std::string wrong(model.sources.slice(at));
        const std::vector<std::string_view> names = names_of(book, BlockKind::unknown);
        const std::string_view near = nearest(wrong, names);
        if (!near.empty() && surely_meant(wrong, near, names, Spelling::name)) continue;
        fault.fixes.clear();
        fault.hint = fmt::format("nothing here is called `{}`", wrong);
        if (!near.empty()) fault.hint += fmt::format(": did you mean `{}`?", near);
        return fault;
    }
    return std::nullopt;
}

} // namespace waxwright
