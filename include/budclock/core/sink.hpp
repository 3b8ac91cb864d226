// Where text goes piece by piece, so that a long one need not be held whole.
#pragma once

#include <functional>
#include <string>
#include <string_view>

namespace budclock {

using Sink = std::function<void(std::string_view)>;

/// All that `write` hands on, as one text.
inline std::string collected(const std::function<void(const Sink&)>& write) {
  std::string text;
  write([&text](std::string_view piece) { text += piece; });
  return text;
}

}  // namespace budclock
