#include "charts.hpp"

#include <budclock/core/diagnostic.hpp>
#include <budclock/forecast/spread.hpp>
#include <budclock/report/document.hpp>
#include <budclock/report/layout.hpp>
#include <budclock/report/words.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <iterator>

namespace budclock::report {
namespace {

using forecast::Band;
using forecast::SeasonCurve;

// Lengths are in units of the drawings, which are scaled to the page: a phone shows about one pixel for each.
constexpr double k_width = 360;
constexpr double k_margin = 6;

/// Where a day stands from left to right.
struct DateAxis {
  Day first{};
  Day last{};

  double x(Day day) const {
    const double all = static_cast<double>((last - first).count());
    return k_margin + (k_width - 2 * k_margin) * static_cast<double>((day - first).count()) / all;
  }
};

std::string opening(const std::string& id, double height, std::string_view title, std::string_view description) {
  return fmt::format(
      "<svg viewBox=\"0 0 {} {:.0f}\" role=\"img\" aria-labelledby=\"{}-title {}-desc\">\n<title "
      "id=\"{}-title\">{}</title>\n<desc id=\"{}-desc\">{}</desc>\n",
      k_width, height, id, id, id, html_text(title), id, html_text(description));
}

std::string text_at(double x, double y, std::string_view text, std::string_view attributes = {}) {
  return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\"{}>{}</text>\n", x, y, attributes, html_text(text));
}

std::string line(double x1, double y1, double x2, double y2, std::string_view kind) {
  return fmt::format("<line class=\"{}\" x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\"/>\n", kind, x1, y1, x2,
                     y2);
}

/// The first days of the months on the axis, with their names below `y`.
std::string months(const DateAxis& axis, double top, double y, unsigned every) {
  std::string out;
  const date::year_month_day begin{axis.first};
  for (date::year_month month = begin.year() / begin.month(); Day{month / 1} <= axis.last; month += date::months{1}) {
    const Day first{month / 1};
    if (first < axis.first) continue;
    out += line(axis.x(first), top, axis.x(first), y, "grid");
    if ((static_cast<unsigned>(month.month()) - 1) % every != 0) continue;
    if (axis.x(first) < k_width - 24)
      out += text_at(axis.x(first) + 2, y + 10, short_text(month.month() / 1).substr(0, 3));
  }
  return out;
}

std::string today_line(const DateAxis& axis, Day today, double top, double bottom) {
  const double x = axis.x(today);
  const bool right = x > k_width / 2;
  return line(x, top, x, bottom, "today") +
         text_at(right ? x - 3 : x + 3, top + 9, "today",
                 right ? " class=\"strong\" text-anchor=\"end\"" : " class=\"strong\"");
}

/// As much of the text as a line of a chart holds.
std::string shortened(const std::string& text) {
  constexpr std::size_t k_most = 62;
  if (text.size() <= k_most) return text;
  std::size_t end = k_most;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
  return text.substr(0, end) + "\xE2\x80\xA6";
}

const char* kind_name(rules::WindowKind kind) {
  switch (kind) {
    case rules::WindowKind::look:
      return "look";
    case rules::WindowKind::act:
      return "act";
    case rules::WindowKind::abstain:
      return "leave";
  }
  return "";
}

/// A point of a path for each entry, from left to right or back.
class Outline {
 public:
  void add(double x, double y) { fmt::format_to(std::back_inserter(points_), "{:.1f},{:.1f} ", x, y); }
  std::string polyline(std::string_view kind) const {
    return fmt::format("<polyline class=\"{}\" points=\"{}\"/>\n", kind, points_);
  }
  std::string polygon(std::string_view kind) const {
    return fmt::format("<polygon class=\"{}\" points=\"{}\"/>\n", kind, points_);
  }

 private:
  std::string points_;
};

class CurveChart {
 public:
  CurveChart(const SeasonCurve& curve, Day today, const std::string& id)
      : curve_{curve},
        today_{today},
        id_{id},
        top_{highest()},
        axis_{curve.first, curve.first + date::days{static_cast<int>(days())}} {}

  std::string svg() const {
    std::string out = opening(id_, k_bottom + 14, title(), description());
    out += months(axis_, k_top, k_bottom, 2);
    out += band(curve_.past, 0, "past");
    out += band(curve_.ahead, curve_.known.size(), "ahead");
    out += marks();
    out += line(k_margin, k_bottom, k_width - k_margin, k_bottom, "axis");
    out += this_year();
    if (today_ >= axis_.first && today_ <= axis_.last) out += today_line(axis_, today_, k_top, k_bottom);
    return out + "</svg>\n";
  }

  std::string title() const {
    return fmt::format("Degree-days {} above {:g} {} since {}", symbol(curve_.unit),
                       curve_.formula.lower.in(curve_.unit), symbol(curve_.unit), day_text(curve_.first, today_));
  }

 private:
  static constexpr double k_top = 6;
  static constexpr double k_bottom = 190;
  static constexpr double k_line_height = 11;

  /// The day by which even the slowest year has passed the top, or the season's last.
  std::size_t days() const {
    const std::size_t all = std::max({curve_.past.size(), curve_.known.size() + curve_.ahead.size(), std::size_t{2}});
    std::size_t day = 1;
    while (day < all && !is_above(day)) ++day;
    return std::max<std::size_t>(day, 2);
  }

  bool is_above(std::size_t day) const {
    const std::size_t known = curve_.known.size();
    if (day >= known && day - known >= curve_.ahead.size()) return false;
    const DegreeDays sum = day < known ? curve_.known[day] : curve_.ahead[day - known].low;
    return over(sum) && (day >= curve_.past.size() || over(curve_.past[day].low));
  }

