#include "reckon/uncertain.hpp"

#include <utility>

#include <fmt/format.h>

namespace waxwright {

namespace {

/// Collects the doubtful figures of inputs.
class Collector {
public:
    explicit Collector(std::vector<UncertainInput>& all) : all_(all) {}

    void collect(Inputs& in) {
        const Job& job = in.job;
        take(job.recipe, Key::load, true, in.load);
        take_shares(in, job.recipe);
        take_leftovers(in);
        take(job.recipe, Key::headspace, true, in.headspace);
        take(job.recipe, Key::keep, true, in.keep.share);
        take(job.recipe, Key::keep, true, in.keep.mass);
        take(in.spare_of, Key::spare, true, in.spare);
        take(in.error_of, Key::thermometer_error, false, in.thermometer_error);
        take(job.batch, Key::room, false, in.room);
        take_steps(in);
        take_vessel(in.vessel);
        take(in.pot.block, Key::brimful, true, in.pot.brimful);
        take(in.pot.block, Key::headroom, true, in.pot.headroom);
        take(in.pot.block, Key::clings, true, in.pot.clings);
        take(in.keep.pot.block, Key::brimful, true, in.keep.pot.brimful);
        take(in.keep.pot.block, Key::headroom, true, in.keep.pot.headroom);
        take(in.keep.pot.block, Key::clings, true, in.keep.pot.clings);
        for (const MatterKind kind : {MatterKind::wax, MatterKind::oil, MatterKind::additive}) {
            for (MatterInput& matter : in.matter)
                if (matter.kind == kind) take_matter(matter);
        }
        for (WickInput& wick : in.wicks)
            take(wick.block, Key::suits, false, wick.suits);
    }

private:
    template <typename T>
    void take(BlockId block, Key key, bool amount, Given<T>& given) {
        if (!given) return;
        block_ = block;
        key_ = key;
        amount_ = amount;
        take(given.value);
    }
    void take_matter(MatterInput& m) {
        take(m.block, Key::density, true, m.density);
        if (m.kind == MatterKind::wax) {
            take(m.block, Key::liquid_density, true, m.liquid_density);
            take(m.block, Key::melts, false, m.melts);
            take(m.block, Key::sets, false, m.sets);
            take(m.block, Key::max_load, false, m.limit);
            take(m.block, Key::ceiling, false, m.ceiling);
        }
        if (m.kind != MatterKind::wax) take(m.block, Key::limit, false, m.limit);
        take(m.block, Key::ifra_cat_12, false, m.certificate);
    }
    void take_vessel(VesselInput& vessel) {
        take(vessel.block, Key::fill, true, vessel.fill);
        take(vessel.block, Key::brimful, true, vessel.brimful);
        take(vessel.block, Key::inside, true, vessel.inside);
        take(vessel.block, Key::headspace, true, vessel.headspace);
        take(vessel.block, Key::bore, true, vessel.bore);
        take(vessel.block, Key::mouth, true, vessel.mouth);
        take(vessel.block, Key::shock, false, vessel.shock);
    }
    void take_shares(Inputs& in, BlockId recipe) {
        take_shares(in, recipe, MatterKind::wax, Key::wax);
        take_shares(in, recipe, MatterKind::oil, Key::scent);
        take_shares(in, recipe, MatterKind::additive, Key::additives);
    }
    void take_shares(Inputs& in, BlockId recipe, MatterKind kind, Key key) {
        block_ = recipe;
        key_ = key;
        amount_ = true;
        for (MatterInput& matter : in.matter) {
            if (matter.kind != kind || !(matter.doubt > 0)) continue;
            UncertainInput& figure = add(matter.fresh, matter.doubt,
                                         {.value = matter.fresh, .dimension = dimension::ratio});
            figure.doubt = &matter.doubt;
            figure.swings = true;
            if (kind == MatterKind::additive) continue; // no parts of a whole
            for (MatterInput& other : in.matter) {
                if (other.kind == kind && &other != &matter) figure.rest.push_back(&other.fresh);
            }
        }
    }
    void take_share(double& share, double& doubt) {
        if (!(doubt > 0)) return;
        UncertainInput& figure = add(share, doubt, {.value = share, .dimension = dimension::ratio});
        figure.doubt = &doubt;
        figure.swings = true;
    }
    /// What brings leftovers into a leftover counts as it is written.
    void take_leftovers(Inputs& in) {
        for (LeftoverInput& each : in.leftovers) {
            block_ = in.job.recipe;
            key_ = Key::leftovers;
            amount_ = true;
            take_share(each.share, each.doubt);
            take(each.says, Key::load, true, each.load);
            for (LeftoverPart& part : each.parts)
                take_part(in, each, part);
        }
    }
    void take_part(Inputs& in, LeftoverInput& leftover, LeftoverPart& part) {
        if (!(part.doubt > 0)) return;
        const MatterKind kind = in.matter[part.matter].kind;
        block_ = leftover.says;
        key_ = kind == MatterKind::wax   ? Key::wax
               : kind == MatterKind::oil ? Key::scent
                                         : Key::additives;
        take_share(part.share, part.doubt);
        if (kind == MatterKind::additive) return; // no parts of a whole
        for (LeftoverPart& other : leftover.parts) {
            if (in.matter[other.matter].kind == kind && &other != &part)
                all_.back().rest.push_back(&other.share);
        }
    }
    void take_steps(Inputs& in) {
        block_ = in.job.recipe;
        key_ = Key::notes;
        amount_ = true;
        for (Step& step : in.steps) {
            if (!step.temperature()) continue;
            const std::size_t before = all_.size();
            take(*step.figure);
            if (all_.size() > before) all_.back().swings = true;
        }
    }

