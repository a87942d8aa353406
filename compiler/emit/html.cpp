#include "emit/html.hpp"

#include <cstdlib>
#include <memory>

#include <cmark-gfm-core-extensions.h>
#include <cmark-gfm.h>

namespace waxwright {

namespace {

/// Paper is what counts: A4, letter and A5 take the same style, whose lengths are a share of the
/// type's. No colour carries a meaning, for it may be printed in black.
constexpr std::string_view style = R"css(
@page { margin: 8mm 10mm }
* { box-sizing: border-box }
html { font: 10pt/1.3 "Liberation Sans", Arial, Helvetica, sans-serif; color: #000; background: #fff }
body { max-width: 190mm; margin: 0 auto; padding: 4mm }
h1 { font-size: 1.6em; margin: 0 0 .2em }
h2 { font-size: 1.15em; margin: .5em 0 .2em; border-bottom: 1.2pt solid #000 }
h3 { font-size: 1em; margin: .5em 0 .2em }
p { margin: .25em 0 }
ul, ol { margin: .2em 0; padding-left: 1.3em }
li { margin: .1em 0 }
.cautions ul { font-size: .95em }
li:has(> input) { list-style: none; margin-left: -1.3em; padding-left: 1.5em; text-indent: -1.5em }
.work li br { display: none }
input { appearance: none; -webkit-appearance: none; width: 1em; height: 1em; margin: 0 .5em 0 0;
  border: 1pt solid #000; vertical-align: -.15em }
table { border-collapse: collapse; margin: .25em 0; width: 100% }
th, td { border: .5pt solid #777; padding: .1em .4em; text-align: left; vertical-align: top }
th { background: #eee }
.dangers { border: 1.2pt solid #000; padding: 0 .5em; margin: .5em 0 }
.dangers h2 { border: 0; margin-top: .2em }
.ready ul, .cure ul { columns: 2; column-gap: 9mm }
.recipe { columns: 2; column-gap: 6mm }
.recipe h2 { column-span: all }
.recipe h3:last-of-type { break-before: column; margin-top: 0 }
.day table { font-size: .8em; line-height: 1.1 }
.day td { padding: 0 .3em }
.day td:nth-child(-n+3), .glance td:first-child { white-space: nowrap }
.batch > .cure { columns: 2; column-gap: 6mm }
.batch > .cure h2, .batch > .cure table { column-span: all }
.batch > .cure ul { columns: 1 }
.labels div { display: inline-block; vertical-align: top; margin: 1mm }
.labels svg { display: block; outline: .3pt dashed #777 }
.picture svg { display: block; width: 100%; height: auto; max-height: 200mm }
@media screen { .recipe, .day, .glance { margin-top: 2em } }
@media print {
  html { font-size: 9pt; line-height: 1.15 }
  li { margin: .05em 0 }
  body { max-width: none; padding: 0 .5mm } /* else the outer lines are cut off */
  h2, h3 { break-after: avoid }
  tr, li, svg, table { break-inside: avoid }
  .day table { break-inside: auto }
  thead { display: table-header-group }
  .front, .recipe, .record { break-inside: avoid }
  .sheet + .sheet, .batch > .order + *, .batch > .day, .batch > .glance, .labels, .picture {
    break-before: page }
}
@media print and (max-width: 160mm) {
  html { font-size: 7.5pt }
  .recipe, .ready ul, .cure ul, .batch > .cure { columns: 1 }
}
)css";

struct Freed {
    void operator()(char* text) const { std::free(text); } // as cmark-gfm's own allocator has it
    void operator()(cmark_parser* parser) const { cmark_parser_free(parser); }
    void operator()(cmark_node* node) const { cmark_node_free(node); }
};

/// No line of paper ends between a number and its degrees.
std::string kept_together(std::string_view html) {
    constexpr std::string_view degrees = " °";
    std::string text;
    for (std::size_t at = html.find(degrees); at != std::string_view::npos;
         at = html.find(degrees)) {
        text.append(html.substr(0, at)).append("\u00A0°");
        html.remove_prefix(at + degrees.size());
    }
    return text.append(html);
}

/// Raw HTML and unsafe links are left out by cmark-gfm itself, whatever the Markdown has.
std::string rendered(std::string_view markdown) {
    cmark_gfm_core_extensions_ensure_registered();
    const std::unique_ptr<cmark_parser, Freed> parser(cmark_parser_new(CMARK_OPT_DEFAULT));
    for (const char* name : {"table", "tasklist"}) {
        if (cmark_syntax_extension* extension = cmark_find_syntax_extension(name)) {
            cmark_parser_attach_syntax_extension(parser.get(), extension);
        }
    }
    cmark_parser_feed(parser.get(), markdown.data(), markdown.size());
    const std::unique_ptr<cmark_node, Freed> document(cmark_parser_finish(parser.get()));
    const std::unique_ptr<char, Freed> html(cmark_render_html(
        document.get(), CMARK_OPT_DEFAULT, cmark_parser_get_syntax_extensions(parser.get())));
    return kept_together(html.get());
}

std::string escaped(std::string_view text) {
    std::string safe;
    for (const char c : text) {
        switch (c) {
        case '&':
            safe += "&amp;";
            break;
        case '<':
            safe += "&lt;";
            break;
        case '>':
            safe += "&gt;";
            break;
        default:
            safe += c;
        }
    }
    return safe;
}

std::string_view class_of(SheetPart part) {
    switch (part) {
    case SheetPart::head:
        return "head";
    case SheetPart::dangers:
        return "dangers";
    case SheetPart::cautions:
        return "cautions";
    case SheetPart::ready:
        return "ready";
    case SheetPart::order:
        return "order";
    case SheetPart::work:
        return "work";
    case SheetPart::recipe:
        return "recipe";
    case SheetPart::day:
        return "day";
    case SheetPart::glance:
        return "glance";
    case SheetPart::cure:
        return "cure";
    case SheetPart::record:
        return "record";
    case SheetPart::money:
        return "money";
    }
    return "";
}

/// Inside a page an SVG is an element, and has no declaration.
std::string_view without_declaration(std::string_view svg) {
    const std::size_t begin = svg.find("<svg");
    return begin == std::string_view::npos ? std::string_view() : svg.substr(begin);
}

} // namespace

std::string html_begin(std::string_view title) {
    std::string page = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                       "<meta name=\"viewport\" content=\"width=device-width\">\n"
                       "<meta http-equiv=\"Content-Security-Policy\" "
                       "content=\"default-src 'none'; style-src 'unsafe-inline'\">\n<title>";
    page += escaped(title);
    page += "</title>\n<style>";
    page += style;
    page += "</style>\n</head>\n<body>\n";
    return page;
}

std::string html_sheet(std::span<const SheetPiece> pieces, std::string_view svg,
                       std::string_view labels) {
    bool batch = false;
    for (const SheetPiece& piece : pieces)
        batch = batch || piece.part == SheetPart::recipe;
    std::string html = batch ? "<article class=\"sheet batch\">\n" : "<article class=\"sheet\">\n";
    for (const SheetPiece& piece : pieces) {
        if (piece.markdown.empty()) continue;
        html += "<section class=\"";
        html += class_of(piece.part);
        html += "\">\n";
        html += rendered(piece.markdown);
        html += "</section>\n";
    }
    if (!labels.empty()) {
        html += "<section class=\"labels\">\n";
        html += labels;
        html += "</section>\n";
    }
    if (!svg.empty()) {
        html += "<section class=\"picture\">\n";
        html += without_declaration(svg);
        html += "</section>\n";
    }
    return html + "</article>\n";
}

std::string html_end() {
    return "</body>\n</html>\n";
}

} // namespace waxwright
