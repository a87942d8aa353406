#include "check/burning.hpp"

#include <utility>

#include <fmt/format.h>

#include "check/report.hpp"
#include "reckon/burning.hpp"
#include "reckon/compare.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

// ASTM F2417, from memory of its section 4: 3 in at most, printed with 75 mm behind it. Inch-pound
// values are the standard from the 2017 edition on (seen in its scope), so 3 in are 76.2 mm.
constexpr double most_flame_mm = 76.2;
// EN 15493, from summaries of it; also the metric figure that F2417 prints.
constexpr double most_flame_metric_mm = 75;
// Common practice: hotter glass burns a hand and marks what it stands on.
constexpr double most_glass_c = 80;

/// "the test burn `spring` (2026-04-18)"
std::string called(const Model& model, const TestBurn& test) {
    std::string words = fmt::format("the test burn `{}`", model.name(test.burn));
    if (test.on) {
        Date day = *test.on;
        day.has_time = false;
        words += fmt::format(" ({})", show(day));
    }
    return words;
}

Span at_property(const Model& model, BlockId burn, Key key) {
    const Entry* entry = model.entry(burn, key);
    return entry != nullptr ? entry->at : model.blocks[burn].name_at;
}

/// "70 % shed-soy + 30 % shed-coconut"; the name alone where it is the whole.
std::string blend_words(const Model& model, std::span<const Share> shares) {
    std::string words;
    for (const Share& share : shares) {
        if (shares.size() == 1 && nearly_equal(share.fraction, 1))
            return quoted(model.name(share.material));
        words += fmt::format("{}{} {}", words.empty() ? "" : " + ", show_percent(share.fraction),
                             model.name(share.material));
    }
    return words.empty() ? "none" : words;
}

std::string load_words(const Load& load) {
    return fmt::format("{} {}", show_percent(load.fraction), basis_words(load.basis));
}

std::string count_words(const Model& model, std::span<const Count> counts) {
    if (counts.empty()) return "none";
    const std::string name = quoted(model.name(counts[0].block));
    return counts[0].count == 1 ? name : fmt::format("{} of {}", counts[0].count, name);
}

/// What the property is in the block, a test burn or a recipe.
std::string value_words(const Model& model, BlockId block, Key key) {
    if (key == Key::wick) return count_words(model, model.count_list(block, key));
    if (key == Key::load) {
        const auto* load = model.get<Load>(block, key);
        return load != nullptr ? load_words(*load) : "none";
    }
    if (key == Key::vessel) {
        if (const auto* ref = model.get<Ref>(block, key)) return quoted(model.name(ref->block));
        const auto makes = model.count_list(block, Key::makes);
        return makes.empty() ? "none" : quoted(model.name(makes[0].block));
    }
    return blend_words(model, model.blend(block, key));
}

std::string lots_words(const Model& model, BlockId burn) {
    std::string words;
    for (const std::string_view lot : model.text_list(burn, Key::lots))
        words += fmt::format("{}\"{}\"", words.empty() ? "" : ", ", lot);
    return words;
}

constexpr std::string_view burn_again = "that test was of another candle: burn some of today's to "
                                        "the end, and write a `test-burn` block for them";

constexpr std::string_view burn_first =
    "burn some to the end before you sell any, and write down what happened in a `test-burn` block";

bool many(Key key) {
    return key == Key::additives || key == Key::leftovers;
}

void report_difference(const Model& model, const Job& job, const TestBurn& test,
                       const Difference& difference, Findings& findings) {
    const Key todays = difference.key == Key::vessel ? Key::makes : difference.key;
    Finding& finding =
        report(findings, job, Rule::test_stale, at_property(model, test.burn, difference.key),
               fmt::format("{} {}: {} had {}, and `{}` today has {}",
                           many(difference.key) ? "other" : "another", word(difference.key),
                           called(model, test), value_words(model, test.burn, difference.key),
                           model.name(job.recipe), value_words(model, job.recipe, difference.key)),
               std::string(burn_again));
    relate(model, finding, at_property(model, job.recipe, todays), "today's");
}

