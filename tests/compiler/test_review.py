"""What came of logs: notes to read first, weeks, movements with their figures, and who of a crew needs the coach first."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from fractions import Fraction

import pytest
from setwright.compiler.alarms import speaks
from setwright.compiler.crew_review import ranked
from setwright.compiler.fitting import fit
from setwright.compiler.logbook import logbook_of
from setwright.compiler.movement_review import MovementReview
from setwright.compiler.pipeline import compile_texts
from setwright.compiler.review import Review, review

PROGRAM = """use basics

program shed
  jump 25%
  session main, 3 a week
    block lifts
      must goblet-squat 3 x 8
        advance reps by 1 to 9, then load restarting reps
      do one-arm-row 2 x 8 each side
        advance reps by 1 to 12
      do split-squat 2 x 6 each side, lower 3 s
        advance lower by 1 s to 4 s
      do push-up 2 x amrap leaving 2, expect 8
        advance rung at 10 reps
      do front-carry 2 x 20 m
        advance distance by 5 m to 40 m
  session out, 2 a week
    block air, conditioning
      do walk 1 x 30 min, log distance and time
        advance distance by 10%
"""
ATHLETE = """
athlete {name}
  born {born}
  body 70 kg
  starts 2026-06-15
  follows shed
  has kettlebell 8 kg, 10 kg, 12 kg, 16 kg
  has floor, wall, chair, bench, step, corridor, outside
  begins goblet-squat at 8 kg
  begins one-arm-row at 8 kg
  begins front-carry at 10 kg
  begins push-up on knees, 8 reps
"""
START = date(2026, 6, 15)


def reviews(logs: dict[str, str], born: int = 1980, newest: date | None = None) -> dict[str, Review]:
    """The review of each athlete's log, by name; a log is its sessions, without its head."""
    text = PROGRAM + "".join(ATHLETE.format(name=name, born=born) for name in logs)
    text += "".join(f"\nlog {name} on shed\n\n{log}\n" for name, log in logs.items())
    result = compile_texts({"shed.coach": text})
    assert not result.has_errors, result.diagnostics
    (program,) = result.project.programs
    return {
        athlete.name: review(logbook_of(fit(program, athlete), (program,), result.project.logs), newest)
        for athlete in result.project.athletes
    }


def one_review(log: str, **more: object) -> Review:
    return reviews({"maren": log}, **more)["maren"]  # type: ignore[arg-type]


def sessions(lines: Sequence[str], every: int = 2, head: str = "main, 50 min, rpe 6") -> str:
    """A session every so many days, each with the movements of its line."""
    days = (START + timedelta(days=place * every) for place in range(len(lines)))
    return "\n".join(
        "\n".join([f"{day} {head}", *(f"  {part.strip()}" for part in line.split(";"))])
        for day, line in zip(days, lines, strict=False)
    )


def at(found: Review, movement: str) -> MovementReview:
    return next(one for one in found.movements if one.stands.entry.movement.name == movement)


# Notes


@pytest.mark.parametrize(
    "note",
    [
        "Chest pain in the second set.", "Dizzy after squats", "my heart raced", "No, the pain is back.", "not without pain",
        "The pain has gone to my arm", "No sleep for the pain", "No pain until the last set, then a tight chest", "Felt faint",
        "no pain but dizzy", "no more than a little pain", "No change in the pain", "pain less than before",
        "No pain relief today",
        "Could not get my breath", "No feeling in the left hand", "Couldn’t breathe", "wasn't without pain", "Headache again",
        "Cold sweat, sick to the stomach", "Knee hurts. No pain in the hip.", "PAIN",
    ],
)  # fmt: skip
def test_a_stop_sign_is_an_alarm(note: str) -> None:
    assert speaks(note) == "alarm"


@pytest.mark.parametrize(
    "note",
    [
        "No pain.", "painless", "Knee pain gone.", "no knee pain at all", "pain-free", "Not dizzy this time", "never hurt",
        "Without pain, without dizziness", "no pain or dizziness", "The pain is gone", "Coach's word: stop when breathless.",
        "the chest-opener felt good", "nothing hurt", "no longer hurts", "Pain has gone.",
    ],
)  # fmt: skip
def test_a_sign_that_is_taken_back_is_told_and_is_no_alarm(note: str) -> None:
    assert speaks(note) == "named"


