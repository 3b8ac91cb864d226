// Making the curves of a site's season.
#pragma once

#include <budclock/forecast/evaluate.hpp>
#include <budclock/forecast/season_curve.hpp>

#include "season_cache.hpp"

#include <vector>

namespace budclock::forecast {

/// One for each count that dates a stage of the pests asked for, in the order in which they first do.
std::vector<SeasonCurve> season_curves(const Question& question, SeasonCache& seasons);

}  // namespace budclock::forecast
