"""Where an athlete stands after a log: worked by hand, and what holds for any log."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from random import Random

import attrs
import pytest
from setwright.compiler.clock import session_time
from setwright.compiler.fitting import Fitting, fit
from setwright.compiler.logbook import Logbook, Stands, pace_of, read_logbook
from setwright.compiler.model import Log, Project
from setwright.compiler.pipeline import compile_texts
from setwright.compiler.today import today

TEXT = """use basics

program shed
  revision {revision}
  jump 25%
  runs 12 weeks
  week 3: sets by -1
  session main, 3 a week
    within 90 min
    short 20 min by sets
    block lifts
      must goblet-squat 3 x 8, at least 2 sets
        advance reps by 1 to 9, then load restarting reps
        after 2 missed, ease load 10%
      do split-squat 2 x 6 each side, lower 3 s
        after 2 good
        advance lower by 1 s to 5 s
      do push-up 2 x amrap leaving 2, expect 8
        advance rung at 10 reps
      do plank 2 x 20 s
        advance hold by 5 s to 60 s
  session out
    block air, conditioning
      do walk 1 x 30 min, log distance and time
        advance distance by 10%
"""
MAREN = """
athlete maren
  starts 2026-06-15
  has kettlebell 8 kg, 10 kg, 12 kg, 16 kg
  has floor, wall, chair, bench, step
  begins goblet-squat at 8 kg
  begins push-up on knees, 8 reps

log maren on shed, revision {revision}

