"""A calendar as a file (RFC 5545), the same bytes for the same calendar.

A session is one event that is repeated. Its identifier is made of the names of athlete, program and session, and tells
none of them (RFC 7986, 5.3); its number of changes is the revision, the time of the last one that of the revision or of the
last log. So a calendar that takes in a later file puts the new event in the place of the old one (RFC 5546, 2.1.5).

Written by hand: the package `icalendar`, by which the tests read it, takes ten times as long, a fifth of a whole pack.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from uuid import NAMESPACE_URL, uuid5

from .view import Calendar, Event
from .words import PRODUCT

WEEKDAYS = {"mon": "MO", "tue": "TU", "wed": "WE", "thu": "TH", "fri": "FR", "sat": "SA", "sun": "SU"}
MOST_OCTETS = 75  # of a line, without its end (RFC 5545, 3.1)


def as_ics(told: Calendar) -> bytes:
    """The bytes of a calendar."""
    return b"".join(folded(line) + b"\r\n" for line in _lines(told))


def _lines(told: Calendar) -> Iterator[str]:
    yield from ("BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:{PRODUCT}")
    title, about = escaped(told.title), escaped(told.about)
    yield from (f"NAME:{title}", f"X-WR-CALNAME:{title}")  # RFC 7986, and what came before it
    yield from (f"DESCRIPTION:{about}", f"X-WR-CALDESC:{about}") if about else ()
    for event in told.events:
        rule = () if event.first == event.last else (f"RRULE:{_rule(event)}",)
        yield from _event(told, event, event.first, event.title, event.text, *rule)
        for changed in event.changed:
            which = f"RECURRENCE-ID;VALUE=DATE:{changed.day:%Y%m%d}"
            yield from _event(told, event, changed.day, changed.title, changed.text, which)
    yield "END:VCALENDAR"


def _rule(event: Event) -> str:
    days = ",".join(WEEKDAYS[day] for day in event.days)
    return f"FREQ=WEEKLY;BYDAY={days}" + (f";UNTIL={event.last:%Y%m%d}" if event.last is not None else "")


def _event(told: Calendar, event: Event, day: date, title: str, text: str, *more: str) -> Iterator[str]:
    since = f"{told.since:%Y%m%d}T000000Z"  # and no time of the build: the same bytes every time
    yield from (
        "BEGIN:VEVENT",
        f"UID:{identifier(told.athlete, told.program, event.name)}",
        f"DTSTAMP:{since}",
        f"LAST-MODIFIED:{since}",
        f"SEQUENCE:{told.revision}",
        f"DTSTART;VALUE=DATE:{day:%Y%m%d}",
        *more,
        f"SUMMARY:{escaped(title)}",
        f"DESCRIPTION:{escaped(text)}",
        "CLASS:PRIVATE",
        "TRANSP:TRANSPARENT",  # a session has no time of day, so the day stays free
        "END:VEVENT",
    )


def identifier(athlete: str, program: str, session: str) -> str:
    """What a session is known by in calendars, in every revision of its program."""
    return str(uuid5(NAMESPACE_URL, f"setwright:{athlete}/{program}/{session}"))


def escaped(text: str) -> str:
    """A text as a value (RFC 5545, 3.3.11)."""
    return text.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,").replace("\n", "\\n")


def folded(line: str) -> bytes:
    """A line in pieces that are short enough, each but the first behind a blank; no character is cut in two."""
    octets = line.encode()
    if len(octets) <= MOST_OCTETS:
        return octets
    pieces, at, room = [], 0, MOST_OCTETS
    while len(octets) - at > room:
        end = at + room
        while octets[end] & 0xC0 == 0x80:  # within a character
            end -= 1
        pieces.append(octets[at:end])
        at, room = end, MOST_OCTETS - 1
    return b"\r\n ".join((*pieces, octets[at:]))
