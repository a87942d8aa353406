#include "model/phrase_heads.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "findings/nearest.hpp"
#include "model/library.hpp"
#include "model/line_fault.hpp"
#include "model/own_words.hpp"

namespace waxwright {

namespace {

bool at_margin(const BookLine& book) {
    return book.at.begin == 0 || book.text[book.at.begin - 1] == '\n';
}

std::vector<std::string_view> module_names() {
    std::vector<std::string_view> names;
    for (const LibraryModule& module : library_modules())
        names.push_back(module.name);
    return names;
}

/// The modules that a line speaks of, with commas between, and whether it has no other words.
struct ModulesSaid {
    std::string line;
    bool all = true;
};
ModulesSaid modules_said(std::string_view rest) {
    const std::vector<std::string_view> names = module_names();
    ModulesSaid said{"use"};
    while (!rest.empty()) {
        rest.remove_prefix(std::min(rest.find_first_not_of(" \t,"), rest.size()));
        const std::string_view word = rest.substr(0, rest.find_first_of(" \t,"));
        rest.remove_prefix(word.size());
        const auto is_word = [&](std::string_view name) {
            return name == word || name == fmt::format("{}s", word) ||
                   name == fmt::format("{}es", word);
        };
        const auto found = std::find_if(names.begin(), names.end(), is_word);
        said.all = said.all && (word.empty() || (found != names.end() && *found == word));
        if (found == names.end()) continue;
        said.line += fmt::format("{} {}", said.line.size() > 3 ? "," : "", *found);
    }
    return said;
}

/// True for a line with quotes, as they are typed or printed.
bool has_other_signs(std::string_view line) {
    return std::any_of(line.begin(), line.end(),
                       [](char c) { return c == '"' || static_cast<unsigned char>(c) >= 0x80; });
}

} // namespace

bool answer_use(const BookLine& book, Finding& finding) {
    const std::string_view line = book.line;
    const bool unread = finding.rule == Rule::syntax || finding.rule == Rule::unknown_verb;
    if (!unread || !line.starts_with("use ") || has_other_signs(line)) return false;
    ModulesSaid said = modules_said(line.substr(3));
    if (said.line == line) return false;
    finding.fixes.clear();
    const bool any = said.line.size() > 3;
    if (said.all && at_margin(book)) {
        finding.hint = fmt::format("write `{}`", said.line);
        finding.fixes = {put(book.at, std::move(said.line), true)};
        return true;
    }
    const std::string modules =
        fmt::format("`use` takes modules of the library ({}) and files in quotes, with commas",
                    fmt::join(module_names(), ", "));
    if (!at_margin(book) && book.block.kind == BlockKind::batch && !any) {
        finding.hint = fmt::format("what a batch is melted in is its `pot: …`, and what it is "
                                   "weighed on its `scale: …`; {}, at the head of a file",
                                   modules);
        return true;
    }
    finding.hint = any ? fmt::format("{}: write `{}`", modules, said.line) : modules;
    if (any && at_margin(book)) finding.fixes = {put(book.at, std::move(said.line), false)};
    return true;
}

/// Sure where no block, and no step, begins so; what begins at the margin may be a block's head.
bool answer_colon(const BookLine& book, Finding& finding) {
    const std::string_view line = book.line;
    const std::size_t blank = line.find(' ');
    if (finding.rule != Rule::syntax || blank == std::string_view::npos) return false;
    const std::string_view key = line.substr(0, blank);
    if (!find_key(key) || line.find_first_of(":={") != std::string_view::npos) return false;
    const bool kind = find_block_kind(key) != BlockKind::unknown;
    if (kind && at_margin(book)) return false;
    const bool known = book.block.kind != BlockKind::unknown && !at_margin(book);
    if (known && find_property(book.block.kind, *find_key(key)) == nullptr) return false;
    bool sure = !kind && !begins_a_step(line);
    std::string_view value = trimmed(line.substr(blank));
    for (const std::string_view joint : {"them ", "it ", "to ", "at ", "of ", "is ", "for "}) {
        if (!value.starts_with(joint)) continue;
        value = trimmed(value.substr(joint.size()));
        sure = sure && joint != "them " && joint != "it ";
    }
    std::string better = neat_line(fmt::format("{}: {}", key, value));
    if (!sure && fault_of_line(better, book)) return false;
    finding.hint = fmt::format("write `{}`", better);
    finding.fixes = {put(book.at, std::move(better), sure)};
    return true;
}

namespace {

/// What a head without its brace says: `recipe Jam Jars`, `lavender oil:`, `oil mine like
/// lavender`.
struct HeadSaid {
    BlockKind kind = BlockKind::unknown;
    std::string name{};
    std::string like{}; // with its word and a blank before it
    bool brace = false;
    bool turned = false; // the kind stands behind
};

HeadSaid head_said(std::string_view line) {
    const std::size_t blank = std::min(line.find(' '), line.size());
    const std::string first = joined_by_hyphens(line.substr(0, blank));
    HeadSaid said{find_block_kind(first)};
    std::string_view rest = trimmed(line.substr(blank));
    said.brace = rest.ends_with('{');
    if (said.brace) rest = trimmed(rest.substr(0, rest.size() - 1));
    if (said.kind == BlockKind::unknown && line.ends_with(':')) {
        const std::string_view words = line.substr(0, line.size() - 1);
        const std::size_t last = words.rfind(' ');
        if (last == std::string_view::npos) return said;
        said.kind = find_block_kind(joined_by_hyphens(words.substr(last)));
        said.turned = true;
        rest = trimmed(words.substr(0, last));
    } else if (rest.ends_with(':')) {
        rest = trimmed(rest.substr(0, rest.size() - 1));
    }
    const std::size_t like = rest.find(" like ");
    if (like != std::string_view::npos) {
        said.like = fmt::format(" like {}", joined_by_hyphens(rest.substr(like + 6)));
        rest = rest.substr(0, like);
    }
    if (rest.size() > 1 && rest.front() == '"' && rest.back() == '"')
        rest = rest.substr(1, rest.size() - 2);
    said.name = joined_by_hyphens(rest);
    if (library_kind(said.name) == said.kind && said.like.empty() && !said.name.empty()) {
        said.like = fmt::format(" like {}", said.name);
        said.name = "my-" + said.name;
    }
    return said;
}

} // namespace

bool answer_bare_head(const BookLine& book, Finding& finding) {
    const std::string_view text = book.text;
    const std::string_view line = book.line;
    if (finding.rule != Rule::syntax || !at_margin(book)) return false;
    if (line.substr(0, line.size() - 1).find_first_of("{}") != std::string_view::npos) return false;
    const bool mended = std::any_of(finding.fixes.begin(), finding.fixes.end(),
                                    [](const Fix& fix) { return fix.certain; });
    if (mended) return false;
    const HeadSaid said = head_said(line);
    const bool named = is_kebab(said.name) && !is_reserved(said.name);
    if (said.kind == BlockKind::unknown || (said.brace && !said.name.empty())) return false;
    if (!said.name.empty() && !named) return false;
    const std::string name = named ? said.name : usual_name(said.kind);
    std::string head = fmt::format("{} {}{} {{", word(said.kind), name, said.like);
    const std::size_t next = text.find_first_not_of(" \t\r\n", book.at.end);
    if (next != std::string_view::npos && text[next] == '{') return false; // told by that brace
    if (!said.brace) finding.message = fmt::format("`{}` is not a whole block", line);
    const std::string title = fmt::format("write `{}`", head);
    if (said.brace) {
        finding.hint = fmt::format("give it a name: {}", title);
    } else {
        finding.hint = fmt::format("{}: {}, a line for each thing it has, and `}}`",
                                   said.turned ? "what it is goes first, and a `{` last"
                                   : named     ? "a `{` is missing"
                                               : "give it a name and braces",
                                   title);
    }
    const bool has_lines = next != std::string_view::npos && text[next - 1] != '\n';
    if (!said.brace && !has_lines) head += "\n}";
    finding.fixes = {{title, {{book.at, std::move(head)}}, false}};
    return true;
}

namespace {

/// `recipe Kitchen Jam {`: the kind's word, and what stands before the brace; empty where the line
/// is no such head.
std::pair<std::string_view, std::string_view> head_of(std::string_view line) {
    const std::size_t blank = line.find(' ');
    const std::size_t brace = line.find('{');
    if (blank == std::string_view::npos || brace == std::string_view::npos || brace < blank)
        return {};
    const std::string_view kind = line.substr(0, blank);
    if (find_block_kind(kind) == BlockKind::unknown) return {};
    return {kind, trimmed(line.substr(blank, brace - blank))};
}

} // namespace

/// A block's name of several words, or with capitals, is its title; one of the language's own words
/// is no name at all.
bool answer_head(const BookLine& book, Finding& finding) {
    auto [kind, title] = head_of(book.line);
    // With `like` in it, it is another slip.
    if (title.empty() || title.find("like") != std::string_view::npos) return false;
    if (is_reserved(title)) {
        finding.message = fmt::format("`{}` is a word of the language", title);
        finding.hint = fmt::format("take another name: `my-{}`, for example", title);
        finding.fixes = {put(book.at, fmt::format("{} my-{} {{", kind, title), false)};
        return true;
    }
    const bool quoted = title.size() > 1 && title.front() == '"' && title.back() == '"';
    if (quoted) title = trimmed(title.substr(1, title.size() - 2));
    if (!quoted && title.find(' ') == std::string_view::npos) return false;
    const std::string name = joined_by_hyphens(title);
    if (!is_kebab(name) || is_reserved(name) || book.line.back() != '{') return false;
    const std::string head = fmt::format("{} {} {{", kind, name);
    if (find_block_kind(kind) != BlockKind::recipe || name == title) {
        finding.hint = fmt::format("a name is one word, its parts joined by hyphens{}: `{}`",
                                   quoted ? ", and has no quotes" : "", head);
        finding.fixes = {put(book.at, head, true)};
        return true;
    }
    finding.hint = fmt::format("write `{}`, and within it `title: \"{}\"`", head, title);
    finding.fixes = {put(book.at, fmt::format("{}\n  title: \"{}\"", head, title), true)};
    return true;
}

} // namespace waxwright
