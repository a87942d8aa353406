// What a name stands for, and what is said where it stands for nothing.
#pragma once

#include <map>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "model/reading.hpp"

namespace waxwright {

/// A block of the standard library, whether its module is used or not.
struct LibraryName {
    std::string_view name;
    std::string_view module;
    BlockKind kind;
};

class NameLookup : Reading {
public:
    explicit NameLookup(ReadingContext& context) : Reading(context) {}

    /// Nothing, and remembered as unknown, where the name stands for nothing.
    const Symbol* look_up(At name, BlockKind refers = BlockKind::unknown);
    /// Once all is read: each unknown name once, where it stands first, with its other places.
    void report_unknown_names();
    /// `refers` is the kind of block that is wanted there, where that is known; `also` is a word
    /// that may stand there besides.
    void unknown_name(FileId file, std::string_view name, Span at,
                      BlockKind refers = BlockKind::unknown, std::string_view also = {});

private:
    struct Unknown {
        std::vector<Span> places{};
        std::string hint{};       // worked out at the first of them; empty: nothing is said
        std::string_view meant{}; // the nearest name, if one is near
        bool sure = false;        // it can't be another
        std::vector<std::string_view> kinds{}; // which it may be, where none is near
        std::string_view module{};             // of the library, that it or they are in
    };
    std::string unknown_hint(FileId file, std::string_view name,
                             std::span<const std::string_view> names, BlockKind refers,
                             Unknown& unknown);
    std::vector<std::string_view> of_kind(FileId file, std::span<const std::string_view> names,
                                          BlockKind refers) const;
    std::string those_there(std::string_view name, std::vector<std::string_view> fitting,
                            BlockKind refers, Unknown& unknown);
    std::string_view module_of(std::string_view name);
    Edit use_of(FileId file, std::string_view module) const;
    std::string module_hint(std::string_view name, Unknown& unknown);
    std::string library_kinds(std::string_view name, BlockKind refers, Unknown& unknown);
    void offer_meant(FileId file, const Unknown& unknown, Finding& finding);

    std::vector<LibraryName> library_names_; // all of them, found at the first unknown name
    std::map<std::pair<FileId, std::string_view>, Unknown> unknown_names_;
};

} // namespace waxwright
