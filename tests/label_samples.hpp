// Labels made by hand, of every sort that has to be drawn; with made-up words and figures.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "plan/label.hpp"

namespace waxwright::sample {

inline void required_cautions(LabelFire& fire) {
    fire.cautions = {
        {CautionSign::within_sight, "Never leave a burning candle unattended.", true},
        {CautionSign::children_and_pets, "Keep out of reach of children and pets.", true},
        {CautionSign::things_that_burn, "Do not burn on or near anything that can catch fire.",
         true},
    };
}

inline void all_cautions(LabelFire& fire) {
    required_cautions(fire);
    const std::vector<FireCaution> more = {
        {CautionSign::trim, "Trim the wick to 6 mm before each burn.", false},
        {CautionSign::longest_burn, "Burn for 4 h at most.", false},
        {CautionSign::apart, "Keep 10 cm between burning candles.", false},
        {CautionSign::draught, "Keep out of draughts.", false},
        {CautionSign::debris, "Keep the wax clear of matches and trimmings.", false},
        {CautionSign::not_moved, "Do not move it while it burns.", false},
        {CautionSign::stop, "Stop when 10 mm of wax are left.", false},
    };
    fire.cautions.insert(fire.cautions.end(), more.begin(), more.end());
}

/// For the European Union, with one pictogram.
inline Label eu_label() {
    Label label;
    label.recipe = label.title = "Samphire";
    label.net.words = "220 g";
    label.net.figure_height_mm = 4;
    label.lot = "M-2611-03";
    label.made_on = Date{2026, 11, 28};
    label.ready_on = Date{2026, 12, 12};
    label.maker = {"The Old Pump House", "Saltmarsh Lane, Little Creek", "01632 960123"};
    label.hazards.source = HazardSource::worked_out;
    label.hazards.pictograms = {7};
    label.hazards.signal = "WARNING";
    label.hazards.named = {"citral", "limonene", "linalool"};
    label.hazards.hazards = {
        {"H317", "May cause an allergic skin reaction."},
        {"H412", "Harmful to aquatic life with long lasting effects."},
    };
    label.hazards.precautions = {
        {"P102", "Keep out of reach of children."},
        {"P273", "Avoid release to the environment.", true},
        {"P280", "Wear protective gloves."},
        {"P302+P352", "IF ON SKIN: Wash with plenty of water."},
        {"P333+P313", "If skin irritation or rash occurs: Get medical advice/attention."},
        {"P501", "Dispose of contents and container according to local rules."},
    };
    required_cautions(label.fire);
    label.sizes.contents_ml = 240;
    label.sizes.contents_known = true;
    label.sizes.most_ml = 240;
    label.sizes.x_height_mm = 1.2;
    label.count = 12;
    return label;
}

inline Label us_label() {
    Label label = eu_label();
    label.market = Market::us;
    label.net.words = "Net Wt 7.9 oz (223 g)";
    label.net.figure_height_mm = 25.4 / 8;
    label.maker = {"The Old Pump House", "12 Saltmarsh Lane, Little Creek", "555-0142"};
    label.hazards = {};
    label.hazards.source = HazardSource::other_law;
    label.fire.head = FireHead::safety_alert;
    label.fire.word = "WARNING";
    return label;
}

/// Each with a name of its own.
inline std::vector<std::pair<std::string, Label>> labels() {
    std::vector<std::pair<std::string, Label>> all;
    const auto add = [&all](std::string name, Label label) -> Label& {
        return all.emplace_back(std::move(name), std::move(label)).second;
    };
    add("eu", eu_label());
    add("us", us_label());
    {
        Label& label = add("gb", eu_label());
        label.market = Market::gb;
        label.sizes.x_height_mm = 0;
    }
    // On vessels of every shape: mm round it, and its height.
    const auto on = [&add](std::string name, Label label, double around, double tall) {
        label.sizes.around_mm = around;
        label.sizes.tall_mm = tall;
        all_cautions(label.fire);
        add(std::move(name), std::move(label));
    };
    for (const auto& [name, label] : {std::pair("eu", eu_label()), std::pair("us", us_label())}) {
        on(std::string(name) + "-on-the-front", label, 330, 130);
        on(std::string(name) + "-on-a-half", label, 230, 90);
        on(std::string(name) + "-band", label, 200, 64);
        on(std::string(name) + "-apart", label, 130, 40);
    }
    all_cautions(add("eu-cautions", eu_label()).fire);
    all_cautions(add("us-cautions", us_label()).fire);
    add("eu-pictograms-2", eu_label()).hazards.pictograms = {7, 9};
    add("eu-pictograms-3", eu_label()).hazards.pictograms = {5, 8, 9};
    add("eu-pictograms-6", eu_label()).hazards.pictograms = {2, 5, 6, 7, 8, 9};
    {
        Label& label = add("eu-unknown", eu_label());
        label.hazards = {};
        label.hazards.instead = "not worked out: ask the supplier for the label at 6 % of total";
        label.maker = {"", "Saltmarsh Lane, Little Creek", ""};
        label.lot.clear();
    }
    {
        Label& label = add("eu-none", eu_label());
        label.hazards = {};
        label.hazards.source = HazardSource::supplier;
        label.hazards.none = true;
        label.net.words.clear();
        label.count = 0;
    }
    {
        Label& label = add("eu-named", eu_label());
        label.hazards.pictograms.clear();
        label.hazards.signal.clear();
        label.hazards.hazards.clear();
        label.hazards.named.clear();
        label.hazards.euh208 =
            "Contains citral, limonene, linalool. May produce an allergic reaction.";
    }
    for (const bool us : {false, true}) {
        add(us ? "us-not-burned" : "eu-not-burned", us ? us_label() : eu_label()).not_burned = true;
    }
    {
        Label& label = add("eu-litre", eu_label());
        label.sizes.contents_ml = label.sizes.most_ml = 900;
        label.sizes.x_height_mm = 1.4;
        label.net.words = "810 g";
    }
    {
        Label& label = add("eu-large", eu_label());
        label.sizes = {4000, 74, 105, 23, 23, 1.8, 5, true, 4000};
        label.net.words = "3.6 kg";
        label.net.figure_height_mm = 6;
    }
    {
        Label& label = add("us-large", us_label());
        label.net.words = "Net Wt 1 lb 5 oz (595 g)";
        label.net.figure_height_mm = 25.4 / 2;
    }
    {
        Label& label = add("odd-words", eu_label());
        label.title = "<b>Mud</b> & \"flats\" ]]> é ü ß œ 葦 🕯🕯🕯 "
                      "Wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww"
                      "wwwwwwwwwwwwwwwwwwwwwww";
        label.maker = {"Ŵŵŷ ĀĀĀĀĀĀĀĀĀĀĀĀĀĀĀĀĀĀĀĀĀĀĀĀĀĀĀ ŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽŽ",
                       "葦葦葦葦葦葦葦葦葦葦葦葦葦葦葦葦葦葦葦葦葦葦葦葦葦"};
    }
    {
        Label& label = add("long", eu_label());
        label.not_burned = true;
        all_cautions(label.fire);
        label.hazards.pictograms = {5, 7, 8, 9};
        for (int i = 0; i < 40; ++i)
            label.hazards.named.push_back("3,7-dimethyl-" + std::to_string(i) + "-octadienal");
        label.count = 3;
    }
    return all;
}

} // namespace waxwright::sample
