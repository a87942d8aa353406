#include "model/model.hpp"

#include <algorithm>

namespace waxwright {

const Entry* Model::entry(BlockId id, Key key) const {
    if (id == no_block) return nullptr;
    if (!blocks[id].keys.has(key)) return nullptr;
    const Slice slice = blocks[id].entries;
    for (std::uint32_t i = 0; i < slice.count; ++i) {
        const Entry& candidate = entries[slice.first + i];
        if (candidate.key == key) return &candidate;
    }
    return nullptr;
}

bool Model::unreadable(BlockId id, Key key) const {
    if (id == no_block) return false;
    const Entry* found = entry(id, key);
    if (found != nullptr) return std::holds_alternative<std::monostate>(found->value);
    return blocks[id].broken;
}

std::optional<double> Model::figure(BlockId id, Key key) const {
    const auto* found = get<Figure>(id, key);
    return found ? std::optional(found->value()) : std::nullopt;
}

std::optional<Density> Model::density(BlockId id) const {
    if (const auto* found = get<Densities>(id, Key::density)) return found->one;
    if (id == no_block || blocks[id].kind != BlockKind::oil || unreadable(id, Key::density)) {
        return std::nullopt;
    }
    return usual_oil_density;
}

std::string_view Model::text(BlockId id, Key key) const {
    const auto* found = get<Text>(id, key);
    return found ? found->text : std::string_view{};
}

Choice Model::choice(BlockId id, Key key) const {
    const auto* found = get<Word>(id, key);
    return found ? found->choice : Choice::unsaid;
}

std::span<const Share> Model::blend(BlockId id, Key key) const {
    const auto* found = get<Blend>(id, key);
    if (found == nullptr) return {};
    return std::span(shares).subspan(found->shares.first, found->shares.count);
}

std::span<const Count> Model::count_list(BlockId id, Key key) const {
    const auto* found = get<Counts>(id, key);
    if (found == nullptr) return {};
    return std::span(counts).subspan(found->counts.first, found->counts.count);
}

std::span<const Step> Model::steps_of(BlockId id) const {
    return std::span(steps).subspan(blocks[id].steps.first, blocks[id].steps.count);
}

std::span<const Count> Model::pours_of(BlockId id) const {
    return std::span(counts).subspan(blocks[id].pours.first, blocks[id].pours.count);
}

std::span<const BlockId> Model::burns_of(BlockId recipe) const {
    const auto of = [this](BlockId burn) {
        const auto* ref = get<Ref>(burn, Key::of);
        return ref != nullptr ? ref->block : no_block;
    };
    const auto begin = std::partition_point(test_burns.begin(), test_burns.end(),
                                            [&](BlockId burn) { return of(burn) < recipe; });
    const auto end = std::partition_point(begin, test_burns.end(),
                                          [&](BlockId burn) { return of(burn) == recipe; });
    return {begin, end};
}

std::span<const std::string_view> Model::text_list(BlockId id, Key key) const {
    const auto* found = get<Texts>(id, key);
    if (found == nullptr) return {};
    return std::span(words).subspan(found->words.first, found->words.count);
}

std::optional<std::span<const HazardClass>> Model::hazards_of(BlockId substance) const {
    const auto* found = get<Hazards>(substance, Key::hazards);
    if (found == nullptr) return std::nullopt;
    return std::span(hazards).subspan(found->classes.first, found->classes.count);
}

std::span<const ClassLimit> Model::class_limits_of(BlockId substance) const {
    const auto* found = get<ClassLimits>(substance, Key::specific_limit);
    if (found == nullptr) return {};
    return std::span(class_limits).subspan(found->limits.first, found->limits.count);
}

BlockId Model::maker_of(BlockId recipe) const {
    const FileId file = blocks[recipe].file;
    return file < makers.size() ? makers[file] : no_block;
}

std::vector<Market> Model::markets_of(BlockId recipe) const {
    if (!label_for.empty()) return label_for;
    const BlockId maker = maker_of(recipe);
    const auto* sells = maker == no_block ? nullptr : get<Words>(maker, Key::sells_in);
    if (sells == nullptr) return {};
    std::vector<Market> markets;
    for (const std::string_view word :
         std::span(words).subspan(sells->words.first, sells->words.count)) {
        if (const auto market = find_market(word)) markets.push_back(*market);
    }
    std::ranges::sort(markets);
    return markets;
}

Span Model::place_to_change(BlockId material, Span use) const {
    return material == no_block || in_library(material) ? use : blocks[material].name_at;
}

Span Model::place_to_change(BlockId material, Key key, Span use) const {
    const Entry* found = entry(material, key);
    if (found == nullptr) return place_to_change(material, use);
    return sources[found->at.file].is_library() ? use : found->at;
}

} // namespace waxwright
