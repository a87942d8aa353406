// What the client can take, as it says in `initialize`.
#pragma once

#include <string>
#include <vector>

#include "editor/places.hpp"

namespace waxwright {

struct Client {
    Encoding encoding = Encoding::utf16;
    std::vector<std::string> folders; // of its workspace, as paths
    bool document_changes = false;    // edits with the version of the text they are for
    bool markdown = false;            // in a hover and in a completion's words
    bool snippets = false;            // places to fill in a completion
    bool related = false;             // a diagnostic's other places
    bool nested_symbols = false;      // a document's symbols as a tree
    bool watches_files = false;       // tells of files that change on the disk, if asked
};

/// Reads the `params` of `initialize`. What is missing or of another shape counts as not there.
Client client_of(const Json& params);

} // namespace waxwright
