// The files of a run: parsing the named ones and, each once, what they use.
#pragma once

#include <deque>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "findings/finding.hpp"
#include "source/source.hpp"
#include "syntax/tree.hpp"
#include "units/money.hpp"

namespace waxwright {

/// Text of a file, or nothing where it can't be read. An editor answers with unsaved text first.
using ReadFile = std::function<std::optional<std::string>(const std::string& path)>;

/// A file that another one uses, and where it says so.
struct Use {
    FileId file;
    Span at;
};

struct ParsedFile {
    Tree tree;
    std::vector<Use> uses;
    std::vector<Use> loops; // of files that use this one in turn: they are not read for it again
    Currency dollar = no_money; // what `$` is here: USD unless the file says `currency`
    // Something of it or of what it uses could not be read: a name may well be declared there.
    bool incomplete = false;
};

struct LoadedFiles {
    std::deque<ParsedFile> files; // by FileId; a file stays where it is while others come
    std::vector<FileId> order;    // what is used comes before what uses it
};

/// Parses every file of `sources` (the roots) and what they use, adding those to `sources`.
/// Findings: syntax, nesting, language-version, use-missing, use-loop, unknown-unit (of
/// `currency`), defined-twice (of statements that may stand once).
LoadedFiles load_files(Sources& sources, const ReadFile& read, Findings& findings);

} // namespace waxwright
