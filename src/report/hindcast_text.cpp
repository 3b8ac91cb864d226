#include <budclock/report/hindcast_report.hpp>
#include <budclock/report/words.hpp>

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace budclock::report {
namespace {

using forecast::FigureHindcast;
using forecast::LeadScores;
using forecast::Scores;
using forecast::SkillRange;
using Row = std::vector<std::string>;

constexpr const char* k_legend =
    "Days throughout. Each season is forecast from the other years of the record, its own left out, so many days "
    "before its usual date, and only if the event was still to come. bias: likely date minus truth, above zero is "
    "late. off: mean distance of the likely date from truth. 80 %: how often truth lay in the middle 8 tenths of the "
    "forecast (randomised for dates that are tied; 80 is right). wide: from early to late date. CRPS: the error of "
    "the whole spread (fair, for its size), comparable with off. calendar: how much less the likely date is off than "
    "the other years' mean date, in percent, and between what in 9 of 10 sets of such years. increment: the same "
    "against the sum so far, extended by the mean warmth of each coming date. its CRPS: the CRPS against that date "
    "with "
    "the errors it has in the other seasons. ranks: forecasts by the tenth of the "
    "spread in which truth fell, earliest first; + is ten or more. An event that does not happen in a season counts "
    "as the day after its last. Truth is the weather's: when the sum was reached, not when a pest was seen.";

/// "40 26..51": percent, and where it would lie with other years.
std::string percent(const SkillRange& range) {
  const auto whole = [](double share) {
    return std::isfinite(share) ? fmt::format("{}", std::lround(100 * share)) : "-";
  };
  return fmt::format("{:>3} {}..{}", whole(range.skill), whole(range.low), whole(range.high));
}

/// One character for each tenth.
std::string rank_text(const forecast::RankHistogram& ranks) {
  std::string text;
  for (const double count : ranks.counts()) text += count >= 9.5 ? "+" : fmt::format("{:.0f}", count);
  return text;
}

/// Shares of all forecasts in percent, where there are too many for one character.
std::string rank_shares(const Scores& scores) {
  std::vector<std::string> shares;
  for (const double count : scores.ranks.counts()) {
    shares.push_back(fmt::format("{:.0f}", 100 * count / static_cast<double>(scores.forecasts)));
  }
  return fmt::format("{}", fmt::join(shares, " "));
}

Row header() { return {"lead", "  n", "bias", " off", "80 %", "wide", "CRPS", "calendar", "increment", "ranks"}; }

Row row(const LeadScores& lead) {
  const Scores& scores = lead.scores;
  return {fmt::format("{:>3}d", lead.lead),
          fmt::format("{:>3}", scores.forecasts),
          fmt::format("{:>+4.1f}", scores.bias),
          fmt::format("{:>4.1f}", scores.error),
          fmt::format("{:>4.0f}", 100 * scores.covered),
          fmt::format("{:>4.0f}", scores.width),
          fmt::format("{:>4.1f}", scores.crps),
          percent(scores.over_calendar),
          percent(scores.over_increment),
          rank_text(scores.ranks)};
}

std::string leads_table(const std::vector<LeadScores>& leads, bool with_ranks, const TextStyle& style) {
  std::vector<Row> rows{header()};
  for (const LeadScores& lead : leads) rows.push_back(row(lead));
  if (!with_ranks) {
    rows.front().back() = "its CRPS";
    for (std::size_t i = 0; i < leads.size(); ++i) rows[i + 1].back() = percent(leads[i].scores.over_increment_crps);
  }
  return table(rows, 2, style);
}

std::string pooled_text(const forecast::Hindcast& hindcast, const TextStyle& style) {
  std::string out = bold("All figures together", style) + "\n" + leads_table(hindcast.pooled, false, style);
  out += "  Truth by tenths of the forecast, earliest first, in percent (10 each is right):\n";
  std::vector<Row> rows;
  for (const LeadScores& lead : hindcast.pooled) {
    rows.push_back({fmt::format("{:>3}d", lead.lead), rank_shares(lead.scores)});
  }
  for (const Row& each : rows) out += fmt::format("  {}  {}\n", each[0], each[1]);
  if (hindcast.known_days > 0) {
    out += fmt::format("  With the next {} days known, as a perfect forecast would have them:\n", hindcast.known_days);
    std::vector<Row> gains{{"lead", " off", "percent less", "CRPS", "percent less"}};
    for (const LeadScores& lead : hindcast.pooled) {
      if (!lead.scores.known) continue;
      const Scores::Known& known = *lead.scores.known;
      gains.push_back({fmt::format("{:>3}d", lead.lead), fmt::format("{:>4.1f}", known.error), percent(known.gain),
                       fmt::format("{:>4.1f}", known.crps), percent(known.gain_crps)});
    }
    out += table(gains, 2, style);
  }
  return out;
}

std::string figure_text(const FigureHindcast& entry, const TextStyle& style) {
  const auto& [figure, scored] = entry;
  const std::string title = fmt::format("{}: {}", figure.pest->name, figure.trigger->says);
  std::string out = bold(paragraph(title, 2, {style.width, false}, " ").substr(1), style);
  std::string about = cue_text(*figure.pest, *figure.trigger);
  about += scored.mean_date ? fmt::format("; usual date {}", short_text(*scored.mean_date)) : "";
  about += scored.reached < scored.seasons
               ? fmt::format("; reached in {} of {} seasons.", scored.reached, scored.seasons)
               : fmt::format("; {} seasons.", scored.seasons);
  out += paragraph(about, 2, style);
  if (scored.leads.empty()) {
    out += paragraph(fmt::format("Not scored: fewer than {} seasons reach it.", forecast::k_seasons_for_hindcast), 2,
                     style);
    return out;
  }
  return out + leads_table(scored.leads, true, style);
}

}  // namespace

std::string hindcast_text(const forecast::Hindcast& hindcast, const TextStyle& style) {
  std::string out = bold(fmt::format("Hindcast of {}", hindcast.site), style) + "\n";
  out += paragraph(fmt::format("Weather from {} to {}; {} whole seasons.", iso(*hindcast.first), iso(*hindcast.last),
                               hindcast.seasons),
                   0, style);
  out += "\n" + pooled_text(hindcast, style);
  for (const FigureHindcast& figure : hindcast.figures) out += "\n" + figure_text(figure, style);
  return out + "\n" + paragraph(k_legend, 0, style);
}

}  // namespace budclock::report
