// What a label says is in the candle, and what that asks of the scale.
#include <algorithm>

#include <fmt/format.h>

#include "plan/label_parts.hpp"
#include "reckon/compare.hpp"
#include "reckon/label/net_quantity.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

constexpr double mm_per_inch = 25.4;
constexpr double from_a_page_on = 1000; // g, over which errors_eu.def has another source
constexpr std::string_view error_source_gb =
    "Weights and Measures (Packaged Goods) Regulations 2006, from memory; the figures by Directive "
    "76/211/EEC, which they carry out: ";
constexpr double g_per_ounce = 28.349523125; // exact

std::string grams(double value) {
    return show_number(value, 2) + " g";
}

/// True where the claim is written in ounces or pounds: then grams follow, else ounces.
bool in_ounces(const Figure& net) {
    const UnitId id = plain(net.quantity.unit);
    return id != no_unit && (unit(id).symbol == "oz" || unit(id).symbol == "lb");
}

/// What is poured into one, and how that stands to the claim.
void add_poured(const Reckoning& r, Label& label, LabelWorking& worked) {
    if (!r.mass_g) return;
    const auto& ends = r.bounds.mass_g;
    label.net.low_g = ends ? ends->low : *r.mass_g;
    label.net.high_g = ends ? ends->high : *r.mass_g;
    worked.lines.push_back(
        ends ? fmt::format("one holds {} to {} of wax and what is in it, by the doubts of its "
                           "figures",
                           grams(ends->low), grams(ends->high))
             : fmt::format("one holds {} of wax and what is in it", grams(*r.mass_g)));
}

void add_us(const Figure& net, Label& label, LabelWorking& worked) {
    const bool ounces = in_ounces(net);
    const double claimed = ounces ? net.value() / g_per_ounce : net.value();
    const auto dual = ounces ? declared_in_ounces(claimed) : declared_in_grams(claimed);
    if (!dual) return;
    label.net.words = dual->words;
    label.net.average_g = dual->must_hold;
    if (dual->ounces_enforced) label.net.enforced = inch_pound_words(dual->ounces);
    if (dual->grams_enforced) label.net.enforced = metric_words(dual->grams);
    worked.lines.push_back(
        ounces ? fmt::format("{} oz × {} = {}, cut down to {}", show_number(claimed, 4),
                             show_number(label_g_per_oz, 4),
                             show_number(claimed * label_g_per_oz, 4), metric_words(dual->grams))
               : fmt::format("{} g × {:.7f} = {}, cut down to {} oz", show_number(claimed, 4),
                             label_oz_per_g, show_number(claimed * label_oz_per_g, 4),
                             show_number(dual->ounces, 2)));
    worked.lines.push_back(
        label.net.enforced.empty()
            ? fmt::format("the two figures agree; a lot holds {} on average, at the least",
                          grams(dual->must_hold))
            : fmt::format("the larger is {}, and is the one that is enforced: a lot holds {} on "
                          "average, at the least",
                          label.net.enforced, grams(dual->must_hold)));
    worked.lines.emplace_back("16 CFR 500.19(a), 500.25(c); the larger figure: a NIST fact sheet "
                              "that quotes the UPLR");
    const LabelSizePlan& sizes = label.sizes;
    // The side that is shown of a round vessel: 40 % of its height times once round it (from
    // memory of 16 CFR 500.7).
    constexpr double shown = 0.4;
    const double panel =
        std::max(sizes.width_mm * sizes.height_mm, shown * sizes.around_mm * sizes.tall_mm);
    label.net.figure_height_mm = us_type_height(panel / (mm_per_inch * mm_per_inch)) * mm_per_inch;
}

/// The nominal quantity is metric; ounces are cut down to whole grams.
void add_eu(const Figure& net, Label& label, LabelWorking& worked) {
    const double nominal = in_ounces(net) ? cut_down(net.value(), 0) : net.value();
    if (in_ounces(net))
        worked.lines.push_back(fmt::format("{} is {}, cut down to whole grams", show(net.quantity),
                                           grams(net.value())));
    label.net.words = metric_words(nominal);
    label.net.average_g = nominal;
    const bool gb = label.market == Market::gb;
    const auto rule = nominal_quantity(nominal);
    if (!rule) {
        worked.lines.push_back(fmt::format("the {} 5 g to 10 kg: there is no error that is "
                                           "tolerated, and no e-mark",
                                           gb ? "regulations are for" : "directive is for"));
        return;
    }
    label.net.tolerable_g = rule->tolerable;
    label.net.least_of_most_g = rule->least_of_most;
    label.net.least_of_any_g = rule->least_of_any;
    label.net.figure_height_mm = rule->figure_height;
    label.net.e_mark_open = label.net.low_g && may_bear_e_mark(*rule, *label.net.low_g);
    worked.lines.push_back(
        fmt::format("tolerable negative error of {}: {}; few may hold less than {} - {} = {}",
                    metric_words(nominal), grams(rule->tolerable), show_number(nominal, 2),
                    show_number(rule->tolerable, 3), grams(rule->least_of_most)));
    worked.lines.push_back(fmt::format(
        "none may hold less than {} - 2 × {} = {} and bear the e-mark; a lot holds {} on average, "
        "at the least",
        show_number(nominal, 2), show_number(rule->tolerable, 3), grams(rule->least_of_any),
        grams(nominal)));
    worked.lines.push_back(fmt::format("{}{}", gb ? error_source_gb : "Directive 76/211/EEC, ",
                                       over(nominal, from_a_page_on)
                                           ? "Annex I 1.1 to 1.3; the error over 1 kg from an "
                                             "encyclopaedia's page on it"
                                           : "Annex I 1.1 to 1.3 and 2.4"));
}

} // namespace

void add_net(const Model& model, const Reckoning& r, Label& label) {
    LabelWorking worked{"Net quantity", {}};
    add_poured(r, label, worked);
    const auto* net = model.get<Figure>(r.in.job.recipe, Key::net);
    if (net == nullptr) {
        label.missing.emplace_back("the net quantity (`net` of the recipe)");
        if (label.net.low_g)
            worked.lines.push_back(fmt::format("the recipe claims nothing; it may claim {} at most",
                                               grams(cut_down(*label.net.low_g, 0))));
    } else {
        label.net.claimed_g = net->value();
        worked.lines.push_back(fmt::format("the recipe claims {}", show(net->quantity)));
        label.market == Market::us ? add_us(*net, label, worked) : add_eu(*net, label, worked);
    }
    label.worked.push_back(std::move(worked));
}

} // namespace waxwright
