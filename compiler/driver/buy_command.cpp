#include <unistd.h>

#include <fmt/format.h>

#include "driver/commands.hpp"
#include "driver/files.hpp"
#include "driver/outputs.hpp"
#include "driver/parallel.hpp"
#include "driver/target.hpp"
#include "emit/findings_text.hpp"
#include "emit/markdown_money.hpp"
#include "pipeline/pipeline.hpp"

namespace waxwright {

int run_buy(const Options& options) {
    Sources sources;
    if (!add_root(sources, options.file)) return 2;
    Workshop workshop = open_workshop(std::move(sources), read_from_disk(options));
    const BlockId target = chosen(workshop.model, options);
    if (!options.out.empty()) {
        const std::string why = output_clash({options.out}, workshop.model.sources);
        if (!why.empty()) return wrong_call(why);
    }
    work(workshop, on_all_cores, target, options.make.value_or(0));
    const ReportStyle style{.notes = false, .colour = may_colour(STDERR_FILENO)};
    write_error(findings_text(workshop.findings, workshop.model.sources, style, &workshop.model));
    if (target == no_block) return 2;
    if (workshop.findings.has_errors()) {
        write_error(counts_line(workshop.findings, 1) + "; nothing is written\n");
        return 1;
    }
    return hand_out(options.out, markdown_buy(plan_of(workshop, target)));
}

} // namespace waxwright
