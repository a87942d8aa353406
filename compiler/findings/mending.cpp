#include "findings/mending.hpp"

#include <algorithm>

namespace waxwright {

const Fix* certain_fix(const Finding& finding, const Sources& sources) {
    const Fix* only = nullptr;
    for (const Fix& fix : finding.fixes) {
        if (!fix.certain) continue;
        if (only != nullptr) return nullptr;
        only = &fix;
    }
    if (only == nullptr || finding.because) return nullptr;
    const auto within_a_line = [&](const Edit& edit) {
        return edit.text.find('\r') == std::string::npos &&
               sources.slice(edit.at).find_first_of("\r\n") == std::string_view::npos;
    };
    return std::all_of(only->edits.begin(), only->edits.end(), within_a_line) ? only : nullptr;
}

bool overlap(const Fix& a, const Fix& b) {
    for (const Edit& one : a.edits) {
        for (const Edit& other : b.edits) {
            if (one.at.file != other.at.file) continue;
            const bool apart = one.at.end <= other.at.begin || other.at.end <= one.at.begin;
            if (!apart || one.at.begin == other.at.begin) return true;
        }
    }
    return false;
}

std::string edited(std::string_view text, std::vector<Edit> edits) {
    std::sort(edits.begin(), edits.end(),
              [](const Edit& a, const Edit& b) { return a.at.begin < b.at.begin; });
    std::string result;
    result.reserve(text.size());
    std::size_t at = 0;
    for (const Edit& edit : edits) {
        result.append(text.substr(at, edit.at.begin - at)).append(edit.text);
        at = edit.at.end;
    }
    return result.append(text.substr(at));
}

} // namespace waxwright
