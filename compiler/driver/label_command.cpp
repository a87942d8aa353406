#include <span>
#include <string>
#include <string_view>

#include <unistd.h>

#include <fmt/format.h>

#include "driver/commands.hpp"
#include "driver/files.hpp"
#include "driver/outputs.hpp"
#include "driver/parallel.hpp"
#include "driver/target.hpp"
#include "emit/findings_text.hpp"
#include "emit/label.hpp"
#include "emit/label_html.hpp"
#include "emit/label_svg.hpp"
#include "pipeline/pipeline.hpp"

namespace waxwright {

namespace {

std::string rendered(std::span<const Label> labels, std::string_view name, const Options& options) {
    if (options.as == "toml") return toml_labels(labels);
    if (options.as == "svg") return svg_labels(labels);
    if (options.as != "html") return markdown_labels(labels);
    const Paper paper = find_paper(options.paper).value_or(Paper::a4);
    return html_labels(labels, paper, fmt::format("Labels: {}", name));
}

} // namespace

int run_label(const Options& options) {
    if (!options.paper.empty() && options.as != "html")
        return wrong_call("--paper is for --as html");
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
    return hand_out(options.out, rendered(labels, workshop.model.name(target), options));
}

} // namespace waxwright