@pytest.mark.parametrize("note", ["", "Knee fine. Slept badly.", "Paint on the floor.", "Heartily tired.", "Good day."])
def test_other_notes_speak_of_nothing(note: str) -> None:
    assert speaks(note) == "nothing"


def test_the_review_keeps_both_kinds_of_notes() -> None:
    found = one_review(sessions(["goblet-squat 8 kg 8 8 8; | Chest pain.", "goblet-squat 8 kg 8 8 8; | No pain."]))
    assert [session.note for session in found.alarms] == ["Chest pain."]
    assert [session.note for session in found.named] == ["No pain."]


# Weeks


def test_weeks_of_sessions() -> None:
    log = """2026-06-15 main, 50 min, rpe 6
  goblet-squat 8 kg 8 8 8
2026-06-18 out, 31 min
  walk 2.4 km 30:00
2026-07-01 main, 40 min, rpe 5
  goblet-squat 8 kg 8 8 8
2026-07-02 main
  goblet-squat 8 kg 8 8 8
"""
    found = one_review(log)
    assert [week.number for week in found.weeks] == [1, 2, 3]
    first, second, third = found.weeks
    assert (first.strength.planned, first.strength.full, first.strength.short) == (3, 1, 0)
    assert (first.others.planned, first.others.done) == (2, 1)
    assert (first.minutes, first.moving, first.distance) == (81, 30, 2400)
    assert first.effort is not None and first.effort.load == 300  # the walk tells no effort
    assert (second.strength.done, second.effort, second.over) == (0, None, True)
    assert (third.untold, third.over) == (1, False)


@pytest.mark.parametrize(
    ("born", "walk", "counts"),
    # 30 minutes: 1.9 km are 3.8 km an hour, 2.1 km 4.2, 4 km 8: light, moderate and vigorous.
    [(1980, "1.9 km 30:00", 0), (1980, "2.1 km 30:00", 30), (1980, "4 km 30:00", 60), (1950, "1.9 km 30:00", 30)],
)
def test_minutes_that_count_against_the_advice(born: int, walk: str, counts: int) -> None:
    found = one_review(f"2026-06-15 out, 33 min\n  walk {walk}\n", born=born)
    assert found.weeks[0].counts == counts
    assert found.weeks[0].moving == 30


def test_a_walk_without_a_time_takes_the_minutes_of_its_session() -> None:
    assert one_review("2026-06-15 out, 33 min\n  walk 2.4 km\n").weeks[0].moving == 33


def test_weeks_go_on_to_the_newest_day_of_all() -> None:
    found = one_review(sessions(["goblet-squat 8 kg 8 8 8"]), newest=date(2026, 7, 5))
    assert [(week.number, week.over) for week in found.weeks] == [(1, True), (2, True), (3, True)]


def test_a_break_is_told() -> None:
    log = sessions(["goblet-squat 8 kg 8 8 8"] * 2, every=16)
    (pause,) = one_review(log).breaks
    assert (pause.last, pause.next, pause.days) == (START, START + timedelta(days=16), 15)
    assert not one_review(sessions(["goblet-squat 8 kg 8 8 8"] * 2, every=14)).breaks


# Movements


def test_figures_of_a_movement() -> None:
    found = one_review(
        sessions(["goblet-squat 8 kg 8 8 8; one-arm-row 8 kg 8 7; split-squat lower 4 s 6 6; push-up knees 9 8; "
                  "front-carry 10 kg 20 m, 20 m"])
    )  # fmt: skip
    (squat,) = at(found, "goblet-squat").done
    assert (squat.repetitions, squat.volume) == (24, 192)
    assert squat.estimate is not None and squat.estimate.epley == 8 * (1 + Fraction(8, 30))
    (row,) = at(found, "one-arm-row").done
    assert (row.repetitions, row.volume) == (30, 240)  # both sides
    (split,) = at(found, "split-squat").done
    assert split.tension == 24 * (4 + Fraction(3, 2))  # half of the movement's own 3 s for raising
    assert at(found, "split-squat").measure == "tension"
    (push,) = at(found, "push-up").done
    assert push.moved == Fraction(343, 10) and push.rung is not None and push.rung.source
    assert push.estimate is None
    (carry,) = at(found, "front-carry").done
    assert (carry.carried, carry.volume) == (400, None)


