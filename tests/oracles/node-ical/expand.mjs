import { readFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import ical from 'node-ical';

const stamp = date => date.toISOString().replace(/[-:]|\.000/g, '');

const instant = text => {
  const milliseconds = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/.test(text) ? Date.parse(text) : NaN;
  if (Number.isNaN(milliseconds)) throw new Error(`${text} is not an instant such as 2026-04-01T00:00:00Z`);
  return milliseconds;
};

const LONGEST_EVENT = 86_400_000;

// It gives whatever overlaps a span; of that we take what starts in it.
function occurrences(event, from, until) {
  const found = ical.expandRecurringEvent(event, { from: new Date(from - LONGEST_EVENT), to: new Date(until + LONGEST_EVENT) });
  return found.filter(({ start }) => start >= from && start < until).map(({ start, end }) => `${stamp(start)} ${stamp(end)} ${event.uid}`);
}

// What it reads over: it takes any text, and leaves out what it does not understand.
function refuseSilentMistakes(text, data) {
  const count = name => text.split(`\r\nBEGIN:${name}\r\n`).length - 1;
  if (!text.startsWith('BEGIN:VCALENDAR\r\n') || !text.endsWith('\r\nEND:VCALENDAR\r\n')) throw new Error('no VCALENDAR');
  const events = Object.values(data).filter(({ type }) => type === 'VEVENT');
  if (events.length !== count('VEVENT')) throw new Error('events without an end, or with one UID');
  if (text.split('\r\n').some(line => line && !line.startsWith(' ') && !line.includes(':'))) throw new Error('a line without a value');
  const zones = new Set(text.split('\r\n').filter(line => line.startsWith('TZID:')).map(line => line.slice('TZID:'.length)));
  for (const event of events) {
    for (const name of ['uid', 'dtstamp', 'start', 'end']) {
      if (!event[name] || Number.isNaN(+event[name]) && name !== 'uid') throw new Error(`an event without ${name}`);
    }

    const zone = event.start.tz;
    if (zone && zone !== 'Etc/UTC' && !zones.has(zone)) throw new Error(`no VTIMEZONE called ${zone}`);
  }
  return events;
}

function expand(path, from, until) {
  const text = new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(path));
  const events = refuseSilentMistakes(text, ical.sync.parseICS(text));
  return events.flatMap(event => occurrences(event, instant(from), instant(until))).sort();
}

const [first, ...rest] = process.argv.slice(2);
if (first === '--version') {
  const { version } = JSON.parse(readFileSync(new URL('node_modules/node-ical/package.json', import.meta.url)));
  console.log(`node-ical ${version} with zone data ${process.versions.tz}`);
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
