#include <budclock/core/diagnostic.hpp>
#include <budclock/report/calendar.hpp>
#include <budclock/report/words.hpp>

#include <fmt/format.h>
#include <libical/ical.h>
#include <memory>
#include <uuid/uuid.h>

namespace budclock::report {
namespace {

using forecast::WindowForecast;
using forecast::WindowState;

struct FreeComponent {
  void operator()(icalcomponent* component) const { icalcomponent_free(component); }
};
using Component = std::unique_ptr<icalcomponent, FreeComponent>;

struct FreeText {
  void operator()(char* text) const { icalmemory_free_buffer(text); }
};

icaltimetype ical_date(Day day) {
  const date::year_month_day civil{day};
  icaltimetype time = icaltime_null_date();
  time.year = static_cast<int>(civil.year());
  time.month = static_cast<int>(static_cast<unsigned>(civil.month()));
  time.day = static_cast<int>(static_cast<unsigned>(civil.day()));
  return time;
}

/// Midnight of that day, UTC.
icaltimetype ical_midnight(Day day) {
  icaltimetype time = ical_date(day);
  time.hour = time.minute = time.second = 0;
  time.is_date = 0;
  time.zone = icaltimezone_get_utc_timezone();
  return time;
}

/// The same for the same window of the same season, whatever its dates and the day of the forecast.
std::string uid(const forecast::SiteForecast& site, const rules::Pest& pest, const WindowForecast& window) {
  uuid_t names;
  uuid_parse("6f3d0c1e-5a0b-4f0e-9d0b-1c7a5be1d7c4", names);  // a random one, for the names made below
  const std::string name = fmt::format("{}\n{}\n{}\n{}\n{}", site.site, year_of(*window.from), pest.id,
                                       fmt::join(window.window->stages, " "), window.window->id);
  uuid_t id;
  uuid_generate_sha1(id, names, name.data(), name.size());
  char text[UUID_STR_LEN];
  uuid_unparse_lower(id, text);
  return text;
}

bool is_shown(const WindowForecast& window) {
  const bool over = window.state == WindowState::closed || window.state == WindowState::none_left;
  return window.window->kind != rules::WindowKind::abstain && window.from && !over;
}

std::string summary(const forecast::SiteForecast& site, const rules::Pest& pest, const WindowForecast& window) {
  const bool act = window.window->kind == rules::WindowKind::act;
  const char* what = !act ? "Look" : window.offered ? "Confirmed, act" : "Act only if confirmed";
  return printable(fmt::format("{}: {}: {}: {}", what, site.site, pest.name, window.window->name));
}

std::string description(const forecast::SiteForecast& site, const rules::Pest& pest, const WindowForecast& window) {
  std::string text = window_text(pest, window, site.today);
  if (const std::string basis = window_basis_text(window); !basis.empty()) text += "\n" + basis;
  if (window.window->kind == rules::WindowKind::act) {
    for (const rules::Remark& remark : pest.do_not) text += "\n! " + remark.text;
  }
  if (!window.until) text += "\nNo end is known: only its first day is marked.";
  return text + fmt::format(
                    "\nAs of {}. The label is the law; your local extension service and your licence decide what is "
                    "done.",
                    iso(site.today));
}

void add_event(icalcomponent* calendar, const forecast::SiteForecast& site, const rules::Pest& pest,
               const WindowForecast& window) {
  constexpr Day k_first_sequence{date::year{2000} / 1 / 1};
  const Day after = window.until.value_or(*window.from) + date::days{1};
  const Day end = std::max(after, *window.from + date::days{1});
  icalcomponent* event = icalcomponent_new_vevent();
  for (icalproperty* property :
       {icalproperty_new_uid(uid(site, pest, window).c_str()), icalproperty_new_dtstamp(ical_midnight(site.today)),
        icalproperty_new_dtstart(ical_date(*window.from)), icalproperty_new_dtend(ical_date(end)),
        icalproperty_new_sequence(static_cast<int>((site.today - k_first_sequence).count())),
        icalproperty_new_summary(summary(site, pest, window).c_str()),
        icalproperty_new_description(description(site, pest, window).c_str()),
        icalproperty_new_location(printable(site.site).c_str()), icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT)}) {
    icalcomponent_add_property(event, property);
  }
  icalcomponent_add_component(calendar, event);
}

}  // namespace

std::string calendar(std::span<const forecast::SiteForecast> sites) {
  const Component calendar{icalcomponent_new_vcalendar()};
  icalcomponent_add_property(calendar.get(), icalproperty_new_version("2.0"));
  icalcomponent_add_property(calendar.get(), icalproperty_new_prodid("-//budclock//budclock//EN"));
  for (const forecast::SiteForecast& site : sites) {
    for (const forecast::PestForecast& pest : site.pests) {
      for (const WindowForecast& window : pest.windows) {
        if (is_shown(window)) add_event(calendar.get(), site, *pest.pest, window);
      }
    }
  }
  const std::unique_ptr<char, FreeText> text{icalcomponent_as_ical_string_r(calendar.get())};
  return text.get();
}

}  // namespace budclock::report
