// What all readers of the model share: the files being read, the model being built, where findings
// go, and how far into names of names the reading is.
#pragma once

#include <optional>
#include <string_view>

#include "findings/finding.hpp"
#include "model/names.hpp"

namespace waxwright {

/// A node of one file.
struct At {
    FileId file;
    NodeId node;
};

/// How far something that is read once, at its first use, has come.
enum class ReadState : std::uint8_t { untouched, reading, done };

struct ReadingContext {
    const LoadedFiles& loaded;
    Names& names;
    Model& model;
    Findings& findings;

    std::optional<Span> used_at{}; // where a name stands for the value that is being read
    Dimension wanted{}; // of the value being read: which unit a misspelt one was meant to be
    int depth = 0;      // of names made of names, bounded by deepest_nesting
    std::vector<Figure>* figures = nullptr; // an editor's: what operands come to, in no order
};

/// Reads a block once, at its first use: what stands in one may name another.
class BlockSource {
public:
    virtual void ensure(BlockId id) = 0;

protected:
    BlockSource() = default;
    BlockSource(const BlockSource&) = default;
    BlockSource& operator=(const BlockSource&) = default;
    ~BlockSource() = default;
};

/// The words that every reader speaks.
class Reading {
protected:
    explicit Reading(ReadingContext& context)
        : context_(context), loaded_(context.loaded), names_(context.names), model_(context.model),
          findings_(context.findings) {}

    const Tree& tree(FileId file) const { return loaded_.files[file].tree; }
    Kind kind(At at) const { return tree(at.file).kind(at.node); }
    Span span(At at) const { return tree(at.file).span(at.node); }
    std::string_view text(At at) const { return tree(at.file).text(at.node); }
    Children children(At at) const { return tree(at.file).children(at.node); }
    /// Adds to a finding within a `let` where the value is used.
    void add_use(Finding& finding) const {
        if (context_.used_at) {
            finding.related.push_back({*context_.used_at, "this is where it is used"});
        }
    }

    ReadingContext& context_;
    const LoadedFiles& loaded_;
    Names& names_;
    Model& model_;
    Findings& findings_;
};

} // namespace waxwright
