// Reads calendar files as a program would that knows nothing of ours: ical.js or node-ical, each
// its own way, and prints what it understood as JSON: for each UID and file when it starts and
// ends (ISO 8601 in UTC, or a date), its number and its state.
// Usage: node read_calendar.mjs FOLDER_OF_NODE_MODULES ical.js|node-ical FILE...
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const [folder, reader, ...files] = process.argv.slice(2);
const require = createRequire(`${folder}/`);
const two = (n) => String(n).padStart(2, "0");

async function icalJs() {
  const { default: ICAL } = await import(require.resolve("ical.js"));
  const at = (time) => (time.isDate ? time.toString() : time.toJSDate().toISOString());
  return (text) => {
    ICAL.TimezoneService.reset();
    const calendar = new ICAL.Component(ICAL.parse(text));
    calendar.getAllSubcomponents("vtimezone").forEach((zone) => ICAL.TimezoneService.register(zone));
    return calendar.getAllSubcomponents("vevent").map((each) => {
      const event = new ICAL.Event(each);
      return [event.uid, at(event.startDate), at(event.endDate), event.sequence ?? 0, each.getFirstPropertyValue("status")];
    });
  };
}

async function nodeIcal() {
  const { default: ical } = await import(require.resolve("node-ical"));
  // A date of its own comes as this machine's midnight.
  const at = (time) => time.dateOnly
    ? `${time.getFullYear()}-${two(time.getMonth() + 1)}-${two(time.getDate())}`
    : time.toISOString();
  return (text) => Object.values(ical.sync.parseICS(text))
    .filter((each) => each.type === "VEVENT")
    .map((each) => [each.uid, at(each.start), at(each.end), Number(each.sequence ?? 0), each.status]);
}

const read = await { "ical.js": icalJs, "node-ical": nodeIcal }[reader]();
const found = files.map((file) => read(readFileSync(file, "utf8")));
console.log(JSON.stringify(found.map((events) => events.map(
  ([uid, start, end, sequence, status]) => ({ uid, start, end, sequence, status: status ?? null })))));