/// An error for a candle of today's make. Of another make it stops nobody from making a better one.
void check_flame(const Model& model, const Job& job, const TestBurn& test, Findings& findings) {
    const auto* flame = model.get<Figure>(test.burn, Key::flame);
    if (flame == nullptr) return;
    const UnitId id = plain(flame->quantity.unit);
    const bool inches = id != no_unit && unit(id).symbol == "in";
    const bool high = over(flame->value(), most_flame_mm);
    if (!high && (inches || !over(flame->value(), most_flame_metric_mm))) return;
    const std::string message =
        fmt::format("the flame of {} was {}, {}", called(model, test), show(flame->quantity),
                    high ? "over 3 in (76.2 mm)" : "over 75 mm, though not over 3 in (76.2 mm)");
    constexpr std::string_view hint = "take a smaller wick, or trim it shorter, and burn another; "
                                      "ASTM F2417 has 3 in as the most "
                                      "and EN 15493 75 mm";
    const Severity severity = high && !test.stale() ? Severity::error : Severity::warning;
    Finding& finding = findings.report_milder(severity, Rule::flame_too_high, flame->at, message,
                                              std::string(hint));
    finding.subjects.push_back({job.recipe, job.batch});
}

void check_glass(const Model& model, const Job& job, const TestBurn& test, Findings& findings) {
    const auto* glass = model.get<Figure>(test.burn, Key::glass);
    if (glass == nullptr || !over(glass->value(), most_glass_c)) return;
    report(
        findings, job, Rule::glass_hot, glass->at,
        fmt::format("the outside reached {} in {}, over {}", show(glass->quantity),
                    called(model, test), degrees_like(most_glass_c, *glass)),
        "glass so hot burns a hand and marks a table: take a smaller wick or a wider vessel, and "
        "burn another");
}

/// The finding stands where the test says what went wrong.
void report_failed(const Model& model, const Job& job, const TestBurn& test, Findings& findings) {
    Key key = Key::verdict;
    std::string_view what = "its verdict is `fail`";
    if (test.relit) {
        key = Key::relit;
        what = "it lit again by itself";
    }
    if (test.cracked) {
        key = Key::cracked;
        what = "its vessel cracked";
    }
    report(findings, job, Rule::untested, at_property(model, test.burn, key),
           fmt::format("{} failed: {}; `{}` counts as untested", called(model, test), what,
                       model.name(job.recipe)),
           "change the candle, and burn another to the end");
}

void check_end(const Model& model, const Job& job, const Burned& burns, Findings& findings) {
    if (burns.to_end || burns.failed() != nullptr) return;
    const TestBurn& test = burns.counting.back();
    const auto* left = model.get<Figure>(test.burn, Key::left);
    if (model.unreadable(test.burn, Key::left) || model.unreadable(job.recipe, Key::stop_at))
        return;
    const auto* stop = model.get<Figure>(job.recipe, Key::stop_at);
    const std::string depth =
        stop != nullptr ? show(stop->quantity) : show_in(usual_stop_mm, no_unit, dimension::length);
    const std::string message =
        left == nullptr
            ? fmt::format("{} does not say what was `left` when it went out, so it is not known to "
                          "have burned to its end",
                          called(model, test))
            : fmt::format("{} did not go to the end: {} were left, and `{}` burns down to {}",
                          called(model, test), show(left->quantity), model.name(job.recipe), depth);
    report(
        findings, job, Rule::end_not_tested, at_property(model, test.burn, Key::left), message,
        "burn one until it goes out by itself: the vessel is hottest at the end, and that is when "
        "it cracks");
}

/// No pool is wider than the vessel; measured at the outside it may seem a little so.
void check_pool(const Model& model, const Reckoning& r, const TestBurn& test, Findings& findings) {
    constexpr double glass = 1.1; // thickness of the wall
    const auto* pool = model.get<Figure>(test.burn, Key::melt_pool);
    if (pool == nullptr || !r.bore_mm || test.stale() || pool->value() <= glass * *r.bore_mm)
        return;
    Finding& finding = findings.report_milder(
        Severity::warning, Rule::out_of_range, pool->at,
        fmt::format("the melt pool of {} was {}, and the bore of `{}` is {}", called(model, test),
                    show(pool->quantity), model.name(r.in.job.vessel),
                    show_in(*r.bore_mm, pool->quantity.unit, dimension::length)),
        "measure the pool from edge to edge across the wick, and look at the unit");
    finding.subjects.push_back({r.in.job.recipe, r.in.job.batch});
}

