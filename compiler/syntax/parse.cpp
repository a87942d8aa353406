// The only source that includes PEGTL, and with it the grammar.
#include "syntax/parse.hpp"

#include <fmt/format.h>

#include "grammar/errors.hpp"
#include "syntax/mistakes.hpp"

namespace waxwright {

namespace {

namespace pegtl = tao::pegtl;
using Input = pegtl::memory_input<pegtl::tracking_mode::lazy>;

/// Thrown where a file has too many mistakes; no rule catches it.
struct GivenUp {};

/// What the grammar's rules and actions work on.
class Builder {
public:
    Builder(Tree& tree, const Source& source, Findings& findings)
        : tree_(tree), source_(source), findings_(findings), base_(source.text().data()) {}

    std::vector<Node>& nodes() { return tree_.nodes; }
    std::uint32_t offset(const Input& in) const {
        return static_cast<std::uint32_t>(in.current() - base_);
    }
    const char* mistake() const { return mistake_; }

    /// Records a mistake before the parser gives the line up.
    void record(const Input& in, const grammar::Words& words) {
        if (findings_.too_many(tree_.file())) throw GivenUp{};
        mistake_ = in.current();
        report_mistake(tree_.file(), source_, offset(in), words.expected, words.hint, findings_);
    }
    void record_nesting(const Input& in) {
        mistake_ = in.current();
        findings_.report(Rule::nesting, {tree_.file(), offset(in), offset(in) + 1},
                         fmt::format("parentheses are nested more than {} deep", deepest_nesting),
                         "give the inner part a name with `let`");
    }

