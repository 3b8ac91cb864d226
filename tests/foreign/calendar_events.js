// UID, start and end of each event as ical.js reads them.
const fs = require("fs");

async function main() {
  const { default: ICAL } = await import(require.resolve("ical.js").replace(/\.es5\.min\.cjs$/, ".js"));
  const events = [];
  for (const path of process.argv.slice(2)) {
    const calendar = new ICAL.Component(ICAL.parse(fs.readFileSync(path, "utf8")));
    for (const component of calendar.getAllSubcomponents("vevent")) {
      const event = new ICAL.Event(component);
      events.push([event.uid, event.startDate, event.endDate, event.summary].join("\t"));
    }
  }
  console.log(events.sort((a, b) => (a < b ? -1 : 1)).join("\n"));
}
main();
