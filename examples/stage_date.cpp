// A season of weather in, the date of a stage out: the library without the command line.
//   stage_date WEATHER.csv YYYY-MM-DD PEST STAGE
#include <budclock/core/date.hpp>
#include <budclock/forecast/evaluate.hpp>
#include <budclock/rules/load.hpp>
#include <budclock/sites/pest_names.hpp>
#include <budclock/weather/assemble.hpp>
#include <budclock/weather/reader.hpp>

#include <fstream>
#include <iostream>
#include <utility>

using namespace budclock;

int main(int argc, char** argv) {
  const auto today = argc == 5 ? parse_iso_day(argv[2]) : std::nullopt;
  if (!today) {
    std::cerr << "usage: stage_date WEATHER.csv YYYY-MM-DD PEST STAGE\n";
    return 2;
  }
  Diagnostics problems;
  const rules::PestTable table = rules::load(rules::shipped_files(), problems);

  // The file, one series of the site, the forecast as of today.
  std::ifstream file{argv[1], std::ios::binary};
  weather::StreamSource bytes{file};
  weather::SiteSource record{.file = argv[1], .days = {}};
  weather::read_weather(bytes, argv[1], {}, [&](weather::StationRecord&& station) { record.days = station.days; });
  weather::SiteSeries series = weather::assemble({std::move(record)}, weather::GapPolicy::fill, *today);
  forecast::Question question;
  question.site = "home";
  question.pests = sites::pests_named(table, argv[3]);
  const forecast::SiteForecast answer = forecast::evaluate(question, {.days = std::move(series.days), .today = *today});
  for (const forecast::PestForecast& pest : answer.pests) {
    for (const forecast::StageForecast& stage : pest.stages) {
      const auto& [early, likely, late, share, spread_out, members] = stage.summary;
      if (stage.stage->id != argv[4] || !early || !likely || !late) continue;
      std::cout << stage.stage->name << ": " << iso(*likely) << " (" << iso(*early) << " to " << iso(*late) << ")\n";
      return 0;
    }
  }
  std::cerr << "no date for that stage: check the weather, the pest and the stage's id\n";
  return 3;
}
