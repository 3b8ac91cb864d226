#include "messages.hpp"

#include <ostream>

namespace budclock::cli {

void complain(const std::string& message, Environment& environment) {
  environment.err << "budclock: " << printable(message) << '\n';
}

void print(const Diagnostics& diagnostics, Environment& environment, bool notes) {
  for (const Diagnostic& diagnostic : diagnostics) {
    if (notes || diagnostic.severity > Severity::note) environment.err << to_text(diagnostic) << '\n';
  }
}

ExitStatus answered_with(const Diagnostics& diagnostics) {
  return any_at_least(diagnostics, Severity::fault) ? ExitStatus::set_aside : ExitStatus::answered;
}

}  // namespace budclock::cli
