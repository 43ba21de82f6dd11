// A feed comes in on standard input; what ical.js reads in it goes out as JSON.
import ICAL from "ical.js";
import { readFileSync } from "node:fs";

const calendar = new ICAL.Component(ICAL.parse(readFileSync(0, "utf8")));
const value = (component, name) => component.getFirstPropertyValue(name)?.toString() ?? null;
const events = calendar.getAllSubcomponents("vevent").map((component) => {
  const event = new ICAL.Event(component, { strictExceptions: true });
  return {
    uid: event.uid,
    summary: event.summary,
    description: event.description,
    location: event.location,
    start: event.startDate.toString(),
    end: event.endDate.toString(),
    allDay: event.startDate.isDate && event.endDate.isDate,
    days: event.duration.toSeconds() / 86400,
    sequence: event.sequence,
    stamp: value(component, "dtstamp"),
    categories: component.getFirstProperty("categories").getValues(),
    transp: value(component, "transp"),
    url: value(component, "url"),
  };
});
const tasks = calendar.getAllSubcomponents("vtodo").map((component) => ({
  uid: value(component, "uid"),
  summary: value(component, "summary"),
  description: value(component, "description"),
  start: value(component, "dtstart"),
  due: value(component, "due"),
  status: value(component, "status"),
  completed: value(component, "completed"),
  sequence: component.getFirstPropertyValue("sequence"),
  alarms: component.getAllSubcomponents("valarm").map((alarm) => [
    alarm.getFirstPropertyValue("trigger").toString(),
    alarm.getFirstProperty("trigger").getParameter("related"),
  ]),
}));
const names = ["version", "prodid", "calscale", "method", "name", "description", "color",
  "refresh-interval", "source"];
const properties = Object.fromEntries(names.map((name) => [name, value(calendar, name)]));
process.stdout.write(JSON.stringify({ properties, events, tasks }));
