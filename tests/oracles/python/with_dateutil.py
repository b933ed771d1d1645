"""Expands an iCalendar file: icalendar reads it, dateutil its rules and, from the VTIMEZONEs in the file, its zones."""

import io
from datetime import timezone
from importlib.metadata import version
from pathlib import Path

import command
import icalendar
from dateutil import rrule, tz


def zones_of(calendar):
    text = b"".join(zone.to_ical() for zone in calendar.walk("VTIMEZONE")).decode("utf-8")
    if not text:
        return lambda name: None
    return tz.tzical(io.StringIO("BEGIN:VCALENDAR\r\n" + text + "END:VCALENDAR\r\n")).get


def wall_time(moment, parameters, zone_of):
    """A time of the file with the zone that the file gives it, in place of the one that icalendar knows."""
    name = parameters.get("TZID")
    if name is None:
        return moment.astimezone(timezone.utc)
    zone = zone_of(name)
    if zone is None:
        raise ValueError(f"no VTIMEZONE called {name}")
    return moment.replace(tzinfo=zone)


def length_of(event, start, zone_of):
    if "DURATION" in event:
        return event["DURATION"].dt
    end = wall_time(event["DTEND"].dt, event["DTEND"].params, zone_of)
    return end.astimezone(timezone.utc) - start.astimezone(timezone.utc)


def occurrences(event, zone_of, first, last):
    start = wall_time(event["DTSTART"].dt, event["DTSTART"].params, zone_of)
    length = length_of(event, start, zone_of)
    series = rrule.rruleset()
    if "RRULE" in event:
        series.rrule(rrule.rrulestr(event["RRULE"].to_ical().decode("ascii"), dtstart=start))
    else:
        series.rdate(start)
    exceptions = event.get("EXDATE", [])
    for line in exceptions if isinstance(exceptions, list) else [exceptions]:
        for value in line.dts:
            series.exdate(wall_time(value.dt, line.params, zone_of))

    for moment in series:
        at = moment.astimezone(timezone.utc)
        if at >= last:
            return
        if at >= first:
            yield f"{command.stamp(at)} {command.stamp(at + length)} {event['UID']}"


def expand(path, first, last):
    calendar = icalendar.Calendar.from_ical(Path(path).read_bytes())
    command.refuse_silent_mistakes(calendar)
    zone_of = zones_of(calendar)
    return [line for event in calendar.walk("VEVENT") for line in occurrences(event, zone_of, first, last)]


if __name__ == "__main__":
    command.run(lambda: f"icalendar {version('icalendar')} with dateutil {version('python-dateutil')}", expand)
