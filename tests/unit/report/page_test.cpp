#include <budclock/report/page.hpp>

#include "built_site.hpp"

#include <catch2/catch.hpp>
#include <regex>
#include <set>

using namespace budclock;
using namespace budclock::report;
using forecast::WindowState;
using rules::WindowKind;

namespace {

/// With a stage that a curve can mark.
struct Site : Built {
  rules::Stage hatch;
  Site() { hatch.name = "egg <hatch>"; }
};

std::string page_of(Built& built) {
  built.pest.need_text.text = "Tolerate it.";
  return when_page(built.site, {}, {});
}

std::vector<std::string> matches(const std::string& text, const char* pattern) {
  const std::regex wanted{pattern};
  std::vector<std::string> found;
  for (std::sregex_iterator match{text.begin(), text.end(), wanted}, end; match != end; ++match) {
    found.push_back((*match)[1]);
  }
  return found;
}

forecast::SeasonCurve straight_curve(const Site& built) {
  forecast::SeasonCurve curve;
  curve.first = day("2012-01-01");
  const auto sum = [](int day) { return DegreeDays::fahrenheit_days(2.0 * day); };
  for (int i = 0; i < 100; ++i) curve.known.push_back(sum(i));
  for (int i = 100; i < 366; ++i) curve.ahead.push_back({sum(i - 5), sum(i), sum(i + 5)});
  for (int i = 0; i < 366; ++i) curve.past.push_back({sum(i - 10 < 0 ? 0 : i - 10), sum(i), sum(i + 10)});
  curve.years = 29;
  curve.marks = {{&built.pest, &built.hatch, DegreeDays::fahrenheit_days(300)}};
  return curve;
}

}  // namespace

TEST_CASE("a page draws a bar for each window near today and lists all that have days") {
  Site built;
  built.add(WindowKind::look, WindowState::open, "2012-04-01", "2012-04-30");
  built.add(WindowKind::act, WindowState::ahead, "2012-05-01", "2012-05-20");
  built.add(WindowKind::abstain, WindowState::ahead, "2012-05-10", "2012-06-20");
  built.add(WindowKind::act, WindowState::ahead, "2012-05-30", "");
  built.add(WindowKind::look, WindowState::ahead, "2012-11-01", "2012-12-01");
  built.add(WindowKind::look, WindowState::closed, "2012-03-01", "2012-04-01");
  const std::string page = page_of(built);
  CHECK(matches(page, "<rect class=\"([^\"]*)\"") == std::vector<std::string>{"look", "act", "leave", "act open-end"});
  CHECK(matches(page, "<th scope=\"row\">([^<]*)</th>").size() == 5);
  CHECK(matches(page, "<td>(\\d{4}-\\d{2}-\\d{2})</td><td>not known</td>") == std::vector<std::string>{"2012-05-30"});
}

TEST_CASE("a bar stands and ends where its days stand between the lines of the months") {
  Site built;
  built.add(WindowKind::look, WindowState::open, "2012-05-01", "2012-05-31");
  const std::string page = page_of(built);
  const auto grid = matches(page, "class=\"grid\" x1=\"([0-9.]+)\"");
  const auto from = matches(page, "<rect class=\"look\" x=\"([0-9.]+)\"");
  const auto width = matches(page, "<rect [^>]*width=\"([0-9.]+)\"");
  REQUIRE(grid.size() == 5);  // April to August
  CHECK(from.at(0) == grid[1]);
  CHECK(std::stod(from[0]) + std::stod(width.at(0)) == Approx(std::stod(grid[2])).margin(0.11));
}

TEST_CASE("a page stands alone: no script, nothing from elsewhere, one heading of the first rank, ids once") {
  Site built;
  built.add(WindowKind::look, WindowState::open, "2012-04-01", "2012-04-30");
  built.site.curves = {straight_curve(built), straight_curve(built)};
  const std::string page = page_of(built);
  CHECK(page.find("<script") == std::string::npos);
  CHECK(page.find("http") == std::string::npos);
  CHECK(matches(page, "(<h1>)").size() == 1);
  const auto ids = matches(page, " id=\"([^\"]*)\"");
  CHECK(std::set<std::string>{ids.begin(), ids.end()}.size() == ids.size());
  for (const std::string& label : matches(page, "aria-labelledby=\"([^ ]*) ")) {
    CHECK(std::count(ids.begin(), ids.end(), label) == 1);
  }
}

TEST_CASE("names are shown, never read as markup") {
  Site built;
  built.site.site = "<script>alert(1)</script>\" onload='x'";
  built.pest.name = "<b>psyllid</b>";
  built.add(WindowKind::look, WindowState::open, "2012-04-01", "2012-04-30");
  built.site.curves = {straight_curve(built)};
  const std::string page = page_of(built);
  CHECK(page.find("<script") == std::string::npos);
  CHECK(page.find("<b>") == std::string::npos);
  CHECK(page.find("egg <hatch>") == std::string::npos);
}

TEST_CASE("a curve says this year's sum and that of other years on its last day") {
  Site built;
  built.site.curves = {straight_curve(built)};
  CHECK(page_of(built).find("This season has 198 on 2012-04-09. Eight in ten other years had 178 to 218 then.") !=
        std::string::npos);
}

TEST_CASE("of few other years a curve says no odds") {
  Site built;
  built.site.curves = {straight_curve(built)};
  built.site.curves[0].years = 3;
  const std::string page = page_of(built);
  CHECK(page.find("The 3 other years had 178 to 218 then.") != std::string::npos);
  CHECK(page.find("Grey band: all of the other years.") != std::string::npos);
  CHECK(page.find("ight in ten") == std::string::npos);
}

TEST_CASE("a curve without weather, future or other years is drawn all the same") {
  Site built;
  built.site.curves.emplace_back().first = day("2012-01-01");
  CHECK(page_of(built).find("There is no weather of this season yet.") != std::string::npos);
}

TEST_CASE("the digest's chart hatches an action that is to be left alone") {
  Site built;
  rules::Window ban;
  ban.name = "eggs under wool";
  built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-04-30").barred_by = &ban;
  built.add(WindowKind::act, WindowState::open, "2012-04-01", "2012-05-30");
  Digest digest;
  digest.today = k_today;
  digest.sites = {site_digest(built.site, {})};
  CHECK(matches(digest_page(digest, digest_document(digest, {})), "<rect class=\"([^\"]*)\"") ==
        std::vector<std::string>{"leave", "act"});
}
