// What an editor can ask for: one function a request, each from the tree, the model, the findings
// or the schema. Names and shapes are those of LSP 3.17. A function throws Json's exceptions where
// `params` is not what the request has.
#pragma once

#include <map>
#include <string>
#include <variant>

#include "editor/look.hpp"

namespace waxwright {

/// Why a request is not done, in words for the person at the editor.
struct Refusal {
    std::string words;
};
using Reply = std::variant<Json, Refusal>;

// about the text at a place
Reply hover(const Asked& asked, const Json& params);
Reply completion(const Asked& asked, const Json& params);
Reply definition(const Asked& asked, const Json& params);
Reply references(const Asked& asked, const Json& params);
Reply document_highlight(const Asked& asked, const Json& params);
Reply prepare_rename(const Asked& asked, const Json& params);
Reply rename(const Asked& asked, const Json& params);

// about a text, or a part of it
Reply code_action(const Asked& asked, const Json& params);
Reply document_symbol(const Asked& asked, const Json& params);
Reply folding_range(const Asked& asked, const Json& params);
Reply formatting(const Asked& asked, const Json& params);
Reply semantic_tokens(const Asked& asked, const Json& params);
Reply semantic_tokens_range(const Asked& asked, const Json& params);
Reply inlay_hint(const Asked& asked, const Json& params);

// about all texts
Reply workspace_symbol(const View& view, const Json& params);

/// The findings of each file as LSP's diagnostics; a file without any is not in it.
std::map<FileId, Json> diagnostics(const View& view);

/// The words of a semantic token's type, in the order of their numbers.
Json semantic_token_types();
Json semantic_token_modifiers();

} // namespace waxwright
