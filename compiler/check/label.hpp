// Rules of the family `label`: what a candle's label has to say, and what nobody knows of it.
#pragma once

#include "findings/finding.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// Whether anybody will read what to do about a note.
enum class NoteHints : bool { spared, wanted };

/// Of a recipe by itself. The reckoning has its bounds: where a figure is doubtful its careful end
/// counts. All but `net-over-fill` look only at what is sold: where a maker `sells-in`, or the call
/// wants a label for. Where hints of notes are spared, notes have none, or less in it.
void check_label(const Model& model, const Reckoning& reckoning, NoteHints hints,
                 Findings& findings);

} // namespace waxwright
