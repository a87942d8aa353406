// Source text and places in it. Inside the compiler a place is a byte offset; lines and columns
// are worked out only when a finding is shown.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace waxwright {

/// Index of a file within `Sources`.
using FileId = std::uint32_t;

/// Bytes [begin, end) of one file. There is no default: a place always comes from somewhere.
struct Span {
    FileId file;
    std::uint32_t begin;
    std::uint32_t end;

    friend bool operator==(const Span&, const Span&) = default;
};

/// A position as people and programs count it. All numbers start at 1.
struct Place {
    std::uint32_t line;
    std::uint32_t column;  // code points, a byte order mark not counted
    std::uint32_t utf16;   // UTF-16 units
    std::uint32_t byte;    // bytes
    std::uint32_t display; // terminal columns: tab stops every 8, wide characters count 2
};

/// One file: the name a finding shows, the text as read, and its lines. Asking for places is for
/// one thread at a time: lines are found when first asked for.
class Source {
public:
    Source(std::string name, std::string text, bool library);

    const std::string& name() const { return name_; }
    std::string_view text() const { return text_; }
    /// True for a module of the standard library: its faults are told at the place of use.
    bool is_library() const { return library_; }

    /// Bytes a leading byte order mark takes: 0 or 3.
    std::uint32_t mark_length() const;
    /// Line and columns of a byte offset; an offset past the end is taken as the end.
    Place place(std::uint32_t offset) const;
    /// The line (from 1) without its line end, nor the byte order mark.
    std::string_view line(std::uint32_t number) const;
    /// The number of lines; a line end at the end of the text begins one more, which is empty.
    std::uint32_t line_count() const;
    /// The line (from 1) that an offset lies in, its line end included.
    std::uint32_t line_at(std::uint32_t offset) const;
    /// Offset of the first byte of a line that there is, a byte order mark included.
    std::uint32_t line_begin(std::uint32_t number) const;
    /// The same as line(), but with the byte order mark.
    std::string_view whole_line(std::uint32_t number) const;
    /// Text of a span of this file.
    std::string_view slice(Span span) const;

private:
    void find_lines() const;

    std::string name_;
    std::string text_;
    bool library_;
    mutable std::vector<std::uint32_t> starts_; // begin of each line, found when first asked for
    mutable std::vector<Place> marks_;          // places of one line, for the next to go on from
};

/// The files of one run. A Source stays where it is while others are added.
class Sources {
public:
    FileId add(std::string name, std::string text, bool library = false);
    const Source& operator[](FileId id) const { return *files_[id]; }
    std::size_t size() const { return files_.size(); }
    std::string_view slice(Span span) const { return files_[span.file]->slice(span); }

private:
    std::vector<std::unique_ptr<Source>> files_;
};

} // namespace waxwright
