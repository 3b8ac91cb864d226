#include <budclock/report/words.hpp>
#include <budclock/report/yearline_report.hpp>

#include "source_list.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <vector>

namespace budclock::report {
namespace {

using forecast::EventKind;
using forecast::YearEvent;

std::string half_month_text(Day first, Day today) {
  const date::year_month_day ymd{first};
  const Day month_end = ymd.year() / ymd.month() / date::last;
  const bool early = ymd.day() == date::day{1};
  const Day last = early ? first + date::days{14} : month_end;
  std::string text = fmt::format("{} to {}", day_text(first, today), short_text(last));
  if (first <= today && today <= last) text += fmt::format(" (today is {})", short_text(today));
  return text;
}

std::string_view heading(EventKind kind) {
  switch (kind) {
    case EventKind::pest_stage:
      return "Pests";
    case EventKind::companion:
      return "Other pests";
    case EventKind::bloom:
      return "Blooms to check the sums against";
  }
  return "";
}

class YearText {
 public:
  YearText(const forecast::YearLine& line, const rules::PestTable& table, const TextStyle& style)
      : line_{line}, style_{style}, sources_{table} {}

  std::string text();

 private:
  void head();
  void dated();
  void undated();
  void event(const YearEvent& event, const std::string& lead);
  std::string state(const YearEvent& event) const;
  std::string basis(const YearEvent& event);
  std::string other_starts(const YearEvent& event) const;
  std::string date_text(Day day) const { return day_text(day, line_.today); }

  const forecast::YearLine& line_;
  const TextStyle& style_;
  SourceList sources_;
  std::string out_;
};

void YearText::head() {
  out_ += bold(fmt::format("{}, the year {}, seen on {}", line_.site, year_of(line_.today), iso(line_.today)), style_);
  out_ += "\n";
  const auto& weather = line_.weather;
  if (!weather.last_observed) {
    out_ += paragraph("There is no complete day of weather up to today: only calendar dates can be given.", 0, style_);
  } else {
    out_ += paragraph(fmt::format("Weather {} to {}; {} other years continue the season.", iso(*weather.first),
                                  iso(*weather.last_observed), weather.years),
                      0, style_);
    if (weather.too_old) {
      out_ += paragraph("The weather ends too long before today: nothing new can be said from it.", 0, style_);
    }
  }
  for (const std::string& note : line_.notes) out_ += paragraph(note, 0, style_);
}

/// Where the source states no start date: the likely date from each other start worth showing, if it differs.
std::string YearText::other_starts(const YearEvent& event) const {
  std::string text;
  for (const auto& other : event.alternatives) {
    if (other.summary.likely == event.summary.likely) continue;
    const std::string date = other.summary.likely ? date_text(*other.summary.likely) : "not this season";
    text += fmt::format("; {} instead: {}", other.instead, date);
  }
  return text;
}

std::string YearText::basis(const YearEvent& event) {
  std::string marks;
  for (const rules::Citation* citation : event.citations) {
    const std::string mark = " " + sources_.mark(*citation);
    if (marks.find(mark) == std::string::npos) marks += mark;
  }
  if (event.published == nullptr) {
    const bool calendar = event.evidence == forecast::Evidence::calendar;  // said with its dates
    return fmt::format("{}{}", calendar ? "no degree-days" : word(event.evidence), marks);
  }
  const rules::CompanionEvent& published = *event.published;
  const auto& start = published.count.start;
  return fmt::format("{} degree-days {} from {}{}, {}{}{}", published.cue.printed, symbol(published.count.unit),
                     short_text(start.value), start.assumed ? " (assumed)" : "", published.citation.region, marks,
                     other_starts(event));
}

/// When it was or will be, beside its day.
std::string YearText::state(const YearEvent& event) const {
  const forecast::Summary& summary = event.summary;
  if (!event.day) return event.spread.known() ? std::string{word(event.standing)} : event.spread.unknown;
  const auto late = [&](const char* otherwise) { return summary.late ? date_text(*summary.late) : otherwise; };
  if (event.evidence == forecast::Evidence::calendar) {
    const bool one_day = summary.late == event.day;
    return one_day ? "by the calendar" : fmt::format("by the calendar, to {}", late("?"));
  }
  if (event.standing == forecast::Standing::passed) return "passed";
  std::string text = distance_text(*event.day, line_.today);
  if (summary.spread_out && summary.early) {
    text += fmt::format(", 8 years in 10: {} to {}", date_text(*summary.early), late("not this season"));
  }
  return text;
}

void YearText::event(const YearEvent& event, const std::string& lead) {
  out_ += paragraph(fmt::format("{}: {}; {}; {}", event.of, event.what, state(event), basis(event)), 12, style_, lead);
}

void YearText::dated() {
  const YearEvent* before = nullptr;
  for (const YearEvent& entry : line_.events) {
    const Day half = forecast::half_month_of(*entry.day);
    const bool new_half = before == nullptr || forecast::half_month_of(*before->day) != half;
    if (new_half) out_ += "\n" + bold(half_month_text(half, line_.today), style_) + "\n";
    if (new_half || before->kind != entry.kind) out_ += fmt::format("  {}\n", heading(entry.kind));
    event(entry, fmt::format("    {:<8}", short_text(*entry.day)));
    before = &entry;
  }
}

void YearText::undated() {
  if (line_.undated.empty()) return;
  out_ += "\n" + bold("Without a date this year", style_) + "\n";
  for (const YearEvent& entry : line_.undated) event(entry, "    -       ");
}

std::string YearText::text() {
  head();
  dated();
  undated();
  out_ += "\n" + bold("Cautions", style_) + "\n";
  out_ += paragraph(
      "Other pests and blooms stand here by their sums alone, without advice. Where a bloom comes earlier or later "
      "than "
      "its sum says, expect the pests beside it to do the same: go and look. Figures of a far region fit worse.",
      4, style_, "  - ");
  out_ += paragraph(
      "A forecast tells when to look. Your local extension service, the label and your licence decide what is done.", 4,
      style_, "  - ");
  out_ += "\n" + bold("Sources", style_) + "\n" + sources_.text(style_);
  return std::move(out_);
}

}  // namespace

std::string yearline_text(const forecast::YearLine& line, const rules::PestTable& table, const TextStyle& style) {
  return YearText{line, table, style}.text();
}

}  // namespace budclock::report
