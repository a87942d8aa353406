// Figures of a step in a completion: what the recipe's own materials ask for, and where each is
// from.
#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "editor/completion_parts.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// Where the ranges of all materials that have one meet, and whose they are. In °C or s.
struct Meeting {
    double low = -std::numeric_limits<double>::infinity();
    double high = std::numeric_limits<double>::infinity();
    std::string names{};

    bool any() const { return !names.empty() && low <= high; }
};

Meeting meeting_of(const Model& model, std::span<const BlockId> materials, Key key) {
    Meeting meeting;
    for (const BlockId id : materials) {
        const auto* range = model.get<Range>(id, key);
        if (range == nullptr) continue;
        meeting.low = std::max(meeting.low, range->low.value);
        meeting.high = std::min(meeting.high, range->high);
        meeting.names += fmt::format("{}`{}`", meeting.names.empty() ? "" : ", ", model.name(id));
    }
    return meeting;
}

std::vector<BlockId> materials_of(const Model& model, BlockId recipe, Key key) {
    std::vector<BlockId> all;
    if (recipe == no_block) return all;
    for (const Share& share : model.blend(recipe, key))
        all.push_back(share.material);
    return all;
}

/// A round figure within a range of temperatures, near its middle: in fives of the file's degrees,
/// or whole ones where no five lies in it; of two that are as near, the cooler one.
double round_within(const Meeting& range, UnitId unit) {
    const double low = from_inside(range.low, unit), high = from_inside(range.high, unit);
    const double middle = (low + high) / 2;
    for (const double step : {5.0, 1.0}) {
        const double figure = std::ceil(middle / step - 0.5) * step;
        if (figure >= low && figure <= high) return figure;
    }
    return middle;
}

struct StepFigure {
    Group group;
    std::string figure; // "75 °C"
    std::string words;  // where it is from
};

class StepFigures {
public:
    StepFigures(const Completing& c, const VerbInfo& verb, std::string_view named)
        : c_(c), verb_(verb), named_(named), model_(c.asked.look().model()), recipe_(block_here(c)),
          waxes_(materials_of(model_, recipe_, Key::wax)),
          degrees_(find_unit(is_in_us_units(c.asked) ? "°F" : "°C")) {}

    /// The first is the one that most want.
    std::vector<StepFigure> own() {
        switch (verb_.verb) {
        case Verb::melt:
            from(waxes_, Key::scent_at, "scent goes in");
            melted();
            break;
        case Verb::add:
            if (named_ == "scent") {
                scented();
            } else {
                from(additive(), Key::adds_at, "it goes in");
            }
            break;
        case Verb::cool:
            from(waxes_, Key::pour_at, "poured");
            if (!c_.place.has("add")) from(waxes_, Key::scent_at, "scent goes in");
            break;
        case Verb::pour:
        case Verb::second_pour:
            from(waxes_, Key::pour_at, "poured");
            break;
        case Verb::cure:
            cured();
            break;
        default:
            break;
        }
        return std::move(figures_);
    }

private:
    void offer(Group group, std::string figure, std::string words) {
        figures_.push_back({group, std::move(figure), std::move(words)});
    }

    /// "75 °C", "`soy`: scent goes in at 70 to 85 °C".
    void from(const std::vector<BlockId>& materials, Key key, std::string_view what) {
        const Meeting range = meeting_of(model_, materials, key);
        if (range.any()) offer_within(range, words_of(range, what));
    }

    std::string words_of(const Meeting& range, std::string_view what) const {
        return fmt::format("{}: {} at {}", range.names, what,
                           range_words(range.low, range.high, degrees_, dimension::point));
    }

    void offer_within(const Meeting& range, std::string words) {
        offer(Group::first,
              fmt::format("{} {}", show_number(round_within(range, degrees_), 1),
                          unit(degrees_).symbol),
              std::move(words));
    }

