#include "editor/completion_place.hpp"

#include <algorithm>
#include <optional>

#include "model/phrase_text.hpp"

namespace waxwright {

bool is_name_letter(char c) {
    return is_letter(c) || is_digit(c) || c == '-' || c == '_';
}

std::string_view first_word(std::string_view statement) {
    std::size_t length = 0;
    while (length < statement.size() && is_name_letter(statement[length]))
        ++length;
    return statement.substr(0, length);
}

std::size_t word_begin(std::string_view text) {
    std::size_t begin = text.size();
    while (begin > 0 && is_name_letter(text[begin - 1]))
        --begin;
    while (begin < text.size() && !is_letter(text[begin]))
        ++begin;
    return begin;
}

bool TypingPlace::has(std::string_view word) const {
    return std::ranges::any_of(lines,
                               [&](const std::string& line) { return first_word(line) == word; });
}

namespace {

bool is_line_end(char c) {
    return c == '\n' || c == '\r';
}

/// `word:`, and nothing before it.
bool begins_property(std::string_view text) {
    const std::string_view word = first_word(text);
    const std::size_t next = text.find_first_not_of(" \t", word.size());
    return !word.empty() && next != std::string_view::npos && text[next] == ':';
}

/// `reads: 1 g, mo`: whether the property goes on behind a comma.
bool takes_commas(BlockKind kind, std::string_view statement) {
    const std::optional<Key> key = find_key(first_word(statement));
    const PropertyInfo* info = key ? find_property(kind, *key) : nullptr;
    if (info == nullptr) return false;
    switch (info->shape) {
    case Shape::words:
    case Shape::hazards:
    case Shape::limits:
    case Shape::factors:
    case Shape::texts:
    case Shape::some_of:
    case Shape::densities:
    case Shape::inside:
    case Shape::fees:
    case Shape::packs:
        return true;
    default:
        return false;
    }
}

/// Goes through a text once, statement by statement. What is open at the cursor is gone through to
/// its end, for the lines that it has behind the cursor.
class Scan {
public:
    Scan(std::string_view text, std::uint32_t cursor) : text_(text), cursor_(cursor) {}

    TypingPlace run() {
        if (text_.starts_with("\xEF\xBB\xBF")) at_ = 3;
        while (!done_ && at_ < text_.size()) {
            if (at_ >= cursor_) arrive();
            step(text_[at_]);
        }
        if (!placed_) arrive();
        if (!done_) leave(home_);
        return std::move(place_);
    }

private:
    /// Something with a brace; the file itself has none.
    struct Open {
        BlockKind kind = BlockKind::unknown;
        bool steps = false;
        std::uint32_t head = 0;
        std::uint32_t from = 0; // behind its brace
        struct Line {
            std::uint32_t begin;
            std::string text;
        };
        std::vector<Line> lines{};
    };

    void step(char c) {
        if (c == '"') {
            take_text();
        } else if (c == '#') {
            take_comment();
        } else if (is_line_end(c)) {
            end_line();
        } else if (c == '{') {
            open_brace();
        } else if (c == '}') {
            finish();
            ++at_;
            if (open_.size() > 1) close(open_.size() - 1);
        } else if (c == ',' && ends_at_comma()) {
            finish();
            ++at_;
        } else {
            take(c);
        }
    }

    void take(char c) {
        if (statement_.empty() && is_blank(c)) {
            ++at_;
            return;
        }
        if (statement_.empty()) begin_ = static_cast<std::uint32_t>(at_);
        if (c == '(') ++groups_;
        if (c == ')' && groups_ > 0) --groups_;
        statement_ += c;
        ++at_;
        // A property among the steps: their brace was never closed.
        if (c == ':' && open_.back().steps && begins_property(statement_)) close(open_.size() - 1);
    }

    std::size_t line_end() const {
        return std::min(text_.find_first_of("\r\n", at_), text_.size());
    }

    void take_text() {
        std::size_t end = at_ + 1;
        while (end < text_.size() && !is_line_end(text_[end]) && text_[end] != '"')
            end += text_[end] == '\\' ? 2U : 1U;
        end = std::min(end, text_.size());
        const bool inside = !placed_ && cursor_ > at_ && cursor_ <= end;
        if (inside) {
            arrive();
            place_.room = TypingPlace::Room::text;
            place_.text_begin = static_cast<std::uint32_t>(at_ + 1);
        }
        if (statement_.empty()) begin_ = static_cast<std::uint32_t>(at_);
        const bool closed = end < text_.size() && text_[end] == '"';
        end += closed ? 1 : 0;
        statement_ += text_.substr(at_, end - at_);
        at_ = end;
    }

    void take_comment() {
        const std::size_t end = line_end();
        if (!placed_ && cursor_ > at_ && cursor_ <= end) {
            arrive();
            place_.room = TypingPlace::Room::comment;
        }
        at_ = end;
    }

