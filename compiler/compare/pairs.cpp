#include "compare/pairs.hpp"

namespace waxwright {

namespace {

void add_content(std::string& text, const std::vector<Fact>& facts) {
    constexpr char between = '\0'; // in no name or words
    for (const Fact& fact : facts) {
        text += info(fact.aspect).slug;
        for (const std::string& words : {fact.of, fact.filling, shown(fact.value, false)}) {
            text += between;
            text += words;
        }
        text += between;
    }
}

} // namespace

std::string content_of(const PartFacts& part) {
    std::string text;
    add_content(text, part.facts);
    for (const StepPlan& step : part.steps) {
        text += step.text;
        text += '\0';
        text += step.because;
        text += '\0';
    }
    return text;
}

std::string content_of(const SheetFacts& sheet) {
    std::string text = sheet.is_batch ? "batch" : "recipe";
    add_content(text, sheet.facts);
    for (const PartFacts& part : sheet.parts)
        text += content_of(part);
    return text;
}

std::string key_of(const PartFacts& part) {
    return part.name;
}
std::string key_of(const SheetFacts& sheet) {
    return (sheet.is_batch ? "batch " : "recipe ") + sheet.name;
}

} // namespace waxwright
