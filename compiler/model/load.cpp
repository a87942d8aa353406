#include "model/load.hpp"

#include <algorithm>
#include <unordered_map>

#include <fmt/format.h>

#include "findings/nearest.hpp"
#include "findings/spelling.hpp"
#include "model/library.hpp"
#include "model/texts.hpp"
#include "source/path.hpp"
#include "syntax/parse.hpp"

namespace waxwright {

namespace {

/// Files may use each other this deep: far more than anyone needs, and no input can use up the
/// stack.
constexpr int deepest_use = 128;

/// And so many files are read in a run, the named ones included: folders that link to themselves
/// have names without end.
constexpr std::size_t most_files = 100'000;

class Loader {
public:
    Loader(Sources& sources, const ReadFile& read, Findings& findings)
        : sources_(sources), read_(read), findings_(findings) {}

    LoadedFiles run() {
        const auto roots = static_cast<FileId>(sources_.size());
        for (FileId root = 0; root < roots; ++root) {
            known_.emplace(path_from("", sources_[root].name()), root);
        }
        for (FileId root = 0; root < roots; ++root) {
            load(root);
        }
        return std::move(loaded_);
    }

private:
    enum class State : std::uint8_t { untouched, loading, done };

    State& state(FileId file) {
        if (states_.size() <= file) states_.resize(file + 1, State::untouched);
        return states_[file];
    }

    void load(FileId file) {
        if (state(file) == State::done) return;
        state(file) = State::loading;
        path_.push_back(file);
        while (loaded_.files.size() <= file) {
            const auto next = static_cast<FileId>(loaded_.files.size());
            loaded_.files.push_back({Tree(next, sources_[next].text()), {}, {}, no_money});
        }
        loaded_.files[file].tree = parse(file, sources_[file], findings_);
        // What comes after the last mistake that is told is not read.
        loaded_.files[file].incomplete = findings_.too_many(file);
        read_statements(file);
        path_.pop_back();
        state(file) = State::done;
        loaded_.order.push_back(file);
    }

    void read_statements(FileId file) {
        const Tree& tree = loaded_.files[file].tree;
        std::optional<Span> language;
        std::optional<Span> currency;
        Currency dollar = find_currency("USD");
        for (const NodeId node : tree.children(tree.root())) {
            if (tree.kind(node) == Kind::language) {
                if (!told_twice(language, tree.span(node), "language")) check_edition(tree, node);
            } else if (tree.kind(node) == Kind::currency) {
                if (!told_twice(currency, tree.span(node), "currency")) {
                    dollar = read_currency(tree, node, dollar);
                }
            } else if (tree.kind(node) == Kind::broken) {
                loaded_.files[file].incomplete = true; // it may have been a `use`
            } else if (tree.kind(node) == Kind::use) {
                for (const NodeId item : tree.children(node)) {
                    read_use(file, tree, item);
                }
            }
        }
        loaded_.files[file].dollar = dollar;
    }

    bool told_twice(std::optional<Span>& first, Span at, std::string_view what) {
        if (!first) {
            first = at;
            return false;
        }
        findings_.report(Rule::defined_twice, at, fmt::format("`{}` is said twice", what))
            .related.push_back({*first, "said here first"});
        return true;
    }

    void check_edition(const Tree& tree, NodeId node) {
        const NodeId number = tree.last_child(node);
        if (number == Tree::no_node || tree.text(number) == "1") return;
        findings_.report(Rule::language_version, tree.span(number),
                         fmt::format("edition {} of the language is not known here, only edition 1",
                                     tree.text(number)),
                         "write `language 1`, or use a newer waxwright");
    }

    Currency read_currency(const Tree& tree, NodeId node, Currency fallback) {
        const NodeId code = tree.last_child(node);
        if (code == Tree::no_node) return fallback;
        const Currency found = find_currency(tree.text(code));
        if (found != no_money) return found;
        findings_.report(Rule::unknown_unit, tree.span(code),
                         fmt::format("`{}` is no currency of ISO 4217", tree.text(code)),
                         "write its three capital letters: USD, EUR, GBP, CAD");
        return fallback;
    }