    /// The begin of the next word that is no comment.
    std::size_t next_words(std::size_t at) const {
        for (;;) {
            at = std::min(text_.find_first_not_of(" \t\r\n", at), text_.size());
            if (at == text_.size() || text_[at] != '#') return at;
            at = std::min(text_.find_first_of("\r\n", at), text_.size());
        }
    }

    void end_line() {
        const std::string_view words = trimmed(statement_);
        const bool open = groups_ > 0 || words.ends_with('+') || words.ends_with(',');
        const std::size_t next = next_words(at_);
        const bool here = !placed_ && cursor_ > at_ && cursor_ <= next;
        if (!words.empty() && open && (here || !starts_line(next))) {
            statement_ += ' ';
        } else {
            finish();
        }
        ++at_;
    }

    /// What can only be the start of a new line.
    bool starts_line(std::size_t at) const {
        const std::string_view text = text_.substr(at);
        if (text.empty() || text[0] == '}' || begins_property(text)) return true;
        const std::string_view word = first_word(text);
        if (word == "allow" || word == "let" || word == "use" || word == "steps") return true;
        const std::size_t stop = text.find_first_of("{\"#\r\n");
        return stop != std::string_view::npos && text[stop] == '{';
    }

    /// In a block on one line a comma may end a property.
    bool ends_at_comma() const {
        if (groups_ > 0 || open_.size() == 1 || open_.back().steps) return false;
        const std::string_view behind = text_.substr(at_ + 1);
        const std::size_t blanks = std::min(behind.find_first_not_of(" \t"), behind.size());
        if (begins_property(behind.substr(blanks))) return true;
        const std::size_t word = at_ + 1 + blanks + first_word(behind.substr(blanks)).size();
        if (placed_ || cursor_ <= at_ || cursor_ > word) return false;
        const std::uint32_t from = open_.back().from;
        const bool one_line =
            text_.substr(from, at_ - from).find_first_of("\r\n") == std::string_view::npos;
        return one_line && !takes_commas(open_.back().kind, statement_);
    }

    void open_brace() {
        const std::string words(trimmed(statement_));
        const std::string_view word = first_word(words);
        const std::uint32_t head = words.empty() ? static_cast<std::uint32_t>(at_) : begin_;
        const bool steps = open_.size() > 1 && word == "steps";
        const bool head_of_block = !steps && word.size() < words.size() && !begins_property(words);
        finish();
        ++at_;
        if (head_of_block) close(1); // what stands open was never closed
        if (done_) return;
        Open next{
            .kind = find_block_kind(word), .head = head, .from = static_cast<std::uint32_t>(at_)};
        if (steps) {
            next.kind = open_.back().kind;
            next.head = open_.back().head;
            next.steps = true;
        }
        open_.push_back(std::move(next));
    }

    void finish() {
        const std::string_view words = trimmed(statement_);
        if (!words.empty()) open_.back().lines.push_back({begin_, std::string(words)});
        statement_.clear();
        groups_ = 0;
    }

    /// Closes what is open from the one with this number on.
    void close(std::size_t from) {
        if (placed_ && from <= home_ && home_ > 0) leave(home_);
        if (from < open_.size()) open_.resize(std::max<std::size_t>(from, 1));
    }

    void arrive() {
        if (placed_) return;
        placed_ = true;
        home_ = open_.size() - 1;
        place_.begin = statement_.empty() ? cursor_ : begin_;
        place_.typed = statement_;
        if (is_head()) home_ = 0;
        const Open& home = open_[home_];
        place_.kind = home.kind;
        place_.head = home.head;
        place_.room = home_ == 0   ? TypingPlace::Room::file
                      : home.steps ? TypingPlace::Room::steps
                                   : TypingPlace::Room::block;
        if (home.steps) leave(home_);
    }

    /// `wax my-soy like` at the margin begins a block, whatever stands open before it.
    bool is_head() const {
        const bool margin = begin_ == 0 || is_line_end(text_[begin_ - 1]);
        const std::string_view word = first_word(statement_);
        if (!margin || word.size() == statement_.size()) return false;
        if (!is_blank(statement_[word.size()])) return false;
        return find_block_kind(word) != BlockKind::unknown || word == "use" || word == "let" ||
               word == "language" || word == "currency";
    }

    void leave(std::size_t home) {
        if (done_) return;
        for (const Open::Line& line : open_[std::min(home, open_.size() - 1)].lines) {
            if (line.begin != place_.begin) place_.lines.push_back(line.text);
        }
        done_ = true;
    }

    std::string_view text_;
    std::uint32_t cursor_;
    std::size_t at_ = 0;
    std::vector<Open> open_{1}; // the outermost is the file
    std::string statement_;
    std::uint32_t begin_ = 0;
    int groups_ = 0; // parentheses
    bool placed_ = false;
    bool done_ = false;
    std::size_t home_ = 0; // what the cursor is in
    TypingPlace place_;
};

} // namespace

TypingPlace place_at(std::string_view text, std::uint32_t cursor) {
    return Scan(text, cursor).run();
}

} // namespace waxwright
