// Work spread over the machine's cores.
#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <exception>
#include <functional>
#include <mutex>
#include <new>
#include <system_error>
#include <thread>
#include <vector>

namespace waxwright {

/// Calls `work(begin, end)` for the pieces of 0 to `count`, each of `piece` at most, on as many
/// threads as there are cores: several at once, in no order, each piece once. Where no thread can
/// be started the caller does it all. An exception of a piece comes out here when all have ended.
template <typename Work>
void in_pieces(std::size_t count, std::size_t piece, Work work) {
    std::atomic<std::size_t> next{0};
    std::exception_ptr failure;
    std::mutex failing;
    const auto run = [&] {
        for (std::size_t from = next.fetch_add(piece); from < count; from = next.fetch_add(piece)) {
            try {
                work(from, std::min(from + piece, count));
            } catch (...) {
                const std::lock_guard lock(failing);
                failure = std::current_exception();
                next = count;
            }
        }
    };
    const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
    const std::size_t threads = std::min(cores, (count + piece - 1) / piece);
    std::vector<std::jthread> others;
    try {
        while (others.size() + 1 < threads)
            others.emplace_back(run);
    } catch (const std::system_error&) { // no more threads to be had
    } catch (const std::bad_alloc&) {    // nor memory for one
    }
    run();
    others.clear(); // waits for them
    if (failure) std::rethrow_exception(failure);
}

/// The same as a value, for the pipeline.
inline void on_all_cores(std::size_t count, std::size_t piece,
                         const std::function<void(std::size_t, std::size_t)>& work) {
    in_pieces(count, piece, std::cref(work));
}

} // namespace waxwright
