// The classes of hazard that a substance may have: the table of hazard_classes.def.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace waxwright {

enum class HazardClass : std::uint8_t {
#define CLASS(identifier, text, abbreviation) identifier,
#include "model/hazard_classes.def"
#undef CLASS
};

std::string_view word(HazardClass hazard);         // "skin-sens-1b"
std::string_view abbreviation(HazardClass hazard); // "Skin Sens. 1B"
/// Nothing if there is no such class.
std::optional<HazardClass> find_hazard_class(std::string_view word);
/// All of them as written, for the nearest one.
std::span<const std::string_view> hazard_class_words();

} // namespace waxwright
