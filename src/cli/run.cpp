#include "run.hpp"

#include "commands.hpp"
#include "messages.hpp"
#include "parse.hpp"

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <exception>
#include <new>
#include <ostream>
#include <string_view>
#include <unistd.h>

namespace budclock::cli {
namespace {

struct Runner {
  Environment& environment;

  ExitStatus operator()(const ShowText& show) const {
    environment.out << show.text;
    return ExitStatus::answered;
  }
  ExitStatus operator()(const UsageError& error) const {
    complain(error.message, environment);
    return ExitStatus::usage;
  }
  ExitStatus operator()(const WhenOptions& options) const { return run_when(options, environment); }
  ExitStatus operator()(const DigestOptions& options) const { return run_digest(options, environment); }
  ExitStatus operator()(const StopsOptions& options) const { return run_stops(options, environment); }
  ExitStatus operator()(const NoteOptions& options) const { return run_note(options, environment); }
  ExitStatus operator()(const NightlyOptions& options) const { return run_nightly(options, environment); }
  ExitStatus operator()(const YearlineOptions& options) const { return run_yearline(options, environment); }
  ExitStatus operator()(const HindcastOptions& options) const { return run_hindcast(options, environment); }
  ExitStatus operator()(const TallyOptions& options) const { return run_tally(options, environment); }
  ExitStatus operator()(const PestsOptions& options) const { return run_pests(options, environment); }
  ExitStatus operator()(const CheckOptions& options) const { return run_check(options, environment); }
  ExitStatus operator()(const SeenOptions& options) const { return run_seen(options, environment); }
  ExitStatus operator()(const DayOptions& options) const { return run_day(options, environment); }
  ExitStatus operator()(const LogOptions& options) const { return run_log(options, environment); }
  ExitStatus operator()(const DidOptions& options) const { return run_did(options, environment); }
  ExitStatus operator()(const CompleteOptions& options) const { return run_complete(options, environment); }
  ExitStatus operator()(const RecordsOptions& options) const { return run_records(options, environment); }
};

}  // namespace

void end_without_memory() {
  try {
    if (std::current_exception()) throw;
  } catch (const std::bad_alloc&) {
    const std::string_view message = k_no_memory;
    if (::write(STDERR_FILENO, message.data(), message.size()) >= 0)
      std::_Exit(static_cast<int>(ExitStatus::no_answer));
  } catch (...) {
  }
  std::abort();
}

ExitStatus run(const std::vector<std::string>& arguments, Environment& environment) {
  ExitStatus status = ExitStatus::no_answer;
  errno = 0;
  try {
    status = std::visit(Runner{environment}, parse(arguments));
  } catch (const std::bad_alloc&) {
    environment.err << k_no_memory;
    return ExitStatus::no_answer;
  } catch (const std::exception& failure) {
    complain(failure.what(), environment);
    return ExitStatus::no_answer;
  }
  // A full disk or a closed pipe shows only when the last byte is pushed out.
  environment.out.flush();
  if (!environment.out) {
    const char* why = errno != 0 ? std::strerror(errno) : "write failed";
    environment.err << "budclock: the output could not be written: " << why << '\n';
    return ExitStatus::not_written;
  }
  return status;
}

}  // namespace budclock::cli
