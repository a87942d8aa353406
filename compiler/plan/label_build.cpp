#include "plan/label_build.hpp"

#include <algorithm>
#include <numbers>

#include <fmt/format.h>

#include "plan/label_parts.hpp"
#include "reckon/label/maker.hpp"
#include "reckon/label/most_contents.hpp"
#include "reckon/label/small_package.hpp"
#include "reckon/volumes.hpp"

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
        if (key == Key::address && !said.empty() && label.market == Market::us &&
            !looks_like_us_place(said)) {
            label.maker.emplace_back(); // a blank
            label.missing.emplace_back("the maker's city, state and ZIP code, if they aren't in "
                                       "the address (from memory of 16 CFR 500.5)");
        }
    }
    const std::string_view phone = model.text(maker, Key::phone); // more than is asked harms nobody
    const auto needs = maker_needs(label.market);
    if (!phone.empty() && std::ranges::count(needs, Key::phone) == 0)
        label.maker.emplace_back(phone);
}

/// What of the vessel's outside a label can stand on. How thick it is nobody says: 2 mm of anything
/// but tin, the thin end of glass (common practice), so that a label comes out narrow rather than
/// wide. How tall it is, where `inside` doesn't say it: the wax and the room above it, or 10 mm,
/// the short end of what jars have (common practice).
void add_room(const Reckoning& reckoning, LabelSizePlan& sizes) {
    constexpr double wall = 2, usual_headspace = 10; // mm
    if (!reckoning.bore_mm) return;
    const bool thin = reckoning.in.vessel.of == VesselStuff::tin;
    sizes.around_mm = std::numbers::pi * (*reckoning.bore_mm + (thin ? 0 : 2 * wall));
    sizes.tall_is_said = reckoning.depth_mm.has_value();
    if (reckoning.depth_mm)
        sizes.tall_mm = *reckoning.depth_mm;
    else if (reckoning.fill_ml)
        sizes.tall_mm = level_mm(*reckoning.fill_ml, *reckoning.bore_mm) +
                        reckoning.headspace_mm.value_or(usual_headspace);
}

/// Of what is in one, at the high end of its doubts: to the line it is filled to. The least letters
/// that the European Union asks for from 2028 on are taken now already.
void add_sizes(const Reckoning& reckoning, Label& label) {
    LabelSizePlan& sizes = label.sizes;
    sizes.contents_known = reckoning.fill_ml.has_value();
    sizes.contents_ml = reckoning.fill_ml.value_or(0);
    sizes.most_ml = most_contents(reckoning.in).value_or(sizes.contents_ml);
    const double litres = std::max(sizes.most_ml, 1.0) / ml_per_litre;
    const LabelSizes least = label_sizes(litres, x_height_from);
    sizes.width_mm = least.label_mm[0];
    sizes.height_mm = least.label_mm[1];
    sizes.pictogram_mm = least.pictogram_mm;
    sizes.better_pictogram_mm = least.better_pictogram_mm;
    if (label.market == Market::eu) sizes.x_height_mm = least.x_height_mm;
    add_room(reckoning, sizes);
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
