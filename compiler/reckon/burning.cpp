#include "reckon/burning.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>
#include <utility>

#include "reckon/loads.hpp"
#include "reckon/number.hpp"
#include "reckon/volumes.hpp"

namespace waxwright {

namespace {

/// Shares are shown to a hundredth of a percent: what would look the same counts as the same, so
/// that `2 parts + 1 part` is `66.67% + 33.33%`.
constexpr double looks_same = 0.5e-4;

bool same_share(double one, double other) {
    return std::abs(one - other) <= looks_same * (1 + same);
}

/// Whether the test says other materials or shares than the recipe; the order is of no account.
bool other_blend(std::span<const Share> tested, std::span<const Share> today) {
    const auto share_in = [](std::span<const Share> shares, BlockId material) {
        const auto found = std::find_if(shares.begin(), shares.end(), [&](const Share& share) {
            return share.material == material;
        });
        return found == shares.end() ? 0 : found->fraction;
    };
    const auto differ = [&](std::span<const Share> from, std::span<const Share> other) {
        return std::any_of(from.begin(), from.end(), [&](const Share& share) {
            return !same_share(share.fraction, share_in(other, share.material));
        });
    };
    return differ(tested, today) || differ(today, tested);
}

double sum_of(std::span<const Share> shares) {
    double sum = 0;
    for (const Share& share : shares)
        sum += share.fraction;
    return sum;
}

/// A load of wax, with as many additives as the blend has.
std::optional<double> of_wax(const Load& load, std::span<const Share> additives) {
    if (load.by_volume || load.basis == Basis::unsaid) return std::nullopt;
    if (load.basis == Basis::wax) return load.fraction;
    return load_of_wax(load.fraction, sum_of(additives));
}

/// One test burn beside the recipe. Nothing is concluded from what can't be read.
class Beside {
public:
    Beside(const Model& model, BlockId burn, BlockId recipe)
        : model_(model), burn_(burn), recipe_(recipe) {}

    bool says(Key key) const { return model_.entry(burn_, key) != nullptr; }

    bool differs(Key key) const {
        const Key todays = key == Key::vessel ? Key::makes : key;
        // A test that says no leftovers had none: they come into a recipe later than its first
        // test.
        if (!says(key) && key != Key::leftovers) return false;
        if (model_.unreadable(burn_, key)) return false;
        if (model_.unreadable(recipe_, todays)) return false;
        switch (key) {
        case Key::wick:
            return other_wick();
        case Key::vessel:
            return other_vessel();
        case Key::load:
            return other_load();
        default:
            return other_blend(model_.blend(burn_, key), model_.blend(recipe_, key));
        }
    }

private:
    bool other_wick() const {
        const auto tested = model_.count_list(burn_, Key::wick);
        const auto today = model_.count_list(recipe_, Key::wick);
        if (tested.empty() || today.empty()) return tested.size() != today.size();
        return tested[0].block != today[0].block || tested[0].count != today[0].count;
    }

    bool other_vessel() const {
        const auto* tested = model_.get<Ref>(burn_, Key::vessel);
        const auto today = model_.count_list(recipe_, Key::makes);
        return tested != nullptr && !today.empty() && tested->block != today[0].block;
    }

    bool other_load() const {
        const auto* tested = model_.get<Load>(burn_, Key::load);
        const auto* today = model_.get<Load>(recipe_, Key::load);
        if (tested == nullptr) return false;
        if (today == nullptr) return tested->fraction > 0;
        if (tested->basis == today->basis && tested->by_volume == today->by_volume) {
            return !same_share(tested->fraction, today->fraction);
        }
        const auto additives = model_.blend(recipe_, Key::additives);
        const bool had = says(Key::additives);
        const auto then = of_wax(*tested, had ? model_.blend(burn_, Key::additives) : additives);
        const auto now = of_wax(*today, additives);
        return then && now && !same_share(*then, *now);
    }

