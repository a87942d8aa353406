// Labels as drawings and on sheets: what grows, what is never lost, where lines end. What is on the
// paper then is measured by tests/outside/label_check.py.
#include "emit/label_svg.hpp"

#include <cmath>
#include <regex>
#include <set>
#include <string>

#include <doctest/doctest.h>

#include "emit/label.hpp"
#include "emit/label_fit.hpp"
#include "emit/label_html.hpp"
#include "emit/label_text.hpp"
#include "emit/symbols.hpp"
#include "label_samples.hpp"

using namespace waxwright;
using doctest::Approx;

namespace {

std::size_t count_of(std::string_view text, std::string_view what) {
    std::size_t count = 0;
    for (std::size_t at = text.find(what); at != std::string_view::npos;
         at = text.find(what, at + what.size()))
        ++count;
    return count;
}

/// The sizes of all letters of a group.
std::set<double> sizes_of(const std::string& group) {
    static const std::regex size("font-size=\"([0-9.]+)\"");
    std::set<double> found;
    for (std::sregex_iterator it(group.begin(), group.end(), size), end; it != end; ++it)
        found.insert(std::stod((*it)[1]));
    return found;
}

} // namespace

TEST_SUITE("a label drawn") {
    TEST_CASE("a line ends between words, and a word that is too long is cut") {
        const LetterStyle ten{10};
        // By the table: s 0.5, a 0.556, l 0.222, t 0.278: 1.556; and a blank of 0.278.
        CHECK(label_width("salt", ten) == Approx(15.56));
        CHECK(label_width("salt", {10, true}) == Approx(17.23)); // 0.556 0.556 0.278 0.333
        std::string_view rest = "salt salt salt";
        CHECK(take_line(rest, 33.9, ten) == "salt salt"); // 15.56 + 2.78 + 15.56
        CHECK(take_line(rest, 33.8, ten) == "salt");
        CHECK(take_line(rest, 33.8, ten).empty());
        rest = "salt salt";
        CHECK(take_line(rest, 33.8, ten) == "salt");
        rest = "salt";
        CHECK(take_line(rest, 11, ten) == "sa"); // 10.56
        CHECK(take_line(rest, 1, ten) == "l");   // nothing fits, and there is an end
        rest = "salt\nmarsh";
        CHECK(take_line(rest, 1000, ten) == "salt");
        CHECK(take_line(rest, 1000, ten) == "marsh");
        rest = "7\u00A0oz left";
        CHECK(take_line(rest, 21, ten) == "7\u00A0oz");
        rest = "é葦🕯";
        CHECK_FALSE(is_measured(rest));
        while (!rest.empty())
            CHECK_FALSE(take_line(rest, 1, ten).empty());
    }

    TEST_CASE("no word is lost, whatever the width") {
        const std::string text = "Keep out of reach of children and pets. Supercalifragilistic.";
        for (double width = 1; width < 60; width += 0.7) {
            std::string_view rest = text;
            std::string seen;
            for (std::string_view line = take_line(rest, width, {2.4}); !line.empty();
                 line = take_line(rest, width, {2.4})) {
                CHECK((label_width(line, {2.4}) <= width * 1.000001 || line.size() == 1));
                for (const char c : line)
                    if (c != ' ') seen += c;
            }
            std::string wanted = text;
            std::erase(wanted, ' ');
            CHECK(seen == wanted);
        }
    }

    TEST_CASE("each has a drawing of its own") {
        std::set<LabelSymbol> seen;
        for (int i = 0; i <= static_cast<int>(CautionSign::stop); ++i)
            seen.insert(symbol_of(static_cast<CautionSign>(i)));
        CHECK(seen.size() == static_cast<std::size_t>(CautionSign::stop) + 1);
        CHECK(symbol_of(FireHead::safety_alert) != symbol_of(FireHead::general_warning));
        for (const int number : {2, 5, 6, 7, 8, 9}) {
            REQUIRE(pictogram_of(number));
            CHECK(is_pictogram(*pictogram_of(number)));
            CHECK(svg_symbol(*pictogram_of(number), 0, 0, 10).find("#d8131f") != std::string::npos);
        }
        CHECK_FALSE(pictogram_of(1));
        CHECK_FALSE(pictogram_of(0));
    }

    TEST_CASE("a label grows, and its letters don't shrink") {
        Label label = sample::us_label();
        const LabelDrawing least = draw_label(label);
        CHECK(least.width == Approx(52));
        CHECK(least.height == Approx(74));
        CHECK(*sizes_of(least.group).begin() == Approx(1.2 / 0.51).epsilon(0.001));
        double height = 0;
        for (int i = 0; i < 60; ++i) {
            label.fire.cautions.push_back({CautionSign::trim, "Trim the wick to 6 mm.", false});
            const LabelDrawing drawn = draw_label(label);
            CHECK(sizes_of(drawn.group) == sizes_of(least.group));
            CHECK((drawn.height <= drawn.width * 74 / 52 + 0.001 || drawn.width == Approx(180)));
            height = drawn.height;
        }
        CHECK(height > 100);
    }

    TEST_CASE("a label is as wide as its vessel lets it be, and the narrowest with room on it") {
        Label label = sample::us_label();
        const auto drawn = [&](double around, double tall) {
            label.sizes.around_mm = around;
            label.sizes.tall_mm = tall;
            return draw_label(label);
        };
        const LabelDrawing front = drawn(240, 100); // a third is 80 mm
        CHECK(front.place == LabelPlace::front);
        CHECK(front.width == Approx(52));
        sample::all_cautions(label.fire);
        const LabelDrawing half = drawn(220, 58);
        CHECK(half.place == LabelPlace::half);
        CHECK(half.width > 220 / 3);
        CHECK(half.width <= 110);
        CHECK(half.height <= 58);
        label = sample::eu_label();
        const LabelDrawing band = drawn(200, 60);
        CHECK(band.place == LabelPlace::around);
        CHECK(band.width > 100);
        CHECK(band.width <= 180);
        CHECK(band.height >= 52);
        CHECK(band.height <= 60);
        CHECK(sizes_of(band.group) == sizes_of(drawn(0, 0).group)); // no letter shrinks
        label.sizes.tall_is_said = false; // on a height that is only reckoned no band is made
        CHECK(drawn(200, 60).place == LabelPlace::apart);
        // No room: tall rather than wide, and a half of what is round it at the most.
        const LabelDrawing none = drawn(150, 40);
        CHECK(none.place == LabelPlace::apart);
        CHECK(none.width <= 75);
        CHECK(none.height > none.width);
    }

    TEST_CASE("a telephone number isn't parted between two lines") {
        Label label = sample::eu_label();
        for (const unsigned more : {0U, 4U, 8U, 12U, 16U, 20U}) {
            label.maker[1] = "Saltmarsh Lane" + std::string(more, 'x');
            CHECK(draw_label(label).group.find("01632\u00A0960123") != std::string::npos);
        }
    }

    TEST_CASE("it is told how large it is drawn, and what to do where it has no room") {
        Label label = sample::eu_label();
        const auto told = [&](double around, double tall) {
            label.sizes.around_mm = around;
            label.sizes.tall_mm = tall;
            return markdown_labels({&label, 1});
        };
        const auto has = [](const std::string& text, std::string_view what) {
            return text.find(what) != std::string::npos;
        };
        CHECK(has(told(0, 0), "isn't known: nobody says its `bore`"));
        const std::string front = told(260, 120);
        CHECK(has(front, "Drawn it is **" + drawn_size(draw_label(label)) + "**"));
        CHECK(has(told(260, 120), "It has room on the front"));
        CHECK(has(told(200, 60), "It is a band"));
        CHECK(
            has(told(150, 40), "It has no room on it: the vessel is 150 mm round and 40 mm deep"));
        CHECK(has(told(150, 40), "tie-on tag"));
        CHECK(has(told(150, 40), "from memory of CLP Annex I 1.5.1"));
        label.sizes.tall_is_said = false;
        CHECK(has(told(150, 40), "Whether it has room isn't sure"));
        CHECK(has(told(150, 40), "40 mm high, as reckoned"));
        label.market = Market::gb;
        CHECK(has(told(150, 40), "from memory of GB CLP Annex I 1.5.1"));
        label = sample::us_label();
        CHECK(has(told(100, 30), "a label under its base doesn't show them"));
        CHECK_FALSE(has(told(100, 30), "CLP"));
        CHECK(drawn_size({52, 74, ""}) == "52 × 74 mm");
        CHECK(drawn_size({52, 74.01, ""}) == "52 × 75 mm");
        CHECK(html_labels({&label, 1}, Paper::a4, "").find(drawn_size(draw_label(label))) !=
              std::string::npos);
        CHECK(html_label_part({&label, 1}).find(drawn_size(draw_label(label))) !=
              std::string::npos);
        CHECK(html_label_part({&label, 1}).find("<code>sells-in</code>") != std::string::npos);
    }

    TEST_CASE("sizes are what the rules ask, and never under the program's least") {
        Label label = sample::eu_label();
        label.sizes.x_height_mm = 0;
        label.net.figure_height_mm = 0;
        const std::set<double> sizes = sizes_of(draw_label(label).group);
        CHECK(*sizes.begin() == Approx(1.2 / 0.51).epsilon(0.001));
        // A fifteenth of 52 × 74 mm is 256.5 mm², a side of 16.02, and across 22.65.
        const std::regex scale("scale\\(([0-9.]+)\\)\" stroke=\"none\"><title>GHS07");
        std::smatch found;
        const std::string group = draw_label(label).group;
        REQUIRE(std::regex_search(group, found, scale));
        const double side = std::stod(found[1]) * 100 / std::sqrt(2.0);
        CHECK(side * side >= 52 * 74 / 15.0);
        CHECK(side < 16.1);
    }

    TEST_CASE("what isn't worked out is said, and what is none is not") {
        Label label = sample::eu_label();
        label.hazards = {};
        label.hazards.instead = "not worked out";
        CHECK(draw_label(label).group.find("not worked out") != std::string::npos);
        label.hazards.source = HazardSource::worked_out;
        label.hazards.none = true;
        CHECK(draw_label(label).group.find("not worked out") == std::string::npos);
        label.not_burned = true;
        CHECK(count_of(draw_label(label).group, not_burned_words) == 2);
        label.market = Market::us;
        label.hazards.source = HazardSource::other_law;
        label.hazards.none = false;
        CHECK(draw_label(label).group.find("not worked out") == std::string::npos);
        label.hazards.source = HazardSource::supplier;
        label.hazards.pictograms = {3, 7};
        CHECK(draw_label(label).group.find("GHS03, which is not drawn") != std::string::npos);
        CHECK(draw_label(Label{}).height == Approx(74)); // nothing on it: there is still a label
    }

    TEST_CASE("words that look like markup stay words") {
        Label label = sample::eu_label();
        label.title = "<script>mud</script> & \"x\"";
        label.maker = {"]]><g>", "\x01"};
        for (const std::string& text : {svg_labels({&label, 1}), html_label_part({&label, 1}),
                                        html_labels({&label, 1}, Paper::a4, label.title)}) {
            CHECK(text.find("<script") == std::string::npos);
            CHECK(text.find("]]><g>") == std::string::npos);
            CHECK(text.find('\x01') == std::string::npos);
        }
    }

    TEST_CASE("as many labels as candles, on as few sheets as they fit on") {
        Label label = sample::us_label(); // 52 × 74 mm: 3 × 3 on A4 and on letter
        for (const auto& [count, sheets] : std::vector<std::pair<std::int64_t, std::size_t>>{
                 {0, 1}, {1, 1}, {9, 1}, {10, 2}, {18, 2}, {19, 3}}) {
            label.count = count;
            for (const Paper paper : {Paper::a4, Paper::letter}) {
                const std::string page = html_labels({&label, 1}, paper, "a batch");
                CHECK(count_of(page, "<section") == sheets);
                CHECK(count_of(page, "<use ") ==
                      static_cast<std::size_t>(std::max<std::int64_t>(count, 1)) - 1);
                CHECK(count_of(page, "id=\"label-1\"") == 1);
            }
        }
        const Label two[] = {sample::us_label(), sample::eu_label()};
        const std::string page = html_labels(two, Paper::letter, "two");
        CHECK(count_of(page, "id=\"label-2\"") == 1);
        CHECK(page.find("215.9mm 279.4mm") != std::string::npos);
        CHECK(page.find("@size@") == std::string::npos);
        CHECK(find_paper("letter") == Paper::letter);
        CHECK_FALSE(find_paper("A4"));
    }
}
