// A candle whose label the unit tests read: its file, and the ways to its label.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "emit/label.hpp"
#include "pipeline/pipeline.hpp"
#include "reckon/label/contents.hpp"
#include "reckon/label/maker.hpp"

namespace waxwright::label_bench {

/// A candle of 5 % of an oil by its whole weight; what `more` says comes behind.
inline constexpr std::string_view bench = R"(language 1
wax dune {
  density: 0.90 g/ml at 20 °C
  liquid-density: 0.86 g/ml at 60 °C
  melts: 48 to 54 °C
  max-load: 12% of wax
  ceiling: 90 °C
}
substance wrack { hazards: skin-sens-1b }
substance eelgrass { hazards: aquatic-chronic-1, m-factor: 10 }
substance holly { hazards: skin-sens-1a, specific-limit: 0.02% }
substance rest-of-it { hazards: none }
vessel jar { fill: 120 ml, bore: 58 mm, of: glass, made-for: candles }
wick braid { suits: 50 to 64 mm, core: cotton }
recipe candle {
  title: "Low Water"
  makes: 6 jar
  wax: dune
  load: 5% of total
  scent: oil-of-it
  wick: braid
  net: 100 g
  steps {
    melt to 75 °C
    off heat
    add scent at 68 °C, stir 2 min
    pour at 60 °C
    trim wick to 5 mm
  }
}
)";

inline std::vector<Label> labels(std::string_view more, std::string_view target = "candle") {
    Sources sources;
    sources.add("a.candle", std::string(bench) + std::string(more));
    Workshop shop = open_workshop(std::move(sources),
                                  [](const std::string&) { return std::optional<std::string>(); });
    work(shop);
    for (const Finding& finding : shop.findings.all()) {
        CAPTURE(finding.message);
        CHECK(finding.severity != Severity::error);
    }
    for (BlockId id = 0; id < shop.model.blocks.size(); ++id)
        if (shop.model.name(id) == target) return labels_of(shop, id);
    FAIL("there is no such recipe");
    return {};
}

inline constexpr std::string_view known =
    "oil oil-of-it { density: 0.89 g/ml, contains: 30% wrack + 6% "
    "eelgrass + 64% rest-of-it }\n";

inline std::string all_text(const Label& label) {
    std::string text;
    for (const std::string& line : label_lines(label))
        text += line + "\n";
    return text;
}

inline std::size_t place(const std::string& text, std::string_view what) {
    CAPTURE(text);
    CAPTURE(what);
    const std::size_t at = text.find(what);
    CHECK(at != std::string::npos);
    return at;
}

} // namespace waxwright::label_bench
