// The syntax file for Vim and Neovim.
#include "grammar/editor/colours.hpp"
#include "grammar/editor/formats.hpp"

namespace waxwright::editor {

namespace {

std::string vim(const Pattern& pattern) {
    return render(pattern, Dialect::vim);
}

std::string group(Class which) {
    return which == Class::none ? "candleMark" : "candle" + std::string(info(which).name);
}

/// What has to stand before it. It is looked at only where the rest fits.
std::string start(Start where) {
    switch (where) {
    case Start::line:
        return "\\%(^\\s*\\)\\@<=";
    case Start::opening:
        return "\\%(\\%(^\\|{\\)\\s*\\)\\@<=";
    case Start::anywhere:
        break;
    }
    return "";
}

std::string gap(Gap which) {
    return which == Gap::none ? "" : vim(which == Gap::blanks ? blanks() : some_blanks());
}

/// The stretches from that one on, as they have to follow.
std::string rest(const Piece& piece, std::size_t from) {
    std::string all;
    for (std::size_t at = from; at < piece.stretches.size(); ++at) {
        const Stretch& each = piece.stretches[at];
        all += gap(each.gap) + vim(each.pattern) + vim(each.behind);
    }
    return all.empty() ? "" : "\\%(" + all + "\\)\\@=";
}

/// A group of its own for a stretch, so that only the one before it leads to it.
std::string own_group(const Piece& piece, std::size_t number, std::size_t at) {
    const std::string plain = group(piece.stretches[at].which);
    return at == 0 ? plain : plain + "_" + std::to_string(number) + "_" + std::to_string(at);
}

std::string lines_of(const Piece& piece, std::size_t number) {
    std::string out = "\n\" " + std::string(piece.about) + "\n";
    for (std::size_t at = 0; at < piece.stretches.size(); ++at) {
        const Stretch& each = piece.stretches[at];
        const bool first = at == 0;
        out += "syn match " + own_group(piece, number, at) + " /" +
               (first ? start(piece.start) : "") + vim(each.pattern) + vim(each.behind) +
               rest(piece, at + 1) + "/";
        if (!first) out += " contained";
        if (at + 1 < piece.stretches.size())
            out += " nextgroup=" + own_group(piece, number, at + 1) + " skipwhite";
        out += "\n";
        if (!first && each.which != Class::none)
            out += "hi def link " + own_group(piece, number, at) + " " + group(each.which) + "\n";
    }
    return out;
}

std::string text_lines() {
    const TextShape shape = text_shape();
    const std::string quote = vim(shape.quote);
    return "\n\" texts\nsyn match " + group(Class::escape) + " /" + vim(shape.escape) +
           "/ contained\nsyn region " + group(Class::text) + " start=/" + quote + "/ skip=/" +
           vim(shape.any_escape) + "/ end=/" + quote +
           "/ end=/$/ keepend contains=" + group(Class::escape) + ",@Spell\n";
}

} // namespace

std::string vim_syntax() {
    std::string out =
        "\" Syntax of candle recipes, for Vim and Neovim. Written by Waxwright's build.\n"
        "if exists('b:current_syntax')\n  finish\nendif\n"
        "scriptencoding utf-8\n"
        "let s:cpo_before = &cpo\nset cpo&vim\n"
        "syn case match\n"
        "syn sync minlines=1\n" // no line is coloured by another
        "syn spell notoplevel\n";
    // In Vim the last that fits counts.
    const std::vector<Piece> all = pieces();
    for (std::size_t number = all.size(); number > 0; --number)
        out += lines_of(all[number - 1], number);
    out += text_lines();
    out += "\n\" comments\nsyn match " + group(Class::comment) + " /" + vim(comment_shape()) +
           "/ contains=@Spell\n\n";
    for (const ClassInfo& each : class_infos) {
        if (!each.vim.empty())
            out +=
                "hi def link candle" + std::string(each.name) + " " + std::string(each.vim) + "\n";
    }
    return out + "\nlet b:current_syntax = 'candle'\n"
                 "let &cpo = s:cpo_before\nunlet s:cpo_before\n";
}

} // namespace waxwright::editor
