// Which name means what in which file.
#pragma once

#include <optional>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "findings/finding.hpp"
#include "model/load.hpp"
#include "model/model.hpp"

namespace waxwright {

using LetId = std::uint32_t;

struct Let {
    FileId file;
    NodeId value; // Tree::no_node where it could not be read
    std::string_view name;
    Span name_at;
    bool used = false;
    bool told = false;   // its name is no good or taken: nothing is said of its use
    bool looped = false; // it is made of itself, and that has been told
};

/// What a name stands for. A `poisoned` one was declared, but so that nothing can be said of it:
/// using it is no further finding.
struct Symbol {
    enum class What : std::uint8_t { block, let, poisoned } what;
    std::uint32_t id = 0; // BlockId or LetId
    Span at;
};

/// A place where a name stands for something, other than its declaration.
struct NameUse {
    Span at;
    Symbol to;
};

/// The names visible in each file: its own, and those of every file it uses. All blocks and lets
/// share one namespace.
class Names {
public:
    /// Enters the blocks of `loaded` into `model` and all names into the scopes. Findings:
    /// defined-twice, syntax (reserved and ill-formed names, misspelt kinds).
    Names(const LoadedFiles& loaded, Model& model, Findings& findings);

    /// Nothing if the name is not visible in that file.
    const Symbol* find(FileId file, std::string_view name) const;
    /// The same among what the file uses, its own names left out: what `wax soy like soy` is like.
    const Symbol* find_used(FileId file, std::string_view name) const;
    /// By FileId: the first maker that a file has, else the first of those it uses; or no_block.
    std::vector<BlockId> makers() const;
    /// All names visible in the file, for the nearest one; sorted. None where there are more than
    /// anyone has written by hand: going through them for each misspelt one would take for ever.
    std::vector<std::string_view> visible(FileId file) const;

    /// The name that a word was meant to be: small letters, hyphens for what joins.
    static std::string as_name(std::string_view name);
    /// True for small letters, digits and single hyphens alone. A name begins with a letter, too,
    /// and is no reserved word.
    static bool is_kebab(std::string_view name);

    /// Remembers what a name was found to stand for, where anybody wants to know (`record`).
    void found(Span at, const Symbol& symbol) {
        if (record != nullptr) record->push_back({at, symbol});
    }

    std::vector<NameUse>* record = nullptr; // an editor's; in no order, a place may come twice
    std::vector<Let> lets;
    std::vector<NodeId> block_nodes; // of Model::blocks, in the trees: these end with the reading

private:
    static constexpr std::size_t most_looked_through = 5000;

    using Table = std::unordered_map<std::string_view, Symbol>;
    using FileSet = std::vector<FileId>; // sorted

    void enter_file(FileId file);
    void enter_used(FileId file);
    void report_clashes(FileId file, const FileSet& before, const Use& use);
    std::optional<std::pair<Symbol, Symbol>> clash(FileId file, std::string_view name,
                                                   const FileSet& before, const Use& use) const;
    void report_unknown_kind(const Tree& tree, NodeId head, NodeId kind);
    void enter_block(FileId file, NodeId node);
    void enter_broken_head(FileId file, NodeId node, NodeId head);
    void enter_let(FileId file, NodeId node);
    void enter_broken(FileId file, NodeId node);
    bool declare(FileId file, std::string_view name, Symbol symbol, bool like_own_name);
    bool is_of_other_kind(const Symbol& one, const Symbol& other) const;
    void report_other_kind(std::string_view name, const Symbol& own, const Symbol& library);
    bool is_name(std::string_view name, Span at);
    bool derives(const Symbol& later, const Symbol& earlier) const;
    /// True if one file sees what the other declares.
    bool sees(FileId file, FileId other) const;

    const LoadedFiles& loaded_;
    Model& model_;
    Findings& findings_;
    std::vector<Table> own_;    // by FileId
    std::vector<FileSet> used_; // by FileId: the files it uses, and what those use
    // Which files declare a name, so that what is used need not be copied for each user.
    std::unordered_map<std::string_view, std::vector<FileId>> declaring_;
};

} // namespace waxwright
