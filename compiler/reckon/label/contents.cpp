#include "reckon/label/contents.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "reckon/compare.hpp"

namespace waxwright {

namespace {

bool sensitises_skin(HazardClass hazard) {
    return hazard == HazardClass::skin_sens_1 || hazard == HazardClass::skin_sens_1a ||
           hazard == HazardClass::skin_sens_1b;
}

Ingredient substance_of(const Model& model, BlockId id, double fraction) {
    Ingredient one;
    const std::string_view title = model.text(id, Key::title);
    one.name = title.empty() ? model.name(id) : title;
    one.fraction = fraction;
    const auto hazards = model.hazards_of(id);
    one.unknown = !hazards;
    if (hazards) one.classes.assign(hazards->begin(), hazards->end());
    const Choice adds_up = model.choice(id, Key::adds_up);
    one.not_additive = adds_up == Choice::no;
    one.additivity_unsaid = adds_up == Choice::unsaid;
    one.m_acute = one.m_chronic = model.figure(id, Key::m_factor);
    if (const auto* factors = model.get<MFactors>(id, Key::m_factor)) {
        one.m_acute = factors->acute;
        one.m_chronic = factors->chronic;
    }
    for (const ClassLimit& limit : model.class_limits_of(id))
        one.limits.push_back({limit.hazard, limit.from});
    if (const auto limit = model.figure(id, Key::specific_limit)) {
        for (const HazardClass hazard : one.classes)
            if (sensitises_skin(hazard)) one.limits.push_back({hazard, *limit});
    }
    return one;
}

Ingredient unknown_part(std::string name, double fraction) {
    Ingredient one;
    one.name = std::move(name);
    one.fraction = fraction;
    one.unknown = true;
    return one;
}

/// Substances with their fractions, each once: a candle of many oils has the same ones many times.
struct Amount {
    BlockId substance;
    double fraction;
};

void add(std::vector<Amount>& into, BlockId substance, double fraction) {
    for (Amount& known : into) {
        if (known.substance != substance) continue;
        known.fraction += fraction;
        return;
    }
    into.push_back({substance, fraction});
}

/// What one material brings in, `of` being its fraction. Returns the fraction of itself that it
/// doesn't tell.
double add_contents(const Model& model, BlockId material, double of, std::vector<Amount>& into) {
    double said = 0;
    for (const Share& part : model.blend(material, Key::contains)) {
        said += part.fraction;
        add(into, part.material, (part.fraction + part.doubt) * of);
    }
    return at_least(said, 1) ? 0 : 1 - said;
}

/// The substances of a material whose classes nobody says.
void add_unclassed(const Model& model, BlockId material, double of_candle, Contents& into) {
    for (const Share& part : model.blend(material, Key::contains))
        if (!model.hazards_of(part.material))
            into.unclassed.push_back(
                {part.material, material, (part.fraction + part.doubt) * of_candle});
}

void put(const Model& model, const std::vector<Amount>& amounts, double of,
         std::vector<Ingredient>& into) {
    for (const Amount& amount : amounts)
        into.push_back(substance_of(model, amount.substance, amount.fraction * of));
}

void add_unsaid(const Model& model, const MatterInput& from, double unsaid, double of_candle,
                Contents& into) {
    into.unsaid.push_back({from.block, from.at, unsaid, unsaid * of_candle});
    std::string name = "what ";
    name.append(model.name(from.block)).append(" doesn't tell");
    into.candle.push_back(unknown_part(std::move(name), unsaid * of_candle));
}

/// What a material's sheet doesn't tell, `of_it` being the fraction of itself.
void add_left(const Model& model, const MatterInput& from, double of_it, double of_candle,
              Contents& into) {
    if (over(of_it, most_rounding)) return add_unsaid(model, from, of_it, of_candle, into);
    if (!(of_it > 0)) return;
    Ingredient rounding;
    rounding.name = std::string("what ").append(model.name(from.block)).append(" was rounded by");
    rounding.fraction = of_it * of_candle;
    into.candle.push_back(std::move(rounding));
}

/// True if all scent in the candle is of one blend, and less of it is no other scent.
bool one_scent(const Inputs& in) {
    if (!(in.mixed.brought_scent > 0) || in.oils_said == Said::no) return true;
    return std::ranges::all_of(in.oils(), [&](const MatterInput& oil) {
        return std::abs(oil.brought / in.mixed.brought_scent - oil.fresh) <= same;
    });
}

void add_oils(const Model& model, const Reckoning& r, Contents& into) {
    std::vector<Amount> amounts; // of the scent
    for (const MatterInput& oil : r.in.oils()) {
        const double unsaid = add_contents(model, oil.block, oil.share, amounts);
        add_unclassed(model, oil.block, oil.share * into.load_of_total, into);
        add_left(model, oil, unsaid, oil.share * into.load_of_total, into);
        const Entry* contains = model.entry(oil.block, Key::contains);
        if (contains != nullptr && model.sources[contains->at.file].is_library())
            into.typical.push_back(oil.block);
    }
    if (one_scent(r.in)) put(model, amounts, 1, into.scent);
    put(model, amounts, into.load_of_total, into.candle);
}

void add_additives(const Model& model, const Reckoning& r, double wax, Contents& into) {
    std::vector<Amount> amounts; // of the candle
    const std::size_t before = into.candle.size();
    for (const MatterInput& additive : r.in.additives()) {
        const double of_candle = additive.share * wax;
        const double unsaid = add_contents(model, additive.block, of_candle, amounts);
        add_unclassed(model, additive.block, of_candle, into);
        add_left(model, additive, unsaid, of_candle, into);
    }
    const std::size_t first = into.candle.size();
    put(model, amounts, 1, into.candle);
    into.additives_have_class =
        std::any_of(into.candle.begin() + static_cast<std::ptrdiff_t>(first), into.candle.end(),
                    [](const Ingredient& one) { return !one.classes.empty(); });
    if (!(into.load_of_total < 1)) return;
    into.rest.assign(into.candle.begin() + static_cast<std::ptrdiff_t>(before), into.candle.end());
    for (Ingredient& one : into.rest)
        one.fraction /= 1 - into.load_of_total;
}

} // namespace

std::optional<Contents> contents_of(const Model& model, const Reckoning& r) {
    if (!r.load_of_total || !r.load_of_wax || !r.additives) return std::nullopt;
    Contents result;
    result.load_of_total = r.bounds.load_of_total ? r.bounds.load_of_total->high : *r.load_of_total;
    result.load_of_wax = r.bounds.load_of_wax ? r.bounds.load_of_wax->high : *r.load_of_wax;
    const double wax = (1 - result.load_of_total) / (1 + *r.additives);
    add_oils(model, r, result);
    add_additives(model, r, wax, result);
    Ingredient waxes;
    waxes.name = "wax";
    waxes.fraction = wax;
    result.candle.push_back(std::move(waxes));
    return result;
}

namespace {

bool within_label(const Model& model, BlockId oil, const Contents& contents) {
    const auto* most = model.get<Load>(oil, Key::supplier_label_load);
    const double load = most->basis == Basis::wax ? contents.load_of_wax : contents.load_of_total;
    return !over(load, most->fraction - most->doubt);
}

} // namespace

SupplierUse supplier_use(const Model& model, const Reckoning& r, const Contents& contents) {
    const auto oils = r.in.oils();
    const bool any = std::ranges::any_of(oils, [&](const MatterInput& oil) {
        return !model.text_list(oil.block, Key::supplier_label).empty();
    });
    if (!any) return SupplierUse::unsaid;
    if (oils.size() > 1) return SupplierUse::blended;
    const BlockId oil = oils[0].block;
    const auto* most = model.get<Load>(oil, Key::supplier_label_load);
    if (most == nullptr || most->basis == Basis::unsaid || most->by_volume)
        return SupplierUse::no_load;
    if (!within_label(model, oil, contents)) return SupplierUse::too_much;
    const bool other =
        contents.additives_have_class ||
        std::ranges::any_of(contents.unsaid,
                            [&](const UnsaidPart& part) { return part.material != oil; }) ||
        std::ranges::any_of(r.in.additives(), [&](const MatterInput& additive) {
            return std::ranges::any_of(
                model.blend(additive.block, Key::contains),
                [&](const Share& part) { return !model.hazards_of(part.material); });
        });
    return other ? SupplierUse::other : SupplierUse::usable;
}

std::string_view why_not(SupplierUse use) {
    switch (use) {
    case SupplierUse::no_load:
        return "its supplier's label doesn't say for how much oil it is (`supplier-label-load`)";
    case SupplierUse::blended:
        return "a supplier's label is for one oil alone, and this scent is of several";
    case SupplierUse::too_much:
        return "there is more of the oil than its supplier's label is for";
    case SupplierUse::other:
        return "a supplier's label is for the oil in wax, and something else here is unknown or "
               "has a class";
    default:
        return "";
    }
}

} // namespace waxwright
