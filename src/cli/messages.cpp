#include "messages.hpp"

#include <budclock/core/diagnostic.hpp>

#include <ostream>

namespace budclock::cli {

void complain(const std::string& message, Environment& environment) {
  environment.err << "budclock: " << printable(message) << '\n';
}

}  // namespace budclock::cli