def test_the_best_is_on_the_highest_rung() -> None:
    found = one_review(sessions(["push-up knees 10 10", "push-up box 7 6", "push-up knees 12 12"]))
    best = at(found, "push-up").best
    assert best.rung is not None and (best.rung.name, best.repetitions) == ("box", 13)


def test_no_estimate_above_ten_repetitions() -> None:
    found = one_review(sessions(["goblet-squat 8 kg 11 11 11", "goblet-squat 8 kg 11 9 8"]))
    none, some = at(found, "goblet-squat").done
    assert none.estimate is None
    assert some.estimate is not None and some.estimate.epley == 8 * (1 + Fraction(9, 30))


GOOD = ["goblet-squat 8 kg 8 8 8", "goblet-squat 8 kg 9 9 9"]


@pytest.mark.parametrize(
    ("lines", "progress", "kinds"),
    [
        (GOOD, "progress", []),
        (["goblet-squat 8 kg 8 8 7"] * 3, "begun", []),
        (["goblet-squat 8 kg 8 8 7"] * 4, "stall", ["other-axis"]),  # nothing lighter is at hand
        ([*GOOD, *["goblet-squat 10 kg 8 8 7"] * 4], "stall", ["ease-load", "other-axis"]),
        (["split-squat lower 3 s 6 6", "split-squat lower 4 s 6 6"], "ended", ["other-axis"]),
        (["push-up knees 8 7", *["push-up knees 8 6"] * 4], "stall", ["easier-rung", "other-axis"]),
    ],
)
def test_progress_and_what_is_proposed(lines: list[str], progress: str, kinds: list[str]) -> None:
    (movement,) = one_review(sessions(lines)).movements
    assert movement.progress == progress
    assert [proposal.kind for proposal in movement.proposals] == kinds


def test_what_is_proposed_can_be_done() -> None:
    (squat,) = one_review(sessions([*GOOD, *["goblet-squat 10 kg 8 8 7"] * 4])).movements
    assert squat.proposals[0].load == 8
    (push,) = one_review(sessions(["push-up knees 8 7", *["push-up knees 8 6"] * 4])).movements
    assert push.proposals[0].rung is not None and push.proposals[0].rung.name == "bench"


def test_nobody_stalls_who_comes_back() -> None:
    strong = sessions(GOOD)
    back = sessions(["goblet-squat 8 kg 8 8 7"] * 5).replace("2026-06", "2026-07")
    (movement,) = one_review(f"{strong}\n{back}").movements
    assert (movement.progress, movement.proposals) == ("returning", ())


# The crew


def test_who_needs_the_coach_first() -> None:
    fine = sessions(["goblet-squat 8 kg 8 8 8"], every=2)
    busy = "\n".join(
        f"{START + timedelta(days=7 * week + day)} main, 50 min, rpe 6\n  goblet-squat 8 kg 8 8 7"
        for week in range(3)
        for day in (0, 2, 4)
    )
    logs = {
        "wilf": f"{busy}\n2026-07-05 out, 30 min\n  walk 2.4 km 30:00",
        "agnes": f"{sessions(['goblet-squat 8 kg 8 8 7; | Dizzy.'])}",
        "kamal": fine,
        "dorothea": "\n".join(line for line in busy.splitlines() if "06-19" not in line).replace("8 8 7", "8 8 8"),
    }
    found = reviews(logs, newest=date(2026, 7, 5))
    order = ranked(found.values())
    kinds = {one.review.logbook.fitting.athlete.name: [need.kind for need in one.needs] for one in order}
    assert list(kinds) == ["agnes", "kamal", "wilf", "dorothea"]
    assert kinds["agnes"][0] == "alarm"
    assert kinds["kamal"][0] == "silent"
    assert kinds["wilf"][0] == "stall"
    assert {one.review.newest for one in order} == {date(2026, 7, 5)}


def test_sessions_missed_are_counted_in_whole_weeks_up_to_the_last_session() -> None:
    log = "\n".join(
        f"{START + timedelta(days=7 * week)} main, 50 min, rpe 6\n  goblet-squat 8 kg 8 8 8" for week in range(3)
    )
    (one,) = ranked([one_review(log, newest=date(2026, 7, 6))])
    missed = next(need for need in one.needs if need.kind == "missed")
    assert (missed.number, missed.of) == (6, 9)
