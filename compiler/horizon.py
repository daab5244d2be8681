"""The horizon: a program run forward over its weeks, so that the coach learns before the athlete what comes.

Every rule of progression is followed from session to session, all of them good, or every third (or other) of them
missed. A week is told by its last session: what that asks for, before it is done. In an easier week nothing advances and
nothing counts as missed. The minutes and sums of a week take its last session as often as it is held.

An athlete's own figures make it exact. Without them a load is unknown where the program does not say it, and counts as
one that can always be made heavier.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from operator import is_
from typing import TypeVar

import attrs

from .clock import BlockClock, EntryClock, block_clock, change_time, entry_clock, round_rest_time, total
from .course import UNKNOWN, Means, course_of, dose_at
from .easier import Changes, changes_in, eased_block
from .implements import makeable_loads
from .model import Athlete, Block, Dose, Entry, Movement, Program, Rule, Session, Short, Value
from .progression import Course, Figure, Standing, Turn, after
from .trim import Infeasible, trim
from .week import COUNTED, times_a_week

WEEKS = 12  # of a program that does not say how long it runs
# By which share a week may ask for more than the one before it. Common practice, no source.
RISE = Fraction(20, 100)


@attrs.frozen(eq=False, repr=False, match_args=False)
class Stage(Value):
    """An entry as it is for a while: its dose, its rung, and what the axes of its rule have come to."""

    entry: Entry
    rung: str | None
    standing: Standing | None


@attrs.frozen(eq=False, repr=False, match_args=False)
class Ahead(Value):
    """An entry over the weeks: its stage in each, and the axes that took a step in each, eased ones as `-reps`.

    `exhausted` is the first week after one of whose sessions no axis could move, and the turn that told so; `jump` the first
    week in which a heavier load was passed over because the step to it is too large, with the load and the heavier one.
    """

    session: Session
    block: Block
    entry: Entry
    course: Course | None
    stages: tuple[Stage, ...]
    steps: tuple[tuple[str, ...], ...]
    exhausted: tuple[int, Turn] | None
    jump: tuple[int, Figure, Figure] | None


@attrs.frozen(eq=False, repr=False, match_args=False)
class ShortAhead(Value):
    """A short version over the weeks: from which week on none fits, and the seconds that the shortest then takes."""

    short: Short
    impossible: tuple[int, Fraction] | None


@attrs.frozen(eq=False, repr=False, match_args=False)
class SessionAhead(Value):
    """A session over the weeks: its seconds in each, and from which week on it is over its limit.

    `blame` is the entry that had grown most by then, in seconds, with by how much.
    """

    session: Session
    seconds: tuple[Fraction, ...]
    over: int | None
    blame: tuple[Entry, Fraction] | None
    shorts: tuple[ShortAhead, ...]


@attrs.frozen(eq=False, repr=False, match_args=False)
class Horizon(Value):
    """A program over its weeks, counted from 1 in all of it; the tuples have one place a week.

    `sets` and `tension` are those of all work and conditioning in a week: sets, and the seconds spent in them.
    """

    program: Program
    weeks: int
    missed_every: int | None
    rows: tuple[Ahead, ...]
    sessions: tuple[SessionAhead, ...]
    sets: tuple[int, ...]
    tension: tuple[Fraction, ...]
    easier: frozenset[int]


T = TypeVar("T")
MeansOf = Callable[[Movement], Means]


def means_of(athlete: Athlete) -> MeansOf:
    """What an athlete brings to each movement."""
    begins = {begin.movement: begin for begin in athlete.begins}
    maxima = {name: maximum.base for name, maximum in athlete.maxima}
    jump = athlete.jump.base if athlete.jump is not None else None

    def means(movement: Movement) -> Means:
        loads = makeable_loads(athlete, movement) if movement.loaded_by else None
        return Means(begins.get(movement.name), loads or None, maxima.get(movement.name), jump)

    return means


@attrs.frozen(eq=False, repr=False, match_args=False)
class Outlook(Value):
    """A program run forward twice, every session good and some of them missed; for an athlete, or for nobody in particular."""

    good: Horizon
    missed: Horizon
    athlete: Athlete | None = None
    rise: Fraction = RISE  # the share by which a week may ask for more than the one before it


def outlook(
    program: Program,
    athlete: Athlete | None = None,
    *,
    weeks: int | None = None,
    missed_every: int = 3,
    means: MeansOf | None = None,
    rise: Fraction = RISE,
) -> Outlook:
    """Both runs of a program; `means` go before what the athlete has."""
    brought = means or (means_of(athlete) if athlete is not None else lambda movement: UNKNOWN)
    good = look_ahead(program, weeks=weeks, means=brought)
    missed = look_ahead(program, weeks=weeks, missed_every=missed_every, means=brought)
    return Outlook(good, missed, athlete, rise)


@attrs.frozen(eq=False, repr=False, match_args=False)
class _Question(Value):
    """What is asked: a program, the changes of each week, which sessions are missed, and for whom."""

    program: Program
    changes: tuple[Changes, ...]
    missed_every: int | None
    means: MeansOf


def look_ahead(
    program: Program,
    *,
    weeks: int | None = None,
    missed_every: int | None = None,
    means: MeansOf = lambda movement: UNKNOWN,
) -> Horizon:
    """A program run forward; `missed_every=3` lets every third session of an entry fall short."""
    count = weeks or program.weeks or WEEKS
    asked = _Question(program, tuple(changes_in(program, week) for week in range(1, count + 1)), missed_every, means)
    rows: list[Ahead] = []
    sessions: list[SessionAhead] = []
    sets, tension = [0] * count, [Fraction(0)] * count
    for session in program.sessions:
        paths = [[_walk(asked, session, block, entry) for entry in block.entries] for block in session.blocks]
        blocks = [_block_weeks(asked, *both) for both in zip(session.blocks, paths, strict=True)]
        for block, here, forms in zip(session.blocks, paths, blocks, strict=True):
            rows += [_ahead(session, block, path, at, forms) for at, path in enumerate(here)]
        weekly = [list(week) for week in zip(*blocks, strict=True)] if blocks else [[] for _ in asked.changes]
        sessions.append(_session_ahead(asked, session, weekly))
        for week, (more_sets, more_tension) in enumerate(_sums(session, weekly)):
            sets[week] += more_sets
            tension[week] += more_tension
    easier = frozenset(week for week, change in enumerate(asked.changes, start=1) if change)
    return Horizon(program, count, missed_every, tuple(rows), tuple(sessions), tuple(sets), tuple(tension), easier)


# One entry


class _Path:
    """An entry on its way through the weeks: each stage once, and the number of the stage of each week."""

    def __init__(self, entry: Entry, course: Course | None) -> None:
        self.entry, self.course = entry, course
        self.stages: list[Stage] = []
        self.numbers: list[int] = []
        self.steps: list[tuple[str, ...]] = []
        self.exhausted: tuple[int, Turn] | None = None
        self.jump: tuple[int, Figure, Figure] | None = None
        self._known: dict[object, int] = {}

    def add_week(self, standing: Standing | None) -> None:
        """The entry asks in one more week for what it does from a standing."""
        key = None if standing is None else (standing.figures, standing.expected)
        if key not in self._known:
            self._known[key] = len(self.stages)
            self.stages.append(self._stage(standing))
        self.numbers.append(self._known[key])

    def note(self, week: int, before: Standing, turn: Turn) -> None:
        """What a turn in a week tells the coach."""
        if turn.axis is not None:
            self.steps[-1] += (turn.axis if turn.kind == "moved" else f"-{turn.axis}",)
        elif turn.kind == "exhausted" and self.exhausted is None:
            self.exhausted = (week, turn)
        if self.jump is None:
            for blocked, load in zip(turn.blocked, before.figures, strict=False):  # the first axes, in order
                if blocked.reason == "jump" and load is not None and blocked.figure is not None:
                    self.jump = (week, load, blocked.figure)

    def _stage(self, standing: Standing | None) -> Stage:
        if standing is None or self.course is None:
            return Stage(self.entry, None, None)
        dose = dose_at(self.entry, self.course, standing)
        return Stage(attrs.evolve(self.entry, dose=dose), _rung(self.entry, self.course, standing), standing)


def _rung(entry: Entry, course: Course, standing: Standing) -> str | None:
    for track, figure in zip(course.tracks, standing.figures, strict=True):
        if track.name == "rung" and figure is not None and entry.movement.rungs:
            return entry.movement.rungs[int(figure)].name
    return None


def _walk(asked: _Question, session: Session, block: Block, entry: Entry) -> _Path:
    """Follow the rule of an entry from session to session."""
    has_rule = isinstance(entry.rule, Rule) and entry.dose.sets
    course = course_of(asked.program, block, entry, asked.means(entry.movement)) if has_rule else None
    path = _Path(entry, course)
    standing = course.start if course is not None else None
    times, done = times_a_week(session), 0
    stands = course is None
    for week, change in enumerate(asked.changes, start=1):
        path.steps.append(())
        for time in range(times):
            if time == times - 1:
                path.add_week(standing)
            if stands or change or course is None or standing is None:
                continue
            done += 1
            turn = after(course, standing, not asked.missed_every or done % asked.missed_every != 0)
            path.note(week, standing, turn)
            standing = turn.standing
            stands = turn.kind == "exhausted" and (not asked.missed_every or course.missed is None)
    return path


def _ahead(session: Session, block: Block, path: _Path, at: int, forms: Sequence[_Form]) -> Ahead:
    """The row of an entry, which is the one at a place of its block, with its doses eased where the week is."""
    stages = []
    for number, form in zip(path.numbers, forms, strict=True):
        stage, entry = path.stages[number], form.clock.entries[at].entry
        stages.append(stage if stage.entry is entry else Stage(entry, stage.rung, stage.standing))
    steps = tuple(path.steps)
    return Ahead(session, block, path.entry, path.course, tuple(stages), steps, path.exhausted, path.jump)


# One block


@attrs.frozen(eq=False, repr=False, match_args=False)
class _Part(Value):
    """An entry in some week: its clock, its seconds in full, and those spent in its sets."""

    clock: EntryClock
    seconds: Fraction
    tension: Fraction


@attrs.frozen(eq=False, repr=False, match_args=False)
class _Form(Value):
    """A block in some week: its clock, its seconds in full, its sets, and the seconds spent in them."""

    clock: BlockClock
    seconds: Fraction
    sets: int
    tension: Fraction


def _block_weeks(asked: _Question, block: Block, paths: Sequence[_Path]) -> list[_Form]:
    """The block in every week; what two weeks have in common is worked out once."""
    round_rest, change = round_rest_time(asked.program, block), change_time(asked.program, block)
    parts: dict[tuple[int, int], _Part] = {}
    forms: dict[tuple[int, ...], _Form] = {}
    weeks = []
    for week, easing in enumerate(asked.changes):
        key = tuple(path.numbers[week] for path in paths)
        if easing:
            entries = tuple(path.stages[number].entry for path, number in zip(paths, key, strict=True))
            clock = block_clock(asked.program, eased_block(attrs.evolve(block, entries=entries), easing))
            weeks.append(_form(clock, [_part(clock.block, timed) for timed in clock.entries]))
            continue
        if key not in forms:
            for place, number in enumerate(key):
                if (place, number) not in parts:
                    entry = paths[place].stages[number].entry
                    parts[place, number] = _part(block, entry_clock(block, entry, round_rest))
            here = [parts[place, number] for place, number in enumerate(key)]
            clock = BlockClock(block, tuple(part.clock for part in here), change, round_rest)
            forms[key] = _form(clock, here)
        weeks.append(forms[key])
    return weeks


def _part(block: Block, clock: EntryClock) -> _Part:
    kept = len(clock.sets)
    seconds = clock.seconds(kept) if block.rounds is None else clock.circuit_seconds(kept)
    return _Part(clock, seconds, total(clock.sets))


def _form(clock: BlockClock, parts: Sequence[_Part]) -> _Form:
    kept = [len(part.clock.sets) for part in parts]
    seconds = sum((part.seconds for part in parts), clock.around(kept))
    if clock.block.kind not in COUNTED:
        return _Form(clock, seconds, 0, Fraction(0))
    return _Form(clock, seconds, sum(kept), sum((part.tension for part in parts), Fraction(0)))


# One session


def _session_ahead(asked: _Question, session: Session, weeks: Sequence[Sequence[_Form]]) -> SessionAhead:
    change = change_time(asked.program)
    seconds = tuple(_each_week(weeks, lambda week: _session_seconds([form.seconds for form in week], change)))
    limit = session.within.base if session.within is not None else None
    over = next((number for number, took in enumerate(seconds, start=1) if limit is not None and took > limit), None)
    blame = _blame(weeks[0], weeks[over - 1]) if over is not None else None
    shorts = tuple(ShortAhead(short, _impossible(asked, session, short, weeks)) for short in session.shorts)
    return SessionAhead(session, seconds, over, blame, shorts)


def _each_week(weeks: Sequence[Sequence[_Form]], measure: Callable[[Sequence[_Form]], T]) -> list[T]:
    """A measure of every week, taken anew only where a week differs from the one before it."""
    found: list[T] = []
    for number, week in enumerate(weeks):
        same = number > 0 and all(map(is_, week, weeks[number - 1]))
        found.append(found[-1] if same else measure(week))
    return found


def _sums(session: Session, weeks: Sequence[Sequence[_Form]]) -> list[tuple[int, Fraction]]:
    """The sets of every week, and the seconds spent in them."""
    times = times_a_week(session)
    return _each_week(
        weeks,
        lambda week: (
            times * sum(form.sets for form in week),
            times * sum((form.tension for form in week), Fraction(0)),
        ),
    )


def _session_seconds(blocks: Sequence[Fraction], change: Fraction) -> Fraction:
    """Seconds of all blocks, and the changes between those that take time."""
    return sum(blocks, Fraction(0)) + max(sum(map(bool, blocks)) - 1, 0) * change


def _blame(first: Sequence[_Form], now: Sequence[_Form]) -> tuple[Entry, Fraction]:
    """The entry that has grown most, and by how many seconds."""
    grown = [
        (after.entry, _part(form.clock.block, after).seconds - _part(earlier.clock.block, before).seconds)
        for earlier, form in zip(first, now, strict=True)
        for before, after in zip(earlier.clock.entries, form.clock.entries, strict=True)
    ]
    return max(grown, key=lambda pair: pair[1])


def _impossible(
    asked: _Question, session: Session, short: Short, weeks: Sequence[Sequence[_Form]]
) -> tuple[int, Fraction] | None:
    """The first week in which nothing fits a short version, and the seconds of the shortest.

    The movements of the shortest version of one week are tried in the next before the search is asked again.
    """
    keeps: tuple[bool, ...] | None = None
    last: Sequence[_Form] | None = None
    for number, (week, easing) in enumerate(zip(weeks, asked.changes, strict=True), start=1):
        if easing or (last is not None and all(map(is_, last, week))):
            continue
        last = week
        if keeps is not None and _shortest_of(asked.program, short, week, keeps) <= short.limit.base:
            continue
        shortest = trim(asked.program, _session_in(session, week), Fraction(0), short.by)
        if isinstance(shortest, Infeasible):
            shortest = shortest.smallest
        if shortest.seconds > short.limit.base:
            return number, shortest.seconds
        keeps = tuple(map(bool, shortest.kept))
    return None


def _shortest_of(program: Program, short: Short, week: Sequence[_Form], keeps: tuple[bool, ...]) -> Fraction:
    """Seconds of the version that keeps these movements, each with the fewest sets that the short version allows."""
    flags = iter(keeps)
    return _session_seconds(
        [form.clock.seconds(_fewest(form.clock, short, flags)) for form in week], change_time(program)
    )


def _fewest(clock: BlockClock, short: Short, flags: Iterator[bool]) -> list[int]:
    full = [len(timed.sets) for timed in clock.entries]
    least = [
        0 if not next(flags) or not sets else sets if short.by == "movements" else _least(timed.entry.dose, sets)
        for timed, sets in zip(clock.entries, full, strict=True)
    ]
    return least if clock.block.rounds is None else [max(least) if sets else 0 for sets in least]


def _least(dose: Dose, full: int) -> int:
    return max(min(dose.least_sets, full), 1)


def _session_in(session: Session, week: Sequence[_Form]) -> Session:
    """The session as it is in a week."""
    blocks = (
        attrs.evolve(form.clock.block, entries=tuple(timed.entry for timed in form.clock.entries)) for form in week
    )
    return attrs.evolve(session, blocks=tuple(blocks))
