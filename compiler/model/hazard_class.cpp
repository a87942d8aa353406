#include "model/hazard_class.hpp"

#include <algorithm>
#include <array>

namespace waxwright {

namespace {

constexpr std::array class_words = {
#define CLASS(identifier, text, abbreviation) std::string_view(text),
#include "model/hazard_classes.def"
#undef CLASS
};
constexpr std::array class_abbreviations = {
#define CLASS(identifier, text, abbreviation) std::string_view(abbreviation),
#include "model/hazard_classes.def"
#undef CLASS
};

} // namespace

std::string_view word(HazardClass hazard) {
    return class_words[static_cast<std::size_t>(hazard)];
}

std::string_view abbreviation(HazardClass hazard) {
    return class_abbreviations[static_cast<std::size_t>(hazard)];
}

std::optional<HazardClass> find_hazard_class(std::string_view text) {
    const auto found = std::find(class_words.begin(), class_words.end(), text);
    if (found == class_words.end()) return std::nullopt;
    return static_cast<HazardClass>(found - class_words.begin());
}

std::span<const std::string_view> hazard_class_words() {
    return class_words;
}

} // namespace waxwright
