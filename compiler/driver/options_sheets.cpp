// What stands behind the commands that work a recipe out: sheet, buy, label, compare.
#include <CLI/CLI.hpp>

#include "driver/options_app.hpp"
#include "driver/wrong_call.hpp"
#include "model/market.hpp"

namespace waxwright {

namespace {

/// `--with cost,buy`.
void add_with(CLI::App* sheet, Options& options) {
    CLI::Option* with = sheet
                            ->add_option_function<std::vector<std::string>>(
                                "--with",
                                [&options](const std::vector<std::string>& parts) {
                                    for (const std::string& part : parts) {
                                        if (part == "cost") options.with_cost = true;
                                        if (part == "buy") options.with_buy = true;
                                        if (part == "label") options.with_label = true;
                                        if (part == "picture") options.with_picture = true;
                                    }
                                },
                                "cost, buy, label, or several (cost,buy), printed after the "
                                "record; toml always has "
                                "the first two")
                            ->delimiter(',')
                            ->option_text("PARTS");
    take_one_of(with, {"cost", "buy", "label", "picture"},
                "cost, buy, label and picture, with commas between");
}

void add_from(CLI::App* sheet, Options& options) {
    sheet
        ->add_option(
            "--from", options.from,
            "make as many as there is enough for, from \"10 lb soy\" or from all that `stock` has")
        ->option_text("WHAT")
        ->check([](const std::string& text) {
            return text.empty() ? std::string("says of what: \"10 lb soy\", or stock")
                                : std::string();
        });
}

void add_picture(CLI::App* sheet, Options& options) {
    sheet
        ->add_option("--picture", options.picture,
                     "draw temperature against time into this file too, as SVG")
        ->option_text("FILE")
        ->check([](const std::string& path) {
            return path.empty() || path.back() == '/' ? std::string("names no file")
                                                      : std::string();
        });
}

/// In letters of either size; of another name for a market it is told which it is.
void add_market(CLI::App* label, Options& options) {
    std::vector<std::string> markets;
    for (const Market market : all_markets())
        markets.emplace_back(word(market));
    CLI::Option* option = label
                              ->add_option("--for", options.market,
                                           "where it is sold: us, eu or gb; without it, where its "
                                           "maker `sells-in`, else all three")
                              ->option_text("MARKET");
    option->check([markets](const std::string& value) {
        const auto meant = market_meant(value);
        const bool same = meant && CLI::detail::to_lower(value) == word(*meant);
        return meant && !same ? takes_one_of(markets, value, word(*meant)) : std::string();
    });
    in_either_size(option, markets);
    take_one_of(option, markets);
}

} // namespace

void add_sheet_options(CLI::App* sheet, Options& options) {
    sheet->add_option("FILE", options.file, "the recipe file")->required();
    add_name(sheet, options);
    add_make(sheet, options);
    add_from(sheet, options);
    sheet->add_flag("--all", options.all, "the sheets of all the file's recipes");
    take_one_of(
        sheet
            ->add_option("--as", options.as,
                         "form of the sheet: markdown (the default), html for paper, or toml")
            ->option_text("FORM"),
        {"markdown", "html", "toml"});
    add_units(sheet, options);
    add_with(sheet, options);
    add_picture(sheet, options);
    add_use_from(sheet, options);
    add_beside(sheet, options, "where used files are that don't stand beside the recipe's own");
    add_out(sheet, options,
            "write to this file; a folder (ending in /) gets a file for each sheet");
}

void add_buy_options(CLI::App* buy, Options& options) {
    buy->add_option("FILE", options.file, "the recipe file")->required();
    add_name(buy, options);
    add_make(buy, options);
    add_use_from(buy, options);
    add_out(buy, options, "write to this file");
}

void add_label_options(CLI::App* label, Options& options) {
    label->add_option("FILE", options.file, "the recipe file")->required();
    add_name(label, options);
    add_market(label, options);
    take_one_of(label
                    ->add_option(
                        "--as", options.as,
                        "form of the label: markdown (the default), svg at its true size, html for "
                        "sheets of as many as there are candles, or toml for programs")
                    ->option_text("FORM"),
                {"markdown", "svg", "html", "toml"});
    CLI::Option* paper =
        label
            ->add_option("--paper", options.paper,
                         "what --as html is printed on: a4 (the default) or letter")
            ->option_text("PAPER");
    in_either_size(paper, {"a4", "letter"});
    take_one_of(paper, {"a4", "letter"});
    add_make(label, options);
    add_use_from(label, options);
    add_out(label, options, "write to this file");
}

void add_compare_options(CLI::App* compare, Options& options) {
    compare->add_option("OLD", options.before, "the old version; /dev/null where it is new");
    compare->add_option("NEW", options.after, "the new version; /dev/null where it is gone");
    take_one_of(
        compare
            ->add_option("--as", options.as,
                         "form of the comparison: markdown (the default), or json for programs")
            ->option_text("FORM"),
        {"markdown", "json"});
    add_units(compare, options);
    add_beside(compare, options,
               "where used files are that don't stand beside a version itself; without it, the "
               "folder of the other version");
    compare
        ->add_option("--git", options.git,
                     "what git hands to an external diff, in the place of OLD and NEW")
        ->expected(1, 9)
        ->option_text("WORDS");
    add_use_from(compare, options);
    add_out(compare, options, "write to this file");
}

} // namespace waxwright
