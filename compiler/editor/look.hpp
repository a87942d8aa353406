// What is known of the open texts at one moment, and how an answer speaks of places in it.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "editor/client.hpp"
#include "editor/documents.hpp"
#include "pipeline/pipeline.hpp"

namespace waxwright {

/// The world outside, which the editor's room itself does not touch.
struct World {
    /// Reads what lies within one of these folders (absolute paths).
    std::function<ReadFile(const std::vector<std::string>& folders)> reader;
    /// The recipe files of a folder and its folders.
    std::function<std::vector<std::string>(const std::string& folder)> recipe_files;
    InPieces in_pieces = one_by_one;
};

/// A reading of some texts, checked or not.
struct Look {
    Workshop workshop;
    Notebook notebook;
    std::unordered_map<std::string, FileId> files; // by path; no modules of the library

    const Model& model() const { return workshop.model; }
    const Source& source(FileId file) const { return workshop.model.sources[file]; }
    const Tree& tree(FileId file) const { return notebook.loaded.files[file].tree; }
};

/// Whether a reading goes on to the reckoning, and finds what only that shows.
enum class Checked : bool { no, yes };

/// Reads the open texts, then the files in `others` that are not open, and what all of those use;
/// an open text counts as it is typed, for whoever uses it.
Look look_at(const Documents& documents, const std::vector<std::string>& others,
             const ReadFile& read, const InPieces& in_pieces, Checked checked);

/// A look, and in whose words an answer about it is given.
struct View {
    const Look& look;
    const Documents& documents;
    const Client& client;

    std::string uri(FileId file) const; // as the client writes it, where the text is open
    Json range(Span at) const;
    Json location(Span at) const; // LSP's Location
    /// LSP's WorkspaceEdit; with the version of each open text if the client takes that.
    Json workspace_edit(const std::vector<Edit>& edits) const;
};

/// What a request is about.
struct Asked {
    const View& view;
    FileId file;
    std::uint32_t offset; // of the position; 0 for a request about the whole text

    const Look& look() const { return view.look; }
    const Source& source() const { return view.look.source(file); }
    const Tree& tree() const { return view.look.tree(file); }
};

} // namespace waxwright
