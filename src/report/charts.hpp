// Charts for pages: inline SVG in the page's own colours, with titles and descriptions for those who cannot see them.
#pragma once

#include <budclock/core/date.hpp>
#include <budclock/forecast/season_curve.hpp>
#include <budclock/rules/pest.hpp>

#include <optional>
#include <string>
#include <vector>

namespace budclock::report {

/// A bar of a chart of windows.
struct WindowBar {
  std::string label;
  rules::WindowKind kind = rules::WindowKind::look;
  Day from{};
  std::optional<Day> until{};  ///< nothing: the end is not known, and the bar has none
};

/// Bars on an axis of dates from two weeks before today to four months after it; what lies outside is left out. Kinds
/// differ by filling, not by colour alone. Empty when no bar is left. `id` tells the charts of a page apart.
std::string window_chart(const std::vector<WindowBar>& bars, Day today, const std::string& id);

/// This year's sum, the other years' band, what is ahead, today, and the sums at which stages begin.
std::string curve_chart(const forecast::SeasonCurve& curve, Day today, const std::string& id);

}  // namespace budclock::report
