// The formats of editors, each written whole from the pieces of colours.hpp.
#pragma once

#include <string>
#include <string_view>

namespace waxwright::editor {

/// A TextMate grammar as JSON, scope `source.candle`.
std::string textmate_grammar();
/// package.json of an extension of the VS Code kind; `version` is the program's.
std::string vscode_package(std::string_view version);
/// language-configuration.json of it: the comment's sign, brackets, what a word is.
std::string vscode_configuration();
/// A syntax file for Vim and Neovim.
std::string vim_syntax();
/// A language specification of GtkSourceView, version 2.0 of its format.
std::string gtksourceview_language();
/// A syntax for nano.
std::string nano_syntax();

} // namespace waxwright::editor
