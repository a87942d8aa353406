#include "editor/rename_check.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace waxwright {

namespace {

/// Where a word stands by itself in a text; npos where it doesn't.
std::size_t find_word(std::string_view text, std::string_view word) {
    const auto goes_on = [&](std::size_t at) {
        if (at >= text.size()) return false;
        const char c = text[at];
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
               c == '-' || c == '_';
    };
    for (std::size_t at = text.find(word); at != std::string_view::npos;
         at = text.find(word, at + 1)) {
        if (!(at > 0 && goes_on(at - 1)) && !goes_on(at + word.size())) return at;
    }
    return std::string_view::npos;
}

/// Looks for the name where it was not read as one.
class Hidden {
public:
    Hidden(const Look& look, const NameChange& change) : look_(look), change_(change) {
        for (const Finding& finding : look.workshop.findings.all()) {
            // A let that nobody uses is not read to its end.
            if (finding.severity == Severity::error || finding.rule == Rule::unused_name)
                mistakes_.push_back(finding.at);
        }
        const LoadedFiles& loaded = look.notebook.loaded;
        may_see_.resize(loaded.files.size());
        for (const FileId file : loaded.order) {
            may_see_[file] = file == change.declared.file || has_lost_use(file);
            for (const Use& use : loaded.files[file].uses)
                may_see_[file] = may_see_[file] || may_see_[use.file];
        }
    }

    std::optional<std::string> find() const {
        for (FileId file = 0; file < look_.model().sources.size(); ++file) {
            if (look_.source(file).is_library() || !may_see_[file]) continue;
            if (const auto at = find_in(file)) {
                return fmt::format("`{}` stands at {}, where a mistake keeps it from being read: "
                                   "mend that line first",
                                   change_.old_name, place_in_words(look_.model().sources, *at));
            }
        }
        return std::nullopt;
    }

private:
    /// A file that may be meant to use the one that declares the name: a `use` that leads nowhere,
    /// or a line that can't be read, says what that one is called.
    bool has_lost_use(FileId file) const {
        std::string_view called = look_.source(change_.declared.file).name();
        called.remove_prefix(called.rfind('/') + 1);
        const auto says = [&](std::string_view text) {
            return text.find(called) != std::string_view::npos;
        };
        for (const Finding& finding : look_.workshop.findings.all()) {
            const bool lost = finding.rule == Rule::use_missing || finding.rule == Rule::use_loop;
            if (lost && finding.at.file == file && says(look_.model().sources.slice(finding.at)))
                return true;
        }
        const Tree& tree = look_.tree(file);
        return std::ranges::any_of(tree.children(tree.root()), [&](NodeId line) {
            return tree.kind(line) == Kind::broken && says(tree.text(line));
        });
    }

    std::optional<Span> find_in(FileId file) const {
        const Tree& tree = look_.tree(file);
        for (NodeId node = 0; node < tree.nodes.size(); ++node) {
            const Span at = tree.span(node);
            switch (tree.kind(node)) {
            case Kind::broken:
            case Kind::orphans:
            case Kind::stray:
                if (const std::size_t place = find_word(tree.text(node), change_.old_name);
                    place != std::string_view::npos) {
                    const auto begin = at.begin + static_cast<std::uint32_t>(place);
                    return Span{file, begin, begin};
                }
                break;
            case Kind::name:
            case Kind::unit:
                if (tree.text(node) == change_.old_name && is_unread(tree, at)) return at;
                break;
            default:
                break;
            }
        }
        return std::nullopt;
    }

    /// A word that was not read as a name: one of the language's, but where a mistake ended the
    /// reading.
    bool is_unread(const Tree& tree, Span at) const {
        const auto naming = naming_at(look_, at.file, at.begin);
        if (naming && naming->at == at) return false;
        if (look_.workshop.findings.too_many(at.file)) return true;
        const Span whole = statement_at(tree, at.begin);
        return std::ranges::any_of(mistakes_, [&](Span mistake) {
            return mistake.file == at.file && mistake.begin < whole.end &&
                   whole.begin <= mistake.end;
        });
    }

    /// The line of a block that is read by itself; all of a block that is not read.
    Span statement_at(const Tree& tree, std::uint32_t offset) const {
        NodeId inner = tree.root();
        for (;;) {
            const Kind kind = tree.kind(inner);
            const bool goes_on = kind == Kind::file || kind == Kind::steps ||
                                 (kind == Kind::block && is_read(tree, inner));
            if (!goes_on) return tree.span(inner);
            NodeId next = Tree::no_node;
            for (const NodeId child : tree.children(inner)) {
                if (tree.span(child).begin <= offset && offset < tree.span(child).end) next = child;
            }
            if (next == Tree::no_node) return tree.span(inner);
            inner = next;
        }
    }

    bool is_read(const Tree& tree, NodeId block) const {
        const std::vector<Block>& blocks = look_.model().blocks;
        return std::ranges::any_of(
            blocks, [&](const Block& each) { return each.whole_at == tree.span(block); });
    }

    const Look& look_;
    const NameChange& change_;
    std::vector<Span> mistakes_;
    std::vector<bool> may_see_; // by FileId: what the renamed thing is called
};

} // namespace

std::optional<std::string> hidden_mention(const Look& look, const NameChange& change) {
    return Hidden(look, change).find();
}

std::string place_in_words(const Sources& sources, Span at) {
    const Source& source = sources[at.file];
    const std::string_view path = source.name();
    return fmt::format("{}:{}", path.substr(path.rfind('/') + 1), source.place(at.begin).line);
}

} // namespace waxwright
