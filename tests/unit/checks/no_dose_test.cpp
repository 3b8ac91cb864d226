// Rates are a matter of the product's label: nothing we ship or print reads as one.
#include <budclock/forecast/yearline.hpp>
#include <budclock/report/calendar.hpp>
#include <budclock/report/digest.hpp>
#include <budclock/report/letter.hpp>
#include <budclock/report/page.hpp>
#include <budclock/report/pest_page.hpp>
#include <budclock/report/when_report.hpp>
#include <budclock/report/yearline_report.hpp>
#include <budclock/rules/dose.hpp>

#include "records.hpp"

using namespace budclock;

namespace {

void check(const std::string& text) {
  REQUIRE(text.size() > 200);
  const auto dose = rules::find_dose(text);
  CHECK(dose.value_or("") == "");
}

}  // namespace

TEST_CASE("no shipped file holds a dose") {
  for (const rules::RuleFile& file : rules::shipped_files()) {
    INFO(file.name);
    check(std::string{file.text});
  }
}

TEST_CASE("no pest page, list or table of the pests holds a dose") {
  const rules::PestTable& table = records::shipped();
  std::vector<const rules::Pest*> all;
  for (const rules::Pest& pest : table.pests) {
    all.push_back(&pest);
    INFO(pest.id);
    check(report::pest_page_text(pest, table, {}));
  }
  check(report::pest_list_text(all, {}));
  check(report::pests_json(all, table));
}

namespace {

report::LetterTemplates shipped_letter() {
  std::vector<report::LetterPart> parts;
  const auto files = rules::shipped_letter_parts();
  for (const rules::RuleFile& file : files) {
    parts.push_back({file.name.substr(file.name.find_last_of('/') + 1), file.text, file.name});
  }
  Diagnostics faults;
  auto letter = report::read_letter(parts, faults);
  REQUIRE(faults.empty());
  REQUIRE(letter.size() == report::letter_part_names().size());
  return letter;
}

}  // namespace

TEST_CASE("no answer holds a dose, on any sampled day of the year") {
  const rules::PestTable& table = records::shipped();
  const records::Record& wooster = records::ohio().back();
  for (Day today = records::day("2014-01-05"); today <= records::day("2014-12-31"); today += date::days{19}) {
    INFO(iso(today));
    const forecast::SiteForecast site = records::forecast_on(wooster, today);
    check(report::when_text(site, table, {}, report::Detail::full));
    check(report::when_text(site, table, {.width = 60, .colour = true}, report::Detail::why));
    check(report::when_csv({&site, 1}, TemperatureUnit::fahrenheit));
    check(report::when_csv({&site, 1}, TemperatureUnit::celsius));
    check(report::when_json({&site, 1}, table));
    check(report::as_markdown(report::when_document(site, table, report::Detail::full)));
    check(report::when_page(site, table, {}));
    check(report::calendar({&site, 1}));
    const report::Document letter = report::letter(site, {}, shipped_letter());
    check(report::as_text(letter, {}));
    check(report::as_html(letter));
    report::Digest digest;
    digest.today = today;
    digest.sites = {report::site_digest(site, {})};
    check(report::digest_page(digest, report::digest_document(digest, table)));
    check(report::digest_csv(digest));
    check(report::digest_json(digest, table));

    const forecast::SiteWeather weather{weather::until(wooster.days, today), today};
    const forecast::YearLine line = year_line(site, table.companions, weather);
    check(report::yearline_text(line, table, {}));
    check(report::yearline_csv(line));
    check(report::yearline_json(line, table));
  }
}
