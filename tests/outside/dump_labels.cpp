// Draws the labels of label_samples.hpp into a folder: NAME.svg, NAME-a4.html and NAME-letter.html
// of each; and says on standard output what is on each, as JSON.
//
// usage: dump-labels FOLDER
#include <fstream>
#include <iostream>
#include <string>

#include <nlohmann/json.hpp>

#include "emit/label_html.hpp"
#include "emit/label_svg.hpp"
#include "label_samples.hpp"

using namespace waxwright;

namespace {

nlohmann::json told(const Label& label) {
    nlohmann::json words = {label.title,          label.hazards.instead, label.hazards.signal,
                            label.hazards.euh208, label.fire.word,       label.lot};
    for (const auto& list : {label.maker, label.hazards.named})
        for (const std::string& each : list)
            words.push_back(each);
    for (const FireCaution& each : label.fire.cautions)
        words.push_back(each.text);
    for (const auto& list : {label.hazards.hazards, label.hazards.precautions})
        for (const LabelSentence& each : list)
            words.push_back(each.text);
    return {{"market", label.market == Market::us   ? "us"
                       : label.market == Market::eu ? "eu"
                                                    : "gb"},
            {"contents_ml", label.sizes.most_ml},
            {"around_mm", label.sizes.around_mm},
            {"tall_mm", label.sizes.tall_mm},
            {"count", label.count},
            {"net", label.net.words},
            {"figure_mm", label.net.figure_height_mm},
            {"pictograms", label.hazards.pictograms.size()},
            {"cautions", label.fire.cautions.size()},
            {"not_burned", label.not_burned},
            {"words", words}};
}

void write(const std::string& path, const std::string& text) {
    std::ofstream(path, std::ios::binary) << text;
}

} // namespace

int main(int count, char** words) {
    if (count != 2) {
        std::cerr << "usage: dump-labels FOLDER\n";
        return 2;
    }
    const std::string folder = std::string(words[1]) + "/";
    nlohmann::json all;
    for (const auto& [name, label] : sample::labels()) {
        write(folder + name + ".svg", svg_labels({&label, 1}));
        write(folder + name + "-a4.html", html_labels({&label, 1}, Paper::a4, name));
        write(folder + name + "-letter.html", html_labels({&label, 1}, Paper::letter, name));
        all[name] = told(label);
    }
    std::cout << all.dump(1) << "\n";
    return 0;
}
