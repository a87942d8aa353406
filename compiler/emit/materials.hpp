// The standard library for its readers: lists, and a page for each material.
#pragma once

#include <span>
#include <string>

#include "model/model.hpp"

namespace waxwright {

/// By kind, each by its name and what it is.
std::string all_materials(const Model& model, std::span<const BlockId> all);
/// Some of them, each with its chief figures on a line of their own.
std::string some_materials(const Model& model, std::span<const BlockId> some);

/// A material's page: each figure as the module has it, said again in the other unit, and below it
/// what it rests on; remarks; then which of the figures are doubtful, and why.
std::string material_page(const Model& model, BlockId id);
/// Six of its figures at most, those that a recipe is written by, and what these rest on in a few
/// words; neither its name nor what it is.
std::string material_in_short(const Model& model, BlockId id);

} // namespace waxwright
