"""A review of one athlete with many sessions, against rendering its pictures alone; and how it grows.

All are times of the processor, with Python's search for unreachable rings as rare as the command line has it.
"""

import gc
from collections.abc import Iterator
from datetime import date, timedelta
from statistics import median
from time import process_time

from setwright.compiler.fitting import fit
from setwright.compiler.logbook import logbook_of
from setwright.compiler.model import Project
from setwright.compiler.pipeline import compile_texts
from setwright.compiler.review import review
from setwright.targets.review import drawings, render
from setwright.targets.review.view import Page, page

from .trimming import Line

SESSIONS = 300
TURNS = 7
PROGRAM = """use basics

program shed
  jump 25%
  session main, 3 a week
    block lifts
      must goblet-squat 3 x 8
        advance reps by 1 to 12, then load restarting reps
      must one-arm-row 3 x 8 each side
        advance reps by 1 to 12, then load restarting reps
      do split-squat 3 x 6 each side, lower 3 s
        advance lower by 1 s to 6 s, then reps by 1 to 12
      do push-up 3 x amrap leaving 2, expect 8
        advance rung at 15 reps
      do suitcase-hinge 3 x 8
        advance reps by 1 to 12, then load restarting reps
      do heel-raise 2 x 12
        advance reps by 1 to 20, then rung restarting reps
      do side-plank 2 x 20 s each side
        advance hold by 5 s to 60 s
      do suitcase-carry 3 x 20 m
        advance distance by 5 m to 40 m, then load restarting distance
  session walk
    block out, conditioning
      do walk 1 x 30 min, log distance and time
        advance distance by 5%

athlete maren
  born 1982
  body 68 kg
  starts 2020-01-06
  has kettlebell 8 kg, 10 kg, 12 kg, 16 kg, 20 kg, 24 kg
  has floor, wall, chair, bench, step, corridor, outside
  begins push-up on knees, 8 reps

log maren on shed

"""


def lines() -> Iterator[Line]:
    """300 sessions against their pictures, and ten times the sessions against them."""
    before = gc.get_threshold()
    gc.set_threshold(100_000, 20, 20)
    yield from _lines()
    gc.set_threshold(*before)


def _lines() -> Iterator[Line]:
    project = _project(SESSIONS)
    view = _view(project)
    assert len(drawings(view)) == len(view.movements)  # the converter starts once, before anything is measured
    pairs = []
    for turn in range(TURNS):
        order = (lambda: _pages(project), lambda: drawings(view))
        first, second = (_seconds(work) for work in (order if turn % 2 == 0 else reversed(order)))
        pairs.append((first, second) if turn % 2 == 0 else (second, first))
    ours, theirs = (median(side) for side in zip(*pairs, strict=True))
    behind = f"{ours * 1000:,.0f} ms / {theirs * 1000:,.0f} ms, {len(view.movements)} pictures, {TURNS} turns"
    yield f"review of {SESSIONS} sessions / drawing its pictures alone", median(a / b for a, b in pairs), 1.5, behind
    many = _project(10 * SESSIONS)
    few_times, many_times = [], []
    for _ in range(3):
        few_times.append(_seconds(lambda: _view(project)))
        many_times.append(_seconds(lambda: _view(many)))
    ratio = median(a / b for a, b in zip(many_times, few_times, strict=True))
    behind = f"{median(many_times) * 1000:,.0f} ms / {median(few_times) * 1000:,.0f} ms, without pictures and pages"
    yield f"figures of {10 * SESSIONS:,} sessions / {SESSIONS}", ratio, 11, behind


def _view(project: Project) -> Page:
    """From logs to all figures and sentences of the page."""
    (program,), (athlete,) = project.programs, project.athletes
    return page(review(logbook_of(fit(program, athlete), project.programs, project.logs)))


def _pages(project: Project) -> dict[str, str]:
    """From logs to all pages."""
    (program,), (athlete,) = project.programs, project.athletes
    return render(review(logbook_of(fit(program, athlete), project.programs, project.logs)))


def _seconds(work: object) -> float:
    assert callable(work)
    start = process_time()
    work()
    return process_time() - start


def _project(sessions: int) -> Project:
    result = compile_texts({"shed.coach": PROGRAM + "\n".join(_session(number) for number in range(sessions))})
    assert not result.has_errors, result.diagnostics[:3]
    return result.project


def _session(number: int) -> str:
    """A session that goes well, and every third that does not; a walk is every seventh."""
    day = date(2020, 1, 6) + timedelta(days=number * 2)
    if number % 7 == 6:
        return f"{day} walk, 31 min\n  walk {2000 + number % 50 * 20} m 30:00\n"
    reps = 8 + number // 3 % 5 - (number % 3 == 2)
    hold, load = 20 + number // 4 % 8 * 5, (8, 10, 12, 16, 20, 24)[min(number // 60, 5)]
    return f"""{day} main, {50 + number % 9} min, rpe {6 + number % 3}
  goblet-squat {load} kg {reps} {reps} {reps}
  one-arm-row {load} kg {reps} {reps} {reps}
  split-squat lower 3 s 6 6 {6 - (number % 3 == 2)}
  push-up knees {reps + 2} {reps} {reps - 1}
  suitcase-hinge {load} kg {reps} {reps} {reps}
  heel-raise {reps + 4} {reps + 4}
  side-plank {hold} s, {hold} s
  suitcase-carry {load} kg 20 m, 20 m, 20 m
  | {"Knee fine." if number % 5 else "Slept badly."}
"""
