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

void settle_figures(std::vector<Figure>& figures) {
    const auto place = [](const Figure& figure) {
        return std::tuple(figure.at.file, figure.at.begin, ~figure.at.end);
    };
    std::ranges::sort(figures, {}, place);
    const auto twice = std::ranges::unique(figures, {}, place);
    figures.erase(twice.begin(), twice.end());
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
    if (transcript != nullptr) names.record = &transcript->uses;
    ReadingContext context{loaded, names, model, findings};
    if (transcript != nullptr) context.figures = &transcript->figures;
    BlockReader reader(context);
    reader.read_all();
    if (transcript != nullptr) {
        settle_uses(transcript->uses);
        settle_figures(transcript->figures);
        transcript->let_figures = reader.figures_of_lets();
        transcript->lets = std::move(names.lets);
        transcript->block_nodes = std::move(names.block_nodes);
        transcript->loaded = std::move(loaded);
    }
    return model;
}

} // namespace waxwright
