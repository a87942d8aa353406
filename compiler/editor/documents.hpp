// The texts that an editor has open, as they are typed.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>

#include "editor/places.hpp"

namespace waxwright {

struct Document {
    std::string uri; // as the client writes it
    std::optional<std::int64_t> version;
    Source source; // named by its path
    /// What was written last, in its place; nothing since it was opened, saved, or replaced as a
    /// whole. A line of `use` doesn't count: it may come with what was chosen elsewhere.
    std::optional<Span> typed{};
};

/// Open texts by their paths. What a client sends about a text that isn't open is passed over.
class Documents {
public:
    /// Each takes the `params` of the notification of that name; throws Json's exceptions where
    /// they are none.
    void open(const Json& params);
    void change(const Json& params, Encoding encoding);
    void save(const Json& params);
    void close(const Json& params);

    const Document* find(const std::string& path) const;
    const std::map<std::string, Document>& all() const { return documents_; }

private:
    std::map<std::string, Document> documents_; // by path
};

} // namespace waxwright
