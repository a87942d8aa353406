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
        report_mistake(tree_.file(), source_, offset(in), words, findings_);
    }
    void record_nesting(const Input& in) {
        if (findings_.too_many(tree_.file())) throw GivenUp{};
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
struct Telling : pegtl::normal<Rule> {
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
struct Making : pegtl::maybe_nothing {
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
struct MakingGroup : pegtl::maybe_nothing {
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
        return Making<Kind::group>::match<Rule, A, M, Action, Control>(in, builder);
    }
};

// clang-format off
template <typename Rule> struct Build : pegtl::nothing<Rule> {};
template <> struct Build<grammar::language> : Making<Kind::language> {};
template <> struct Build<grammar::use> : Making<Kind::use> {};
template <> struct Build<grammar::currency> : Making<Kind::currency> {};
template <> struct Build<grammar::currency_code> : Making<Kind::word> {};
template <> struct Build<grammar::let> : Making<Kind::let> {};
template <> struct Build<grammar::block> : Making<Kind::block> {};
template <> struct Build<grammar::head> : Making<Kind::head> {};
template <> struct Build<grammar::bare_head> : Making<Kind::head> {};
template <> struct Build<grammar::broken_head> : Making<Kind::broken> {};
template <> struct Build<grammar::block_kind> : Making<Kind::word> {};
template <> struct Build<grammar::key> : Making<Kind::word> {};
template <> struct Build<grammar::property> : Making<Kind::property> {};
template <> struct Build<grammar::steps> : Making<Kind::steps> {};
template <> struct Build<grammar::step> : Making<Kind::step> {};
template <> struct Build<grammar::clause> : Making<Kind::clause> {};
template <> struct Build<grammar::verb> : Making<Kind::word> {};
template <> struct Build<grammar::because> : Making<Kind::because> {};
template <> struct Build<grammar::allow> : Making<Kind::allow> {};
template <> struct Build<grammar::allow_rule> : Making<Kind::word> {};
template <> struct Build<grammar::pour> : Making<Kind::pour> {};
template <> struct Build<grammar::have> : Making<Kind::have> {};
template <> struct Build<grammar::lot> : Making<Kind::lot> {};
template <> struct Build<grammar::broken> : Making<Kind::broken> {};
template <> struct Build<grammar::broken_nest> : Making<Kind::broken> {};
template <> struct Build<grammar::unclosed> : Making<Kind::unclosed> {};
template <> struct Build<grammar::unopened> : Making<Kind::unopened> {};
template <> struct Build<grammar::unopened_colon> : Making<Kind::unopened> {};
template <> struct Build<grammar::stray> : Making<Kind::stray> {};
template <> struct Build<grammar::stray_brace> : Making<Kind::stray> {};
template <> struct Build<grammar::stray_after> : Making<Kind::stray> {};
template <> struct Build<grammar::orphans> : Making<Kind::orphans> {};
template <> struct Build<grammar::value> : Making<Kind::value> {};
template <> struct Build<grammar::phrase> : Making<Kind::phrase> {};
template <> struct Build<grammar::by_volume> : Making<Kind::by_volume> {};
template <> struct Build<grammar::number> : Making<Kind::number> {};
template <> struct Build<grammar::unit> : Making<Kind::unit> {};
template <> struct Build<grammar::cash_unit> : Making<Kind::unit> {};
template <> struct Build<grammar::measure> : Making<Kind::measure> {};
template <> struct Build<grammar::compound> : Making<Kind::compound, true> {};
template <> struct Build<grammar::cash> : Making<Kind::cash> {};
template <> struct Build<grammar::sign> : Making<Kind::sign> {};
template <> struct Build<grammar::date> : Making<Kind::date> {};
template <> struct Build<grammar::name> : Making<Kind::name> {};
template <> struct Build<grammar::text> : Making<Kind::text> {};
template <> struct Build<grammar::group> : MakingGroup {};
template <> struct Build<grammar::item> : Making<Kind::item, true> {};
template <> struct Build<grammar::rest> : Making<Kind::rest> {};
template <> struct Build<grammar::doubt> : Making<Kind::doubt, true> {};
template <> struct Build<grammar::named> : Making<Kind::doubt, true> {};
template <typename Room> struct Build<grammar::sum<Room>> : Making<Kind::sum, true> {};
template <typename Room> struct Build<grammar::product<Room>> : Making<Kind::product, true> {};
template <> struct Build<grammar::plus_sign> : Making<Kind::plus> {};
template <> struct Build<grammar::minus_sign> : Making<Kind::minus> {};
template <> struct Build<grammar::times_sign> : Making<Kind::times> {};
template <> struct Build<grammar::divided_sign> : Making<Kind::divided> {};
template <> struct Build<grammar::to> : Making<Kind::to> {};
template <> struct Build<grammar::at_> : Making<Kind::at> {};
template <> struct Build<grammar::of_> : Making<Kind::of_> {};
template <> struct Build<grammar::for_> : Making<Kind::for_> {};
template <> struct Build<grammar::over> : Making<Kind::over> {};
template <> struct Build<grammar::with> : Making<Kind::with> {};
template <> struct Build<grammar::in_room> : Making<Kind::in_room> {};
template <> struct Build<grammar::across> : Making<Kind::across> {};
template <> struct Build<grammar::deep> : Making<Kind::deep> {};
template <> struct Build<grammar::closed_cup> : Making<Kind::closed_cup> {};
template <> struct Build<grammar::open_cup> : Making<Kind::open_cup> {};
template <> struct Build<grammar::file> : Making<Kind::file> {};
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
        if (!pegtl::parse<grammar::file, Build, Telling>(in, builder)) {
            // Can't be: `file` takes anything. Should it ever, the file must not pass for an empty
            // one.
            report_mistake(file, source, builder.offset(in),
                           {"text this compiler can read", "", {}}, findings);
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
