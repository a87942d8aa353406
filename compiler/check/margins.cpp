#include "check/margins.hpp"

#include <cmath>
#include <limits>

#include "check/heat_parts.hpp"
#include "check/vessel.hpp"
#include "check/wick.hpp"

namespace waxwright {

namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

class Margins {
public:
    Margins(const Model& model, const Reckoning& r, std::vector<double>& into)
        : model_(model), r_(r), into_(into) {}

    void loads() {
        over(r_.load_of_wax, r_.limit_of_wax);
        for (const Share& oil : model_.blend(r_.job.recipe, Key::scent)) {
            own_limit(MatterKind::oil, oil, Key::limit);
            own_limit(MatterKind::oil, oil, Key::ifra_cat_12);
        }
        for (const Share& additive : model_.blend(r_.job.recipe, Key::additives))
            own_limit(MatterKind::additive, additive, Key::limit);
    }

    void steps() {
        double melting = unknown; // the hottest before scent and pour
        bool melted = false;
        double vessel = r_.job.room;
        for (const Step& step : model_.steps_of(r_.job.recipe)) {
            const double at = step.temperature ? step.temperature->value() : unknown;
            const bool pour = step.verb == Verb::pour || step.verb == Verb::second_pour;
            if (step.verb == Verb::warm_vessels) vessel = at;
            if (!is_of_wax(step.verb)) continue;
            melted = melted || step.adds_scent || pour;
            if (!melted) melting = std::fmax(melting, at);
            over(at, r_.ceiling);
            over(at + flash_margin, wax_flash());
            over(at, hottest_in_bath);
            if (step.adds_scent || step.verb == Verb::second_pour) over(at, r_.scent_flash);
            if (step.adds_scent || pour) over(r_.sets, at);
            if (step.verb == Verb::pour) {
                over(at - vessel, model_.figure(r_.job.vessel, Key::shock));
            }
        }
        over(r_.melted_at, melting);
    }

    void vessel() {
        over(r_.fill_ml, times(r_.brimful_ml, fullest));
        over(r_.headspace_mm, r_.depth_mm);
        over(r_.headspace_ml, r_.brimful_ml);
        over(least_headspace(model_, r_.job.vessel), r_.headspace_mm);
        for (const Count& wick : model_.count_list(r_.job.recipe, Key::wick)) {
            const auto* suits = model_.get<Range>(wick.block, Key::suits);
            std::optional<double> bore;
            if (r_.bore_mm && wick.count > 0) bore = bore_for_each(*r_.bore_mm, wick.count);
            over(suits != nullptr ? suits->low.value : unknown, bore);
            over(bore, suits != nullptr ? suits->high : unknown);
        }
    }

    void pot() {
        const double clings = model_.figure(r_.job.pot, Key::clings).value_or(0);
        const auto each = times(r_.mass_g, 1 + r_.job.spare);
        over(each ? (*each + clings) / r_.room_density.value_or(unknown) : unknown, r_.usable_ml);
    }

private:
    void over(std::optional<double> value, std::optional<double> limit) {
        into_.push_back(value.value_or(unknown) - limit.value_or(unknown));
    }
    static std::optional<double> times(std::optional<double> value, double by) {
        return value ? std::optional(*value * by) : std::nullopt;
    }
    void own_limit(MatterKind kind, const Share& share, Key key) {
        const auto* most = model_.get<Load>(share.material, key);
        over(most != nullptr ? portion(r_, kind, share.fraction, most->basis) : std::nullopt,
             most != nullptr ? most->fraction : unknown);
    }
    /// The lowest that is said.
    double wax_flash() const {
        double lowest = unknown;
        for (const Share& wax : model_.blend(r_.job.recipe, Key::wax)) {
            const auto* flash = model_.get<Flash>(wax.material, Key::flash_point);
            if (flash != nullptr) lowest = std::fmin(lowest, flash->counted);
        }
        return lowest;
    }

    const Model& model_;
    const Reckoning& r_;
    std::vector<double>& into_;
};

} // namespace

void margins(const Model& model, const Reckoning& reckoning, std::vector<double>& into) {
    into.clear();
    Margins all(model, reckoning, into);
    all.loads();
    all.steps();
    all.vessel();
    all.pot();
}

} // namespace waxwright
