// How the inputs are read out of the model. Only gather.cpp and gather_matter.cpp include this.
#pragma once

#include "reckon/inputs.hpp"

namespace waxwright {

/// Reads the properties of one block.
class Properties {
public:
    Properties(const Model& model, BlockId block) : model_(model), block_(block) {}

    template <typename T>
    Given<T> get(Key key) const {
        if (block_ == no_block) return {};
        const Entry* entry = model_.entry(block_, key);
        if (entry != nullptr) {
            if (const T* value = std::get_if<T>(&entry->value)) {
                return {Said::yes, entry->at, *value};
            }
        }
        return {model_.unreadable(block_, key) ? Said::unreadable : Said::no, {}, {}};
    }
    Given<Figure> figure(Key key) const { return get<Figure>(key); }
    /// Whether the property was given, whatever its type.
    Said said(Key key) const {
        if (model_.unreadable(block_, key)) return Said::unreadable;
        return model_.entry(block_, key) != nullptr ? Said::yes : Said::no;
    }

private:
    const Model& model_;
    BlockId block_;
};

/// What the recipe is made of, what its leftovers bring included.
void gather_matter(const Model& model, Inputs& in);

} // namespace waxwright
