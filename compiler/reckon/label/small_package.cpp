#include "reckon/label/small_package.hpp"

#include <algorithm>
#include <span>
#include <tuple>

#include "reckon/compare.hpp"
#include "reckon/label/label_elements.hpp"

namespace waxwright {

namespace {

struct SizesRow {
    double litres;
    LabelSizes sizes;
};
constexpr SizesRow rows[] = {
#define SIZES(litres, height, width, pictogram, better, x)                                         \
    {litres, {{height, width}, pictogram, better, x}},
#include "reckon/label/label_sizes.def"
#undef SIZES
};

std::tuple<int, int, int> day_of(const Date& date) {
    return {date.year, date.month, date.day};
}

/// True if a class asks for it; of the two for all that is sold to the public, any class does.
bool belongs_to(Precaution precaution, std::span<const HazardClass> classes) {
    const bool general = precaution == Precaution::P102 || precaution == Precaution::P501;
    return std::ranges::any_of(classes, [&](HazardClass hazard) {
        return general || std::ranges::count(facts(hazard).precautions, precaution) != 0;
    });
}

/// The classes whose statements of a kind must stay.
std::vector<HazardClass> kept(const Classification& all, bool precautions) {
    std::vector<HazardClass> result;
    for (const HazardClass hazard : all.classes) {
        const SmallPackage small = facts(hazard).small;
        const bool may_go =
            small == SmallPackage::both || (precautions && small == SmallPackage::precautions);
        if (!may_go) result.push_back(hazard);
    }
    return result;
}

template <class Value>
std::vector<Value> others(const std::vector<Value>& all, const std::vector<Value>& without) {
    std::vector<Value> result;
    for (const Value one : all)
        if (std::ranges::count(without, one) == 0) result.push_back(one);
    return result;
}

} // namespace

LabelTexts label_texts(const Classification& classification, double contents_ml) {
    LabelTexts result;
    if (over(contents_ml, small_package_ml)) {
        result.statements = classification.statements;
        result.precautions = precautions_for(classification.classes);
        return result;
    }
    result.statements = statements_for(kept(classification, false));
    result.statements_left_off = others(classification.statements, result.statements);
    const std::vector<HazardClass> stay = kept(classification, true);
    for (const Precaution one : precautions_for(classification.classes, stay)) {
        auto& where = belongs_to(one, stay) ? result.precautions : result.precautions_left_off;
        where.push_back(one);
    }
    return result;
}

std::vector<Precaution> precautions_cut(std::span<const HazardClass> classes,
                                        const LabelTexts& texts) {
    std::vector<Precaution> cut;
    const auto is_new = [&](Precaution one) {
        return std::ranges::count(texts.precautions, one) == 0 &&
               std::ranges::count(texts.precautions_left_off, one) == 0 &&
               std::ranges::count(cut, one) == 0;
    };
    for (const HazardClass hazard : classes)
        for (const Precaution one : facts(hazard).precautions)
            if (is_new(covering(one, classes))) cut.push_back(covering(one, classes));
    std::ranges::sort(cut);
    return cut;
}

LabelSizes label_sizes(double litres, const Date& today) {
    const SizesRow* row = rows;
    while (row->litres > 0 && over(litres, row->litres))
        ++row;
    LabelSizes result = row->sizes;
    if (day_of(today) < day_of(x_height_from)) result.x_height_mm = 0;
    return result;
}

} // namespace waxwright
