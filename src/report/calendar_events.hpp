// All-day events as iCalendar text (RFC 5545).
#pragma once

#include <budclock/core/date.hpp>

#include <string>
#include <vector>

namespace budclock::report {

struct CalendarEvent {
  std::string identity;  ///< events with the same one are the same to a calendar, whatever their days
  Day stamp{};           ///< when it was made; DTSTAMP and SEQUENCE follow it
  Day first{};
  Day last{};
  std::string summary;
  std::string description;
  std::string location;
};

std::string icalendar(const std::vector<CalendarEvent>& events);

}  // namespace budclock::report
