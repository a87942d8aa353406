#include "model/build.hpp"

#include <utility>

#include "model/block_reader.hpp"

namespace waxwright {

Model build_model(Sources sources, const ReadFile& read, Findings& findings) {
    Model model(std::move(sources));
    for (FileId root = 0; root < model.sources.size(); ++root) {
        model.roots.push_back(root);
    }
    const LoadedFiles loaded = load_files(model.sources, read, findings);
    Names names(loaded, model, findings);
    ReadingContext context{loaded, names, model, findings};
    BlockReader(context).read_all();
    return model;
}

} // namespace waxwright
