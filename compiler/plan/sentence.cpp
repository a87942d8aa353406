#include "plan/sentence.hpp"

#include "plan/wording.hpp"
#include "units/show.hpp"

namespace waxwright {

Sentence& Sentence::say(std::string_view words) {
    text_ += words;
    return *this;
}

Sentence& Sentence::say_temperature() {
    return place(source_.temperature(), &temperature_);
}

Sentence& Sentence::say_length() {
    return place(source_.length(), length_);
}

Sentence& Sentence::say_duration() {
    return say(source_.duration() ? show_duration(source_.duration()->value()) : "a while");
}

Sentence& Sentence::place(const Figure* figure, Stretch* stretch) {
    if (!figure) return *this;
    Quantity quantity = figure->quantity;
    quantity.doubt = 0; // a step is done to a figure, not to a range
    const auto begin = static_cast<std::uint32_t>(text_.size());
    text_ += show(quantity);
    if (stretch != nullptr) *stretch = {begin, static_cast<std::uint32_t>(text_.size())};
    return *this;
}

void Sentence::fill(std::string_view words) {
    for (std::size_t open = words.find('{'); open != std::string_view::npos;
         open = words.find('{')) {
        const std::size_t close = words.find('}', open);
        const std::string_view mark = words.substr(open, close + 1 - open);
        say(words.substr(0, open));
        if (mark == "{at}") say_temperature();
        if (mark == "{for}") say_duration();
        if (mark == "{length}") say_length();
        if (mark == "{text}") say(source_.text);
        words.remove_prefix(close + 1);
    }
    say(words);
}

} // namespace waxwright