    UncertainInput& add(double& value, double half_width, Quantity written) {
        written.doubt = half_width;
        return all_.emplace_back(UncertainInput{.value = &value,
                                                .half_width = half_width,
                                                .block = block_,
                                                .key = key_,
                                                .written = written,
                                                .amount = amount_});
    }
    void take(Figure& figure) {
        Quantity& quantity = figure.quantity;
        if (quantity.doubt > 0) {
            add(quantity.value, quantity.doubt, quantity).doubt = &quantity.doubt;
        }
    }
    void take(Range& range) {
        Quantity& low = range.low;
        Quantity high = low;
        high.value = range.high;
        // A single figure is both ends, and they move together.
        const bool single = low.value == range.high && low.doubt == range.high_doubt;
        if (low.doubt > 0) {
            UncertainInput& figure = add(low.value, low.doubt, low);
            figure.doubt = &low.doubt;
            if (single) figure.also = &range.high;
        }
        if (range.high_doubt > 0 && !single) add(range.high, range.high_doubt, high);
    }
    void take(Load& load) {
        if (!(load.doubt > 0)) return;
        UncertainInput& figure =
            add(load.fraction, load.doubt, {.value = load.fraction, .dimension = dimension::ratio});
        figure.doubt = &load.doubt;
        figure.swings = true;
    }
    void take(Inside& inside) {
        const auto length = [this](double& value, double doubt) {
            return doubt > 0 ? &add(value, doubt, {.value = value, .dimension = dimension::length})
                             : nullptr;
        };
        const bool straight =
            inside.mouth == inside.base && inside.mouth_doubt == inside.base_doubt;
        UncertainInput* mouth = length(inside.mouth, inside.mouth_doubt);
        if (mouth != nullptr && straight) mouth->also = &inside.base;
        if (!straight) length(inside.base, inside.base_doubt);
        length(inside.depth, inside.depth_doubt);
    }
    void take(Densities& densities) {
        for (Density* density : {&densities.one, &densities.two}) {
            if (!(density->doubt > 0)) continue;
            add(density->value, density->doubt,
                {.value = density->value, .dimension = dimension::density})
                .doubt = &density->doubt;
        }
    }

