// Random batches, followed with a clock: whenever somebody adds scent at or over its flash point or
// stirs it in, nothing is on the heat; and while a pot of scented wax stands open at or over it, no
// flame is lit. Nobody works elsewhere while wax is on the heat, no bath boils dry, no wick is
// trimmed in warm wax. The clock reads the stages of the day alone, and knows nothing of how it was
// planned.
#include <cmath>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "pipeline/pipeline.hpp"
#include "reckon/fire.hpp"
#include "reckon/timeline.hpp"

using namespace waxwright;

namespace {

class Batches {
public:
    explicit Batches(unsigned seed) : random_(seed) {}

    std::string next() {
        std::string text = "language 1\nwax clay { density: 0.92 g/ml, liquid-density: 0.86 g/ml "
                           "at 60 °C\n melts: 45 to 52 °C, max-load: 12% of wax, ceiling: 95 °C\n "
                           "heat: 2 J/g/K, heat-liquid: 2.1 J/g/K, melting-heat: 130 J/g }\n"
                           "vessel jar { fill: 200 ml, bore: 75 mm, of: tin, made-for: candles }\n"
                           "wick braid { core: cotton }\n";
        const int recipes = pick(1, 4);
        for (int i = 0; i < recipes; ++i)
            text += recipe(i);
        text += "batch market {\n";
        for (int i = 0; i < recipes; ++i)
            text += fmt::format(" pour {} r{}\n", pick(2, 12), letter(i));
        return text + fmt::format(" room: {} °C\n}}\n", pick(10, 28));
    }

private:
    int pick(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
    bool chance(int percent) { return pick(1, 100) <= percent; }
    static std::string letter(int i) { return std::string(1, static_cast<char>('a' + i)); }

    std::string recipe(int i) {
        const std::string name = letter(i);
        const std::string heated[] = {"water-bath", "hotplate", "flame", "melter"};
        const int flash = pick(40, 110);
        std::string text =
            fmt::format("oil o{} {{ density: 0.9 g/ml, flash-point: {} °C closed cup "
                        "}}\npot p{} {{ brimful: {} ml, heated: {}\n",
                        name, flash, name, pick(400, 3000), heated[pick(0, 3)]);
        if (chance(80)) text += fmt::format(" power: {} W\n", pick(300, 2500));
        if (chance(60)) text += fmt::format(" bath: {} ml\n", pick(300, 4000));
        if (chance(80)) {
            text += fmt::format(" cools: 75 °C to 60 °C over {} min with 1 kg in-room 20 °C\n",
                                pick(8, 40));
        }
        const bool ends = chance(30); // leftovers: scent in the wax from the melt on
        const int ends_flash = pick(50, 120);
        const bool second = chance(40);
        const bool moved = second && chance(60); // what is kept back waits in a pot of its own
        if (moved) {
            text +=
                fmt::format("}}\npot s{} {{ brimful: 5 l, heated: {}\n", name, heated[pick(0, 3)]);
            if (chance(50)) text += fmt::format(" power: {} W\n", pick(300, 2500));
            if (chance(50)) text += " cools: 75 °C to 60 °C over 9 min with 300 g in-room 20 °C\n";
        }
        if (ends) {
            text +=
                fmt::format("}}\noil q{0} {{ density: 0.9 g/ml, flash-point: {1} °C closed cup "
                            "}}\nleftover e{0} {{\n wax: clay\n load: 5% of wax\n scent: q{0}\n",
                            name, ends_flash);
        }
        const int scent = pick(60, 78);
        const int pour = pick(54, scent);
        text += fmt::format(
            "}}\nrecipe r{} {{\n makes: 2 jar\n wax: clay\n {}load: {}% of wax\n "
            "scent: o{}\n wick: braid\n pot: {} p{}\n steps {{\n {}melt to {} °C\n {}"
            "off heat\n add scent at {} °C, stir {} min\n pour at {} °C\n",
            name, ends ? fmt::format("leftovers: 20% e{}\n ", name) : "", pick(3, 9), name,
            pick(1, 2), name, chance(70) ? "wipe vessels\n set wick\n " : "", pick(78, 88),
            chance(40) ? fmt::format("hold {} min\n ", pick(5, 40)) : "", scent, pick(1, 4), pour);
        if (second) {
            text += fmt::format(" leave {} h\n second pour at {} °C\n", pick(1, 5), pour);
        }
        if (chance(70)) {
            text += fmt::format(" leave {} min\n{} trim wick to 6 mm\n", pick(5, 200),
                                chance(50) ? " smooth top\n" : "");
        }
        text += " }\n";
        if (moved)
            text +=
                fmt::format(" keep: {}% of wax\n keep-in: {} s{}\n", pick(5, 20), pick(1, 3), name);
        return text + "}\n";
    }

    std::mt19937 random_;
};

/// What goes on with one filling at a time of the day.
struct Now {
    bool heated = false;
    bool flame = false;
    bool adding = false;  // scent that can light goes in or is stirred
    bool open = false;    // scented wax that can light, before its first pour is done
    bool brought = false; // by what leftovers bring, on the heat that melts it: it can't be helped
};

/// Reads a filling's stages up to a time; it is strictly within the stage it speaks of.
Now at(const Reckoning& line, const HeatProfile& profile, double time) {
    Now now;
    bool on = false;
    bool scented = false;
    bool poured = false;
    double last = 999; // °C
    const bool ends = brings_scent(line.in);
    for (const Stage& stage : profile.stages) {
        const Step& step = line.in.steps[stage.step];
        if (step.verb == Verb::melt) on = true;
        if (step.verb == Verb::off_heat) on = false;
        if (step.verb == Verb::second_pour && stage.kind == StageKind::wait) on = true;
        if (step.adds_scent && stage.kind == StageKind::step) scented = true;
        const double from = stage.from.value_or(last); // off the heat it only cools
        last = stage.to.value_or(from);
        const bool here = time > stage.begins && time < stage.ends;
        if (here) {
            const double hot = std::max(from, last);
            now.heated = on;
            const Heated how = poured && line.in.keep.pot.block != no_block
                                   ? line.in.keep.pot.heated
                                   : line.in.heat.how;
            now.flame = on && (how == Heated::flame || how == Heated::water_bath);
            const double flash = (scented ? line.scent_flash : line.brought_flash).value_or(-300);
            now.open = (scented || ends) && !poured && hot >= flash;
            now.brought = now.open && !scented;
            now.adding = now.open && (step.adds_scent || step.verb == Verb::stir) &&
                         stage.kind == StageKind::step;
            return now;
        }
        if (step.verb == Verb::pour && stage.kind == StageKind::step) {
            poured = true;
            on = false;
        }
    }
    return now;
}

/// Whether the text itself is sound: what the steps make of it may be told.
std::vector<bool> syntax_only() {
    std::vector<bool> rules(all_rules().size());
    rules[static_cast<std::size_t>(Rule::syntax)] = true;
    rules[static_cast<std::size_t>(Rule::unknown_name)] = true;
    return rules;
}

struct Day {
    Sources sources;
    std::optional<Workshop> workshop;
    std::vector<Reckoning> lines;
    Timeline time;

