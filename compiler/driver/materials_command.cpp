#include <algorithm>

#include <fmt/format.h>

#include "driver/commands.hpp"
#include "driver/files.hpp"
#include "driver/pipeline.hpp"
#include "findings/nearest.hpp"
#include "model/library.hpp"

namespace waxwright {

namespace {

/// The value as the module has it, without the comment behind it.
std::string_view written(const Model& model, const Entry& entry) {
    return model.sources.slice(entry.at);
}

/// One line of the list: the name and what it is.
std::string listed(const Model& model, BlockId id) {
    const std::string_view about = model.text(id, Key::about);
    return fmt::format("  {:<22} {}\n", model.name(id), about);
}

/// Characters of UTF-8 text; what the library has in its figures takes one column each.
std::size_t width(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    }));
}

/// A text broken into lines that end before column 80, each behind `margin` blanks.
std::string wrapped(std::string_view text, std::size_t margin) {
    std::string lines;
    std::size_t column = 0;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        const std::string_view piece = text.substr(at, end - at);
        if (column > 0 && column + 1 + width(piece) > 79) {
            lines += '\n';
            column = 0;
        }
        if (column == 0) {
            lines.append(margin, ' ');
            column = margin;
        } else {
            lines += ' ';
            ++column;
        }
        lines += piece;
        column += width(piece);
        at = end + 1;
    }
    return lines + "\n";
}

/// A page: the figures in the order of the schema, then where they are from.
std::string page(const Model& model, BlockId id) {
    const Block& block = model.blocks[id];
    std::string text = fmt::format("{} {}\n", word(block.kind), block.name);
    if (const std::string_view about = model.text(id, Key::about); !about.empty()) {
        text += fmt::format("  {}\n", about);
    }
    for (const PropertyInfo& row : properties_of(block.kind)) {
        const Entry* entry = model.entry(id, row.key);
        if (entry == nullptr) continue;
        const std::string_view value = written(model, *entry);
        text += fmt::format("  {:<16} {}", word(row.key), value);
        text +=
            width(value) > 30 ? "\n" + std::string(50, ' ') : std::string(31 - width(value), ' ');
        text += fmt::format("{}\n", row.doc);
    }
    if (const std::string_view source = model.text(id, Key::source); !source.empty()) {
        text += "  source\n" + wrapped(source, 4);
    }
    return text;
}

std::string module_file(std::string_view module) {
    return fmt::format("stdlib/{}.candle", module);
}

bool is_meant(const Model& model, BlockId id, std::string_view wanted) {
    const Block& block = model.blocks[id];
    return word(block.kind) == wanted || model.sources[block.file].name() == module_file(wanted) ||
           block.name.find(wanted) != std::string_view::npos;
}

std::string all_listed(const Model& model) {
    std::string text;
    for (const std::string_view kind : block_kind_words()) {
        std::string lines;
        for (BlockId id = 0; id < model.blocks.size(); ++id) {
            if (word(model.blocks[id].kind) == kind) lines += listed(model, id);
        }
        if (!lines.empty()) text += fmt::format("{}{}\n{}", text.empty() ? "" : "\n", kind, lines);
    }
    return text + "\nwaxwright materials NAME shows a material's figures and where they are from.\n"
                  "A doubtful figure has its half-width behind +-. Your supplier's data sheet goes "
                  "before it.\n";
}

} // namespace

int run_materials(const Options& options) {
    Sources sources;
    for (const LibraryModule& module : library_modules()) {
        sources.add(module_file(module.name), std::string(module.text));
    }
    const Workshop workshop = open_workshop(sources, read_from_disk());
    const Model& model = workshop.model;
    std::string text;
    if (options.word.empty()) {
        text = all_listed(model);
    } else {
        std::vector<std::string_view> names;
        for (BlockId id = 0; id < model.blocks.size(); ++id) {
            names.push_back(model.name(id));
            if (!is_meant(model, id, options.word)) continue;
            if (!text.empty()) text += "\n";
            text += page(model, id);
        }
        if (text.empty()) {
            const std::string hint = did_you_mean(options.word, names);
            write_error(fmt::format("waxwright: the standard library has no `{}`{}{}\n",
                                    options.word, hint.empty() ? "" : "; ", hint));
            return 2;
        }
    }
    const std::string problem = write_out(text);
    if (problem.empty()) return 0;
    write_error(fmt::format("waxwright: standard output: {}\n", problem));
    return 2;
}

} // namespace waxwright
