// The one table of limits: which rule holds which figure of a job against which other, and which
// way. The rules of check/ tell what is over; doubt looks at how near each comes at the ends of
// what is doubtful.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "findings/registry.hpp"
#include "reckon/reckoning.hpp"

namespace waxwright {

/// `most`: the limit itself still passes. `under`: it is too much already. `least`: it passes.
enum class Way : std::uint8_t { most, under, least };

/// One figure held against its limit.
struct LimitCheck {
    Rule rule;
    Way way;
    bool silent;        // another finding says all, or it can't be known
    std::uint32_t item; // index of the step, the material or the wick; 0 of the vessel and the pot
    double value;       // NaN where it is unknown
    double limit;       // so
};

/// True if it is over (or, for `least`, under) its limit; values within 1e-9 are equal.
bool is_broken(const LimitCheck& check);
/// How far it is beyond its limit, in its own unit: under 0 where there is room, NaN if unknown.
double beyond(const LimitCheck& check);

/// The item of `pot-too-small` that looks at the pot in which what is kept back waits.
inline constexpr std::uint32_t kept_of_filling = 1;

using LimitChecks = std::vector<LimitCheck>;

struct LimitInfo {
    Rule rule;
    Way way;
    /// Whether a limit that lies within a doubt is told (`within-doubt`). The rules that only keep
    /// a distance from a limit, and those for tastes, are left to the figures as written.
    bool in_doubt;
    /// Adds a check for each thing that the rule looks at: for the same recipe always as many, in
    /// the same order, whatever its figures are.
    void (*add)(const Inputs& in, const Amounts& a, const LimitInfo& self, LimitChecks& into);
};
std::span<const LimitInfo> all_limits();

/// Every check of a job. `into` is used again: looking at doubt asks for them often.
void collect_limit_checks(const Inputs& in, const Amounts& amounts, LimitChecks& into);

/// How far under a flash point heating counts as near it: 30 F°, 16.7 C°, inclusive. The margin is
/// that of 29 CFR 1910.106(a)(19), which treats a liquid heated to within it as the next more
/// dangerous class (seen); taking it for wax and scent oil is by analogy.
inline constexpr double flash_margin = 30 / 1.8;
/// °C. The water of a bath that is not under pressure boils at 100 °C and is always hotter than
/// what stands in it; that about 5 C° are lost on the way is common practice.
inline constexpr double hottest_in_bath = 95;
/// Share of brimful over which wax spills when it is moved (common practice).
inline constexpr double fullest = 0.95;
/// mm of headspace that are little in glass (or unsaid) and in tin; nothing for other vessels
/// (common practice).
std::optional<double> least_headspace(const Inputs& in);
/// The bore that each of several wicks serves: bore / sqrt(n), equal areas (common practice).
double bore_for_each(double bore, std::int64_t wicks);

} // namespace waxwright