    /// Under the flash points of the oils, by their low ends, where the waxes leave room for that;
    /// else as cool as the waxes want it, and the oil is named.
    void scented() {
        constexpr double under = 1; // C°
        Meeting range = meeting_of(model_, waxes_, Key::scent_at);
        if (!range.any()) return;
        std::string words = words_of(range, "scent goes in");
        double least = std::numeric_limits<double>::infinity();
        std::string_view oil;
        for (const BlockId id : materials_of(model_, recipe_, Key::scent)) {
            const auto* flash = model_.get<Flash>(id, Key::flash_point);
            if (flash == nullptr || flash->counted - flash->doubt >= least) continue;
            least = flash->counted - flash->doubt;
            oil = model_.name(id);
        }
        if (least <= range.high) {
            words += fmt::format("; the flash point of `{}` may be {}", oil,
                                 show_in(least, degrees_, dimension::point));
            range.high = std::max(range.low, least - under);
        }
        offer_within(range, std::move(words));
    }

    /// The least that all of it is liquid at.
    void melted() {
        double top = -std::numeric_limits<double>::infinity();
        std::string name;
        for (const BlockId id : waxes_) {
            const auto* melts = model_.get<Range>(id, Key::melts);
            if (melts == nullptr || melts->high <= top) continue;
            top = melts->high;
            name = model_.name(id);
        }
        if (name.empty()) return;
        const double least = std::ceil(from_inside(top, degrees_) - 1e-9);
        offer(Group::then, fmt::format("{} {}", show_number(least, 0), unit(degrees_).symbol),
              fmt::format("the least: all of `{}` is melted from there", name));
    }

    /// As long as the slowest of the waxes wants.
    void cured() {
        const Range* longest = nullptr;
        std::string_view name;
        for (const BlockId id : waxes_) {
            const auto* cures = model_.get<Range>(id, Key::cures);
            if (cures == nullptr || (longest != nullptr && cures->high <= longest->high)) continue;
            longest = cures;
            name = model_.name(id);
        }
        if (longest == nullptr) return;
        const UnitId id = longest->low.unit;
        const auto time = [&](double value) { return show_in(value, id, dimension::time); };
        offer(Group::first, time(longest->high),
              fmt::format("`{}` cures for {}", name,
                          range_words(longest->low.value, longest->high, id, dimension::time)));
    }

    std::vector<BlockId> additive() const {
        std::vector<BlockId> found = materials_of(model_, recipe_, Key::additives);
        std::erase_if(found, [&](BlockId id) { return model_.name(id) != named_; });
        return found;
    }

    const Completing& c_;
    const VerbInfo& verb_;
    std::string_view named_;
    const Model& model_;
    BlockId recipe_;
    std::vector<BlockId> waxes_;
    UnitId degrees_;
    std::vector<StepFigure> figures_;
};

} // namespace

void add_step_figures(Completing& c, const VerbInfo& verb, std::string_view named) {
    const std::vector<StepFigure> own = StepFigures(c, verb, named).own();
    for (const StepFigure& each : own)
        add_example(c, each.group, each.figure, each.words);
    if (!own.empty()) return;
    // The figure of the verb's own example: what stands behind its words, and before a comma.
    const std::string example = step_example(c, verb.example);
    const std::size_t digit = example.find_first_of("0123456789");
    if (digit == std::string::npos) return;
    add_example(c, Group::first, example.substr(digit, example.find(',', digit) - digit),
                "for example; put your own figure");
}

std::string with_own_figure(const Completing& c, const VerbInfo& verb, std::string_view named,
                            std::string example) {
    const std::vector<StepFigure> own = StepFigures(c, verb, named).own();
    const std::size_t digit = example.find_first_of("0123456789");
    if (own.empty() || digit == std::string::npos) return example;
    return example.replace(digit, std::min(example.find(',', digit), example.size()) - digit,
                           own.front().figure);
}

} // namespace waxwright
