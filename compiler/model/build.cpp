#include "model/build.hpp"

#include "model/block_reader.hpp"

namespace waxwright {

Model build_model(Sources& sources, const ReadFile& read, Findings& findings) {
    Model model(sources);
    for (FileId root = 0; root < sources.size(); ++root) {
        model.roots.push_back(root);
    }
    const LoadedFiles loaded = load_files(sources, read, findings);
    Names names(loaded, model, findings);
    ReadingContext context{loaded, names, model, findings};
    BlockReader(context).read_all();
    return model;
}

} // namespace waxwright
