#include "model/build.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

#include "model/block_reader.hpp"

namespace waxwright {

namespace {

void settle_uses(std::vector<NameUse>& uses) {
    const auto place = [](const NameUse& use) {
        return std::tuple(use.at.file, use.at.begin, use.at.end);
    };
    std::ranges::sort(uses, {}, place);
    const auto twice = std::ranges::unique(uses, {}, place);
    uses.erase(twice.begin(), twice.end());
}

} // namespace

Model build_model(Sources sources, const ReadFile& read, Findings& findings,
                  Transcript* transcript) {
    Model model(std::move(sources));
    for (FileId root = 0; root < model.sources.size(); ++root) {
        model.roots.push_back(root);
    }
    LoadedFiles loaded = load_files(model.sources, read, findings);
    Names names(loaded, model, findings);
    model.makers = names.makers();
    if (transcript != nullptr) names.record = &transcript->uses;
    ReadingContext context{loaded, names, model, findings};
    BlockReader reader(context);
    reader.read_all();
    if (transcript != nullptr) {
        settle_uses(transcript->uses);
        transcript->let_figures = reader.figures_of_lets();
        transcript->lets = std::move(names.lets);
        transcript->block_nodes = std::move(names.block_nodes);
        transcript->loaded = std::move(loaded);
    }
    return model;
}

} // namespace waxwright
