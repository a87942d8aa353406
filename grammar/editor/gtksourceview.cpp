// A language specification for editors with GtkSourceView: GNOME's, MATE's and Xfce's among them.
#include "grammar/editor/colours.hpp"
#include "grammar/editor/formats.hpp"

namespace waxwright::editor {

namespace {

std::string xml(std::string_view text) {
    std::string out;
    for (const char c : text) {
        switch (c) {
        case '&':
            out += "&amp;";
            break;
        case '<':
            out += "&lt;";
            break;
        case '>':
            out += "&gt;";
            break;
        case '"':
            out += "&quot;";
            break;
        default:
            out += c;
        }
    }
    return out;
}

std::string perl(const Pattern& pattern) {
    return render(pattern, Dialect::perl);
}

std::string start(Start where) {
    switch (where) {
    case Start::line:
        return "^[ \\t]*";
    case Start::opening:
        return "(?:^|\\{)[ \\t]*";
    case Start::anywhere:
        break;
    }
    return "";
}

std::string gap(Gap which) {
    return which == Gap::none ? "" : perl(which == Gap::blanks ? blanks() : some_blanks());
}

/// The id of a class's style.
std::string style(Class which) {
    std::string id(info(which).name);
    id[0] = static_cast<char>(id[0] | 0x20);
    return id;
}
bool has_style(Class which) {
    return !info(which).gtk.empty();
}

std::string context(const Piece& piece) {
    std::string match = start(piece.start);
    std::string parts;
    int number = 0;
    for (const Stretch& each : piece.stretches) {
        if (number++ != 0) match += gap(each.gap);
        match += "(" + perl(each.pattern) + ")" + perl(each.behind);
        if (has_style(each.which))
            parts += "            <context sub-pattern=\"" + std::to_string(number) +
                     "\" style-ref=\"" + style(each.which) + "\"/>\n";
    }
    std::string out = "        <!-- " + xml(piece.about) +
                      " -->\n        <context>\n          <match>" + xml(match) + "</match>\n";
    if (!parts.empty()) out += "          <include>\n" + parts + "          </include>\n";
    return out + "        </context>\n";
}

std::string comment_and_text() {
    const TextShape shape = text_shape();
    return "        <context id=\"comment\" style-ref=\"comment\" class=\"comment\">\n"
           "          <match>" +
           xml(perl(comment_shape())) +
           "</match>\n        </context>\n"
           "        <context id=\"text\" style-ref=\"text\" class=\"string\""
           " end-at-line-end=\"true\">\n          <start>" +
           xml(perl(shape.quote)) + "</start>\n          <end>" + xml(perl(shape.quote)) +
           "</end>\n          <include>\n            <context style-ref=\"escape\">\n"
           "              <match>" +
           xml(perl(shape.escape)) +
           "</match>\n            </context>\n            <context>\n              <match>" +
           xml(perl(shape.any_escape)) +
           "</match>\n            </context>\n          </include>\n        </context>\n";
}

} // namespace

std::string gtksourceview_language() {
    std::string out =
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<!-- Candle recipes, for GtkSourceView 3 to 5. Written by Waxwright's build. -->\n"
        "<language id=\"candle\" name=\"Candle recipe\" version=\"2.0\" _section=\"Other\">\n"
        "  <metadata>\n    <property name=\"globs\">*.candle</property>\n"
        "    <property name=\"line-comment-start\">" +
        std::string(comment_sign) + "</property>\n  </metadata>\n  <styles>\n";
    for (std::size_t at = 0; at < std::size(class_infos); ++at) {
        const auto which = static_cast<Class>(at);
        if (!has_style(which)) continue;
        out += "    <style id=\"" + style(which) + "\" name=\"" + std::string(info(which).name) +
               "\" map-to=\"" + std::string(info(which).gtk) + "\"/>\n";
    }
    out += "  </styles>\n  <definitions>\n    <context id=\"candle\" class=\"no-spell-check\">\n"
           "      <include>\n" +
           comment_and_text();
    for (const Piece& piece : pieces())
        out += context(piece);
    return out + "      </include>\n    </context>\n  </definitions>\n</language>\n";
}

} // namespace waxwright::editor
