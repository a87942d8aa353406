#include <algorithm>
#include <iterator>
#include <sstream>

#include "emit/label.hpp"
#include "emit/label_fit.hpp"
#include "emit/toml_put.hpp"

namespace waxwright {

namespace {

toml::date day(const Date& date) {
    return toml::date(date.year, date.month, date.day);
}

toml::array texts(const std::vector<std::string>& lines) {
    return array_of(lines, [](const std::string& line) { return line; });
}

std::string_view word(HazardSource source) {
    switch (source) {
    case HazardSource::worked_out:
        return "worked-out";
    case HazardSource::supplier:
        return "supplier";
    case HazardSource::not_worked_out:
        return "not-worked-out";
    case HazardSource::other_law:
        return "other-law";
    }
    return "";
}

std::string_view word(CautionSign sign) {
    switch (sign) {
    case CautionSign::within_sight:
        return "within-sight";
    case CautionSign::children_and_pets:
        return "children-and-pets";
    case CautionSign::things_that_burn:
        return "things-that-burn";
    case CautionSign::trim:
        return "trim";
    case CautionSign::longest_burn:
        return "longest-burn";
    case CautionSign::apart:
        return "apart";
    case CautionSign::draught:
        return "draught";
    case CautionSign::debris:
        return "debris";
    case CautionSign::not_moved:
        return "not-moved";
    case CautionSign::stop:
        return "stop";
    }
    return "";
}

toml::table net_table(const LabelNet& net) {
    toml::table table;
    put_if_any(table, "words", net.words);
    if (net.claimed_g > 0) put(table, "claimed_g", net.claimed_g);
    put(table, "low_g", net.low_g);
    put(table, "high_g", net.high_g);
    put_if_any(table, "enforced", net.enforced);
    if (net.average_g > 0) put(table, "average_g", net.average_g);
    if (net.tolerable_g > 0) {
        put(table, "tolerable_g", net.tolerable_g);
        put(table, "least_of_most_g", net.least_of_most_g);
        put(table, "least_of_any_g", net.least_of_any_g);
    }
    table.insert("e_mark_open", net.e_mark_open);
    if (net.figure_height_mm > 0) put(table, "figure_height_mm", net.figure_height_mm);
    return table;
}

toml::table sentence_table(const LabelSentence& sentence) {
    toml::table table;
    put_if_any(table, "code", sentence.code);
    put(table, "text", sentence.text);
    table.insert("may_go", sentence.may_go);
    return table;
}

toml::table hazards_table(const LabelHazards& block) {
    toml::table table;
    put(table, "source", word(block.source));
    put_if_any(table, "instead", block.instead);
    put_if_any(table, "pictograms", array_of(block.pictograms, [](int pictogram) {
                   return static_cast<std::int64_t>(pictogram);
               }));
    put_if_any(table, "signal", block.signal);
    put_if_any(table, "named", texts(block.named));
    put_if_any(table, "euh208", block.euh208);
    table.insert("none", block.none);
    put_if_any(table, "statement", array_of(block.hazards, sentence_table));
    put_if_any(table, "precaution", array_of(block.precautions, sentence_table));
    return table;
}

toml::table caution_table(const FireCaution& caution) {
    toml::table table;
    put(table, "sign", word(caution.sign));
    put(table, "text", caution.text);
    table.insert("required", caution.required);
    return table;
}

toml::table fire_table(const LabelFire& fire) {
    toml::table table;
    put(table, "head", fire.head == FireHead::safety_alert ? "safety-alert" : "general-warning");
    put_if_any(table, "word", fire.word);
    table.insert("caution", array_of(fire.cautions, caution_table));
    return table;
}

toml::table sizes_table(const Label& label) {
    const LabelSizePlan& sizes = label.sizes;
    toml::table table;
    if (sizes.contents_known) put(table, "contents_ml", sizes.contents_ml);
    if (sizes.most_ml > sizes.contents_ml) put(table, "contents_high_ml", sizes.most_ml);
    const LabelDrawing drawn = draw_label(label);
    put(table, "drawn_width_mm", drawn.width);
    put(table, "drawn_height_mm", drawn.height);
    if (sizes.around_mm > 0) put(table, "around_mm", sizes.around_mm);
    if (sizes.tall_mm > 0) put(table, "tall_mm", sizes.tall_mm);
    put_if_any(table, "fit", texts(fit_words(label, drawn)));
    put(table, "width_mm", sizes.width_mm);
    put(table, "height_mm", sizes.height_mm);
    put(table, "pictogram_mm", sizes.pictogram_mm);
    put(table, "better_pictogram_mm", sizes.better_pictogram_mm);
    if (sizes.x_height_mm > 0) put(table, "x_height_mm", sizes.x_height_mm);
    put(table, "symbol_mm", sizes.symbol_mm);
    return table;
}

toml::table working_table(const LabelWorking& worked) {
    toml::table table;
    put(table, "title", worked.title);
    table.insert("lines", texts(worked.lines));
    return table;
}

toml::table label_table(const Label& label) {
    toml::table table;
    put(table, "recipe", label.recipe);
    put(table, "title", label.title);
    put_if_any(table, "identity", label.identity);
    put(table, "market", word(label.market));
    put(table, "count", label.count);
    put_if_any(table, "lot", label.lot);
    if (label.made_on) table.insert("made_on", day(*label.made_on));
    if (label.ready_on) table.insert("ready_on", day(*label.ready_on));
    std::vector<std::string> maker;
    std::ranges::copy_if(label.maker, std::back_inserter(maker),
                         [](const std::string& line) { return !line.empty(); });
    put_if_any(table, "maker", texts(maker));
    put_if_any(table, "missing", texts(label.missing));
    table.insert("ufi_blank", label.ufi_blank);
    table.insert("not_burned", label.not_burned);
    table.insert("ask_supplier", label.ask_supplier);
    table.insert("rules", texts(label.rules));
    table.insert("knows_not", texts(label.knows_not));
    put_if_any(table, "notes", texts(label.notes));
    table.insert("net", net_table(label.net));
    table.insert("hazards", hazards_table(label.hazards));
    table.insert("fire", fire_table(label.fire));
    table.insert("sizes", sizes_table(label));
    put_if_any(table, "worked", array_of(label.worked, working_table));
    return table;
}

} // namespace

std::string toml_labels(std::span<const Label> labels) {
    toml::table head;
    put(head, "format", "waxwright-label");
    put(head, "edition", std::int64_t{1});
    toml::table body;
    body.insert("label", array_of(labels, label_table));
    std::ostringstream text;
    text << toml::toml_formatter(head, toml_style) << "\n\n"
         << toml::toml_formatter(body, toml_style) << '\n';
    return text.str();
}

} // namespace waxwright
