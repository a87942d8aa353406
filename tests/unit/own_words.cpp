// Lines in a maker's own words: what each word speaks of, the figures, and what a line comes to.
#include <doctest/doctest.h>

#include <string>
#include <string_view>

#include "model/line_meant.hpp"
#include "model/step_meant.hpp"
#include "model/step_words.hpp"

using namespace waxwright;

namespace {

/// The line, `?` and the line where it is only asked, or nothing.
std::string meant(std::string_view words, bool poured = false) {
    const auto answer = step_meant(words, StepsAbove{poured});
    if (!answer) return "-";
    return (answer->certain ? "" : "?") + answer->line;
}

} // namespace

TEST_CASE("own words: figures are taken with their units, as the language has them") {
    const StepWords words = step_words("Heat to 170 deg F, wait 1 h 30 min, then two weeks, 1/4\"");
    REQUIRE(words.temperatures.size() == 1);
    CHECK(words.temperatures[0] == "170 °F");
    REQUIRE(words.times.size() == 2);
    CHECK(words.times[0] == "1 h 30 min");
    CHECK(words.times[1] == "2 weeks");
    REQUIRE(words.lengths.size() == 1);
    CHECK(words.lengths[0] == "1/4 in");
    CHECK(words.others.empty());
}

TEST_CASE("own words: a step in other words") {
    CHECK(meant("stir in the scent at 160F for two minutes") ==
          "add scent at 160 °F, stir 2 minutes");
    CHECK(meant("when it reaches 60 °C pour") == "pour at 60 °C");
    CHECK(meant("snip the wick to 5mm", true) == "trim wick to 5 mm");
    CHECK(meant("let them cure for a week", true) == "cure 1 week");
    CHECK(meant("smooth the tops", true) == "smooth top");
    CHECK(meant("stir 1 1/2 minutes") == "stir 1 1/2 minutes");
    CHECK(meant("warm the jars to 40 °C before pouring") == "?warm vessels to 40 °C");
}

TEST_CASE("own words: what may be another thing is only asked") {
    CHECK(meant("take the pot off the burner") == "?off heat");
    CHECK(meant("wait overnight") == "?leave 12 h");
    CHECK(meant("heat the wax to 75 °C") == "?melt to 75 °C"); // or kept back and warmed
    CHECK(meant("stir for 2-3 minutes") == "?stir 2 minutes");
    CHECK(meant("pour half the wax at 60 °C") == "?"); // one pour fills each
    CHECK(meant("pour the wax") == "?");               // at what temperature?
    CHECK(meant("cure at least 2 weeks in the dark") == "?cure 2 weeks");
}

TEST_CASE("own words: no step is made of what says another thing") {
    CHECK(meant("don't stir") == "-");
    CHECK(meant("do not move the jars") == "-");
    CHECK(meant("stir .5 min") == "-"); // `.5` has a finding of its own, and is not 5
    CHECK(meant("melt to 75 °C; off heat") == "-");
    CHECK(meant("melt to 75 °C and add scent at 70 °C") == "-"); // two steps
    CHECK(meant("") == "-");
    CHECK(meant("\xFF\xFE (((((") == "-");
}

TEST_CASE("own words: a wrong pour is never sure of itself") {
    CHECK(meant("pour the rest at 62 °C") == "?second pour at 62 °C");
    CHECK(meant("do a second pour at 62 °C") == "?second pour at 62 °C");
    CHECK(meant("reheat and pour at 62 °C") == "?");
    CHECK(meant("turn off the heat") == "?off heat");
    CHECK(meant("lower the heat") == "?");
    CHECK(meant("let the candles cool to 30 °C") == "?"); // the pot is not meant
}

TEST_CASE("own words: what a word changes is never left out as if it weren't there") {
    for (const std::string_view line : {"cool the jars to 40 °C",
                                        "warm the oil to 40 °C",
                                        "warm the scent at 40 °C",
                                        "put the lid on the pot",
                                        "cover the pan",
                                        "put labels on the lids",
                                        "stir every 5 minutes",
                                        "warm up the jars with a hairdryer",
                                        "pour first at 60 °C",
                                        "heat the jars with a heat gun",
                                        "pour at 60 °C into half the jars",
                                        "trim wick by 6 mm",
                                        "cure max 10 days",
                                        "poke a hole in the lid",
                                        "set the wicks in the lids",
                                        "centre the wick",
                                        "add scent at 70 °C slowly, stirring",
                                        "add scent on low heat at 70 °C",
                                        "pour at 60 °C into warm jars",
                                        "skip the cure 10 days",
                                        "put the pot back on the heat until 75 °C",
                                        "cover the jars with a towel",
                                        "add half the scent at 70 °C",
                                        "pour off the water at 60 °C",
                                        "leave the lid off"}) {
        CAPTURE(line);
        for (const bool poured : {false, true}) {
            const std::string step = meant(line, poured);
            CHECK((step.starts_with('?') || step == "-"));
        }
    }
    CHECK(meant("put the pot back on the heat until 75 °C") == "?"); // not `off heat`
    CHECK(meant("skip the cure 10 days", true) == "-");
    CHECK(meant("leave half an inch at the top") == "?"); // the headspace
}

TEST_CASE("own words: a step out of its place is only asked") {
    CHECK(meant("clean the jars") == "wipe vessels");
    CHECK(meant("clean the jars", true) == "?wipe vessels"); // with candles in them
    CHECK(meant("smooth the tops") == "?smooth top");
    CHECK(meant("put the lids on", true) == "lid");
    CHECK(meant("put the lids on") == "?lid");
}

TEST_CASE("own words: blends as they are written") {
    CHECK(blend_meant("lavender/rosemary 2:1", "…") == "2 parts lavender + 1 part rosemary");
    CHECK(blend_meant("60/40 lavender rosemary", "…") == "60% lavender + 40% rosemary");
    CHECK(blend_meant("Soy 70%, Beeswax 30%", "…") == "70% soy + 30% beeswax");
    CHECK(blend_meant("half soy half coconut", "…") == "1 part soy + 1 part coconut");
    CHECK(blend_meant("10 g lavender + 5 g rosemary", "…") ==
          "10 parts lavender + 5 parts rosemary");
    CHECK(blend_meant("lavender and sweet orange", "…%") == "…% lavender + …% sweet-orange");
    CHECK(blend_meant("70% soy, beeswax", "…").empty()); // of one of them it isn't said
    CHECK(blend_meant("20 drops lavender", "…").empty());
    CHECK(blend_meant("soy +", "…").empty());
    CHECK(blend_meant("40 ml lavender + 20 ml rosemary", "…") ==
          "40 parts lavender + 20 parts rosemary by volume");
    for (const std::string_view other :
         {"2:1 soy to coconut", "soy or coconut", "not soy", "no lavender", "dried lavender",
          "equal lavender and rosemary"}) {
        CAPTURE(other);
        CHECK(blend_meant(other, "…").empty());
    }
}
