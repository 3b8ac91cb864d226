// One function a command.
#pragma once

#include "environment.hpp"
#include "exit_status.hpp"
#include "options.hpp"

namespace budclock::cli {

ExitStatus run_when(const WhenOptions& options, Environment& environment);
ExitStatus run_yearline(const YearlineOptions& options, Environment& environment);
ExitStatus run_hindcast(const HindcastOptions& options, Environment& environment);
ExitStatus run_tally(const TallyOptions& options, Environment& environment);
ExitStatus run_digest(const DigestOptions& options, Environment& environment);
ExitStatus run_stops(const StopsOptions& options, Environment& environment);
ExitStatus run_nightly(const NightlyOptions& options, Environment& environment);
ExitStatus run_note(const NoteOptions& options, Environment& environment);
ExitStatus run_pests(const PestsOptions& options, Environment& environment);
ExitStatus run_complete(const CompleteOptions& options, Environment& environment);
ExitStatus run_check(const CheckOptions& options, Environment& environment);
ExitStatus run_seen(const SeenOptions& options, Environment& environment);
ExitStatus run_day(const DayOptions& options, Environment& environment);
ExitStatus run_log(const LogOptions& options, Environment& environment);
ExitStatus run_did(const DidOptions& options, Environment& environment);
ExitStatus run_records(const RecordsOptions& options, Environment& environment);

}  // namespace budclock::cli
