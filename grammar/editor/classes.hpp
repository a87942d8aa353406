// The classes of classes.def, and what each is called elsewhere.
#pragma once

#include <cstdint>
#include <string_view>

namespace waxwright::editor {

enum class Class : std::uint8_t {
#define CLASS(identifier, name, scope, vim, gtk, nano) identifier,
#include "grammar/editor/classes.def"
#undef CLASS
    none // a mark such as `{`: not coloured
};

struct ClassInfo {
    std::string_view name;  // "Kind"
    std::string_view scope; // "storage.type.kind"; the grammar puts `.candle` behind it
    std::string_view vim;   // "Structure"; empty: no colour
    std::string_view gtk;   // "def:keyword"; empty: no colour
    std::string_view nano;  // "bold,blue"
};

inline constexpr ClassInfo class_infos[] = {
#define CLASS(identifier, name, scope, vim, gtk, nano) {name, scope, vim, gtk, nano},
#include "grammar/editor/classes.def"
#undef CLASS
    {"None", "", "", "", "normal"}};

constexpr const ClassInfo& info(Class which) {
    return class_infos[static_cast<std::size_t>(which)];
}

} // namespace waxwright::editor
