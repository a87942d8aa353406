#include "reckon/label/class_facts.hpp"

#include <array>

namespace waxwright {

namespace {

struct Sentence {
    std::string_view code, text;
};
constexpr Sentence statements[] = {
#define STATEMENT(identifier, code, text) {code, text},
#include "reckon/label/statements.def"
};
constexpr Sentence precautions[] = {
#define PRECAUTION(identifier, code, text) {code, text},
#include "reckon/label/statements.def"
};

template <class... Ones>
constexpr std::array<Precaution, sizeof...(Ones)> list_of(Ones... ones) {
    return {ones...};
}

// One list of precautions for each class.
#define FACTS(identifier, part, statement, signal, pictogram, counts, named, names, small, ...)    \
    constexpr auto of_##identifier = [] {                                                          \
        using enum Precaution;                                                                     \
        return list_of(__VA_ARGS__);                                                               \
    }();
#include "reckon/label/class_facts.def"
#undef FACTS

enum class Names : bool { no, yes };

struct Row {
    HazardClass hazard;
    ClassFacts facts;
};
constexpr Row rows[] = {
#define FACTS(identifier, part, statement, signal, pictogram, counts, named, names, small, ...)    \
    {HazardClass::identifier,                                                                      \
     {HazardPart::part, Statement::statement, Signal::signal, pictogram, (counts) / 100.0,         \
      (named) / 100.0, Names::names == Names::yes, SmallPackage::small, of_##identifier}},
#include "reckon/label/class_facts.def"
#undef FACTS
};

constexpr HazardClass classes[] = {
#define CLASS(identifier, text, abbreviation) HazardClass::identifier,
#include "model/hazard_classes.def"
#undef CLASS
};

constexpr bool in_order() {
    for (std::size_t i = 0; i < std::size(rows); ++i)
        if (i >= std::size(classes) || rows[i].hazard != classes[i]) return false;
    return std::size(rows) == std::size(classes);
}
static_assert(in_order(), "class_facts.def has a row for each class, in the order of the classes");

} // namespace

std::string_view code(Statement statement) {
    return statements[static_cast<std::size_t>(statement)].code;
}

std::string_view text(Statement statement) {
    return statements[static_cast<std::size_t>(statement)].text;
}

std::string_view code(Precaution precaution) {
    return precautions[static_cast<std::size_t>(precaution)].code;
}

std::string_view text(Precaution precaution) {
    return precautions[static_cast<std::size_t>(precaution)].text;
}

const ClassFacts& facts(HazardClass hazard) {
    return rows[static_cast<std::size_t>(hazard)].facts;
}

} // namespace waxwright