    void read_use(FileId user, const Tree& tree, NodeId item) {
        const Span at = tree.span(item);
        const std::optional<FileId> used = tree.kind(item) == Kind::text
                                               ? find_file(user, tree.text(item), at)
                                               : find_module(tree.text(item), at);
        if (!used || state(*used) == State::loading) {
            if (used) {
                report_loop(*used, at);
                loaded_.files[user].loops.push_back({*used, at});
            }
            loaded_.files[user].incomplete = true;
            return;
        }
        if (path_.size() > deepest_use) {
            findings_.report(Rule::nesting, at,
                             fmt::format("files use each other more than {} deep", deepest_use));
            return;
        }
        load(*used);
        loaded_.files[user].uses.push_back({*used, at});
        if (loaded_.files[*used].incomplete) loaded_.files[user].incomplete = true;
    }

    std::optional<FileId> find_module(std::string_view name, Span at) {
        std::string key = "module " + std::string(name);
        if (const auto found = known_.find(key); found != known_.end()) return found->second;
        std::vector<std::string_view> names;
        for (const LibraryModule& module : library_modules()) {
            if (module.name == name) {
                const FileId id = sources_.add("stdlib/" + std::string(name) + ".candle",
                                               std::string(module.text), true);
                known_.emplace(std::move(key), id);
                return id;
            }
            names.push_back(module.name);
        }
        std::string hint = did_you_mean(name, names);
        if (hint.empty()) {
            hint = fmt::format("the modules are {}; put a file of your own in quotes",
                               fmt::join(names, ", "));
        }
        Finding& finding =
            findings_.report(Rule::use_missing, at,
                             fmt::format("the standard library has no module `{}`", name), hint);
        offer_nearest(finding, at, name, names, Spelling::word);
        return std::nullopt;
    }

    std::optional<FileId> find_file(FileId user, std::string_view quoted, Span at) {
        const std::string written = decoded_text(quoted).value_or(std::string());
        if (written.empty()) {
            const bool escape = bad_escape(quoted).has_value();
            findings_.report(escape ? Rule::syntax : Rule::use_missing, at,
                             escape ? "the file's name has an escape that does not exist"
                                    : "no file is named here",
                             "write `use \"bench.candle\"`, with `/` between folders");
            return std::nullopt;
        }
        const std::string path = path_from(sources_[user].name(), written);
        if (const auto found = known_.find(path); found != known_.end()) return found->second;
        std::optional<std::string> text;
        if (sources_.size() < most_files) text = read_(path);
        if (!text || text->size() > largest_file) {
            findings_.report(
                Rule::use_missing, at, fmt::format("`{}` cannot be read", path),
                "the path starts at the folder of this file, and the file's name ends in .candle; "
                "to use one outside the recipe's folder, add `--use-from FOLDER`");
            return std::nullopt;
        }
        const FileId id = sources_.add(path, std::move(*text));
        known_.emplace(path, id);
        return id;
    }

    void report_loop(FileId used, Span at) {
        std::string loop;
        bool inside = false;
        for (const FileId file : path_) {
            inside = inside || file == used;
            if (inside) loop += sources_[file].name() + " uses ";
        }
        findings_.report(
            Rule::use_loop, at,
            fmt::format("files use each other in a loop: {}{}", loop, sources_[used].name()),
            "move what both need into a third file");
    }

    Sources& sources_;
    const ReadFile& read_;
    Findings& findings_;
    LoadedFiles loaded_;
    std::vector<State> states_;
    std::vector<FileId> path_; // files being read, outermost first
    std::unordered_map<std::string, FileId> known_;
};

} // namespace

LoadedFiles load_files(Sources& sources, const ReadFile& read, Findings& findings) {
    return Loader(sources, read, findings).run();
}

} // namespace waxwright
