// libFuzzer target: any bytes as a recipe file, through parse, model, reckoning and check, and
// where there is no error through every sheet. Nothing may crash, hang, or leave the tree unsound.
#include <cstdint>
#include <cstdlib>
#include <string>

#include "driver/pipeline.hpp"
#include "emit/findings_text.hpp"
#include "emit/markdown.hpp"
#include "emit/toml.hpp"
#include "syntax/parse.hpp"

namespace {

using namespace waxwright;

void require(bool good) {
    if (!good) std::abort();
}

void print_sheets(const Workshop& workshop) {
    for (const Reckoning& recipe : workshop.recipes) {
        const Plan plan = plan_of(workshop, recipe);
        require(!markdown_sheet(plan, {}).empty());
        require(!toml_sheet(plan).empty());
    }
    for (const BatchReckoning& batch : workshop.batches) {
        const Plan plan = plan_of(workshop, batch.batch);
        require(!markdown_sheet(plan, {.us_units = true}).empty());
        require(!toml_sheet(plan).empty());
    }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string text(reinterpret_cast<const char*>(data), size); // NOLINT: bytes are chars
    Sources sources;
    sources.add("fuzz.candle", text);
    {
        Findings findings;
        require(is_sound(parse(0, sources[0], findings)));
    }
    // A few used files are there, each the input itself cut in half: loops, and files within files.
    const ReadFile read = [&](const std::string& path) -> std::optional<std::string> {
        if (path != "a.candle" && path != "b" && path != "b/a.candle") return std::nullopt;
        return text.substr(text.size() / 2);
    };
    Workshop workshop = open_workshop(sources, read);
    work(workshop);
    const std::string report =
        findings_text(workshop.findings, sources, {.notes = true}, &workshop.model);
    require(workshop.findings.has_errors() ? !report.empty() : true);
    if (!workshop.findings.has_errors()) print_sheets(workshop);
    return 0;
}
