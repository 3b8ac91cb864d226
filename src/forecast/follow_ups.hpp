// The visits that actions bring, and the looks that nobody took.
#pragma once

#include <budclock/forecast/evaluate.hpp>

#include <vector>

namespace budclock::forecast {

/// The visits of the actions against the forecast's pest, one for each kind of action and day, by day. The forecast's
/// stages and windows must be there.
///
/// A visit begins on the early bound of what dates it, never before the day after the action, and is due until a week
/// after the late bound. Where the page gives no date, it takes the days that are left of the next scouting window, if
/// they are a week or more. What has passed when the action was done comes again next season, undated until then. An
/// action of last season brings a visit where the page puts it into the next season, and where nobody has looked since.
std::vector<FollowUp> follow_ups(const PestForecast& forecast, const Question& question, Day today);

/// Marks the windows to look that closed this season without a record of the pest. A site keeps a scouting log when a
/// row of this season or the one before, about whatever pest, is no later than the window's end: a site whose log
/// begins later, or ended years ago, has missed nothing.
void set_missed_looks(PestForecast& forecast, const Question& question, Day today);

}  // namespace budclock::forecast
