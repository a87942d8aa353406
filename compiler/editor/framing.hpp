// The base protocol of LSP 3.17: a header that says how long a message is, an empty line, the
// message.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace waxwright {

/// Parts a stream of bytes into messages. Whatever comes in, it ends: a header without a length is
/// passed over, and a message longer than `longest_message` is left out.
class Framing {
public:
    static constexpr std::size_t longest_message = 64U << 20U; // bytes

    void feed(std::string_view bytes);
    /// The text of the next message that is there whole.
    std::optional<std::string> next();

private:
    std::optional<std::size_t> read_header(std::string_view header) const;

    std::string bytes_;
    std::size_t at_ = 0;   // what stands before it is done with
    std::size_t skip_ = 0; // bytes of a message that is left out and still to come
};

/// A message with its header.
std::string framed(std::string_view message);

} // namespace waxwright
