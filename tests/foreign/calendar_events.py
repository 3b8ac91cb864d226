"""UID, start and end of each event as vobject reads them, which it also validates (required properties, real days)."""
import sys
import vobject

events = []
for path in sys.argv[1:]:
    with open(path, encoding="utf-8", newline="") as file:
        calendar = vobject.readOne(file.read())
    calendar.validate(raiseException=True)
    for event in getattr(calendar, "vevent_list", []):
        events.append(f"{event.uid.value}\t{event.dtstart.value:%Y-%m-%d}\t{event.dtend.value:%Y-%m-%d}\t{event.summary.value}")
print("\n".join(sorted(events)))