{log}
"""


def project(log: str, revision: int = 1, *, before: str = "") -> Project:
    text = before + TEXT.format(revision=revision).replace("use basics\n", "" if before else "use basics\n")
    result = compile_texts({"shed.coach": text + MAREN.format(revision=revision, log=log)})
    assert not result.has_errors, result.diagnostics
    return result.project


def book(made: Project) -> Logbook:
    *older, newest = (fit(program, made.athletes[0]) for program in made.programs)
    return read_logbook(newest, made.logs, older)


def at(read: Logbook, movement: str) -> Stands:
    return next(one for one in read.stands if one.entry.movement.name == movement)


def figures(read: Logbook, movement: str) -> list[object]:
    standing = at(read, movement).standing
    assert standing is not None
    return list(standing.figures)


def told(read: Logbook, movement: str) -> list[str]:
    """What came of each session: the kind of the turn, or what fell short."""
    steps = at(read, movement).steps
    return [
        "easier" if step.easier else step.short.kind if step.short else step.turn.kind if step.turn else "good"
        for step in steps
    ]


def log(*lines: str) -> str:
    """Sessions on 15, 17, 19 ... June, one for each line, its movements parted by semicolons."""
    days = [f"2026-06-{day}" for day in range(15, 31, 2)] + [f"2026-07-{day:02}" for day in range(1, 31, 2)]
    out = []
    for day, line in zip(days, lines, strict=False):
        head, _, rest = line.rpartition("|")
        out.append(f"{day} {head or 'main, 20 min'}")
        out += [f"  {part.strip()}" for part in rest.split(";")]
    return "\n".join(out)


@pytest.mark.parametrize(
    ("lines", "movement", "turns", "now"),
    [
        # Repetitions to 9, then the next load and 8 again; 10 kg is 25 % more than 8.
        (("goblet-squat 8 kg 8 8 8", "goblet-squat 8 kg 9 9 9"), "goblet-squat", ["moved", "moved"], [8, 10]),
        (("goblet-squat 8 kg 8 8 7",), "goblet-squat", ["result"], [8, 8]),
        (("goblet-squat 8 kg 8 8",), "goblet-squat", ["sets"], [8, 8]),
        # Two misses in a row go back to the next lighter load; from 8 kg there is none.
        (("goblet-squat 10 kg 8 8 8", "goblet-squat 10 kg 8 8 8", "goblet-squat 10 kg 9 9 8"), "goblet-squat",
         ["moved", "result", "result"], [9, 8]),
        # Heavier than was asked for: a step of the athlete's own, so repetitions begin anew.
        (("goblet-squat 8 kg 8 8 8", "goblet-squat 10 kg 8 8 8"), "goblet-squat", ["moved", "moved"], [9, 10]),
        # Lighter than was asked for falls short.
        (("goblet-squat 10 kg 8 8 8", "goblet-squat 8 kg 9 9 9"), "goblet-squat", ["moved", "load"], [9, 10]),
        # In a short version two sets are enough, one is not.
        (("main short 20 min, 15 min|goblet-squat 8 kg 8 8",), "goblet-squat", ["moved"], [9, 8]),
        (("main short 20 min, 15 min|goblet-squat 8 kg 8",), "goblet-squat", ["sets"], [8, 8]),
        (("split-squat lower 3 s 6 6", "split-squat lower 3 s 6 6"), "split-squat", ["counting", "moved"], [4]),
        (("split-squat lower 3 s 6 6", "split-squat lower 2 s 6 6", "split-squat 6 6"), "split-squat",
         ["counting", "lower", "counting"], [3]),
        # The best of all sets together must be beaten; ten in every set is the next rung, and a new best.
        (("push-up knees 8 7", "push-up knees 8 7", "push-up knees 9 8"), "push-up", ["waiting", "best", "waiting"], [2]),
        (("push-up knees 10 10", "push-up box 7 6"), "push-up", ["moved", "waiting"], [3]),
        (("push-up toes 6 5",), "push-up", ["waiting"], [4]),
        (("push-up knees 8 7", "push-up bench 12 12"), "push-up", ["waiting", "rung"], [2]),
        (("plank 20 s, 20 s", "plank 25 s, 20 s"), "plank", ["moved", "result"], [25]),
        # The first walk tells from where to go on.
        (("out, 31 min|walk 2 km 31:00", "out, 31 min|walk 2.3 km 31:00", "out, 31 min|walk 2.4 km 31:00"), "walk",
         ["moved", "moved", "distance"], [2530]),
    ],
)  # fmt: skip
def test_where_a_log_leads(lines: Sequence[str], movement: str, turns: list[str], now: list[object]) -> None:
    read = book(project(log(*lines)))
    assert told(read, movement) == turns
    assert figures(read, movement) == now


def test_a_load_that_is_told_roundly_is_the_same_load() -> None:
    pounds = MAREN.replace("8 kg, 10 kg, 12 kg, 16 kg", "8 kg, 22 lb, 26 lb").replace(
        "{log}", log("goblet-squat 10 kg 8 8 8")
    )
    text = TEXT.format(revision=1) + pounds.format(revision=1).replace("at 8 kg", "at 22 lb")
    read = book(compile_texts({"shed.coach": text}).project)  # 22 lb are 9.98 kg
    assert told(read, "goblet-squat") == ["moved"] and figures(read, "goblet-squat")[0] == 9
    assert figures(read, "goblet-squat")[1] == Fraction("9.97903214")


def test_in_an_easier_week_nothing_moves() -> None:
    lines = ["goblet-squat 8 kg 8 8 8", *["plank 20 s, 20 s"] * 6, "goblet-squat 8 kg 9 9", "goblet-squat 8 kg 9 9 9"]
    read = book(project(log(*lines)))  # the eighth session is on 29 June, in the third week
    assert told(read, "goblet-squat") == ["moved", "easier", "easier"]
    assert figures(read, "goblet-squat") == [9, 8]


def test_a_session_may_hold_what_another_asks_for() -> None:
    assert told(book(project(log("main, 60 min|plank 20 s, 20 s; walk 2 km 31:00"))), "walk") == ["moved"]


def test_a_log_of_an_older_revision_is_read_against_it_and_goes_over() -> None:
    older = TEXT.format(revision=1).replace("3 x 8, at least", "3 x 6, at least") + "\n"
    made = project(log("goblet-squat 8 kg 8 8 8"), 2, before=older)
    first = attrs.evolve(made.logs[0], revision=1, sessions=made.logs[0].sessions)
    later = attrs.evolve(made.logs[0].sessions[0], date=made.logs[0].sessions[0].date.replace(day=17))
    both = attrs.evolve(made, logs=(first, attrs.evolve(made.logs[0], sessions=(later,))))
    read = book(both)
    assert [step.asked.dose.sets[0].target.high for step in at(read, "goblet-squat").steps] == [6, 7]  # type: ignore[union-attr]
    assert figures(read, "goblet-squat") == [8, 8]  # 6, then 7, then 8


def test_a_share_of_no_known_maximum_is_no_weight_in_a_newer_revision() -> None:
    revision = """program rack
  revision {}
  session main, 2 a week
    block lifts
      must deadlift 3 x 5 at {}
        advance load by {} to {}

