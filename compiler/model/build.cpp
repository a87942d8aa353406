#include "model/build.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

#include "model/block_reader.hpp"

namespace waxwright {

namespace {

/// By place, what begins in one place the longest first, each place once.
template <typename Placed>
void settle(std::vector<Placed>& placed) {
    const auto place = [](const Placed& each) {
        return std::tuple(each.at.file, each.at.begin, ~each.at.end);
    };
    std::ranges::sort(placed, {}, place);
    const auto same = [](const Placed& a, const Placed& b) { return a.at == b.at; };
    placed.erase(std::unique(placed.begin(), placed.end(), same), placed.end());
}

} // namespace

Model build_model(Sources sources, const ReadFile& read, Findings& findings, Notebook* notebook) {
    Model model(std::move(sources));
    for (FileId root = 0; root < model.sources.size(); ++root) {
        model.roots.push_back(root);
    }
    LoadedFiles loaded = load_files(model.sources, read, findings);
    Names names(loaded, model, findings);
    model.makers = names.makers();
    if (notebook != nullptr) names.record = &notebook->uses;
    ReadingContext context{loaded, names, model, findings};
    if (notebook != nullptr) context.figures = &notebook->figures;
    BlockReader reader(context);
    reader.read_all();
    if (notebook != nullptr) {
        settle(notebook->uses);
        settle(notebook->figures);
        notebook->let_figures = reader.figures_of_lets();
        notebook->lets = std::move(names.lets);
        notebook->block_nodes = std::move(names.block_nodes);
        notebook->loaded = std::move(loaded);
    }
    return model;
}

} // namespace waxwright
