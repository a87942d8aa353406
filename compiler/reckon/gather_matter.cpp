// What a recipe is made of: its own waxes, additives and oils, and those that come with leftovers.
#include <algorithm>
#include <array>
#include <map>

#include "reckon/loads.hpp"
#include "reckon/properties.hpp"

namespace waxwright {

namespace {

MatterInput matter_input(const Model& model, MatterKind kind, const Share& share) {
    MatterInput input{kind, share.material, share.at, share.fraction, share.fraction, share.doubt};
    const Properties of(model, share.material);
    input.density = of.get<Densities>(Key::density);
    input.flash = of.get<Flash>(Key::flash_point);
    if (kind == MatterKind::oil) {
        if (input.density.unsaid()) {
            input.density = {Said::yes, {}, {usual_oil_density, {}, {}}};
            input.density_assumed = true;
        }
        input.limit = of.get<Load>(Key::limit);
        input.certificate = of.get<Load>(Key::ifra_cat_12);
        return input;
    }
    input.liquid_density = of.get<Densities>(Key::liquid_density);
    input.melts = of.get<Range>(Key::melts);
    input.heat = of.figure(Key::heat);
    input.heat_liquid = of.figure(Key::heat_liquid);
    input.melting_heat = of.figure(Key::melting_heat);
    if (kind == MatterKind::additive) {
        input.limit = of.get<Load>(Key::limit);
        return input;
    }
    input.limit = of.get<Load>(Key::max_load);
    input.sets = of.figure(Key::sets);
    input.ceiling = of.figure(Key::ceiling);
    input.scent_at = of.get<Range>(Key::scent_at);
    input.pour_at = of.get<Range>(Key::pour_at);
    return input;
}

/// The properties that a recipe and a leftover both say, and the kind of what stands in each.
struct MatterKey {
    MatterKind kind;
    Key key;
};
constexpr std::array matter_keys = {MatterKey{MatterKind::wax, Key::wax},
                                    MatterKey{MatterKind::additive, Key::additives},
                                    MatterKey{MatterKind::oil, Key::scent}};

/// What is in a leftover, as fractions of it, each material once.
struct InLeftover {
    bool known = false;
    std::map<std::pair<MatterKind, BlockId>, double> parts{};
};

/// Which block says what a leftover is made of: itself, or the recipe it is of.
BlockId says_contents(const Model& model, BlockId leftover) {
    const auto* of = model.get<Ref>(leftover, Key::of);
    return of != nullptr ? of->block : leftover;
}

/// True if all that a leftover says can be read. A block that is made of nothing is none.
bool readable(const Model& model, BlockId leftover, BlockId says) {
    if (model.unreadable(leftover, Key::of)) return false;
    const Properties of(model, says);
    for (const auto& [kind, key] : matter_keys) {
        if (of.said(key) == Said::unreadable) return false;
    }
    return of.said(Key::wax) == Said::yes && of.said(Key::load) != Said::unreadable;
}

/// Adds up the leftovers in leftovers. The model has taken every loop of them apart.
class Contents {
public:
    explicit Contents(const Model& model) : model_(model) {}

    const InLeftover& of(BlockId leftover) {
        const auto known = done_.find(leftover);
        if (known != done_.end()) return known->second;
        InLeftover found = worked_out(leftover);
        return done_.emplace(leftover, std::move(found)).first->second;
    }

private:
    InLeftover worked_out(BlockId leftover) {
        InLeftover found;
        const BlockId says = says_contents(model_, leftover);
        if (!readable(model_, leftover, says)) return found;
        double additives = 0;
        for (const Share& share : model_.blend(says, Key::additives))
            additives += share.fraction;
        const Properties block(model_, says);
        const auto load =
            said_load(block.get<Load>(Key::load), block.said(Key::scent) == Said::yes, additives);
        if (!load) return found;
        double inner = 0;
        for (const Share& share : model_.blend(says, Key::leftovers)) {
            const InLeftover& other = of(share.material);
            if (!other.known) return found;
            inner += share.fraction;
            for (const auto& [what, fraction] : other.parts)
                found.parts[what] += share.fraction * fraction;
        }
        const double wax = wax_in(1 - inner, *load, additives);
        for (const auto& [kind, key] : matter_keys) {
            for (const Share& share : model_.blend(says, key)) {
                found.parts[{kind, share.material}] +=
                    wax * share.fraction * (kind == MatterKind::oil ? *load : 1);
            }
        }
        found.known = inner < 1;
        return found;
    }

