#include <unistd.h>

#include "driver/commands.hpp"
#include "driver/files.hpp"
#include "driver/outputs.hpp"
#include "driver/parallel.hpp"
#include "driver/target.hpp"
#include "emit/findings_text.hpp"
#include "emit/label.hpp"
#include "pipeline/pipeline.hpp"

namespace waxwright {

int run_label(const Options& options) {
    Sources sources;
    if (!add_root(sources, options.file)) return 2;
    Workshop workshop = open_workshop(std::move(sources), read_from_disk(options));
    const BlockId target = chosen(workshop.model, options);
    if (!options.out.empty()) {
        const std::string why = output_clash({options.out}, workshop.model.sources);
        if (!why.empty()) return wrong_call(why);
    }
    want_labels(workshop.model, target, options);
    work(workshop, on_all_cores, target, options.make.value_or(0));
    const ReportStyle style{.notes = false, .colour = may_colour(STDERR_FILENO)};
    write_error(findings_text(workshop.findings, workshop.model.sources, style, &workshop.model));
    if (target == no_block) return 2;
    if (workshop.findings.has_errors()) {
        write_error(counts_line(workshop.findings, 1) + "; nothing is written\n");
        return 1;
    }
    const std::vector<Label> labels = labels_of(workshop, target);
    const std::string text = options.as == "toml" ? toml_labels(labels) : markdown_labels(labels);
    const std::string problem =
        options.out.empty() ? write_out(text) : write_file(options.out, text);
    if (problem.empty()) return 0;
    const std::string where = options.out.empty() ? "standard output" : options.out;
    return wrong_call(where + ": " + problem);
}

} // namespace waxwright
