#include "emit/symbols.hpp"

#include <array>
#include <cmath>
#include <cstddef>

#include <fmt/format.h>

#include "emit/svg_text.hpp"

namespace waxwright {

namespace {

enum class Frame : std::uint8_t { hazard, bare, not_so };

struct Drawing {
    Frame frame;
    std::string_view words, paths;
};

// `not` is a word of C++.
#define FRAME_hazard Frame::hazard
#define FRAME_bare Frame::bare
#define FRAME_ring Frame::not_so

constexpr std::array drawings = {
#define SYMBOL(identifier, frame, words, paths) Drawing{FRAME_##frame, words, paths},
#include "emit/symbols.def"
};

constexpr std::string_view red_border = "<path fill=\"#d8131f\" d=\"M50 0L100 50L50 100L0 50Z\"/>"
                                        "<path fill=\"#fff\" d=\"M50 6L94 50L50 94L6 50Z\"/>";
/// The bar has a white edge, so that it stays apart from what it crosses out.
constexpr std::string_view ring =
    "<circle fill=\"none\" stroke=\"#000\" stroke-width=\"6\" cx=\"50\" cy=\"50\" r=\"46\"/>"
    "<path stroke=\"#fff\" stroke-width=\"10\" d=\"M19 19L81 81\"/>"
    "<path stroke=\"#000\" stroke-width=\"5\" d=\"M17 17L83 83\"/>";

const Drawing& drawing(LabelSymbol symbol) {
    return drawings[static_cast<std::size_t>(symbol)];
}

} // namespace

std::string_view words(LabelSymbol symbol) {
    return drawing(symbol).words;
}

std::optional<LabelSymbol> pictogram_of(int number) {
    switch (number) {
    case 2:
        return LabelSymbol::ghs02;
    case 5:
        return LabelSymbol::ghs05;
    case 6:
        return LabelSymbol::ghs06;
    case 7:
        return LabelSymbol::ghs07;
    case 8:
        return LabelSymbol::ghs08;
    case 9:
        return LabelSymbol::ghs09;
    default:
        return std::nullopt;
    }
}

LabelSymbol symbol_of(CautionSign sign) {
    switch (sign) {
    case CautionSign::within_sight:
        return LabelSymbol::within_sight;
    case CautionSign::children_and_pets:
        return LabelSymbol::children_and_pets;
    case CautionSign::things_that_burn:
        return LabelSymbol::things_that_burn;
    case CautionSign::trim:
        return LabelSymbol::trim;
    case CautionSign::longest_burn:
        return LabelSymbol::longest_burn;
    case CautionSign::apart:
        return LabelSymbol::apart;
    case CautionSign::draught:
        return LabelSymbol::draught;
    case CautionSign::debris:
        return LabelSymbol::debris;
    case CautionSign::not_moved:
        return LabelSymbol::not_moved;
    case CautionSign::stop:
        return LabelSymbol::stop;
    }
    return LabelSymbol::general_warning;
}

LabelSymbol symbol_of(FireHead head) {
    return head == FireHead::safety_alert ? LabelSymbol::safety_alert
                                          : LabelSymbol::general_warning;
}

bool is_pictogram(LabelSymbol symbol) {
    return drawing(symbol).frame == Frame::hazard;
}

double across(double side) {
    return side * std::sqrt(2.0);
}

std::string svg_symbol(LabelSymbol symbol, double x, double y, double size) {
    const Drawing& it = drawing(symbol);
    const std::string_view under = it.frame == Frame::hazard ? red_border : std::string_view();
    const std::string_view over = it.frame == Frame::not_so ? ring : std::string_view();
    return fmt::format("<g transform=\"translate({:.3f} {:.3f}) scale({:.5f})\" stroke=\"none\">"
                       "<title>{}</title>{}{}{}</g>\n",
                       x, y, size / 100, xml_text(it.words), under, it.paths, over);
}

} // namespace waxwright
