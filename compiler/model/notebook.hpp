// What an editor asks of a reading besides the model: the trees, the lets, and what each name that
// is written somewhere stands for, as the reading itself found it.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "model/load.hpp"
#include "model/names.hpp"
#include "units/quantity.hpp"

namespace waxwright {

/// All of it refers to the texts and blocks of the Model that came of the same reading.
struct Notebook {
    LoadedFiles loaded;
    std::vector<NodeId> block_nodes; // of Model::blocks, in their files' trees
    std::vector<Let> lets;
    std::vector<std::optional<Quantity>> let_figures; // by LetId; nothing for a blend or a mistake
    std::vector<NameUse> uses; // by file and place, each place once; a declaration is none
    // What each operand that is a figure came to, whatever wanted it: a measure, a name, a sum and
    // its parts. Likewise in order; of what begins in one place the longest comes first.
    std::vector<Figure> figures;

    /// The uses within one file, by place.
    std::span<const NameUse> uses_in(FileId file) const;
    std::span<const Figure> figures_in(FileId file) const;
};

} // namespace waxwright
