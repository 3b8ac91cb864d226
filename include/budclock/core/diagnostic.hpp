// What went wrong, where, and what to do about it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace budclock {

/// How much a diagnostic costs the answer. The command line maps the worst one to its exit code.
enum class Severity : std::uint8_t {
  note,   ///< expected and handled: a gap, a fill, an assumption
  fault,  ///< a malformed row or value was set aside; the rest is answered
  error,  ///< the question cannot be answered
};

/// A place in an input. Line and column count from 1; 0 means "the whole" (file or line).
/// A column counts bytes of the line, as editors that show byte columns do.
struct Place {
  std::string file;
  std::size_t line = 0;
  std::size_t column = 0;
  friend bool operator==(const Place&, const Place&) = default;
};

/// One problem: `message` says what is wrong, `remedy` what to do (empty: nothing needs doing).
struct Diagnostic {
  Severity severity = Severity::error;
  Place place;
  std::string message;
  std::string remedy;
  friend bool operator==(const Diagnostic&, const Diagnostic&) = default;
};

/// "file:line:column: what is wrong: what to do", leaving out what is not known. Control characters in names and
/// quoted text are shown as \xNN, so that no input can drive a terminal.
std::string to_text(const Diagnostic& diagnostic);

/// `text` with control characters (see core/utf8), and bytes that are not valid UTF-8, shown as \xNN.
std::string printable(const std::string& text);

/// Problems in the order they were found.
using Diagnostics = std::vector<Diagnostic>;

/// True when any entry is at least as severe as `severity`.
bool any_at_least(const Diagnostics& diagnostics, Severity severity);

}  // namespace budclock
