#include <algorithm>

#include <fmt/format.h>

#include "emit/label.hpp"
#include "emit/label_fit.hpp"
#include "emit/markdown_writer.hpp"
#include "units/show.hpp"

namespace waxwright {

namespace {

/// Indented, as code is: nothing in a line can be markup, or end the block.
void write_text(SheetWriter& page, const Label& label) {
    page.say("\n");
    for (const std::string& line : label_lines(label))
        page.say(line.empty() ? "" : "    ").say(line).say("\n");
}

void write_list(SheetWriter& page, const std::vector<std::string>& lines) {
    page.say("\n");
    for (const std::string& line : lines)
        page.say("- ").message(line).say("\n");
}

std::string mm(double value) {
    return show_number(value, 1) + " mm";
}

/// The sentences by their codes, and which may be left off.
void write_sentences(SheetWriter& page, const Label& label) {
    const LabelHazards& block = label.hazards;
    if (block.hazards.empty() && block.precautions.empty()) return;
    const auto row = [&](const LabelSentence& sentence) {
        page.say("| ").user(sentence.code).say(" | ").user(sentence.text);
        page.say(sentence.may_go ? " | yes |\n" : " | |\n");
    };
    page.say("\n| | sentence | may be left off |\n|---|---|---|\n");
    std::ranges::for_each(block.hazards, row);
    std::ranges::for_each(block.precautions, row);
    const auto goes = [](const LabelSentence& sentence) { return sentence.may_go; };
    if (std::ranges::any_of(block.hazards, goes) || std::ranges::any_of(block.precautions, goes))
        page.say("\nWhat may be left off: of a package of at most 125 ml of contents (")
            .say(label.market == Market::gb ? "GB CLP" : "CLP")
            .say(" Annex I 1.5.2).\n");
}

void write_sizes(SheetWriter& page, const Label& label) {
    const LabelSizePlan& sizes = label.sizes;
    page.say("\nAt the least: ");
    if (label.net.figure_height_mm > 0)
        page.say(fmt::format("figures of the net quantity {} high, ",
                             show_number(label.net.figure_height_mm, 2) + " mm"));
    if (has_clp(label.market))
        page.say(
            fmt::format("{}the label {} × {} if possible, each pictogram {} ({} if possible), ",
                        sizes.x_height_mm > 0
                            ? fmt::format("letters with an x-height of {}, ", mm(sizes.x_height_mm))
                            : "",
                        show_number(sizes.width_mm, 0), mm(sizes.height_mm), mm(sizes.pictogram_mm),
                        mm(sizes.better_pictogram_mm)));
    page.say(fmt::format("each symbol beside a caution {}.", mm(sizes.symbol_mm)));
    if (sizes.contents_known)
        page.say(fmt::format(" One holds {} ml", show_number(sizes.contents_ml, 1)));
    if (sizes.contents_known && sizes.most_ml > sizes.contents_ml)
        page.say(
            fmt::format(", and {} ml at the high end of its doubts: the sizes, and what may be "
                        "left off, go by that",
                        show_number(sizes.most_ml, 1)));
    page.say(sizes.contents_known ? ".\n" : "\n");
    const LabelDrawing drawn = draw_label(label);
    page.say(fmt::format("\nDrawn it is **{}**.", drawn_size(drawn)));
    for (const std::string& words : fit_words(label, drawn))
        page.say(" ").say(words);
    page.say("\n");
}

/// What the block of hazards is, where the text of the label shows nothing or not all of it.
void write_block(SheetWriter& page, const Label& label) {
    const LabelHazards& block = label.hazards;
    if (block.none)
        page.say(block.source == HazardSource::supplier
                     ? "\nHazards: the supplier's label has none.\n"
                     : "\nHazards: none by the arithmetic.\n");
    if (block.source == HazardSource::not_worked_out)
        page.say("\nHazards are **not worked out**: what is unknown isn't harmless. Don't print "
                 "this label before the supplier has answered.\n");
    write_sentences(page, label);
}

void write_label(SheetWriter& page, const Label& label) {
    page.say("\n## ").user(label.title).say("\n");
    page.say(fmt::format("\n{} of it.\n",
                         label.count == 1 ? "1 label" : fmt::format("{} labels", label.count)));
    write_text(page, label);
    if (!label.missing.empty()) {
        page.say("\nTo be filled in:\n");
        write_list(page, label.missing);
    }
    write_block(page, label);
    write_sizes(page, label);
    if (!label.notes.empty()) {
        page.say("\n### To mind\n");
        write_list(page, label.notes);
    }
    page.say("\n### How it was worked out\n");
    for (const LabelWorking& worked : label.worked) {
        page.say("\n**").user(worked.title).say("**\n");
        write_list(page, worked.lines);
    }
}

void write_market(SheetWriter& page, const Label& label) {
    page.say("# Labels for ").say(name(label.market)).say("\n\n## What this can't know\n");
    write_list(page, label.knows_not);
    page.say("\n## Which rules\n");
    write_list(page, label.rules);
}

} // namespace

std::string markdown_labels(std::span<const Label> labels) {
    const Plan nothing; // the writer's, whose sheet this isn't
    SheetWriter page(nothing, false);
    const Label* before = nullptr;
    for (const Label& label : labels) {
        if (before == nullptr || before->market != label.market) {
            if (before != nullptr) page.say("\n");
            write_market(page, label);
        }
        write_label(page, label);
        before = &label;
    }
    return page.take();
}

std::string markdown_label_part(std::span<const Label> labels) {
    const Plan nothing;
    SheetWriter page(nothing, false);
    if (labels.empty()) return {};
    page.heading("Labels");
    page.say(which_markets)
        .say(
            " What these can't know, and how they were worked out: `waxwright label`. A person who "
            "is trained in the rules reads each and signs for it before it is printed.\n");
    for (const Label& label : labels) {
        page.begin_heading().user(label.title).say(", for ").say(name(label.market)).say("\n");
        write_text(page, label);
    }
    return page.take();
}

} // namespace waxwright
