"""The calendar, read by `icalendar` and spread over its days by `recurring_ical_events`: both general-purpose libraries."""

import re
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import attrs
import icalendar
import pytest
import recurring_ical_events
from hypothesis import given
from hypothesis import strategies as st
from setwright.compiler.fitting import fit
from setwright.compiler.model import Program
from setwright.compiler.pipeline import Result, compile_texts
from setwright.targets import calendar, pack, words
from setwright.targets.calendar.ics import as_ics, escaped, folded, identifier
from setwright.targets.calendar.view import Calendar, Event
from setwright.targets.calendar.words import FIGURES, FIGURES_BACK

DEMO = Path(__file__).resolve().parents[2] / "programs"
NAMES = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
SOURCE = """use basics

program evening "Evening, and; more"
  revision {revision}, {dated}
  {runs}
  session main "Main session", {often}
    block all
      must goblet-squat 3 x 8
        advance reps by 1 to 12
  session walk "Walk", every day
    block out, conditioning
      do walk 30 min
        advance none because "it is enough"

athlete maren "Maren"
  {starts}
"""


def program(
    often: str = "3 a week",
    runs: str = "runs 4 weeks",
    starts: str = "starts 2026-06-16 on mon, wed, fri",
    revision: int = 1,
    dated: str = "2026-06-14",
) -> Program:
    result = compile_texts({"a.coach": SOURCE.format(**locals())})
    assert [one.message for one in result.diagnostics if one.severity == "error"] == []
    return fit(result.project.programs[0], result.project.athletes[0]).program


def fitted(result: Result, name: str, which: str | None = None) -> Program:
    athlete = next(one for one in result.project.athletes if one.name == name)
    wanted = [one for one in result.project.programs if one.name == (which or athlete.follows[0])]
    return fit(max(wanted, key=lambda one: one.revision), athlete).program


def demo(folder: str) -> Result:
    return compile_texts(
        {path.relative_to(DEMO).as_posix(): path.read_bytes() for path in sorted((DEMO / folder).glob("*.coach"))}
    )


def written(program: Program) -> bytes:
    ((name, content),) = calendar.render(program).items()
    assert name == f"{program.athlete.name if program.athlete else ''}-{program.name}.ics" and isinstance(
        content, bytes
    )
    return content


def read(content: bytes) -> icalendar.Calendar:
    return icalendar.Calendar.from_ical(content.decode())


def about(content: bytes, name: str) -> str:
    """What is told of a calendar as a whole, which `icalendar` leaves as it is written."""
    return unescaped(str(read(content)[name]))


def unescaped(value: str) -> str:
    """A text out of its value, by RFC 5545, 3.3.11."""
    return re.sub(r"\\(.)", lambda sign: "\n" if sign[1] in "nN" else sign[1], value)


def days(content: bytes, session: str, until: date = date(2028, 1, 1)) -> dict[date, icalendar.Event]:
    """All days on which the events of a session are, and the event of each."""
    found = recurring_ical_events.of(read(content)).between(date(2026, 1, 1), until)
    here = [one for one in found if str(one["summary"]).startswith(session)]
    by_day = {one["dtstart"].dt: one for one in here}
    assert len(by_day) == len(here)
    return by_day


def expected(starts: date, weeks: int, names: list[str]) -> list[date]:
    """The days of some weeks, counted out one by one."""
    every = [starts + timedelta(days=number) for number in range(7 * weeks)]
    return [day for day in every if NAMES[day.weekday()] in names]


@pytest.mark.parametrize(
    ("often", "starts", "names"),
    [
        ("3 a week", "starts 2026-06-16 on mon, wed, fri", ["mon", "wed", "fri"]),
        ("on tue, sat", "starts 2026-06-16", ["tue", "sat"]),
        ("on mon", "starts 2026-06-21 on thu", ["mon"]),
        ("every day", "starts 2026-06-18", NAMES),
        ("1 a week", "starts 2026-06-18 on thu", ["thu"]),
    ],
)
@pytest.mark.parametrize("weeks", [1, 4, 12])
def test_each_session_is_on_its_days(often: str, starts: str, names: list[str], weeks: int):
    content = written(program(often, f"runs {weeks} weeks", starts))
    first = date.fromisoformat(starts.split()[1])
    assert sorted(days(content, "Main session")) == expected(first, weeks, names)
    assert sorted(days(content, "Walk")) == expected(first, weeks, NAMES)


def test_a_program_without_an_end_goes_on():
    found = sorted(days(written(program(runs="")), "Main session"))
    assert found == expected(date(2026, 6, 16), 100, ["mon", "wed", "fri"])[: len(found)]
    assert found[-1] == date(2027, 12, 31)


@pytest.mark.parametrize(
    ("often", "starts"), [("3 a week", "starts 2026-06-16"), ("2 a week", "starts 2026-06-16 on mon")]
)
def test_a_session_of_which_nobody_knows_the_days_is_left_out_and_named(often: str, starts: str):
    content = written(program(often, starts=starts))
    assert days(content, "Main session") == {}
    assert about(content, "x-wr-caldesc") == "Not in this calendar, as no days are said: Main session."


def test_no_calendar_where_nobody_knows_the_first_day():
    assert calendar.render(program(starts="body 60 kg")) == {}


def test_sessions_of_a_day_each_are_held_in_turn():
    """The pilots: two sessions, each once a week, and two days of their own."""
    ewa = fitted(demo("quay-pilots"), "ewa")  # from 6 October 2026, on Tuesday and Friday
    content = written(ewa)
    assert sorted(days(content, "Squat and press")) == expected(date(2026, 10, 6), 12, ["tue"])
    assert sorted(days(content, "Hinge and bench")) == expected(date(2026, 10, 6), 12, ["fri"])


