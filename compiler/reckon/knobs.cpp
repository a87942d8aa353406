// Which doubtful figures a job hangs on.
#include <utility>

#include "reckon/doubt.hpp"

namespace waxwright {

namespace {

Entry* entry_of(Model& model, BlockId block, Key key) {
    const Entry* found = model.entry(block, key);
    return found != nullptr ? &model.entries[static_cast<std::size_t>(found - model.entries.data())]
                            : nullptr;
}

class Collector {
public:
    Collector(Model& model, std::vector<Knob>& knobs) : model_(model), knobs_(knobs) {}

    /// Any property of one figure, a range, a load, densities, an inside or a flash point.
    void take(BlockId block, Key key, bool amount) {
        Entry* entry = entry_of(model_, block, key);
        if (entry == nullptr) return;
        block_ = block;
        key_ = key;
        amount_ = amount;
        if (auto* figure = std::get_if<Figure>(&entry->value)) take(*figure);
        if (auto* range = std::get_if<Range>(&entry->value)) take(*range);
        if (auto* load = std::get_if<Load>(&entry->value)) take(*load);
        if (auto* inside = std::get_if<Inside>(&entry->value)) take(*inside);
        if (auto* flash = std::get_if<Flash>(&entry->value)) take(*flash);
        if (auto* densities = std::get_if<Densities>(&entry->value)) {
            take(densities->one);
            take(densities->two);
        }
    }
    void take_shares(BlockId recipe, Key key, bool whole) {
        const Entry* entry = entry_of(model_, recipe, key);
        const auto* blend = entry != nullptr ? std::get_if<Blend>(&entry->value) : nullptr;
        if (blend == nullptr) return;
        block_ = recipe;
        key_ = key;
        amount_ = true;
        const Slice slice = blend->shares;
        for (std::uint32_t i = slice.first; i < slice.first + slice.count; ++i) {
            Share& share = model_.shares[i];
            if (!(share.doubt > 0)) continue;
            Knob& knob = add(share.fraction, share.doubt,
                             {.value = share.fraction, .dimension = dimension::ratio});
            knob.doubt = &share.doubt;
            knob.swings = true;
            for (std::uint32_t j = slice.first; whole && j < slice.first + slice.count; ++j) {
                if (j != i) knob.rest.push_back(&model_.shares[j].fraction);
            }
        }
    }
    void take_steps(BlockId recipe) {
        const Slice slice = model_.blocks[recipe].steps;
        block_ = recipe;
        key_ = Key::notes;
        amount_ = true;
        for (std::uint32_t i = slice.first; i < slice.first + slice.count; ++i) {
            if (!model_.steps[i].temperature) continue;
            const std::size_t before = knobs_.size();
            take(*model_.steps[i].temperature);
            if (knobs_.size() > before) knobs_.back().swings = true;
        }
    }

private:
    Knob& add(double& value, double half_width, Quantity written) {
        written.doubt = half_width;
        return knobs_.emplace_back(Knob{.value = &value,
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
            Knob& knob = add(low.value, low.doubt, low);
            knob.doubt = &low.doubt;
            if (single) knob.also = &range.high;
        }
        if (range.high_doubt > 0 && !single) add(range.high, range.high_doubt, high);
    }
    void take(Load& load) {
        if (!(load.doubt > 0)) return;
        Knob& knob =
            add(load.fraction, load.doubt, {.value = load.fraction, .dimension = dimension::ratio});
        knob.doubt = &load.doubt;
        knob.swings = true;
    }
    void take(Inside& inside) {
        const auto length = [this](double& value, double doubt) {
            return doubt > 0 ? &add(value, doubt, {.value = value, .dimension = dimension::length})
                             : nullptr;
        };
        const bool straight =
            inside.mouth == inside.base && inside.mouth_doubt == inside.base_doubt;
        Knob* mouth = length(inside.mouth, inside.mouth_doubt);
        if (mouth != nullptr && straight) mouth->also = &inside.base;
        if (!straight) length(inside.base, inside.base_doubt);
        length(inside.depth, inside.depth_doubt);
    }
    void take(Flash& flash) {
        if (!(flash.doubt > 0)) return;
        Knob& knob =
            add(flash.counted, flash.doubt,
                {.value = flash.written, .dimension = dimension::point, .unit = flash.unit});
        knob.also = &flash.written;
        knob.doubt = &flash.doubt;
    }
    void take(Density& density) {
        if (!(density.doubt > 0)) return;
        add(density.value, density.doubt, {.value = density.value, .dimension = dimension::density})
            .doubt = &density.doubt;
    }

    Model& model_;
    std::vector<Knob>& knobs_;
    BlockId block_ = no_block;
    Key key_{};
    bool amount_ = true;
};

} // namespace

Doubts::Doubts(Model& model, const Job& job) : model_(model), job_(job) {
    Collector collect(model, knobs_);
    const BlockId spare = model.entry(job.batch, Key::spare) != nullptr ? job.batch : job.recipe;
    const bool of_batch = model.entry(job.batch, Key::thermometer_error) != nullptr;
    collect.take(job.recipe, Key::load, true);
    collect.take_shares(job.recipe, Key::wax, true);
    collect.take_shares(job.recipe, Key::scent, true);
    collect.take_shares(job.recipe, Key::additives, false);
    collect.take(job.recipe, Key::headspace, true);
    collect.take(spare, Key::spare, true);
    collect.take(of_batch ? job.batch : job.recipe, Key::thermometer_error, false);
    collect.take(job.batch, Key::room, false);
    collect.take_steps(job.recipe);
    for (const Key key :
         {Key::fill, Key::brimful, Key::inside, Key::headspace, Key::bore, Key::mouth})
        collect.take(job.vessel, key, true);
    collect.take(job.vessel, Key::shock, false);
    for (const Key key : {Key::brimful, Key::headroom, Key::clings})
        collect.take(job.pot, key, true);
    for (const Share& wax : model.blend(job.recipe, Key::wax)) {
        for (const Key key : {Key::density, Key::liquid_density})
            collect.take(wax.material, key, true);
        for (const Key key : {Key::melts, Key::sets, Key::max_load, Key::ceiling, Key::flash_point})
            collect.take(wax.material, key, false);
    }
    for (const Share& oil : model.blend(job.recipe, Key::scent)) {
        collect.take(oil.material, Key::density, true);
        for (const Key key : {Key::flash_point, Key::limit, Key::ifra_cat_12})
            collect.take(oil.material, key, false);
    }
    for (const Share& additive : model.blend(job.recipe, Key::additives)) {
        collect.take(additive.material, Key::density, true);
        collect.take(additive.material, Key::limit, false);
    }
    for (const Count& wick : model.count_list(job.recipe, Key::wick))
        collect.take(wick.block, Key::suits, false);
}

} // namespace waxwright
