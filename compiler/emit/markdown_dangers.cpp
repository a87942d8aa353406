// The dangers of this batch: three lines that are read, not ten that aren't.
#include <algorithm>
#include <iterator>
#include <set>
#include <string_view>
#include <tuple>
#include <utility>

#include "emit/markdown_parts.hpp"

namespace waxwright {

namespace {

constexpr std::size_t most_lines = 3;

/// One line of it: findings that say the same, and of which recipes.
struct Danger {
    const CautionLine* line;
    std::vector<std::size_t> recipes; // index of Plan::recipes
    bool lights = false;              // scent goes in hot enough to light: told with its figures
};

std::vector<std::size_t> recipes_of(const Plan& plan, const CautionLine& line) {
    const std::set<std::string_view> meant(line.recipes.begin(), line.recipes.end());
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < plan.recipes.size(); ++i) {
        if (meant.empty() || meant.contains(plan.recipes[i].name)) found.push_back(i);
    }
    return found;
}

/// What can burn somebody comes first, then glass, then what spoils candles; what was allowed
/// stands behind what was not, and notes last.
auto rank(const Danger& danger) {
    const CautionLine& line = *danger.line;
    const Family family = info(line.rule).family;
    // That no test burn counts is said again where test burns are.
    const int kind = family == Family::heat      ? 0
                     : family == Family::vessel  ? 1
                     : family == Family::burning ? 3
                                                 : 2;
    const bool note = line.severity == Severity::note && !danger.lights;
    return std::tuple(note, line.because.has_value(), kind);
}

std::vector<Danger> dangers_of(const Plan& plan) {
    std::vector<Danger> dangers;
    for (const CautionLine& line : plan.cautions) {
        // No danger: what to do about it stands with the weights, in plain words.
        if (line.rule == Rule::liquid_density_missing) continue;
        const bool lights =
            line.rule == Rule::scent_over_flash && !line.because && line.severity == Severity::note;
        const auto same = std::find_if(dangers.begin(), dangers.end(), [&](const Danger& each) {
            if (lights || each.lights) return lights && each.lights;
            return each.line->text == line.text && each.line->because == line.because;
        });
        std::vector<std::size_t> recipes = recipes_of(plan, line);
        if (same == dangers.end()) {
            dangers.push_back({&line, std::move(recipes), lights});
            continue;
        }
        std::vector<std::size_t> all;
        std::set_union(same->recipes.begin(), same->recipes.end(), recipes.begin(), recipes.end(),
                       std::back_inserter(all));
        same->recipes = std::move(all);
    }
    std::stable_sort(dangers.begin(), dangers.end(),
                     [](const Danger& a, const Danger& b) { return rank(a) < rank(b); });
    return dangers;
}

/// "at 70 °C (158 °F), and it can light from 31 °C (88 °F)", for each recipe.
void write_lights(SheetWriter& sheet, const Danger& danger) {
    sheet.say("**Vapour can light.** ");
    bool first = true;
    for (const std::size_t index : danger.recipes) {
        const RecipePlan& recipe = sheet.plan.recipes[index];
        if (!recipe.scent_c) continue;
        if (!first) sheet.say("; ");
        first = false;
        if (is_mixed(sheet.plan)) sheet.user(recipe.title).say(": ");
        sheet.say(is_mixed(sheet.plan) ? "scent in at " : "The scent goes in at ");
        sheet.temperature(*recipe.scent_c);
        if (recipe.flash_c) sheet.say(", and can light from ").temperature(*recipe.flash_c);
    }
    const bool flame =
        std::any_of(sheet.plan.recipes.begin(), sheet.plan.recipes.end(),
                    [](const RecipePlan& recipe) { return recipe.heated == Choice::flame; });
    sheet.say(sheet.plan.melts.empty()
                  ? ". All heat off."
                  : ". The jug well away from the melter, the melter's lid on; other heat off.");
    // Poured vessels stand open for hours, and the next pot is melted meanwhile.
    sheet.say(flame ? " No flame near poured vessels."
                    : " From the first scent on electric heat only: no flame in the room.");
    sheet.say(" Air the room.");
}

void write_danger(SheetWriter& sheet, const Danger& danger) {
    sheet.say("- ");
    if (danger.lights) {
        write_lights(sheet, danger);
        sheet.say("\n");
        return;
    }
    const CautionLine& line = *danger.line;
    if (line.because) sheet.say("**Allowed:** ");
    write_whose(sheet, danger.recipes);
    // A sentence's first letter, but a name's stays as it is.
    const bool begins = danger.recipes.size() == sheet.plan.recipes.size() && !line.because;
    std::string text = line.text;
    const std::string name = "`" + sheet.plan.recipes[danger.recipes.front()].name + "` ";
    if (danger.recipes.size() == sheet.plan.recipes.size()) {
        // It is about the whole batch: nobody is named before it.
    } else if (danger.recipes.size() == 1 && text.starts_with(name)) {
        text.replace(0, name.size(), " "); // named already
    } else {
        sheet.say(": ");
    }
    if (begins && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    sheet.message(text);
    if (line.because) {
        sheet.say("; allowed because “").user(*line.because).say("”");
    } else if (!line.hint.empty() && line.hint.find('`') == std::string::npos) {
        // With code in it, it is for whoever writes the file.
        sheet.say("; ").message(line.hint);
    }
    sheet.say("\n");
}

/// How many of them stand on page one: three lines in all, that of a long day among them.
std::size_t shown_first(const Plan& plan, const std::vector<Danger>& dangers) {
    return std::min(dangers.size(), most_lines - (plan.day.too_long ? 1 : 0));
}

} // namespace

void write_dangers(SheetWriter& sheet) {
    sheet.heading("Dangers of this batch");
    const std::vector<Danger> dangers = dangers_of(sheet.plan);
    const std::size_t shown = shown_first(sheet.plan, dangers);
    if (dangers.empty() && !sheet.plan.day.too_long) {
        sheet.say("None found beyond the cautions below.\n");
        return;
    }
    if (sheet.plan.day.too_long) {
        sheet.say("- **Too long for one day**: more than 12 hours to the last pour. Spread it over "
                  "two days, or use more pots.\n");
    }
    for (std::size_t i = 0; i < shown; ++i)
        write_danger(sheet, dangers[i]);
    if (dangers.size() > shown) {
        sheet.say("\nRead before you begin: ")
            .number(static_cast<std::int64_t>(dangers.size() - shown));
        sheet.say(" more under “More to mind”, after the steps.\n");
    }
}

void write_more_to_mind(SheetWriter& sheet) {
    const std::vector<Danger> dangers = dangers_of(sheet.plan);
    const std::size_t shown = shown_first(sheet.plan, dangers);
    if (dangers.size() <= shown) return;
    sheet.heading("More to mind");
    for (std::size_t i = shown; i < dangers.size(); ++i)
        write_danger(sheet, dangers[i]);
}

} // namespace waxwright