/// All lots of the shelf that the test was not made of, in one finding.
void report_lots(const Model& model, const Job& job, const TestBurn& test, Findings& findings) {
    std::string shelf;
    for (const Difference& each : test.differences) {
        if (each.shelf == nullptr) continue;
        shelf += fmt::format("{}lot \"{}\" of `{}`", shelf.empty() ? "" : ", ", each.shelf->lot,
                             model.name(each.shelf->block));
    }
    if (shelf.empty()) return;
    Finding& finding =
        report(findings, job, Rule::test_stale, at_property(model, test.burn, Key::lots),
               fmt::format("another lot: {} was made of {}, and on the shelf is {}",
                           called(model, test), lots_words(model, test.burn), shelf),
               "burn some of the new lot; or, if the test had it, add it to `lots`");
    for (const Difference& each : test.differences) {
        if (each.shelf != nullptr) relate(model, finding, each.shelf->at, "another lot");
    }
}

void check_tests(const Model& model, const Reckoning& r, const Burned& burns, Findings& findings) {
    const Job& job = r.in.job;
    if (burns.stale()) {
        const TestBurn& test = burns.counting.back();
        report_lots(model, job, test, findings);
        for (const Difference& difference : test.differences) {
            if (difference.shelf == nullptr) {
                report_difference(model, job, test, difference, findings);
            }
        }
    }
    for (const TestBurn& test : burns.counting) {
        check_pool(model, r, test, findings);
        check_flame(model, job, test, findings);
        check_glass(model, job, test, findings);
    }
    if (const TestBurn* failed = burns.failed()) report_failed(model, job, *failed, findings);
    check_end(model, job, burns, findings);
}

/// mm of wick left standing: 1/4 in, 6 mm, is common practice; past this it smokes and burns high.
constexpr double longest_trim = 10;

void check_trim_length(const Job& job, const Step& step, Findings& findings) {
    if (!step.length() || !over(step.length()->value(), longest_trim)) return;
    report(
        findings, job, Rule::trim_long, step.at,
        fmt::format("a wick of {} is long: it smokes and burns high",
                    show(step.length()->quantity)),
        fmt::format("trim it to {}", show_in(6, step.length()->quantity.unit, dimension::length)));
}

void offer_step(Finding& finding, std::optional<Fix> fix) {
    if (fix) finding.fixes.push_back(std::move(*fix));
}

/// The last step at which the wax is still on its way to setting: wicks are trimmed after it.
const Step* last_before_cold(const Model& model, const Job& job) {
    const Step* last = nullptr;
    for (const Step& step : model.steps_of(job.recipe)) {
        if (info(step.verb).has(trait::pours) || step.verb == Verb::smooth_top ||
            (last != nullptr && step.verb == Verb::leave))
            last = &step;
    }
    return last;
}

void check_trim(const Model& model, const Job& job, Findings& findings) {
    if (model.blocks[job.recipe].steps_broken) return;
    const Entry* wick = model.entry(job.recipe, Key::wick);
    if (wick == nullptr || model.steps_of(job.recipe).empty()) return;
    const Step* trimmed = nullptr; // the last time
    for (const Step& step : model.steps_of(job.recipe)) {
        if (step.verb == Verb::trim_wick) trimmed = &step;
    }
    if (trimmed != nullptr) return check_trim_length(job, *trimmed, findings);
    Finding& finding =
        report(findings, job, Rule::no_trim, wick->at, "no step trims the wick",
               "a long wick smokes and burns high: write `trim wick to 6 mm` after the last pour");
    const Step* last = last_before_cold(model, job);
    if (last != nullptr)
        offer_step(finding, step_behind(model, finding, job, *last, "trim wick to 6 mm"));
}

