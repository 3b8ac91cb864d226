#include <budclock/weather/assemble.hpp>
#include <budclock/weather/quality.hpp>

#include <algorithm>
#include <fmt/format.h>
#include <iterator>
#include <utility>

namespace budclock::weather {
namespace {

const char* values_word(std::size_t count) { return count == 1 ? "value" : "values"; }

std::string offset_note(const SiteSource& source) {
  const bool warmer = source.offset.ticks() > 0;
  const auto size = warmer ? source.offset : -source.offset;
  return fmt::format("{}: every value is taken {} {} {}.", source.file, to_text(size, source.unit, 1),
                     symbol(source.unit), warmer ? "warmer" : "colder");
}

/// Fits one record to the site and says how.
void fit(SiteSource& source, SourceUse& use, SiteSeries& site, Day today) {
  source.days = until(source.days, today);
  const auto doubts = source.keep_doubtful ? std::vector<Suspicion>{} : check_quality(source.days, source.unit);
  set_aside(source.days, doubts);
  use.doubted = doubts.size();
  const Diagnostics faults = quality_faults(doubts, use.file, source.unit);
  site.diagnostics.insert(site.diagnostics.end(), faults.begin(), faults.end());
  if (use.doubted > 0) {
    site.notes.push_back(fmt::format("{}: {} doubtful {} set aside.", use.file, use.doubted, values_word(use.doubted)));
  }
  if (source.read_time == ReadTime::morning) {
    Shifted shifted = with_maxima_a_day_earlier(source.days);
    source.days = std::move(shifted.days);
    site.notes.push_back(fmt::format("{}: read in the morning, so each maximum is moved to the day before.", use.file));
    if (shifted.set_aside > 0) {
      site.notes.push_back(fmt::format("{}: on {} days the minimum then lay above the maximum; both are set aside.",
                                       use.file, shifted.set_aside));
    }
  }
  if (source.offset.ticks() != 0) {
    source.days = with_offset(source.days, source.offset);
    site.notes.push_back(offset_note(source));
  }
}

std::string joined_note(const SourceUse& use) {
  const std::size_t count = use.joined.taken.minima + use.joined.taken.maxima;
  switch (use.joined.kinship) {
    case Kinship::same_station:
      return fmt::format("{}: the same station; {} {} taken from it.", use.file, count, values_word(count));
    case Kinship::neighbour:
      return fmt::format("{}: a neighbour; {} {} taken from it, its bias removed.", use.file, count,
                         values_word(count));
    case Kinship::unknown:
      break;
  }
  return fmt::format("{}: {} {} taken from it as they are (too few common days to tell its bias).", use.file, count,
                     values_word(count));
}

}  // namespace

SiteSeries assemble(std::vector<SiteSource> sources, GapPolicy gaps, Day today) {
  SiteSeries site;
  std::vector<FileReadTime> read_times;
  for (SiteSource& source : sources) {
    SourceUse use{source.file, 0, {}};
    fit(source, use, site, today);
    const bool first = site.sources.empty();
    use.joined = join(site.days, source.days);
    if (!first && use.joined.taken.minima + use.joined.taken.maxima > 0) site.notes.push_back(joined_note(use));
    read_times.push_back({source.file, source.read_time});
    site.sources.push_back(std::move(use));
  }
  const Diagnostics mixed = read_time_notes(read_times);
  site.diagnostics.insert(site.diagnostics.end(), mixed.begin(), mixed.end());
  if (gaps == GapPolicy::fill) site.by_line = fill_by_line(site.days);
  return site;
}

std::size_t append_forecast(DailySeries& series, const DailySeries& forecast) {
  std::size_t end = series.size();
  while (end > 0 && !series.complete(end - 1)) --end;
  std::size_t taken = 0;
  for (std::size_t i = 0; i < forecast.size(); ++i) {
    const bool later = end == 0 || forecast.day(i) > series.day(end - 1);
    if (!later || !forecast.complete(i)) continue;
    const std::size_t at = include_day(series, forecast.day(i));
    series.tmin[at] = {forecast.tmin[i].value, Origin::forecast};
    series.tmax[at] = {forecast.tmax[i].value, Origin::forecast};
    ++taken;
  }
  return taken;
}

}  // namespace budclock::weather
