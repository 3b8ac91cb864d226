// How a run ended, for scripts and cron. The same codes for all commands; the README has the table.
#pragma once

namespace budclock::cli {

enum class ExitStatus : int {
  answered = 0,
  set_aside = 1,    ///< answered, but a malformed row or value was set aside or a site failed
  usage = 2,        ///< the command line is wrong
  no_answer = 3,    ///< the question could not be answered
  not_written = 4,  ///< output could not be written
  locked = 5,       ///< another run holds the lock
};

}  // namespace budclock::cli
