// What stands behind the command that makes files of its own: begin.
#include <CLI/CLI.hpp>

#include "driver/options_app.hpp"

namespace waxwright {

void add_begin_options(CLI::App* begin, Options& options) {
    begin->add_option("FOLDER", options.folder, "where to; it is made if it isn't there")
        ->required()
        ->check([](const std::string& folder) {
            if (folder.empty() || folder == "-") return std::string("names no folder");
            const bool file = folder.ends_with(".candle");
            return file ? std::string("names a file; leave the `.candle` away") : std::string();
        });
    take_one_of(begin
                    ->add_option("--units", options.units,
                                 "metric (the default), or us: ounces, inches and °F")
                    ->option_text("UNITS"),
                {"us", "metric"});
}

} // namespace waxwright
