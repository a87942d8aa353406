// What may be written at the cursor.
#include "editor/completion_parts.hpp"
#include "editor/features.hpp"

namespace waxwright {

namespace {

void complete_text(Completing& c) {
    const bool of_use = c.place.room == TypingPlace::Room::text &&
                        c.place.kind == BlockKind::unknown && first_word(c.place.typed) == "use";
    if (of_use) add_files(c, false);
}

} // namespace

/// By the words of the text and the schema; what names stand for is from the reading.
Reply completion(const Asked& asked, const Json&) {
    Completing c(asked, place_at(asked.source().text(), asked.offset));
    switch (c.place.room) {
    case TypingPlace::Room::comment:
        break;
    case TypingPlace::Room::text:
        complete_text(c);
        break;
    case TypingPlace::Room::file:
        complete_phrases(c);
        complete_statement(c);
        break;
    case TypingPlace::Room::block:
        complete_phrases(c);
        complete_member(c);
        break;
    case TypingPlace::Room::steps:
        complete_phrases(c);
        complete_step(c);
        break;
    }
    return c.json();
}

} // namespace waxwright