    const Model& model_;
    std::map<BlockId, InLeftover> done_;
};

/// The materials of a job, kind by kind, each once.
class Materials {
public:
    explicit Materials(const Model& model) : model_(model) {}

    void add_fresh(MatterKind kind, const Share& share) {
        list(kind).push_back(matter_input(model_, kind, share));
    }
    void add_brought(MatterKind kind, BlockId material, Span at) {
        for (const MatterInput& known : list(kind)) {
            if (known.block == material) return;
        }
        list(kind).push_back(matter_input(model_, kind, {material, 0, at}));
        list(kind).back().weighed = false;
    }
    void put_into(Inputs& in) const {
        for (const std::vector<MatterInput>& each : lists_)
            in.matter.insert(in.matter.end(), each.begin(), each.end());
        in.waxes_count = static_cast<std::uint32_t>(lists_[0].size());
        in.additives_count = static_cast<std::uint32_t>(lists_[1].size());
    }

private:
    std::vector<MatterInput>& list(MatterKind kind) {
        return lists_[static_cast<std::size_t>(kind)];
    }

    const Model& model_;
    std::array<std::vector<MatterInput>, 3> lists_;
};

std::size_t index_of(const Inputs& in, MatterKind kind, BlockId material) {
    const auto found = std::find_if(in.matter.begin(), in.matter.end(), [&](const auto& matter) {
        return matter.kind == kind && matter.block == material;
    });
    return static_cast<std::size_t>(found - in.matter.begin());
}

/// What a leftover says itself stays apart from what leftovers had brought to it: its own load and
/// shares may be doubtful.
LeftoverInput leftover_input(const Model& model, const Inputs& in, const Share& share,
                             Contents& contents) {
    LeftoverInput input{share.material, share.at, share.fraction, share.doubt};
    input.known = contents.of(share.material).known;
    if (!input.known) return input;
    input.says = says_contents(model, share.material);
    input.load = Properties(model, input.says).get<Load>(Key::load);
    for (const auto& [kind, key] : matter_keys) {
        for (const Share& part : model.blend(input.says, key))
            input.parts.push_back({index_of(in, kind, part.material), part.fraction, part.doubt});
    }
    for (const Share& other : model.blend(input.says, Key::leftovers)) {
        input.inner_share += other.fraction;
        for (const auto& [what, fraction] : contents.of(other.material).parts) {
            const std::size_t index = index_of(in, what.first, what.second);
            input.inner.emplace_back(index, other.fraction * fraction);
        }
    }
    return input;
}

} // namespace

void gather_matter(const Model& model, Inputs& in) {
    const BlockId recipe = in.job.recipe;
    const Properties of(model, recipe);
    const auto leftovers = model.blend(recipe, Key::leftovers);
    Materials materials(model);
    Contents contents(model);
    for (const auto& [kind, key] : matter_keys) {
        for (const Share& share : model.blend(recipe, key))
            materials.add_fresh(kind, share);
    }
    for (const Share& share : leftovers) {
        for (const auto& [what, fraction] : contents.of(share.material).parts)
            materials.add_brought(what.first, what.second, share.at);
    }
    materials.put_into(in);
    for (const Share& share : leftovers)
        in.leftovers.push_back(leftover_input(model, in, share, contents));
    in.waxes_said = of.said(Key::wax);
    in.additives_said = of.said(Key::additives);
    in.oils_said = of.said(Key::scent);
    // A broken line that may have said any is no reason to doubt what the others say.
    if (model.entry(recipe, Key::leftovers) != nullptr) in.leftovers_said = of.said(Key::leftovers);
}

} // namespace waxwright
