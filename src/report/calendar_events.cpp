#include "calendar_events.hpp"

#include <libical/ical.h>
#include <memory>
#include <uuid/uuid.h>

namespace budclock::report {
namespace {

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
  static const icaltimezone* const k_utc = icaltimezone_get_utc_timezone();  // the library makes it on first use
  time.zone = k_utc;
  return time;
}

std::string uid(const std::string& identity) {
  uuid_t names;
  uuid_parse("6f3d0c1e-5a0b-4f0e-9d0b-1c7a5be1d7c4", names);  // a random one, for the names made below
  uuid_t id;
  uuid_generate_sha1(id, names, identity.data(), identity.size());
  char text[UUID_STR_LEN];
  uuid_unparse_lower(id, text);
  return text;
}

void add_event(icalcomponent* calendar, const CalendarEvent& event) {
  constexpr Day k_first_sequence{date::year{2000} / 1 / 1};
  icalcomponent* component = icalcomponent_new_vevent();
  for (icalproperty* property :
       {icalproperty_new_uid(uid(event.identity).c_str()), icalproperty_new_dtstamp(ical_midnight(event.stamp)),
        icalproperty_new_dtstart(ical_date(event.first)), icalproperty_new_dtend(ical_date(event.last + date::days{1})),
        icalproperty_new_sequence(static_cast<int>((event.stamp - k_first_sequence).count())),
        icalproperty_new_summary(event.summary.c_str()), icalproperty_new_description(event.description.c_str()),
        icalproperty_new_location(event.location.c_str()), icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT)}) {
    icalcomponent_add_property(component, property);
  }
  icalcomponent_add_component(calendar, component);
}

}  // namespace

std::string icalendar(const std::vector<CalendarEvent>& events) {
  const Component calendar{icalcomponent_new_vcalendar()};
  icalcomponent_add_property(calendar.get(), icalproperty_new_version("2.0"));
  icalcomponent_add_property(calendar.get(), icalproperty_new_prodid("-//budclock//budclock//EN"));
  for (const CalendarEvent& event : events) add_event(calendar.get(), event);
  const std::unique_ptr<char, FreeText> text{icalcomponent_as_ical_string_r(calendar.get())};
  return text.get();
}

}  // namespace budclock::report