  bool over(DegreeDays sum) const { return sum.in(curve_.unit) > top_; }

  /// The chart ends a little above the last stage; the rest of the season is of no use.
  double highest() const {
    double sum = 1;
    for (const auto& mark : curve_.marks) sum = std::max(sum, 1.25 * mark.sum.in(curve_.unit));
    return sum;
  }

  double x(std::size_t index) const { return axis_.x(curve_.first + date::days{static_cast<int>(index)}); }
  double y(DegreeDays sum) const { return k_bottom - (k_bottom - k_top) * std::min(sum.in(curve_.unit) / top_, 1.0); }

  std::string band(const std::vector<Band>& days, std::size_t from, std::string_view kind) const {
    Outline area;
    Outline middle;
    const std::size_t shown = shown_of(days.size(), from);
    if (shown == 0) return {};
    for (std::size_t i = 0; i < shown; ++i) area.add(x(from + i), y(days[i].high));
    for (std::size_t i = shown; i-- > 0;) area.add(x(from + i), y(days[i].low));
    for (std::size_t i = 0; i < shown && !over(days[i].middle); ++i) middle.add(x(from + i), y(days[i].middle));
    return area.polygon(kind) + middle.polyline(fmt::format("{}-middle", kind));
  }

  /// How many of so many days, the first of which is `from`, stand on the axis.
  std::size_t shown_of(std::size_t days, std::size_t from) const {
    const auto all = static_cast<std::size_t>((axis_.last - axis_.first).count());
    return std::min(days, all > from ? all - from : 0);
  }

  std::string this_year() const {
    Outline sums;
    const std::size_t shown = shown_of(curve_.known.size(), 0);
    for (std::size_t i = 0; i < shown && !over(curve_.known[i]); ++i) sums.add(x(i), y(curve_.known[i]));
    return sums.polyline("this-year");
  }

  /// A line at each sum, its stage written above it; where lines are close the words move up.
  std::string marks() const {
    std::vector<forecast::CurveMark> marks = curve_.marks;
    std::stable_sort(marks.begin(), marks.end(), [](const auto& a, const auto& b) { return a.sum < b.sum; });
    std::string out;
    double words = k_bottom + k_line_height;
    for (const forecast::CurveMark& mark : marks) {
      const double height = y(mark.sum);
      words = std::min(height - 2, words - k_line_height);
      out += line(k_margin, height, k_width - k_margin, height, "mark");
      out += text_at(
          k_margin + 2, words,
          shortened(fmt::format("{} {}: {}", to_text(mark.sum, curve_.unit, 0), mark.pest->name, mark.stage->name)));
    }
    return out;
  }

  std::string other_years() const {
    if (curve_.years >= forecast::k_members_for_odds) return "Eight in ten other years";
    return curve_.years == 1 ? "The one other year" : fmt::format("The {} other years", curve_.years);
  }

  std::string description() const {
    if (curve_.known.empty()) return "There is no weather of this season yet.";
    const std::size_t last = curve_.known.size() - 1;
    const Day day = curve_.first + date::days{static_cast<int>(last)};
    std::string text = fmt::format("This season has {} on {}.", to_text(curve_.known[last], curve_.unit, 0), iso(day));
    if (last < curve_.past.size()) {
      text += fmt::format(" {} had {} to {} then.", other_years(), to_text(curve_.past[last].low, curve_.unit, 0),
                          to_text(curve_.past[last].high, curve_.unit, 0));
    }
    return text;
  }

  const SeasonCurve& curve_;
  Day today_;
  const std::string& id_;
  double top_;
  DateAxis axis_;
};

}  // namespace

std::string window_chart(const std::vector<WindowBar>& bars, Day today, const std::string& id) {
  constexpr double k_row = 30;
  constexpr double k_top = 14;
  constexpr double k_stub = 14;
  const DateAxis axis{today - date::days{14}, today + date::days{120}};
  std::vector<const WindowBar*> shown;
  for (const WindowBar& bar : bars) {
    if (bar.from <= axis.last && bar.until.value_or(axis.last) >= axis.first) shown.push_back(&bar);
  }
  if (shown.empty()) return {};
  const double bottom = k_top + k_row * static_cast<double>(shown.size()) + 4;
  std::string out = opening(id, bottom + 14, "Windows by date",
                            fmt::format("{} windows from {} to {}; the table has the same dates.", shown.size(),
                                        iso(axis.first), iso(axis.last)));
  out += months(axis, k_top, bottom, 1);
  out += today_line(axis, today, 0, bottom);
  double y = k_top;
  for (const WindowBar* bar : shown) {
    const double from = axis.x(std::max(bar->from, axis.first));
    // A window of one day has a day's width; one without a known end has a stub.
    const double until = bar->until ? axis.x(std::min(*bar->until + date::days{1}, axis.last)) : from + k_stub;
    out += text_at(k_margin, y + 11, shortened(bar->label));
    out += fmt::format("<rect class=\"{}{}\" x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"10\"/>\n",
                       kind_name(bar->kind), bar->until ? "" : " open-end", from, y + 15, std::max(until - from, 2.0));
    y += k_row;
  }
  return out + "</svg>\n";
}

std::string curve_chart(const forecast::SeasonCurve& curve, Day today, const std::string& id) {
  const CurveChart chart{curve, today, id};
  return fmt::format("<figure>\n<figcaption>{}</figcaption>\n{}</figure>\n", html_text(chart.title()), chart.svg());
}

}  // namespace budclock::report
