#include "model/step_meant.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "model/step_words.hpp"

namespace waxwright {

namespace {

/// Where in its recipe a step has its place; anywhere else it is only asked.
enum class Place : unsigned char { any, before_pour, after_pour };

/// A step by its words. The first that fits is taken, so what is told by more comes before what is
/// told by less. `{T}`, `{D}`, `{L}` are the temperature, the time, the length, `{S}` the stirring,
/// `{P}` a share or an amount, `{N}` what no word of the table is, as a name.
struct Meaning {
    bool (*fits)(const StepWords& words);
    std::string_view line; // empty where only a question is left
    Cues sure;             // it is certain of a line that speaks of nothing but these; 0: never
    std::string_view question{}; // empty where none is needed
    std::string_view missing{};  // what is asked where the line lacks a figure
    Place place = Place::any;
};

using Words = const StepWords&;

constexpr std::string_view own_words =
    "for words of your own, which the sheet prints, write `note \"…\"`";
constexpr std::string_view lifted =
    "is the pot lifted off what heats it? that is `off heat`; on a plate or in a bath that is only "
    "switched off it goes on getting hotter";

constexpr Meaning meanings[] = {
    // What is no step
    {[](Words w) { return w.has(Cue::weigh); }, "", 0,
     "what to weigh stands on the sheet by itself; for words of your own write `note \"…\"`"},
    {[](Words w) { return w.has(Cue::look) && !w.has(Cue::burn) && w.times.empty(); }, "", 0,
     "the sheet has a blank for the thermometer at each step; for words of your own write "
     "`note \"…\"`"},
    {[](Words w) {
         return !w.lengths.empty() && !w.any(cues(Cue::wick, Cue::trim)) &&
                w.any(cues(Cue::wait, Cue::top, Cue::vessels, Cue::pour, Cue::wax));
     },
     "", 0,
     "how much is left free at the top is a line of the recipe, or of its vessel: `headspace: "
     "{L}`"},
    {[](Words w) { return w.has(Cue::hold) && w.any(cues(Cue::part, Cue::more)); }, "", 0,
     "what is kept back for a second pour is worked out from how much the wax shrinks; a share of "
     "your own is a line of the recipe, `keep: 10% of wax`"},
    {[](Words w) { return w.has(Cue::cure) || (w.has(Cue::wait) && w.has(Cue::burn)); }, "cure {D}",
     cues(Cue::cure, Cue::wait, Cue::candle), "", "for how long? write `cure … days`",
     Place::after_pour},
    {[](Words w) { return w.has(Cue::burn) && !w.has(Cue::fire); }, "", 0,
     "what a test burn showed goes in a block of its own, `test-burn`; for words of your own write "
     "`note \"…\"`"},

    // The finished candle
    {[](Words w) {
         return (w.has(Cue::smooth) || (w.has(Cue::blower) && w.has(Cue::top))) &&
                !w.any(cues(Cue::pour, Cue::wick, Cue::scent, Cue::vessels));
     },
     "smooth top", cues(Cue::smooth, Cue::top),
     "is the set wax's top made even with warm air? that is `smooth top`", "", Place::after_pour},
    {[](Words w) { return w.has(Cue::top) && w.has(Cue::warm); }, "smooth top", 0,
     "is the set wax's top made even with warm air? that is `smooth top`"},
    {[](Words w) { return w.has(Cue::poke) && w.has(Cue::holes) && !w.has(Cue::lids); },
     "poke holes", cues(Cue::poke, Cue::holes, Cue::wick), "", "", Place::after_pour},
    {[](Words w) {
         return w.has(Cue::trim) && !w.has(Cue::fire) && (w.has(Cue::wick) || !w.lengths.empty());
     },
     "trim wick to {L}", cues(Cue::trim, Cue::wick, Cue::lower), "",
     "to what length? write `trim wick to … mm`, or `… in`", Place::after_pour},
    {[](Words w) { return w.has(Cue::labels); }, "label",
     cues(Cue::labels, Cue::paste, Cue::vessels, Cue::candle), "", "", Place::after_pour},
    {[](Words w) {
         return w.has(Cue::lids) && w.has(Cue::shut) &&
                !w.any(cues(Cue::scent, Cue::pot, Cue::holes, Cue::wick, Cue::gone));
     },
     "lid", cues(Cue::lids, Cue::shut, Cue::vessels, Cue::candle), "", "", Place::after_pour},

    // What goes in
    {[](Words w) { return w.has(Cue::colour) && w.has(Cue::add); }, "", 0,
     "a dye goes in by its name: `add my-dye at … °C`; how much of it, in a line of the recipe, "
     "`additives: … % my-dye`"},
    {[](Words w) { return w.has(Cue::scent) && !w.shares.empty(); }, "", 0,
     "how much scent there is, is a line of the recipe, `load: {P} of wax`; the step is `add scent "
     "at {T}`"},
    {[](Words w) { return w.has(Cue::scent) && (!w.amounts.empty() || w.has(Cue::part)); }, "", 0,
     "how much scent there is, is worked out from the recipe's `load`, for any number of vessels, "
     "and all of it goes in at once: `add scent at {T}`"},
    {[](Words w) {
         return w.has(Cue::scent) && w.has(Cue::fire) && !w.any(cues(Cue::gone, Cue::switched));
     },
     "", 0,
     "scent goes in with all heat off, since its vapour can light: `off heat`, and then `add scent "
     "at {T}`"},
    {[](Words w) { return w.has(Cue::scent) && w.has(Cue::warm) && !w.has(Cue::add); }, "", 0,
     "scent isn't warmed by itself, since its vapour can light; it goes into the wax with `add "
     "scent at {T}`"},
    {[](Words w) {
         return w.has(Cue::scent) && !w.any(cues(Cue::wick, Cue::vessels)) &&
                (w.any(cues(Cue::add, Cue::pour)) || !w.temperatures.empty());
     },
     "add scent at {T}{S}", cues(Cue::scent, Cue::add, Cue::wax), "",
     "at what temperature? write `add scent at … °C`", Place::before_pour},
    {[](Words w) {
         return w.has(Cue::add) && (!w.shares.empty() || !w.amounts.empty()) && !w.others.empty();
     },
     "", 0,
     "how much of it goes in, is a line of the recipe, in percents of the wax: `additives: … % "
     "{N}`; the step is `add {N} at {T}`"},
    {[](Words w) {
         return w.has(Cue::goes_in) && !w.any(cues(Cue::cool, Cue::wick)) && !w.others.empty();
     },
     "", 0,
     "it goes in by its name: `add {N} at {T}`; how much of it is a line of the recipe, "
     "`additives: … % {N}`"},

    // Vessels and wicks
    {[](Words w) { return w.has(Cue::wick) && w.has(Cue::centred); }, "set wick", 0,
     "before the pour that is `set wick`; after it, for words of your own write `note \"…\"`"},
    {[](Words w) {
         return w.has(Cue::wick) && w.any(cues(Cue::fix, Cue::vessels)) && !w.has(Cue::lids);
     },
     "set wick", cues(Cue::wick, Cue::fix, Cue::vessels, Cue::lower), "", "", Place::before_pour},
    {[](Words w) {
         return w.has(Cue::vessels) && w.has(Cue::warm) && w.before(Cue::warm, Cue::pour);
     },
     "warm vessels to {T}", cues(Cue::vessels, Cue::warm), "",
     "to what temperature? write `warm vessels to … °C`", Place::before_pour},
    {[](Words w) { return w.has(Cue::wipe) && w.has(Cue::vessels); }, "wipe vessels",
     cues(Cue::wipe, Cue::vessels), "the empty vessels, before the pour? that is `wipe vessels`",
     "", Place::before_pour},

    // The heat
    {[](Words w) { return w.has(Cue::fire) && w.has(Cue::lower); }, "", 0,
     "a lower heat is no step by itself: to keep the wax as hot as it is write `hold … min`, to "
     "let "
     "it come down `cool to … °C`"},
    {[](Words w) { return w.has(Cue::part) && w.any(cues(Cue::fire, Cue::pot)); }, "", 0,
     own_words},
    {[](Words w) { return w.has(Cue::fire) && w.has(Cue::switched); }, "off heat", 0, lifted},
    {[](Words w) {
         return w.any(cues(Cue::fire, Cue::pot)) && w.any(cues(Cue::gone, Cue::taken)) &&
                !w.any(cues(Cue::scent, Cue::lids, Cue::pour));
     },
     "off heat", 0, "is the pot lifted off what heats it? then write `off heat`"},

    // Pours
    {[](Words w) {
         return (w.has(Cue::top) && w.has(Cue::up)) ||
                (w.has(Cue::more) &&
                 (w.any(cues(Cue::pour, Cue::warm)) || !w.temperatures.empty()));
     },
     "second pour at {T}", 0,
     "is it wax kept back, poured to fill what shrank? then write `second pour at {T}`",
     "is it wax kept back, poured to fill what shrank? at what temperature? write `second pour at "
     "… °C`"},
    {[](Words w) { return w.has(Cue::warm) && w.has(Cue::pour) && w.before(Cue::warm, Cue::pour); },
     "", 0,
     "is it wax kept back, warmed and poured to fill what shrank? then write `second pour at {T}`; "
     "else these are two steps, on a line each"},
    {[](Words w) { return w.has(Cue::pour) && w.any(cues(Cue::part, Cue::pot, Cue::gone)); }, "", 0,
     "one pour fills each vessel to its line, and what shrinks is filled by `second pour at … °C`; "
     "for words of your own write `note \"…\"`"},
    {[](Words w) { return w.has(Cue::pour); }, "pour at {T}",
     cues(Cue::pour, Cue::vessels, Cue::wax), "", "at what temperature? write `pour at … °C`"},

    // The wax in the pot
    {[](Words w) {
         return w.any(cues(Cue::candle, Cue::vessels)) && w.any(cues(Cue::cool, Cue::wait));
     },
     "leave {D}", 0, "are the poured candles left to set? then write `leave {D}`",
     "are the poured candles left to set? how long is that at least? write `leave … h`"},
    {[](Words w) { return w.has(Cue::melt); }, "melt to {T}", cues(Cue::melt, Cue::wax, Cue::pot),
     "", "to what temperature? write `melt to … °C`", Place::before_pour},
    {[](Words w) { return w.has(Cue::cool) && !w.temperatures.empty() && w.times.empty(); },
     "cool to {T}", cues(Cue::cool, Cue::wait, Cue::wax, Cue::pot), "", "", Place::before_pour},
    {[](Words w) { return w.has(Cue::stir) && !w.has(Cue::scent); }, "stir {D}",
     cues(Cue::stir, Cue::hold, Cue::wax, Cue::pot), "", "for how long? write `stir … min`"},
    {[](Words w) { return w.has(Cue::hold) && !w.any(cues(Cue::wait, Cue::wick)); }, "hold {D}", 0,
     "write `hold {D}`: it is kept as hot as the step in front of it says",
     "for how long? write `hold … min`: it is kept as hot as the step in front of it says"},
    {[](Words w) { return w.has(Cue::warm) && w.any(cues(Cue::wax, Cue::pot)); }, "melt to {T}", 0,
     "is the wax melted (`melt to {T}`), or is it wax kept back that is warmed (`second pour at "
     "{T}`)?",
     "is the wax melted (`melt to … °C`), or is it wax kept back that is warmed (`second pour at … "
     "°C`)?"},
    {[](Words w) {
         return w.any(cues(Cue::cool, Cue::wait)) &&
                (!w.temperatures.empty() || !w.numbers.empty()) && w.times.empty();
     },
     "cool to {T}", cues(Cue::cool, Cue::wait, Cue::wax, Cue::pot), "", "", Place::before_pour},
    {[](Words w) {
         return w.has(Cue::wait) && !w.any(cues(Cue::lids, Cue::wick)) &&
                (w.others.empty() || !w.times.empty());
     },
     "leave {D}", 0, "is it left to set? then write `leave {D}`; till it may be burned is `cure …`",
     "how long is that at least? write `leave … h`"},
};

/// The figures of a hole: the first is taken.
const std::vector<std::string>& figures_for(std::string_view hole, const StepWords& words) {
    if (hole == "{D}" || hole == "{S}") return words.times;
    if (hole == "{L}") return words.lengths;
    if (hole == "{P}") return words.shares.empty() ? words.amounts : words.shares;
    return words.temperatures.empty() ? words.numbers : words.temperatures;
}

void replace_all(std::string& text, std::string_view what, std::string_view by) {
    for (std::size_t at = text.find(what); at != std::string::npos;
         at = text.find(what, at + by.size()))
        text.replace(at, what.size(), by);
}

std::size_t figures_in(const StepWords& words) {
    return words.temperatures.size() + words.times.size() + words.lengths.size() +
           words.shares.size() + words.amounts.size() + words.numbers.size();
}

/// The words that the table doesn't have, as one name: `uv-inhibitor`.
std::string name_of(const StepWords& words) {
    std::string name;
    for (const std::string& word : words.others)
        name += name.empty() ? word : "-" + word;
    return is_kebab(name) ? name : "…";
}

bool is_there(Place place, const StepsAbove& above) {
    return place == Place::any || (place == Place::after_pour) == above.poured;
}

SlipAnswer answer_by(const Meaning& meaning, const StepWords& words, const StepsAbove& above) {
    SlipAnswer answer{std::string(meaning.question), std::string(meaning.line)};
    std::size_t used = 0;
    bool lacks = false;
    for (const std::string_view hole : {"{T}", "{D}", "{L}", "{P}"}) {
        const auto& figures = figures_for(hole, words);
        if (meaning.line.find(hole) != std::string_view::npos) {
            lacks = lacks || figures.empty();
            ++used;
        }
        const std::string_view nothing = hole == "{T}" ? "… °C" : "…";
        const std::string_view figure = figures.empty() ? nothing : figures.front();
        replace_all(answer.line, hole, figure);
        replace_all(answer.hint, hole, figure);
    }
    replace_all(answer.hint, "{N}", name_of(words));
    const bool stirred = !words.times.empty() && meaning.line.ends_with("{S}");
    replace_all(answer.line, "{S}", stirred ? ", stir " + words.times.front() : "");
    used += stirred ? 1 : 0;
    answer.line = neat_line(answer.line);
    if (lacks) return {std::string(meaning.missing)};
    answer.certain = meaning.sure != 0 && words.nothing_but(meaning.sure) && !words.range &&
                     !words.overnight && used == figures_in(words) &&
                     is_there(meaning.place, above);
    if (!answer.hint.empty() && !answer.certain) return answer;
    const std::string_view before = words.range       ? "of a range write one figure: "
                                    : !answer.certain ? "is it this? write "
                                                      : "write ";
    answer.hint = fmt::format("{}`{}`", before, answer.line);
    return answer;
}

} // namespace

std::optional<SlipAnswer> step_meant(std::string_view line, const StepsAbove& above) {
    const StepWords words = step_words(line);
    const bool several = words.temperatures.size() > 1; // two steps
    if (words.in_order.empty() || words.odd || words.has(Cue::doubt) || several)
        return std::nullopt;
    for (const Meaning& meaning : meanings)
        if (meaning.fits(words)) return answer_by(meaning, words, above);
    return std::nullopt;
}

std::optional<StepsAbove> steps_above(std::string_view text, std::size_t at) {
    constexpr std::size_t longest = 8192; // no list of steps that people write is longer
    const std::size_t stop = at > longest ? at - longest : 0;
    StepsAbove above;
    std::size_t end = text.rfind('\n', at);
    while (end != std::string_view::npos && end > stop) {
        const std::size_t before = text.rfind('\n', end - 1);
        const std::size_t begin = before == std::string_view::npos ? 0 : before + 1;
        const std::string_view line = trimmed(text.substr(begin, end - begin));
        if (line.starts_with("steps") && line.ends_with('{')) return above;
        if (line.starts_with('}') || line.ends_with('{')) return std::nullopt;
        above.poured = above.poured || line.starts_with("pour ");
        if (before == std::string_view::npos) return std::nullopt;
        end = before;
    }
    return std::nullopt;
}

} // namespace waxwright
