// The part of `hindcast` that reads a scouting log.
#pragma once

#include <budclock/core/diagnostic.hpp>
#include <budclock/forecast/hindcast.hpp>

#include "environment.hpp"
#include "exit_status.hpp"
#include "options.hpp"

namespace budclock::cli {

/// Scores the figures of the pests asked for against the finds of the log at one site. The messages of reading the
/// weather are in `diagnostics` and printed already.
ExitStatus run_against(const HindcastOptions& options, const rules::PestTable& table,
                       const forecast::HindcastQuestion& question, const weather::DailySeries& record,
                       Diagnostics& diagnostics, Environment& environment);

}  // namespace budclock::cli
