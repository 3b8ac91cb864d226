#include "parse_common.hpp"

#include <charconv>
#include <memory>
#include <sstream>

namespace budclock::cli {
namespace {

/// Thresholds as typed; checked together when all are known.
struct TallyText {
  std::string lower;
  std::string upper;
  std::string method = "average";
  std::string cutoff;
  std::string start = "01-01";
  std::string first_at;
};

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  std::istringstream all{text};
  for (std::string word; std::getline(all, word, ',');) words.push_back(word);
  return words;
}

std::vector<report::FirstDatesPlan::Sum> parse_sums(const std::string& text, TemperatureUnit unit) {
  constexpr double k_most = 100'000;
  std::vector<report::FirstDatesPlan::Sum> sums;
  for (const std::string& word : words_of(text)) {
    double amount = 0;
    const char* const end = word.data() + word.size();
    const auto [stopped, error] = std::from_chars(word.data(), end, amount);
    if (error != std::errc{} || stopped != end || !(amount > 0) || amount > k_most) {
      refuse(fmt::format("--first-at '{}' is not a sum of degree-days: write them as 200,500,1000", word));
    }
    sums.push_back({word, DegreeDays::in(unit, amount)});
    if (sums.size() > 1 && sums[sums.size() - 2].amount >= sums.back().amount) {
      refuse("--first-at wants its sums from the least to the greatest");
    }
  }
  return sums;
}

void finish_first_dates(TallyOptions& options, const TallyText& text, const std::vector<std::string>& methods) {
  const WeatherOptions& weather = options.weather;
  if (weather.files.size() > 1) refuse("--first-at takes one weather file, of any number of stations");
  if (weather.strict || weather.gaps == weather::GapPolicy::refuse) {
    refuse("--first-at takes neither --strict nor --gaps refuse");
  }
  for (const std::string& method : methods) {
    degree_day::Formula formula = options.formula;
    formula.method = choose_method(method);
    if (const auto trouble = degree_day::problem(formula)) refuse(*trouble);
    options.first_dates.formulas.push_back(formula);
  }
  options.first_dates.sums = parse_sums(text.first_at, options.report_units);
  options.first_dates.start = options.start;
  options.first_dates.unit = options.report_units;
  options.first_dates.decimals = options.decimals;
  if (options.jobs == 0) options.jobs = usual_jobs();
}

void finish(TallyOptions& options, const TallyText& text) {
  check_weather(options.weather);
  if (text.lower.empty()) refuse("no lower threshold: give it with its unit, as --lower 50F");
  if (options.decimals < 0 || options.decimals > 9) refuse("--decimals goes from 0 to 9");
  degree_day::Formula& formula = options.formula;
  const std::vector<std::string> methods = words_of(text.method);
  if (methods.size() > 1 && text.first_at.empty()) refuse("several methods need --first-at");
  formula.method = choose_method(methods.empty() ? "" : methods.front());
  formula.lower = parse_threshold("--lower", text.lower);
  if (!text.upper.empty()) formula.upper = parse_threshold("--upper", text.upper);
  if (!text.cutoff.empty()) formula.cutoff = choose_cutoff(text.cutoff);
  options.start = parse_month_day("--start", text.start);
  if (const auto trouble = degree_day::problem(formula)) refuse(*trouble);
  if (!text.first_at.empty()) finish_first_dates(options, text, methods);
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
    --method average-clipped --cutoff horizontal
  budclock tally --weather all-stations.csv --lower 50F --first-at 200,500,1000 \\
    --method average,single-sine)");
  options.weather.gaps = weather::GapPolicy::keep;
  add_weather(*command, options.weather, false);
  command->add_option("--lower", text.lower, "Lower threshold with its unit: 50F, 10C")->type_name("TEMP");
  command->add_option("--upper", text.upper, "Upper threshold with its unit; needs --cutoff")->type_name("TEMP");
  command
      ->add_option("--method", text.method,
                   "How a day's degree-days are made from its extremes (default average); with --first-at several, "
                   "with commas")
      ->type_name(values_of(method_words()));
  command->add_option("--cutoff", text.cutoff, "What counts above the upper threshold")
      ->type_name(values_of(cutoff_words()));
  command->add_option("--start", text.start, "Month and day on which the sum begins anew (default 01-01)")
      ->type_name("MM-DD");
  command
      ->add_option("--first-at", text.first_at,
                   "In place of the days: the first dates on which the sum reaches these, a row for each station of "
                   "the file, year and method")
      ->type_name("SUM,SUM");
  command->add_flag("--keep-doubtful", options.weather.keep_doubtful,
                    "Take all values as they are, without looking for doubtful ones");
  command
      ->add_option("--jobs", options.jobs,
                   "With --first-at: how many stations are summed at once (default: the number of processors)")
      ->check(CLI::Range(1, k_most_jobs))
      ->type_name("N");
  add_report_units(*command, options.report_units);
  command->add_option("--decimals", options.decimals, "Decimals of degree-days, 0 to 9 (default 3)")->type_name("N");
  return {command, [shared, typed] {
            finish(*shared, *typed);
            return Command{*shared};
          }};
}

}  // namespace budclock::cli
