#include "plan/label_build.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "plan/label_parts.hpp"
#include "reckon/label/maker.hpp"
#include "reckon/label/small_package.hpp"

namespace waxwright {

namespace {

constexpr double ml_per_litre = 1000;

/// "the maker's telephone number"
std::string_view lacking(Key key) {
    switch (key) {
    case Key::title:
        return "the maker's name (`title` of the `maker`)";
    case Key::address:
        return "the maker's address";
    default:
        return "the maker's telephone number (`phone`)";
    }
}

void add_maker(const Model& model, BlockId recipe, Label& label) {
    const BlockId maker = model.maker_of(recipe);
    for (const Key key : maker_needs(label.market)) {
        const std::string_view said = model.text(maker, key);
        label.maker.emplace_back(said);
        if (said.empty()) label.missing.emplace_back(lacking(key));
    }
    const std::string_view phone = model.text(maker, Key::phone); // more than is asked harms nobody
    const auto needs = maker_needs(label.market);
    if (!phone.empty() && std::ranges::count(needs, Key::phone) == 0)
        label.maker.emplace_back(phone);
}

/// Of what is in one: to the line it is filled to. The least letters that are asked for from 2028
/// on are taken now already.
void add_sizes(const Reckoning& reckoning, Label& label) {
    LabelSizePlan& sizes = label.sizes;
    sizes.contents_known = reckoning.fill_ml.has_value();
    sizes.contents_ml = reckoning.fill_ml.value_or(0);
    const double litres = std::max(sizes.contents_ml, 1.0) / ml_per_litre;
    const LabelSizes least = label_sizes(litres, x_height_from);
    sizes.width_mm = least.label_mm[0];
    sizes.height_mm = least.label_mm[1];
    sizes.pictogram_mm = least.pictogram_mm;
    sizes.better_pictogram_mm = least.better_pictogram_mm;
    sizes.x_height_mm = least.x_height_mm;
    if (!sizes.contents_known)
        label.notes.emplace_back(
            "How much one holds isn't known: the sizes are those of up to half "
            "a litre, and nothing is left off.");
}

Date day_of(Date date) {
    date.has_time = false;
    date.hour = date.minute = 0;
    return date;
}

} // namespace

Label plan_label(const Model& model, const Reckoning& reckoning, const Plan& plan,
                 std::size_t recipe, Market market) {
    const RecipePlan& made = plan.recipes[recipe];
    Label label;
    label.recipe = made.name;
    label.title = made.title;
    // 16 CFR 500 asks for it first, by its common name; it does no harm elsewhere.
    label.identity = reckoning.in.oils().empty() ? "Candle" : "Scented candle";
    label.market = market;
    label.count = made.count;
    label.lot = plan.lot;
    if (plan.is_batch && plan.lot.empty()) label.missing.emplace_back("the lot");
    if (!plan.is_batch) label.missing.emplace_back("the lot, which a batch has");
    if (plan.starts) label.made_on = day_of(*plan.starts);
    if (made.ready_on) label.ready_on = day_of(*made.ready_on);
    add_sizes(reckoning, label);
    add_maker(model, reckoning.in.job.recipe, label);
    add_net(model, reckoning, label);
    add_hazards(model, reckoning, label);
    add_fire(model, reckoning, label);
    add_rules(label);
    return label;
}

} // namespace waxwright
