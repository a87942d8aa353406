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
std::string meant(std::string_view words) {
    const auto answer = step_meant(words);
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
    CHECK(meant("snip the wick to 5mm") == "trim wick to 5 mm");
    CHECK(meant("let them cure for a week") == "cure 1 week");
    CHECK(meant("heat gun the tops") == "smooth top");
    CHECK(meant("stir 1 1/2 minutes") == "stir 1 1/2 minutes");
    CHECK(meant("pour into the warm jars at 60C") == "pour at 60 °C");
    CHECK(meant("warm the jars to 40 °C before pouring") == "?warm vessels to 40 °C");
}

TEST_CASE("own words: what may be another thing is only asked") {
    CHECK(meant("take the pot off the burner") == "?off heat");
    CHECK(meant("wait overnight") == "?leave 12 h");
    CHECK(meant("heat the wax to 75 °C") == "?melt to 75 °C"); // or kept back and warmed
    CHECK(meant("stir for 2-3 minutes") == "?stir 2 minutes");
    CHECK(meant("pour half the wax at 60 °C") == "?pour at 60 °C"); // `half` has no place
    CHECK(meant("pour the wax") == "?");                            // at what temperature?
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
}
