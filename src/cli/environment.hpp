// What a command may know of the world outside: its streams, the terminal, the day, where the files are that it is not
// told. Nothing else is asked.
#pragma once

#include <budclock/core/date.hpp>

#include <cstddef>
#include <iosfwd>
#include <string>

namespace budclock::cli {

struct Environment {
  std::istream& in;
  std::ostream& out;           ///< results
  std::ostream& err;           ///< messages
  Day today;                   ///< the local date, for commands without --today
  std::size_t width;           ///< columns of the terminal; 80 when piped
  bool progress = false;       ///< `err` is a terminal: long work may show how far it is
  bool colour = false;         ///< the terminal takes colour and NO_COLOR is not set
  std::string sites_file{};    ///< BUDCLOCK_SITES; empty when not set
  std::string log_file{};      ///< BUDCLOCK_LOG; empty when not set
  std::string actions_file{};  ///< BUDCLOCK_ACTIONS; empty when not set
};

}  // namespace budclock::cli