    explicit Day(const std::string& text) {
        sources.add("day.candle", text);
        workshop.emplace(open_workshop(
            std::move(sources), [](const std::string&) { return std::optional<std::string>(); }));
        work(*workshop);
        REQUIRE_MESSAGE(!workshop->findings.of_rules(syntax_only()).has_errors(), text);
        if (workshop->batches.empty()) return;
        lines = reckonings_of(*workshop, workshop->batches.front());
        time = timeline_of(lines, {});
    }
};

} // namespace

TEST_CASE("nothing is lit while scent that can light stands open") {
    Batches batches(20261127);
    int looked = 0;
    int brought = 0; // times at which leftovers that can light were on a flame
    int close = 0;   // times at which there was something that could have met
    for (int round = 0; round < 400; ++round) {
        const std::string text = batches.next();
        const Day day(text);
        REQUIRE_MESSAGE(!day.lines.empty(), text);
        std::vector<double> times; // in the middle of whatever begins or ends
        for (const Filling& filling : day.time.fillings) {
            for (const Stage& stage : day.time.profiles[filling.profile].stages) {
                if (stage.ends - stage.begins < 0.05) continue; // its middle is its ends
                times.push_back(filling.begins + stage.begins + 0.01);
                times.push_back(filling.begins + (stage.begins + stage.ends) / 2);
                times.push_back(filling.begins + stage.ends - 0.01);
            }
        }
        for (const double time : times) {
            int adding = 0, open = 0, heated = 0, flames = 0, own = 0;
            for (const Filling& filling : day.time.fillings) {
                const Now now = at(day.lines[filling.line], day.time.profiles[filling.profile],
                                   time - filling.begins);
                adding += now.adding;
                open += now.open;
                heated += now.heated;
                flames += now.flame;
                own += now.brought && now.flame;
            }
            ++looked;
            close += open > 0;
            brought += own;
            CHECK_MESSAGE(!(adding > 0 && heated > 0), text);
            // The flame that melts leftovers is the only one, and theirs the only open pot.
            CHECK_MESSAGE(!(open > own && flames > 0), text);
            CHECK_MESSAGE(!(open > 0 && flames > own), text);
            CHECK_MESSAGE(own < 2, text);
        }
    }
    CHECK(looked > 10000);
    CHECK(close > 2000);
    CHECK(brought > 100);
}

namespace {

bool meet(const Interval& one, const Interval& other) {
    return one.begins < other.ends - 1e-3 && other.begins < one.ends - 1e-3;
}

/// When a pot is on the heat for its melting: till its `off heat`.
Interval melting_of(const Reckoning& line, const HeatProfile& profile, const Filling& filling) {
    double off = profile.stages.front().begins;
    for (const Stage& stage : profile.stages) {
        off = stage.begins;
        if (line.in.steps[stage.step].verb == Verb::off_heat) break;
    }
    return {filling.begins + profile.stages.front().begins, filling.begins + off};
}

/// Time that somebody spends at all vessels of a recipe, or at the sink.
std::vector<Interval> away_from_the_pots(const Timeline& time) {
    std::vector<Interval> away;
    for (const Filling& filling : time.fillings) {
        if (filling.washes_from >= 0) away.push_back({filling.washes_from, filling.begins});
    }
    for (const SharedStep& shared : time.shared_steps) {
        if (shared.attended && shared.known) away.push_back({shared.begins, shared.ends});
    }
    return away;
}

/// s in which the power of the heater boils off a third of the bath: 0.9982 g/ml, 2257 J/g.
double third_boiled(const PotInput& pot) {
    if (!figure(pot.power) || !pot.bath.get()) return 900;
    return pot.bath.get()->ml * 0.9982 / 3 * 2257 / *figure(pot.power);
}

} // namespace

TEST_CASE("nobody is away while wax melts, no bath boils dry, no warm wick is trimmed") {
    Batches batches(20261128);
    int away_looked = 0, topped = 0, trimmed = 0;
    for (int round = 0; round < 300; ++round) {
        const std::string text = batches.next();
        const Day day(text);
        REQUIRE_MESSAGE(!day.lines.empty(), text);
        const std::vector<Interval> away = away_from_the_pots(day.time);
        std::vector<double> poured(day.lines.size());
        for (const Filling& filling : day.time.fillings) {
            const Reckoning& line = day.lines[filling.line];
            const HeatProfile& profile = day.time.profiles[filling.profile];
            const Interval melting = melting_of(line, profile, filling);
            for (const Interval& each : away) {
                ++away_looked;
                CHECK_MESSAGE(!meet(each, melting), text);
            }
            poured[filling.line] =
                std::max(poured[filling.line], filling.begins + profile.length());
            if (line.in.pot.heated != Heated::water_bath) {
                CHECK(filling.top_ups.empty());
                continue;
            }
            // A minute more: in whole minutes no bath is topped up more often than each minute.
            const double longest = std::max(third_boiled(line.in.pot), 60.0);
            double last = melting.begins;
            for (const double top_up : filling.top_ups) {
                CHECK_MESSAGE(filling.begins + top_up - last <= longest + 1e-3, text);
                last = filling.begins + top_up;
                ++topped;
            }
            // It may come off the heat a little later than the next is due: half has boiled off
            // then.
            CHECK_MESSAGE(melting.ends - last <= 1.5 * longest + 31, text);
        }
        for (const SharedStep& shared : day.time.shared_steps) {
            if (day.lines[shared.line].in.steps[shared.step].verb != Verb::trim_wick) continue;
            const bool cold = shared.begins >= poured[shared.line] + 2 * 3600 - 1e-3;
            CHECK_MESSAGE((cold || !shared.known), text);
            trimmed += shared.known;
        }
    }
    CHECK(away_looked > 3000);
    CHECK(topped > 200);
    CHECK(trimmed > 30);
}

TEST_CASE("without the guard such days would meet") {
    // Two cans on two burners: the second would melt while scent goes into the first.
    const std::string text =
        "language 1\nwax clay { density: 0.92 g/ml, liquid-density: 0.86 g/ml at 60 °C\n melts: 45 "
        "to 52 °C, max-load: 12% of wax, ceiling: 95 °C\n heat: 2 J/g/K, heat-liquid: 2.1 J/g/K, "
        "melting-heat: 130 J/g }\nvessel jar { fill: 200 ml, bore: 75 mm, of: tin, made-for: "
        "candles }\nwick braid { core: cotton }\noil sage { density: 0.9 g/ml, flash-point: 50 °C "
        "closed cup }\npot can { brimful: 1 l, heated: flame, power: 200 W, cools: 75 °C to 60 °C "
        "over 20 min with 1 kg in-room 20 °C }\nrecipe one {\n makes: 6 jar\n wax: clay\n load: 6% "
        "of wax\n scent: sage\n wick: braid\n pot: 2 can\n steps {\n melt to 80 °C\n off heat\n "
        "add "
        "scent at 70 °C, stir 2 min\n pour at 60 °C\n }\n}\nbatch market { pour 8 one }\n";
    const Day day(text);
    REQUIRE(day.time.fillings.size() >= 2);
    const Filling& first = day.time.fillings[0];
    const Filling& second = day.time.fillings[1];
    // The second can goes on when the first is poured, or so that both melt together; never so that
    // its flame is lit between the first one's addition and pour.
    const FireTimes one = fire_times(day.lines[0], day.time.profiles[first.profile], false);
    const FireTimes two = fire_times(day.lines[0], day.time.profiles[second.profile], false);
    REQUIRE(one.open.size() == 1);
    REQUIRE(two.heats.size() == 1);
    const double lit = second.begins + two.heats[0].begins;
    const double out = second.begins + two.heats[0].ends;
    const bool apart = lit >= first.begins + one.open[0].ends - 1e-6 ||
                       out <= first.begins + one.open[0].begins + 1e-6;
    CHECK(apart);
    CHECK(one.flame);
    CHECK_FALSE(one.warmed_open);
}
