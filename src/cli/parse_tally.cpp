#include "parse_common.hpp"

#include <memory>

namespace budclock::cli {
namespace {

/// Thresholds as typed; checked together when all are known.
struct TallyText {
  std::string lower;
  std::string upper;
  std::string method = "average";
  std::string cutoff;
  std::string start = "01-01";
};

void finish(TallyOptions& options, const TallyText& text) {
  check_weather(options.weather);
  if (text.lower.empty()) refuse("no lower threshold: give it with its unit, as --lower 50F");
  if (options.decimals < 0 || options.decimals > 9) refuse("--decimals goes from 0 to 9");
  degree_day::Formula& formula = options.formula;
  formula.method = choose_method(text.method);
  formula.lower = parse_threshold("--lower", text.lower);
  if (!text.upper.empty()) formula.upper = parse_threshold("--upper", text.upper);
  if (!text.cutoff.empty()) formula.cutoff = choose_cutoff(text.cutoff);
  options.start = parse_month_day("--start", text.start);
  if (const auto trouble = degree_day::problem(formula)) refuse(*trouble);
}

}  // namespace

CommandLine add_tally(CLI::App& app) {
  const auto shared = std::make_shared<TallyOptions>();
  const auto typed = std::make_shared<TallyText>();
  TallyOptions& options = *shared;
  TallyText& text = *typed;
  CLI::App* command = app.add_subcommand("tally", "Degree-days day by day, as CSV");
  command->footer(R"(Examples:
  budclock tally --weather home.csv --lower 50F
  budclock tally --weather home.csv --lower 50F --start 03-01 > sums.csv
  budclock tally --weather home.csv --lower 50F --upper 86F \\
    --method average-clipped --cutoff horizontal)");
  options.weather.gaps = weather::GapPolicy::keep;
  add_weather(*command, options.weather, false);
  command->add_option("--lower", text.lower, "Lower threshold with its unit: 50F, 10C")->type_name("TEMP");
  command->add_option("--upper", text.upper, "Upper threshold with its unit; needs --cutoff")->type_name("TEMP");
  command->add_option("--method", text.method, "How a day's degree-days are made from its extremes (default average)")
      ->type_name(values_of(method_words()));
  command->add_option("--cutoff", text.cutoff, "What counts above the upper threshold")
      ->type_name(values_of(cutoff_words()));
  command->add_option("--start", text.start, "Month and day on which the sum begins anew (default 01-01)")
      ->type_name("MM-DD");
  add_report_units(*command, options.report_units);
  command->add_option("--decimals", options.decimals, "Decimals of degree-days, 0 to 9 (default 3)")->type_name("N");
  return {command, [shared, typed] {
            finish(*shared, *typed);
            return Command{*shared};
          }};
}

}  // namespace budclock::cli