    std::vector<UncertainInput>& all_;
    BlockId block_ = no_block;
    Key key_{};
    bool amount_ = true;
};

bool doubtful(const Given<Figure>& given) {
    return given && given->quantity.doubt > 0;
}
bool doubtful(const Given<Load>& given) {
    return given && given->doubt > 0;
}
bool doubtful(const Given<Range>& given) {
    return given && (given->low.doubt > 0 || given->high_doubt > 0);
}
bool doubtful(const Given<Densities>& given) {
    return given && (given->one.doubt > 0 || given->two.doubt > 0);
}
bool doubtful(const Given<Inside>& given) {
    return given && (given->mouth_doubt > 0 || given->base_doubt > 0 || given->depth_doubt > 0);
}

bool doubtful(const PotInput& pot) {
    return doubtful(pot.brimful) || doubtful(pot.headroom) || doubtful(pot.clings);
}

bool doubtful(const MatterInput& m) {
    return m.doubt > 0 || doubtful(m.density) || doubtful(m.liquid_density) || doubtful(m.melts) ||
           doubtful(m.sets) || doubtful(m.ceiling) || doubtful(m.limit) || doubtful(m.certificate);
}

} // namespace

bool any_doubt(const Inputs& in) {
    const VesselInput& v = in.vessel;
    if (doubtful(in.load) || doubtful(in.headspace) || doubtful(in.spare) ||
        doubtful(in.thermometer_error) || doubtful(in.room) || doubtful(v.fill) ||
        doubtful(v.brimful) || doubtful(v.headspace) || doubtful(v.bore) || doubtful(v.mouth) ||
        doubtful(v.shock) || doubtful(v.inside) || doubtful(in.pot) || doubtful(in.keep.share) ||
        doubtful(in.keep.mass) || doubtful(in.keep.pot)) {
        return true;
    }
    for (const MatterInput& matter : in.matter) {
        if (doubtful(matter)) return true;
    }
    for (const LeftoverInput& each : in.leftovers) {
        if (each.doubt > 0 || doubtful(each.load)) return true;
        for (const LeftoverPart& part : each.parts) {
            if (part.doubt > 0) return true;
        }
    }
    for (const Step& step : in.steps) {
        if (step.temperature() && step.temperature()->quantity.doubt > 0) return true;
    }
    for (const WickInput& wick : in.wicks) {
        if (doubtful(wick.suits)) return true;
    }
    return false;
}

UncertainInputs::UncertainInputs(const Inputs& in) : in_(in) {
    Collector(all_).collect(in_);
}

void UncertainInputs::set(double* place, double value) {
    before_.emplace_back(place, *place);
    *place = value;
}

void UncertainInputs::move(const UncertainInput& figure, double by) {
    const double now = *figure.value;
    set(figure.value, now + by);
    if (figure.also != nullptr) set(figure.also, *figure.also + by);
    if (figure.doubt != nullptr) set(figure.doubt, 0);
    // What one share of a whole has more, the others have less, in proportion.
    for (double* other : figure.rest)
        set(other, *other * (1 - now - by) / (1 - now));
}

const Inputs& UncertainInputs::at(const Ends& ends) {
    for (auto old = before_.rbegin(); old != before_.rend(); ++old)
        *old->first = old->second;
    before_.clear();
    for (std::size_t i = 0; i < all_.size(); ++i) {
        if (ends[i] != 0) move(all_[i], ends[i] * all_[i].half_width);
    }
    mix(in_);
    return in_;
}

std::string name_of(const Model& model, const UncertainInput& figure) {
    if (figure.key == Key::notes) return "the temperature of a step";
    return fmt::format("`{}` of `{}`", word(figure.key), model.name(figure.block));
}

std::string said_plainly(const Model& model, const UncertainInput& figure) {
    const auto of_it = [&](std::string_view before, std::string_view after) {
        return fmt::format("{}{}{}", before, model.name(figure.block), after);
    };
    const bool wax = figure.block != no_block && model.blocks[figure.block].kind == BlockKind::wax;
    switch (figure.key) {
    case Key::density:
        return of_it(wax ? "how heavy cold " : "how heavy ", " is");
    case Key::liquid_density:
        return of_it("how heavy melted ", " is");
    case Key::brimful:
        return of_it("how much ", " holds");
    case Key::fill:
        return of_it("how much goes into ", "");
    case Key::inside:
        return of_it("the inside of ", "");
    case Key::bore:
    case Key::mouth:
        return of_it("how wide ", " is");
    case Key::headspace:
    case Key::headroom:
        return "the room left above the wax";
    case Key::clings:
        return of_it("what clings to ", "");
    case Key::load:
        return "the load of scent";
    case Key::keep:
        return "how much is kept back";
    case Key::spare:
        return "the spare";
    case Key::wax:
    case Key::scent:
    case Key::additives:
        return fmt::format("the shares of the {}", word(figure.key));
    default:
        return name_of(model, figure);
    }
}

} // namespace waxwright
