// What the forms of a report that machines read have in common: places in both kinds of columns,
// and whom a finding is about.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "findings/finding.hpp"
#include "model/model.hpp"

namespace waxwright {

/// Begin and end of a span; the end is the place behind its last character.
struct Region {
    Place begin;
    Place end;
};
Region region_of(const Sources& sources, Span at);

/// The names of the recipes, or of the batches, each once, in their order.
std::vector<std::string_view> recipes_of(const Model& model, const std::vector<Subject>& subjects);
std::vector<std::string_view> batches_of(const Model& model, const std::vector<Subject>& subjects);

/// JSON with the marks that turn the direction of writing as `\u202E`: the same values, and
/// nothing of it looks other than it is. Such a mark may stand in the name of a file.
std::string without_turning_marks(std::string json);

} // namespace waxwright