    int depth = 0;
    bool has_marks = false; // braces missing or too many, lines outside any block

private:
    Tree& tree_;
    const Source& source_;
    Findings& findings_;
    const char* base_;
    const char* mistake_ = nullptr;
};

/// PEGTL's hook for commitment points: tell first, then give the line up.
template <typename Rule>
struct control : pegtl::normal<Rule> {
    [[noreturn]] static void raise(const Input& in, Builder& builder) {
        static_assert(grammar::words<Rule>.expected != nullptr, "a must<> without words");
        builder.record(in, grammar::words<Rule>);
        throw grammar::Broken{};
    }
};

/// Nodes appended since this was made are cut off again unless the rule matched, be it by failure
/// or by an exception.
class Cut {
public:
    explicit Cut(std::vector<Node>& nodes) : nodes_(nodes), size_(nodes.size()) {}
    Cut(const Cut&) = delete;
    Cut& operator=(const Cut&) = delete;
    ~Cut() {
        if (!kept_) nodes_.erase(nodes_.begin() + static_cast<std::ptrdiff_t>(size_), nodes_.end());
    }
    void keep() { kept_ = true; }
    std::uint32_t added() const { return static_cast<std::uint32_t>(nodes_.size() - size_); }

private:
    std::vector<Node>& nodes_;
    std::size_t size_;
    bool kept_ = false;
};

/// The action of a rule that makes a node. `chain` nodes stand for an operator: with one child only
/// there is none, and the child stands for itself.
template <Kind kind, bool chain = false>
struct node : pegtl::maybe_nothing {
    template <typename Rule, pegtl::apply_mode A, pegtl::rewind_mode M,
              template <typename...> class Action, template <typename...> class Control>
    [[nodiscard]] static bool match(Input& in, Builder& builder) {
        if constexpr (A == pegtl::apply_mode::nothing) {
            return pegtl::match<Rule, A, M, Action, Control>(in, builder);
        } else {
            Cut cut(builder.nodes());
            const std::uint32_t begin = builder.offset(in);
            if (!pegtl::match<Rule, A, M, Action, Control>(in, builder)) return false;
            cut.keep();
            const std::uint32_t added = cut.added();
            if constexpr (kind == Kind::unclosed || kind == Kind::unopened || kind == Kind::stray ||
                          kind == Kind::orphans) {
                builder.has_marks = true;
            }
            if (chain && added > 0 && builder.nodes().back().size == added) return true;
            builder.nodes().push_back(
                {.kind = kind, .begin = begin, .end = builder.offset(in), .size = added + 1});
            return true;
        }
    }
};

/// A group counts the nesting on top of making its node.
struct group_node : pegtl::maybe_nothing {
    template <typename Rule, pegtl::apply_mode A, pegtl::rewind_mode M,
              template <typename...> class Action, template <typename...> class Control>
    [[nodiscard]] static bool match(Input& in, Builder& builder) {
        if (in.empty() || in.peek_char() != '(') return false;
        struct Level {
            int& depth;
            ~Level() { --depth; }
        } level{++builder.depth};
        if (builder.depth > deepest_nesting) {
            builder.record_nesting(in);
            throw grammar::Broken{};
        }
        return node<Kind::group>::match<Rule, A, M, Action, Control>(in, builder);
    }
};

// clang-format off
template <typename Rule> struct build : pegtl::nothing<Rule> {};
template <> struct build<grammar::language> : node<Kind::language> {};
template <> struct build<grammar::use> : node<Kind::use> {};
template <> struct build<grammar::currency> : node<Kind::currency> {};
template <> struct build<grammar::currency_code> : node<Kind::word> {};
template <> struct build<grammar::let> : node<Kind::let> {};
template <> struct build<grammar::block> : node<Kind::block> {};
template <> struct build<grammar::head> : node<Kind::head> {};
template <> struct build<grammar::bare_head> : node<Kind::head> {};
template <> struct build<grammar::broken_head> : node<Kind::broken> {};
template <> struct build<grammar::block_kind> : node<Kind::word> {};
template <> struct build<grammar::key> : node<Kind::word> {};
template <> struct build<grammar::property> : node<Kind::property> {};
template <> struct build<grammar::steps> : node<Kind::steps> {};
template <> struct build<grammar::step> : node<Kind::step> {};
template <> struct build<grammar::clause> : node<Kind::clause> {};
template <> struct build<grammar::verb> : node<Kind::word> {};
template <> struct build<grammar::because> : node<Kind::because> {};
template <> struct build<grammar::allow> : node<Kind::allow> {};
template <> struct build<grammar::allow_rule> : node<Kind::word> {};
template <> struct build<grammar::pour> : node<Kind::pour> {};
template <> struct build<grammar::have> : node<Kind::have> {};
template <> struct build<grammar::lot> : node<Kind::lot> {};
template <> struct build<grammar::broken> : node<Kind::broken> {};
template <> struct build<grammar::broken_nest> : node<Kind::broken> {};
template <> struct build<grammar::unclosed> : node<Kind::unclosed> {};
template <> struct build<grammar::unopened> : node<Kind::unopened> {};
template <> struct build<grammar::unopened_colon> : node<Kind::unopened> {};
template <> struct build<grammar::stray> : node<Kind::stray> {};
template <> struct build<grammar::stray_after> : node<Kind::stray> {};
template <> struct build<grammar::orphans> : node<Kind::orphans> {};
template <> struct build<grammar::value> : node<Kind::value> {};
template <> struct build<grammar::phrase> : node<Kind::phrase> {};
template <> struct build<grammar::by_volume> : node<Kind::by_volume> {};
template <> struct build<grammar::number> : node<Kind::number> {};
template <> struct build<grammar::unit> : node<Kind::unit> {};
template <> struct build<grammar::cash_unit> : node<Kind::unit> {};
template <> struct build<grammar::measure> : node<Kind::measure> {};
template <> struct build<grammar::compound> : node<Kind::compound, true> {};
template <> struct build<grammar::cash> : node<Kind::cash> {};
template <> struct build<grammar::sign> : node<Kind::sign> {};
template <> struct build<grammar::date> : node<Kind::date> {};
template <> struct build<grammar::name> : node<Kind::name> {};
template <> struct build<grammar::text> : node<Kind::text> {};
template <> struct build<grammar::group> : group_node {};
template <> struct build<grammar::item> : node<Kind::item, true> {};
template <> struct build<grammar::rest> : node<Kind::rest> {};
template <> struct build<grammar::doubt> : node<Kind::doubt, true> {};
template <> struct build<grammar::named> : node<Kind::doubt, true> {};
template <typename Room> struct build<grammar::sum<Room>> : node<Kind::sum, true> {};
template <typename Room> struct build<grammar::product<Room>> : node<Kind::product, true> {};
template <> struct build<grammar::plus_sign> : node<Kind::plus> {};
template <> struct build<grammar::minus_sign> : node<Kind::minus> {};
template <> struct build<grammar::times_sign> : node<Kind::times> {};
template <> struct build<grammar::divided_sign> : node<Kind::divided> {};
template <> struct build<grammar::to> : node<Kind::to> {};
template <> struct build<grammar::at_> : node<Kind::at> {};
template <> struct build<grammar::of_> : node<Kind::of_> {};
template <> struct build<grammar::for_> : node<Kind::for_> {};
template <> struct build<grammar::over> : node<Kind::over> {};
template <> struct build<grammar::with> : node<Kind::with> {};
template <> struct build<grammar::in_room> : node<Kind::in_room> {};
template <> struct build<grammar::across> : node<Kind::across> {};
template <> struct build<grammar::deep> : node<Kind::deep> {};
template <> struct build<grammar::closed_cup> : node<Kind::closed_cup> {};
template <> struct build<grammar::open_cup> : node<Kind::open_cup> {};
template <> struct build<grammar::file> : node<Kind::file> {};
// clang-format on

} // namespace

Tree parse(FileId file, const Source& source, Findings& findings) {
    const std::string_view text = source.text();
    Tree tree(file, text);
    tree.nodes.reserve(text.size() / 4 + 16); // measured: a node for every 4 to 8 bytes
    Input in(text.data(), text.data() + text.size(), "");
    Builder builder(tree, source, findings);
    report_bad_characters(file, source, findings); // first: of two findings in one place it stays
    try {
        if (!pegtl::parse<grammar::file, build, control>(in, builder)) {
            // Can't be: `file` takes anything. Should it ever, the file must not pass for an empty
            // one.
            report_mistake(file, source, builder.offset(in), "text this compiler can read", "",
                           findings);
        }
    } catch (const GivenUp&) {
        tree.nodes.clear(); // its findings are there; nothing more can be said of it
    }
    if (tree.nodes.empty() || tree.nodes.back().kind != Kind::file) {
        const auto size = static_cast<std::uint32_t>(text.size());
        tree.nodes.assign(1, {.kind = Kind::file, .begin = 0, .end = size, .size = 1});
    }
    if (builder.has_marks) report_marks(tree, findings);
    return tree;
}

} // namespace waxwright