    const Model& model_;
    BlockId burn_;
    BlockId recipe_;
};

bool is_part(const Reckoning& r, BlockId material) {
    return std::any_of(r.parts.begin(), r.parts.end(),
                       [&](const Part& part) { return part.material == material; });
}

/// A test that says its lots says all of them: another lot of a material on the shelf is another.
void compare_lots(const Model& model, const Reckoning& r, TestBurn& test) {
    const auto lots = model.text_list(test.burn, Key::lots);
    if (lots.empty()) return;
    for (const Have& have : model.haves) {
        if (have.lot.empty() || !is_part(r, have.block)) continue;
        if (std::find(lots.begin(), lots.end(), have.lot) != lots.end()) continue;
        test.differences.push_back({Key::lots, &have});
    }
}

/// Volume of the lowest `depth` mm of the vessel: of its inside where that is measured, else of a
/// cylinder of the bore.
std::optional<double> lowest_ml(const Model& model, const Reckoning& r, double depth) {
    if (const auto* inside = model.get<Inside>(r.in.job.vessel, Key::inside)) {
        const double high = std::min(depth, inside->depth);
        const double there =
            diameter_at(inside->mouth, inside->base, inside->depth, inside->depth - high);
        return taper_ml(there, inside->base, high);
    }
    if (!r.bore_mm) return std::nullopt;
    return cylinder_ml(*r.bore_mm, depth);
}

double stop_mm(const Model& model, const Reckoning& r) {
    return model.figure(r.in.job.recipe, Key::stop_at).value_or(usual_stop_mm);
}

/// g of wax that must not burn.
std::optional<double> stop_g(const Model& model, const Reckoning& r) {
    const auto slice = lowest_ml(model, r, stop_mm(model, r));
    if (!slice || !r.solid_density) return std::nullopt;
    return *slice * *r.solid_density;
}

/// `left` is a depth, or what was left on the scale.
bool went_to_end(const Model& model, const Reckoning& r, BlockId burn) {
    const auto* left = model.get<Figure>(burn, Key::left);
    if (left == nullptr) return false;
    const bool weighed = left->quantity.dimension == dimension::mass;
    const auto stop = weighed ? stop_g(model, r) : std::optional(stop_mm(model, r));
    return stop && left->value() <= *stop * (1 + same);
}

TestBurn beside_today(const Model& model, const Reckoning& r, BlockId burn) {
    TestBurn test{};
    test.burn = burn;
    if (const auto* on = model.get<DateAt>(burn, Key::on)) test.on = on->date;
    const Beside beside(model, burn, r.in.job.recipe);
    for (const Key key : {Key::wick, Key::vessel, Key::wax, Key::load, Key::scent, Key::additives,
                          Key::leftovers}) {
        if (beside.differs(key)) test.differences.push_back({key});
        const Key todays = key == Key::vessel ? Key::makes : key;
        if (key != Key::leftovers && !beside.says(key) &&
            model.entry(r.in.job.recipe, todays) != nullptr) {
            test.unsaid.push_back(key);
        }
    }
    compare_lots(model, r, test);
    test.cracked = model.choice(burn, Key::cracked) == Choice::yes;
    test.relit = model.choice(burn, Key::relit) == Choice::yes;
    test.called_fail = model.choice(burn, Key::verdict) == Choice::fail;
    test.to_end = went_to_end(model, r, burn);
    return test;
}

std::vector<TestBurn> all_tests(const Model& model, const Reckoning& r) {
    std::vector<TestBurn> tests;
    for (const BlockId burn : model.burns_of(r.in.job.recipe))
        tests.push_back(beside_today(model, r, burn));
    return tests;
}

/// g/h of the whole candle: as the latest test burn of today's make weighed it, of two of one day
/// the later written; else as its wicks' supplier says.
std::optional<std::pair<double, bool>> rate_of(const Model& model, const Reckoning& r,
                                               const Count& wick) {
    std::optional<Date> latest;
    std::optional<double> rate;
    for (const TestBurn& test : all_tests(model, r)) {
        const auto measured = model.figure(test.burn, Key::burns); // g/s
        if (!measured || test.stale() || later_day(latest, test.on)) continue;
        latest = test.on;
        rate = *measured * 3600;
    }
    if (rate) return std::pair(*rate, true);
    const auto of_wick = model.figure(wick.block, Key::burns);
    if (!of_wick) return std::nullopt;
    return std::pair(*of_wick * 3600 * static_cast<double>(wick.count), false);
}

} // namespace

bool later_day(const std::optional<Date>& date, const std::optional<Date>& than) {
    if (!date || !than) return date.has_value();
    return std::tie(date->year, date->month, date->day) >
           std::tie(than->year, than->month, than->day);
}

const TestBurn* Burned::failed() const {
    const auto found = std::find_if(counting.rbegin(), counting.rend(),
                                    [](const TestBurn& test) { return test.failed(); });
    return found == counting.rend() ? nullptr : &*found;
}

Burned burned(const Model& model, const Reckoning& reckoning) {
    std::vector<TestBurn> tests = all_tests(model, reckoning);
    const bool any_of_today =
        std::any_of(tests.begin(), tests.end(), [](const TestBurn& test) { return !test.stale(); });
    if (any_of_today) std::erase_if(tests, [](const TestBurn& test) { return test.stale(); });
    Burned result;
    std::optional<Date> latest;
    for (const TestBurn& test : tests) {
        result.to_end = result.to_end || (test.to_end && !test.failed());
        if (later_day(test.on, latest)) latest = test.on;
    }
    for (TestBurn& test : tests) {
        if (!later_day(latest, test.on)) result.counting.push_back(std::move(test));
    }
    return result;
}

double at_the_wall(double bore_mm, double pool_mm) {
    return std::max(0.0, (bore_mm - pool_mm) / 2);
}

double hours_of(double mass_g, double left_g, double rate_g_h) {
    const double hours = (mass_g - left_g) / rate_g_h;
    if (!(hours > 0)) return 0;
    return std::floor(hours / 5 * (1 + same)) * 5; // 45 h worked out as 44.999… are 45 h
}

std::optional<BurnHours> burn_hours(const Model& model, const Reckoning& reckoning) {
    const std::span<const Count> wicks = model.count_list(reckoning.in.job.recipe, Key::wick);
    if (wicks.empty() || wicks.front().count < 1 || !reckoning.mass_g) return std::nullopt;
    const auto rate = rate_of(model, reckoning, wicks.front());
    const auto left = stop_g(model, reckoning);
    if (!rate || !left) return std::nullopt;
    return BurnHours{hours_of(*reckoning.mass_g, *left, rate->first), rate->second};
}

} // namespace waxwright