void check_cure(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Job& job = reckoning.in.job;
    const auto* wanted = model.get<Range>(reckoning.largest_wax, Key::cures);
    if (wanted == nullptr || model.blocks[job.recipe].steps_broken) return;
    const Step* last = nullptr;
    double cured = 0; // s, of all cures
    int cures = 0;
    for (const Step& step : model.steps_of(job.recipe)) {
        if (step.verb != Verb::cure) continue;
        if (!step.duration()) return;
        cured += step.duration()->value();
        ++cures;
        last = &step;
    }
    if (!under(cured, wanted->low.value)) return;
    const Entry* wax = model.entry(job.recipe, Key::wax);
    if (last == nullptr && (wax == nullptr || model.steps_of(job.recipe).empty())) return;
    const bool blend = reckoning.in.waxes().size() > 1;
    const std::string wants = fmt::format(
        "`{}`{} cures for {}", model.name(reckoning.largest_wax),
        blend ? ", the most of this blend," : "",
        range_words(wanted->low.value, wanted->high, wanted->low.unit, dimension::time));
    const UnitId as = last != nullptr ? last->duration()->quantity.unit : no_unit;
    const std::string message =
        last == nullptr
            ? fmt::format("no step cures it, and {}", wants)
            : fmt::format("it cures for {}, and {}", show_in(cured, as, dimension::time), wants);
    Finding& finding =
        report(findings, job, Rule::cure_short, last != nullptr ? last->at : wax->at, message,
               fmt::format("scent binds and wax hardens in that time: write `cure {}`, and burn no "
                           "test candle before then",
                           show_in(wanted->low.value, wanted->low.unit, dimension::time)));
    relate(model, finding, model.entry(reckoning.largest_wax, Key::cures)->at, "what it wants");
    const std::string words =
        fmt::format("cure {}", show_in(wanted->low.value, wanted->low.unit, dimension::time));
    if (last == nullptr) {
        offer_step(finding,
                   step_behind(model, finding, job, model.steps_of(job.recipe).back(), words));
    } else if (cures == 1 && stands_in(model, job.recipe, last->at)) {
        finding.fixes.push_back(put(last->at, words, false));
    }
}

/// Nothing is said where a test burn can't be read so far that it tells whose it is.
void report_untested(const Model& model, const Job& job, Findings& findings) {
    if (!model.burns_of(no_block).empty()) return;
    Finding& finding = findings.report_milder(
        Severity::note, Rule::untested, model.blocks[job.recipe].name_at,
        fmt::format("`{}` has no test burn", model.name(job.recipe)), std::string(burn_first));
    finding.subjects.push_back({job.recipe, job.batch});
}

/// True if a test of the recipe was lit on the day the batch starts, or before. One without a date
/// may have been.
bool tested_before(const Model& model, BlockId recipe, const Date& starts) {
    for (const BlockId burn : model.burns_of(recipe)) {
        const auto* on = model.get<DateAt>(burn, Key::on);
        if (on == nullptr || !later_day(on->date, starts)) return true;
    }
    return false;
}

} // namespace

void check_burning(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Job& job = reckoning.in.job;
    const Burned burns = burned(model, reckoning);
    if (burns.none()) {
        report_untested(model, job, findings);
    } else {
        check_tests(model, reckoning, burns, findings);
    }
    check_trim(model, job, findings);
    check_cure(model, reckoning, findings);
}

void check_burning_in_batch(const Model& model, const Reckoning& reckoning, Findings& findings) {
    const Job& job = reckoning.in.job;
    const auto burns = model.burns_of(job.recipe);
    if (burns.empty() && !model.burns_of(no_block).empty()) return;
    const auto* starts = model.get<DateAt>(job.batch, Key::starts);
    if (!burns.empty() && (starts == nullptr || tested_before(model, job.recipe, starts->date))) {
        return;
    }
    const std::string what =
        burns.empty() ? fmt::format("`{}` has no test burn", model.name(job.recipe))
                      : fmt::format("`{}` has no test burn from before this batch starts ({})",
                                    model.name(job.recipe), show(starts->date));
    report(findings, job, Rule::untested, job.count_at, what, std::string(burn_first));
}

} // namespace waxwright