def test_easier_weeks_are_told_on_their_days():
    by_day = days(written(fitted(demo("quay-pilots"), "ewa")), "Squat and press")
    easier = [number for number, day in enumerate(sorted(by_day), start=1) if "easier week" in by_day[day]["summary"]]
    assert easier == [4, 8, 12]
    for number, day in enumerate(sorted(by_day), start=1):
        assert ("easier on purpose" in by_day[day]["description"]) == (number in easier)
        assert "Back squat" in by_day[day]["description"]


def test_the_way_back_has_each_week_once():
    texts = {
        path.relative_to(DEMO).as_posix(): path.read_bytes()
        for folder in ("return", "quay-pilots")
        for path in sorted((DEMO / folder).glob("*.coach"))
        if folder == "return" or path.name != "pilots.coach"
    }
    content = written(fitted(compile_texts(texts), "ewa"))  # from 8 December 2026, on Tuesday and Friday
    for week in range(1, 5):
        first = date(2026, 12, 8) + timedelta(days=7 * (week - 1))
        assert sorted(days(content, f"Week {week}: Squat")) == [first]
        assert sorted(days(content, f"Week {week}: Hinge")) == [first + timedelta(days=3)]
    for event in read(content).walk("VEVENT"):
        assert FIGURES_BACK in event["description"] and words.BACK_HEALTH in event["description"]
        assert FIGURES not in event["description"]


def test_every_event_has_the_movements_and_the_cautions():
    otto = fitted(demo("tern-holm"), "otto")
    content = written(otto)
    for session in otto.sessions:
        for event in days(content, session.title).values():
            text = str(event["description"])
            places = [text.index(f"- {entry.movement.title}") for entry in session.entries]
            assert places == sorted(places)
            assert all(line in text for line in words.CAUTIONS_SHORT)
            assert "Revision 3, 14 June 2026" in text


# Revisions


def test_a_new_revision_takes_the_place_of_the_old_one():
    old, new = written(program()), written(program("on tue, sat", revision=2, dated="2026-07-01"))

    def known(content: bytes) -> dict[str, set[str]]:
        return {
            str(event["uid"]): {str(event["sequence"]), event["dtstamp"].dt.isoformat()}
            for event in read(content).events
        }

    assert known(old).keys() == known(new).keys() and len(known(old)) == 2
    for uid in known(old):
        assert known(old)[uid] == {"1", "2026-06-14T00:00:00+00:00"}
        assert known(new)[uid] == {"2", "2026-07-01T00:00:00+00:00"}


def test_what_a_log_led_to_is_newer_within_the_revision():
    later = attrs.evolve(program(), after=date(2026, 6, 30))
    event = read(written(later)).events[0]
    assert event["sequence"] == 1
    assert event["dtstamp"].dt == event["last-modified"].dt == datetime(2026, 6, 30, tzinfo=UTC)


def test_nobody_has_the_event_of_another():
    maren = program()
    olga = attrs.evolve(maren, athlete=attrs.evolve(maren.athlete, name="olga"))
    uids = [str(event["uid"]) for one in (maren, olga) for event in read(written(one)).events]
    assert len(set(uids)) == 4
    assert not [uid for uid in uids if "maren" in uid or "main" in uid]
    assert identifier("a", "b", "c") != identifier("a", "b", "d")


def test_the_same_program_gives_the_same_bytes():
    assert written(program()) == written(program())


# The file


ODD = 'Comma, semicolon; back\\slash \\n \\N colon: "quotes" 🏋️‍♀️ ünïcödé العربية ' + "x" * 200


def of_text(text: str) -> bytes:
    day = date(2026, 6, 16)
    return as_ics(Calendar("a", "b", text, text, 1, day, (Event("c", text, text, ("tue",), day, None, ()),)))


def test_text_stays_text():
    text = f"{ODD}\n\n- {ODD}\nBEGIN:VEVENT\nEND:VCALENDAR"
    (event,) = read(of_text(text)).walk("VEVENT")
    assert str(event["description"]) == text
    assert str(event["summary"]) == text
    assert about(of_text(text), "name") == about(of_text(text), "x-wr-caldesc") == text


@given(st.text(st.characters(exclude_categories=["Cc", "Cs"]), max_size=300))
def test_every_text_comes_back(text: str):
    line = folded(f"SUMMARY:{escaped(text)}")
    assert all(len(piece) <= 75 for piece in line.split(b"\r\n"))
    joined = line.replace(b"\r\n ", b"").decode()  # RFC 5545, 3.1
    assert unescaped(joined.removeprefix("SUMMARY:")) == text


def test_lines_are_short_and_end_as_they_must():
    content = of_text(f"{ODD}\n{'🏋' * 100}")
    assert content.endswith(b"END:VCALENDAR\r\n") and b"\n" not in content.replace(b"\r\n", b"")
    for line in content.split(b"\r\n"):
        assert len(line) <= 75  # RFC 5545, 3.1: octets, without the line's end
        line.decode()


def test_a_pack_has_its_calendar():
    maren = fitted(demo("tern-holm"), "maren")
    athlete = maren.athlete
    assert athlete is not None
    made = pack.pack(fit(next(one for one in demo("tern-holm").project.programs if one.revision == 3), athlete))
    assert made["maren-winter-store-room.ics"] == written(maren)
