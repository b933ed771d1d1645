"""What both readers of this folder share: the command expand, and instants as text."""

import sys
from datetime import datetime, timezone


def instant(text):
    """Of 2026-04-01T00:00:00Z."""
    return datetime.strptime(text, "%Y-%m-%dT%H:%M:%SZ").replace(tzinfo=timezone.utc)


def stamp(moment):
    """As 20260401T000000Z, with years before 1000 and after 9999 out of reach."""
    return moment.astimezone(timezone.utc).strftime("%Y%m%dT%H%M%SZ")


def refuse_silent_mistakes(calendar):
    """Raises an error for what icalendar reads over."""
    if calendar.name != "VCALENDAR":
        raise ValueError("no VCALENDAR")
    zones = {str(zone["TZID"]) for zone in calendar.walk("VTIMEZONE")}
    for event in calendar.walk("VEVENT"):
        if event.errors:
            raise ValueError(f"an event with mistakes: {event.errors}")
        for name in ("UID", "DTSTAMP", "DTSTART"):
            if name not in event:
                raise ValueError(f"an event without {name}")
        zone = event["DTSTART"].params.get("TZID")
        if zone is not None and zone not in zones:
            raise ValueError(f"no VTIMEZONE called {zone}")


def answer(job, expand, in_list):
    try:
        path, first, last = job
        lines = sorted(expand(path, instant(first), instant(last)))
    except Exception as mistake:  # Whatever a reader throws, the file is refused.
        print(f"{' '.join(job)}: {mistake}", file=sys.stderr)
        if in_list:
            print("refused")
        return False
    for line in [*lines, "end"] if in_list else lines:
        print(line)
    return True


def run(version, expand):
    """Carries out the command with a function from path, first instant and instant after the last to lines."""
    arguments = sys.argv[1:]
    if arguments == ["--version"]:
        print(version())
        return
    in_list = arguments == ["-"]
    jobs = [line.rstrip("\n").split("\t") for line in sys.stdin] if in_list else [arguments]
    sys.exit(0 if all([answer(job, expand, in_list) for job in jobs]) else 1)