"""
    text = (
        "use basics\n\n"
        + revision.format(1, "50%", "5%", "80%")
        + revision.format(2, "60 kg", "5 kg", "90 kg")
        + """athlete maren
  starts 2026-06-15
  has barbell 20 kg with plates 4 x 2.5 kg, 2 x 5 kg, 2 x 10 kg, 2 x 20 kg

log maren on rack, revision 1

2026-06-15 main
  deadlift 5 5 5
"""
    )
    made = compile_texts({"rack.coach": text})
    assert not made.has_errors, made.diagnostics
    read = book(made.project)
    assert figures(read, "deadlift") == [60]
    (entry,) = today(read).program.sessions[0].entries
    assert str(entry.dose.load) == "60 kg"


BANDS = """use basics

program door
  session main, 3 a week
    block pull
      must band-row 3 x 12
        advance reps by 1 to 13, then load restarting reps
        after 2 missed, ease load 10%

athlete maren
  starts 2026-06-15
  has band "red", "blue", "black"
  has door

log maren on door

"""


@pytest.mark.parametrize(
    ("lines", "band", "kinds"),
    [
        (['"red" 12 12 12', '"red" 13 13 13'], "blue", ["moved", "moved"]),
        (['"black" 12 12 12', '"blue" 13 13 13'], "black", ["moved", "band"]),
        (['"black" 12 12 12', '"black" 13 13 13'], "black", ["moved", "exhausted"]),
        (['"blue" 12 12 12', '"red" 13 13 13', '"blue" 8 8 8'], "red", ["moved", "band", "result"]),
        (["12 12 12"], "red", ["moved"]),
    ],
)
def test_a_band_goes_on_to_the_next(lines: Sequence[str], band: str, kinds: list[str]) -> None:
    logged = "".join(f"2026-06-{17 + day} main\n  band-row {line}\n" for day, line in enumerate(lines))
    made = compile_texts({"door.coach": BANDS + logged})
    assert not made.diagnostics
    read = book(made.project)
    assert at(read, "band-row").band == band
    assert told(read, "band-row") == kinds
    fitted = today(read).program.sessions[0].entries[0].fitted
    assert fitted is not None
    assert [how.band for _, how in fitted.made] == [band]


def test_a_band_stands_in_the_cell_of_the_load_in_a_table() -> None:
    table = "setwright log 1,maren,door\ndate,session,movement,load,set 1,set 2,set 3\n2026-06-17,main,band-row,black,12,12,12\n"
    made = compile_texts({"door.coach": BANDS.partition("log maren")[0], "maren.csv": table})
    assert not made.diagnostics
    assert at(book(made.project), "band-row").band == "black"


def test_today_asks_for_what_comes_next() -> None:
    made = project(log("goblet-squat 8 kg 8 8 8; push-up knees 10 10", "goblet-squat 8 kg 9 9 9; plank 20 s, 20 s"))
    now: Fitting = today(book(made))
    entries = {entry.movement.name: entry for entry in now.program.sessions[0].entries}
    squat, push = entries["goblet-squat"], entries["push-up"]
    assert str(squat.dose.load) == "10 kg" and squat.dose.sets[0].target.high == 8  # type: ignore[union-attr]
    assert squat.fitted is not None and [str(one.load) for _, one in squat.fitted.made] == ["10"]
    assert push.fitted is not None and push.fitted.rung == "box"
    assert str(entries["plank"].dose.sets[0].target.time) == "25 s"  # type: ignore[union-attr]
    chosen = [choice.chosen for choice in now.choices if choice.chosen is not None]
    assert squat in chosen and push in chosen


def test_three_sessions_correct_what_an_amrap_set_is_planned_with() -> None:
    lines = ["push-up knees 6 5", "push-up knees 6 6", "push-up knees 7 6"]
    for done, planned in ((2, 8), (3, 6)):  # 11, 12, 13 in two sets: the middle is 12, six a set
        now = today(book(project(log(*lines[:done]))))
        (push,) = (entry for entry in now.program.sessions[0].entries if entry.movement.name == "push-up")
        assert push.dose.sets[0].target.expect == planned  # type: ignore[union-attr]


def test_three_sessions_correct_the_planned_minutes() -> None:
    made = project(log(*["main, 30 min|plank 20 s, 20 s"] * 2))
    assert today(book(made)).program.sessions[0].pace == 1
    made = project(log(*["main, 30 min|plank 60 s, 60 s"] * 3))
    read = book(made)
    program = read.fitting.program
    planned = [session_time(program, program.sessions[0]) + more for more in (0, 10, 20)]  # 2 x 5 s longer each time
    assert list(read.planned) == planned
    ratio = Fraction(1800) / planned[1]
    assert pace_of(read, "main") == ratio and pace_of(read, "out") is None
    now = today(read).program
    (main, out) = now.sessions
    assert main.pace == Fraction(round(ratio * 20), 20) > 1 and out.pace == 1
    assert session_time(now, main) == main.pace * session_time(now, attrs.evolve(main, pace=Fraction(1)))


# What holds for any log


def at_random(seed: int) -> Project:
    random = Random(f"logbook {seed}")
    lines = []
    for _ in range(20):
        done = [
            f"goblet-squat {random.choice((8, 10, 12))} kg " + " ".join(str(random.randint(6, 10)) for _ in range(3)),
            f"split-squat lower {random.randint(2, 5)} s 6 {random.randint(5, 6)}",
            f"push-up {random.choice(('knees', 'box'))} {random.randint(6, 11)} {random.randint(6, 11)}",
            f"plank {random.randint(15, 60)} s, {random.randint(15, 60)} s",
        ]
        lines.append("; ".join(random.sample(done, random.randint(1, 4))))
    return project(log(*lines))


def where(read: Logbook) -> list[object]:
    return [(one.entry.movement.name, one.standing, one.best) for one in read.stands]


@pytest.mark.parametrize("seed", range(12))
def test_the_same_log_leads_to_the_same_place_however_it_is_told(seed: int) -> None:
    random, made = Random(seed), at_random(seed)
    (whole,) = made.logs
    stands = where(book(made))
    cut = random.randint(1, len(whole.sessions) - 1)
    halves = (attrs.evolve(whole, sessions=whole.sessions[:cut]), attrs.evolve(whole, sessions=whole.sessions[cut:]))
    assert where(book(attrs.evolve(made, logs=halves))) == stands
    assert where(book(attrs.evolve(made, logs=halves[::-1]))) == stands
    mixed: Log = attrs.evolve(
        whole,
        sessions=tuple(
            attrs.evolve(one, entries=tuple(random.sample(one.entries, len(one.entries)))) for one in whole.sessions
        ),
    )
    assert where(book(attrs.evolve(made, logs=(mixed,)))) == stands
    assert where(book(made)) == stands


@pytest.mark.parametrize("seed", range(12))
def test_nobody_is_asked_for_what_cannot_be_made(seed: int) -> None:
    made = at_random(seed)
    for choice in today(book(made)).choices:
        if choice.chosen is not None and choice.chosen.movement.loaded_by:
            assert choice.chosen.fitted is not None
            assert [told for told, _ in choice.chosen.fitted.made] == [choice.chosen.dose.load]
