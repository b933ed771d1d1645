"""Expands an iCalendar file with recurring-ical-events, which reads zones that it knows by name from the system's data."""

from datetime import timedelta
from importlib.metadata import version
from pathlib import Path

import command
import icalendar
import recurring_ical_events


def expand(path, first, last):
    calendar = icalendar.Calendar.from_ical(Path(path).read_bytes())
    command.refuse_silent_mistakes(calendar)
    # It gives whatever overlaps a span; of that we want what starts in it.
    found = recurring_ical_events.of(calendar).between(first - timedelta(days=1), last)
    return [
        f"{command.stamp(event['DTSTART'].dt)} {command.stamp(event['DTEND'].dt)} {event['UID']}"
        for event in found
        if first <= event["DTSTART"].dt < last
    ]


if __name__ == "__main__":
    command.run(lambda: f"recurring-ical-events {version('recurring-ical-events')}", expand)
