#include "model/step_meant.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "model/step_words.hpp"

namespace waxwright {

namespace {

/// A step by its words. The first that fits is taken, so what is told by more comes before what is
/// told by less. `{T}`, `{D}`, `{L}` are the temperature, the time, the length, `{S}` the stirring,
/// `{P}` a share or an amount, `{N}` what no word of the table is, as a name.
struct Meaning {
    bool (*fits)(const StepWords& words);
    std::string_view line;      // empty where only a question is left
    bool sure;                  // nothing else can be meant
    std::string_view question;  // empty where none is needed
    std::string_view missing{}; // what is asked where the line lacks a figure
};

using Words = const StepWords&;

constexpr std::string_view lifted =
    "is the pot lifted off what heats it? that is `off heat`; on a plate or in a bath that is only "
    "switched off it goes on getting hotter";

constexpr Meaning meanings[] = {
    // What is no step
    {[](Words w) { return w.has(Cue::weigh); }, "", false,
     "what to weigh stands on the sheet by itself; for words of your own write `note \"…\"`"},
    {[](Words w) { return w.has(Cue::look) && !w.has(Cue::burn) && w.times.empty(); }, "", false,
     "the sheet has a blank for the thermometer at each step; for words of your own write "
     "`note \"…\"`"},
    {[](Words w) { return w.has(Cue::cure) || (w.has(Cue::wait) && w.has(Cue::burn)); }, "cure {D}",
     true, "", "for how long? write `cure … days`"},
    {[](Words w) { return w.has(Cue::burn) && !w.has(Cue::fire); }, "", false,
     "what a test burn showed goes in a block of its own, `test-burn`; for words of your own write "
     "`note \"…\"`"},

    // The finished candle
    {[](Words w) {
         return w.has(Cue::smooth) && !w.any({Cue::pour, Cue::wick, Cue::scent});
     },
     "smooth top", true, ""},
    {[](Words w) { return w.has(Cue::top) && w.has(Cue::warm); }, "smooth top", false,
     "is the top made even with warm air? that is `smooth top`"},
    {[](Words w) { return w.has(Cue::poke) && w.has(Cue::holes); }, "poke holes", true, ""},
    {[](Words w) {
         return w.has(Cue::trim) && !w.has(Cue::fire) && (w.has(Cue::wick) || !w.lengths.empty());
     },
     "trim wick to {L}", true, "", "to what length? write `trim wick to … mm`, or `… in`"},
    {[](Words w) { return w.has(Cue::lids) && w.has(Cue::shut) && !w.has(Cue::scent); }, "lid",
     true, ""},
    {[](Words w) { return w.has(Cue::labels); }, "label", true, ""},

    // What goes in
    {[](Words w) { return w.has(Cue::colour) && w.has(Cue::add); }, "", false,
     "a dye goes in by its name: `add my-dye at … °C`; how much of it, in a line of the recipe, "
     "`additives: … % my-dye`"},
    {[](Words w) { return w.has(Cue::scent) && !w.shares.empty(); }, "", false,
     "how much scent there is, is a line of the recipe, `load: {P} of wax`; the step is `add scent "
     "at {T}`"},
    {[](Words w) { return w.has(Cue::scent) && !w.amounts.empty(); }, "", false,
     "how much scent there is, is worked out from the recipe's `load`, for any number of vessels; "
     "the step is `add scent at {T}`"},
    {[](Words w) {
         return w.has(Cue::scent) && !w.any({Cue::wick, Cue::vessels}) &&
                (w.any({Cue::add, Cue::pour}) || !w.temperatures.empty());
     },
     "add scent at {T}{S}", true, "", "at what temperature? write `add scent at … °C`"},
    {[](Words w) {
         return w.has(Cue::add) && (!w.shares.empty() || !w.amounts.empty()) && !w.others.empty();
     },
     "", false,
     "how much of it goes in, is a line of the recipe, in percents of the wax: `additives: … % "
     "{N}`; the step is `add {N} at {T}`"},
    {[](Words w) { return w.has(Cue::goes_in) && !w.has(Cue::cool) && !w.others.empty(); }, "",
     false,
     "it goes in by its name: `add {N} at {T}`; how much of it is a line of the recipe, "
     "`additives: … % {N}`"},

    // Vessels and wicks
    {[](Words w) {
         return w.has(Cue::wick) && w.any({Cue::fix, Cue::vessels});
     },
     "set wick", true, ""},
    {[](Words w) {
         return w.has(Cue::vessels) && w.has(Cue::warm) && w.before(Cue::warm, Cue::pour);
     },
     "warm vessels to {T}", true, "", "to what temperature? write `warm vessels to … °C`"},
    {[](Words w) { return w.has(Cue::wipe) && w.has(Cue::vessels); }, "wipe vessels", true, ""},

    // The heat
    {[](Words w) { return w.has(Cue::fire) && w.has(Cue::lower); }, "", false,
     "a lower heat is no step by itself: to keep the wax as hot as it is write `hold … min`, to "
     "let "
     "it come down `cool to … °C`"},
    {[](Words w) { return w.has(Cue::fire) && w.has(Cue::switched); }, "off heat", false, lifted},
    {[](Words w) {
         return w.any({Cue::fire, Cue::pot}) && w.any({Cue::gone, Cue::taken}) &&
                !w.any({Cue::scent, Cue::lids});
     },
     "off heat", false, "is the pot lifted off what heats it? then write `off heat`"},

    // Pours
    {[](Words w) {
         return (w.has(Cue::top) && w.has(Cue::up)) ||
                (w.has(Cue::more) && (w.any({Cue::pour, Cue::warm}) || !w.temperatures.empty()));
     },
     "second pour at {T}", false,
     "is it wax kept back, poured to fill what shrank? then write `second pour at {T}`",
     "is it wax kept back, poured to fill what shrank? at what temperature? write `second pour at "
     "… °C`"},
    {[](Words w) { return w.has(Cue::warm) && w.has(Cue::pour) && w.before(Cue::warm, Cue::pour); },
     "", false,
     "is it wax kept back, warmed and poured to fill what shrank? then write `second pour at {T}`; "
     "else these are two steps, on a line each"},
    {[](Words w) { return w.has(Cue::pour); }, "pour at {T}", true, "",
     "at what temperature? write `pour at … °C`"},

    // The wax in the pot
    {[](Words w) {
         return w.has(Cue::candle) && w.any({Cue::cool, Cue::wait});
     },
     "leave {D}", false, "are the poured candles left to set? then write `leave {D}`",
     "how long are the poured candles left to set? write `leave … h`"},
    {[](Words w) { return w.has(Cue::melt); }, "melt to {T}", true, "",
     "to what temperature? write `melt to … °C`"},
    {[](Words w) { return w.has(Cue::cool) && !w.temperatures.empty() && w.times.empty(); },
     "cool to {T}", true, ""},
    {[](Words w) { return w.has(Cue::stir) && !w.has(Cue::scent); }, "stir {D}", true, "",
     "for how long? write `stir … min`"},
    {[](Words w) { return w.has(Cue::hold) && !w.has(Cue::wait); }, "hold {D}", false,
     "write `hold {D}`: it is kept as hot as the step in front of it says",
     "for how long? write `hold … min`: it is kept as hot as the step in front of it says"},
    {[](Words w) { return w.has(Cue::warm); }, "melt to {T}", false,
     "is the wax melted (`melt to {T}`), or is it wax kept back that is warmed (`second pour at "
     "{T}`)?",
     "is the wax melted (`melt to … °C`), or is it wax kept back that is warmed (`second pour at … "
     "°C`)?"},
    {[](Words w) {
         return w.any({Cue::cool, Cue::wait}) && (!w.temperatures.empty() || !w.numbers.empty());
     },
     "cool to {T}", true, ""},
    {[](Words w) { return w.has(Cue::wait) && (w.others.empty() || !w.times.empty()); },
     "leave {D}", false,
     "is it left to set? then write `leave {D}`; till it may be burned is `cure …`",
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

SlipAnswer answer_by(const Meaning& meaning, const StepWords& words) {
    SlipAnswer answer{std::string(meaning.question), std::string(meaning.line), meaning.sure};
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
    const bool whole =
        words.others.empty() && !words.range && !words.overnight && used == figures_in(words);
    answer.certain = answer.certain && whole;
    if (!answer.hint.empty()) return answer;
    const std::string_view before = words.range       ? "of a range write one figure: "
                                    : !answer.certain ? "is it this? write "
                                                      : "write ";
    answer.hint = fmt::format("{}`{}`", before, answer.line);
    return answer;
}

} // namespace

std::optional<SlipAnswer> step_meant(std::string_view line) {
    const StepWords words = step_words(line);
    const bool several = words.temperatures.size() > 1; // two steps
    if (words.in_order.empty() || words.odd || words.has(Cue::doubt) || several)
        return std::nullopt;
    for (const Meaning& meaning : meanings)
        if (meaning.fits(words)) return answer_by(meaning, words);
    return std::nullopt;
}

bool is_among_steps(std::string_view text, std::size_t at) {
    constexpr std::size_t longest = 8192; // no list of steps that people write is longer
    const std::size_t stop = at > longest ? at - longest : 0;
    std::size_t end = text.rfind('\n', at);
    while (end != std::string_view::npos && end > stop) {
        const std::size_t before = text.rfind('\n', end - 1);
        const std::size_t begin = before == std::string_view::npos ? 0 : before + 1;
        const std::string_view line = trimmed(text.substr(begin, end - begin));
        if (line.starts_with("steps") && line.ends_with('{')) return true;
        if (line.starts_with('}') || line.ends_with('{')) return false;
        if (before == std::string_view::npos) return false;
        end = before;
    }
    return false;
}

} // namespace waxwright
