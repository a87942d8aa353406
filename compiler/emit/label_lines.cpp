#include <fmt/format.h>

#include "emit/label.hpp"
#include "emit/visible.hpp"

namespace waxwright {

namespace {

constexpr std::string_view blank = "______________";
constexpr std::string_view sign = "\u26A0"; // both the safety alert and the general warning sign

class Lines {
public:
    void add(std::string_view text) {
        std::string line;
        append_visible(line, text);
        lines_.push_back(std::move(line));
    }
    /// A blank line, unless there is one already.
    void gap() {
        if (!lines_.empty() && !lines_.back().empty()) lines_.emplace_back();
    }
    std::vector<std::string> take() { return std::move(lines_); }

private:
    std::vector<std::string> lines_;
};

void add_block(const LabelHazards& block, Lines& lines) {
    if (block.source == HazardSource::other_law || block.none) return;
    lines.gap();
    if (block.source == HazardSource::not_worked_out) return lines.add(block.instead);
    std::vector<std::string> head;
    for (const int pictogram : block.pictograms)
        head.push_back(fmt::format("[GHS0{}]", pictogram));
    if (!block.signal.empty()) head.push_back(block.signal);
    if (!head.empty()) lines.add(fmt::format("{}", fmt::join(head, " ")));
    // In the order in which they are drawn.
    for (const LabelSentence& sentence : block.hazards)
        lines.add(sentence.text);
    if (!block.named.empty()) lines.add(fmt::format("Contains {}.", fmt::join(block.named, ", ")));
    if (!block.euh208.empty()) lines.add(block.euh208);
    for (const LabelSentence& sentence : block.precautions)
        lines.add(sentence.text);
}

void add_fire(const LabelFire& fire, Lines& lines) {
    lines.gap();
    lines.add(fire.word.empty() ? std::string(sign) : fmt::format("{} {}", sign, fire.word));
    for (const FireCaution& caution : fire.cautions)
        lines.add(caution.text);
}

/// "Lot TL-2612, made 2026-12-05, ready 2026-12-19"
std::string lot_line(const Label& label) {
    std::string line = fmt::format("Lot {}", label.lot.empty() ? blank : label.lot);
    if (label.made_on) line += fmt::format(", made {}", show(*label.made_on));
    if (label.ready_on) line += fmt::format(", ready {}", show(*label.ready_on));
    return line;
}

} // namespace

std::vector<std::string> label_lines(const Label& label) {
    Lines lines;
    if (label.not_burned) lines.add(not_burned_words);
    if (label.ask_supplier) lines.add(ask_supplier_words);
    if (label.not_burned || label.ask_supplier) lines.gap();
    lines.add(label.title);
    if (!label.identity.empty()) lines.add(label.identity);
    lines.add(label.net.words.empty() ? blank : std::string_view(label.net.words));
    add_fire(label.fire, lines);
    add_block(label.hazards, lines);
    if (label.ufi_blank) lines.add(fmt::format("UFI: {}", blank));
    lines.gap();
    lines.add(lot_line(label));
    for (const std::string& line : label.maker)
        lines.add(line.empty() ? blank : std::string_view(line));
    return lines.take();
}

} // namespace waxwright
