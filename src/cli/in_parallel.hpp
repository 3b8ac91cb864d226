// Pieces of work that several threads share out among themselves.
#pragma once

#include <cstddef>
#include <functional>

namespace budclock::cli {

/// Calls `work` once for each number below `count`, from at most `jobs` threads, this one among them. What `work`
/// throws first stops the rest and is thrown again.
void in_parallel(int jobs, std::size_t count, const std::function<void(std::size_t)>& work);

}  // namespace budclock::cli
