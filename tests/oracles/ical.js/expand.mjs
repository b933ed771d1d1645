import { readFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import ICAL from 'ical.js';

const stamp = seconds => new Date(seconds * 1000).toISOString().replace(/[-:]|\.000/g, '');

const instant = text => {
  const milliseconds = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/.test(text) ? Date.parse(text) : NaN;
  if (Number.isNaN(milliseconds)) throw new Error(`${text} is not an instant such as 2026-04-01T00:00:00Z`);
  return milliseconds / 1000;
};

// What ical.js reads over: a text that is no UTF-8, a property without its value, a zone that the file does not hold.
function refuseSilentMistakes(event, calendar) {
  for (const name of ['uid', 'dtstamp', 'dtstart']) {
    if (!event.getFirstPropertyValue(name)) throw new Error(`an event without ${name}`);
  }

  for (const property of event.getAllProperties()) {
    const zone = property.getFirstParameter('tzid');
    if (zone && !calendar.getTimeZoneByID(zone)) throw new Error(`no VTIMEZONE called ${zone}`);
    for (const value of property.getValues()) {
      if (value instanceof ICAL.Time && Number.isNaN(value.toUnixTime())) throw new Error(`${property.name} has no time`);
    }
  }
}

function* occurrences(event, from, until) {
  const one = new ICAL.Event(event);
  const iterator = one.iterator();
  for (let next = iterator.next(); next; next = iterator.next()) {
    const { startDate, endDate } = one.getOccurrenceDetails(next);
    const start = startDate.toUnixTime();
    if (start >= until) return;
    if (start >= from) yield `${stamp(start)} ${stamp(endDate.toUnixTime())} ${one.uid}`;
  }
}

function expand(path, from, until) {
  const text = new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(path));
  const calendar = new ICAL.Component(ICAL.parse(text));
  if (calendar.name !== 'vcalendar') throw new Error('no VCALENDAR');
  const events = calendar.getAllSubcomponents('vevent');
  for (const event of events) refuseSilentMistakes(event, calendar);
  return events.flatMap(event => [...occurrences(event, instant(from), instant(until))]).sort();
}

const [first, ...rest] = process.argv.slice(2);
if (first === '--version') {
  console.log(`ical.js ${JSON.parse(readFileSync(new URL('node_modules/ical.js/package.json', import.meta.url))).version}`);
} else if (first === '-') {
  for await (const line of createInterface({ input: process.stdin })) {
    try {
      console.log([...expand(...line.split('\t')), 'end'].join('\n'));
    } catch (error) {
      console.error(`${line}: ${error.message}`);
      console.log('refused');
      process.exitCode = 1;
    }
  }
} else {
  try {
    process.stdout.write(expand(first, ...rest).map(line => `${line}\n`).join(''));
  } catch (error) {
    console.error(`${first}: ${error.message}`);
    process.exitCode = 1;
  }
}
