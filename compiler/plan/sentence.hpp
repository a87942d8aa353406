// What a sheet says of a step, put together from its words and its figures.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "model/model.hpp"
#include "plan/plan.hpp"

namespace waxwright {

/// A sentence that remembers where it says the temperature and the length.
class Sentence {
public:
    Sentence(std::string& text, const Step& source, Stretch& temperature, Stretch* length = nullptr)
        : text_(text), source_(source), temperature_(temperature), length_(length) {}

    Sentence& say(std::string_view words);
    Sentence& say_temperature();
    Sentence& say_length();
    Sentence& say_duration();
    /// A sentence of `verbs.def`, with the step's figures where it wants them.
    void fill(std::string_view words);

private:
    Sentence& place(const Figure* figure, Stretch* stretch);

    std::string& text_;
    const Step& source_;
    Stretch& temperature_;
    Stretch* length_;
};

} // namespace waxwright
