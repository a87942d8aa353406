#include "check/label_figures.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "check/report.hpp"
#include "reckon/label/class_facts.hpp"
#include "reckon/label/sums.hpp"

namespace waxwright {

namespace {

using Classes = std::span<const HazardClass>;

bool any_of(Classes hazards, std::initializer_list<HazardClass> wanted) {
    return std::ranges::any_of(
        hazards, [&](HazardClass one) { return std::ranges::count(wanted, one) != 0; });
}

/// A substance in an oil or additive, and where to tell of it.
struct Idle {
    const Model& model;
    const Job& job;
    Span use;
    BlockId substance;
    Classes hazards;
    Findings& findings;

    void tell(Key key, std::string_view of, std::string_view why, std::string_view hint) const {
        report_warning(findings, job, Rule::out_of_range,
                       model.place_to_change(substance, key, use),
                       fmt::format("`{}` of {}{} counts for nothing: {}", word(key),
                                   quoted(model.name(substance)), of, why),
                       std::string(hint));
    }
    bool reads(Key key) const {
        return model.entry(substance, key) != nullptr && !model.unreadable(substance, key);
    }
};

constexpr const char* look = "look into the sheet: the class is another one, or the figure belongs "
                             "to another substance";

void check_limits(const Idle& in) {
    using enum HazardClass;
    if (!in.reads(Key::specific_limit)) return;
    if (in.model.figure(in.substance, Key::specific_limit)) {
        if (!any_of(in.hazards, {skin_sens_1, skin_sens_1a, skin_sens_1b}))
            in.tell(Key::specific_limit, "", "among its `hazards` is no skin-sens-1, 1a or 1b",
                    "write the class behind it, `5% eye-irrit-2`, or look into the sheet: the "
                    "figure may belong to another substance");
        return;
    }
    for (const ClassLimit& limit : in.model.class_limits_of(in.substance)) {
        if (takes_limit(limit.hazard, in.hazards)) continue;
        const std::string of = fmt::format(" for {}", word(limit.hazard));
        if (facts(limit.hazard).part == HazardPart::environment &&
            limit.hazard != HazardClass::ozone_1)
            in.tell(Key::specific_limit, of, "for water there are M-factors",
                    "write its `m-factor`, if the sheet gives one");
        else
            in.tell(Key::specific_limit, of, "none of its `hazards` leads to that class", look);
    }
}

void check_factors(const Idle& in) {
    using enum HazardClass;
    if (!in.reads(Key::m_factor)) return;
    const auto* each = in.model.get<MFactors>(in.substance, Key::m_factor);
    if (each == nullptr) {
        if (!any_of(in.hazards, {aquatic_acute_1, aquatic_chronic_1}))
            in.tell(Key::m_factor, "",
                    "among its `hazards` is no aquatic-acute-1 or aquatic-chronic-1", look);
        return;
    }
    if (each->acute && !any_of(in.hazards, {aquatic_acute_1}))
        in.tell(Key::m_factor, " that is acute", "among its `hazards` is no aquatic-acute-1", look);
    if (each->chronic && !any_of(in.hazards, {aquatic_chronic_1}))
        in.tell(Key::m_factor, " that is chronic", "among its `hazards` is no aquatic-chronic-1",
                look);
}

void check_adding(const Idle& in) {
    if (!in.reads(Key::adds_up) || may_not_add_up(in.hazards)) return;
    in.tell(Key::adds_up, "", "none of its `hazards` is of skin or eyes by a sum", look);
}

} // namespace

void check_idle_figures(const Model& model, const Job& job, const MatterInput& from,
                        Findings& findings) {
    for (const Share& part : model.blend(from.block, Key::contains)) {
        const auto hazards = model.hazards_of(part.material);
        if (!hazards) continue;
        const Idle in{model, job, from.at, part.material, *hazards, findings};
        check_limits(in);
        check_factors(in);
        check_adding(in);
    }
}

} // namespace waxwright
