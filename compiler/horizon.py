"""The horizon: a program run forward over its weeks, so that the coach learns before the athlete what comes.

Every rule of progression is followed from session to session, all of them good, or every third (or other) of them
missed. A week is told by its last session: what that asks for, before it is done. In an easier week nothing advances and
nothing counts as missed. The minutes and sums of a week take its last session as often as it is held.

For an athlete it is the program as it is fitted to them that is run. For nobody in particular a load is unknown where the
program does not say it, and counts as one that can always be made heavier.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import islice
from operator import is_

import attrs

from .clock import block_clock, change_time
from .comeback import origin
from .course import UNKNOWN
from .easier import Changes, changes_in
from .fitting import Fitting, fit
from .forward import BlockForward, EntryForward, Form, Path, Seconds, Stage, part_of, plain
from .means import MeansOf, means_of
from .model import Athlete, Block, Entry, Program, Session, Short, Value
from .progression import Course, Turn
from .quantity import Figure
from .trim import Infeasible, binding_categories, fills, trim
from .week import times_a_week

WEEKS = 12  # of a program that does not say how long it runs
# By which share a week may ask for more than the one before it. Common practice, no source.
RISE = Fraction(25, 100)


@attrs.frozen(eq=False, repr=False, match_args=False)
class Ahead(Value):
    """An entry over the weeks: its stage in each, and the axes that took a step in each, eased ones as `-reps`.

    `exhausted`, `jump` and `heaviest` are as in `forward.Path`.
    """

    session: Session
    block: Block
    entry: Entry
    course: Course | None
    stages: tuple[Stage, ...]
    steps: tuple[tuple[str, ...], ...]
    exhausted: tuple[int, Turn] | None
    jump: tuple[int, Figure, Figure] | None
    heaviest: tuple[int, Figure | None] | None


@attrs.frozen(eq=False, repr=False, match_args=False)
class ShortAhead(Value):
    """A short version over the weeks: from which week on none fits, and the seconds that the shortest then takes."""

    short: Short
    impossible: tuple[int, Fraction] | None


@attrs.frozen(eq=False, repr=False, match_args=False)
class SessionAhead(Value):
    """A session over the weeks: its seconds in each, and from which week on it is over its limit.

    `blame` is the entry that had grown most by then beyond what is written, with by how many seconds; None where none had.
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


@attrs.frozen(eq=False, repr=False, match_args=False)
class Outlook(Value):
    """A program run forward twice, every session good and some of them missed; for an athlete, or for nobody in particular."""

    good: Horizon
    missed: Horizon
    fitting: Fitting | None = None
    rise: Fraction = RISE  # the share by which a week may ask for more than the one before it

    @property
    def athlete(self) -> Athlete | None:
        """Whom the program was fitted to."""
        return self.fitting.athlete if self.fitting is not None else None


def outlook(
    program: Program,
    athlete: Athlete | None = None,
    *,
    weeks: int | None = None,
    missed_every: int = 3,
    means: MeansOf | None = None,
    rise: Fraction = RISE,
) -> Outlook:
    """Both runs of a program, fitted to an athlete; `means` are those of somebody who is no athlete of the project."""
    fitting = fit(program, athlete) if athlete is not None else None
    made = fitting.program if fitting is not None else program
    if means is None:
        means = means_of(made.athlete) if made.athlete is not None else lambda movement: UNKNOWN
    forward = _Forward(made, means)
    return Outlook(forward.run(weeks, None), forward.run(weeks, missed_every), fitting, rise)


class _Forward:
    """A program ready to be run forward; two runs share what they have in common."""

    def __init__(self, program: Program, means: MeansOf) -> None:
        self.program = program
        self.sessions = [_SessionForward(program, session, means) for session in program.sessions]

    def run(self, weeks: int | None, missed_every: int | None) -> Horizon:
        if self.program.returns is not None and self.program.returns.normal is not None:
            return self._back(self.program.returns.normal, missed_every)
        count = weeks or self.program.weeks or WEEKS
        changes = [changes_in(self.program, week) for week in range(1, count + 1)]
        rows: list[Ahead] = []
        sessions: list[SessionAhead] = []
        sets: list[int] = [0] * count
        tension: list[Seconds] = [0] * count
        for session in self.sessions:
            more_rows, weekly = session.run(changes, missed_every)
            rows += more_rows
            sessions.append(session.ahead(weekly, changes))
            for number, week in enumerate(weekly):
                sets[number] += session.times * sum(form.sets for form in week)
                tension[number] += session.times * sum(form.tension for form in week)
        easier = frozenset(week for week, change in enumerate(changes, start=1) if change)
        spent = tuple(map(Fraction, tension))
        return Horizon(self.program, count, missed_every, tuple(rows), tuple(sessions), tuple(sets), spent, easier)

    def _back(self, normal: Program, missed_every: int | None) -> Horizon:
        """The weeks back to the normal program, told by the sessions of that; nothing advances in them."""
        rows: list[Ahead] = []
        sessions: list[SessionAhead] = []
        sets: list[int] = [0] * (self.program.weeks or 0)
        tension: list[Seconds] = [0] * (self.program.weeks or 0)
        for session in normal.sessions:
            weekly = [one for one in self.sessions if origin(one.session.name) == session.name]
            runs = [one.run([{}], None) for one in weekly]
            for each in zip(*(of_week for of_week, _ in runs), strict=True):
                stages = tuple(row.stages[0] for row in each)
                rows.append(attrs.evolve(each[0], session=session, stages=stages, steps=((),) * len(each)))
            seconds: list[Fraction] = []
            for number, (one, (_, (forms,))) in enumerate(zip(weekly, runs, strict=True)):
                seconds += one.ahead([forms], [{}]).seconds
                sets[number] += one.times * sum(form.sets for form in forms)
                tension[number] += one.times * sum(form.tension for form in forms)
            sessions.append(SessionAhead(session, tuple(seconds), None, None, ()))
        every = frozenset(range(1, len(sets) + 1))
        spent = tuple(map(Fraction, tension))
        return Horizon(self.program, len(sets), missed_every, tuple(rows), tuple(sessions), tuple(sets), spent, every)


class _SessionForward:
    """A session with its blocks and entries, ready to be run forward."""

    def __init__(self, program: Program, session: Session, means: MeansOf) -> None:
        self.program, self.session, self.times = program, session, times_a_week(session)
        self.change = plain(change_time(program))
        self.blocks = [
            BlockForward(
                program, block, [EntryForward(program, block, one, means(one.movement)) for one in block.entries]
            )
            for block in session.blocks
        ]

    def run(self, changes: Sequence[Changes], missed_every: int | None) -> tuple[list[Ahead], list[list[Form]]]:
        """The row of each entry, and the forms of the blocks in each week."""
        rows: list[Ahead] = []
        weekly: list[list[Form]] = [[] for _ in changes]
        for block in self.blocks:
            paths = [entry.walk(changes, self.times, missed_every) for entry in block.entries]
            forms = block.weekly(changes, paths)
            rows += [_ahead(self.session, block, path, at, forms) for at, path in enumerate(paths)]
            for week, form in zip(weekly, forms, strict=True):
                week.append(form)
        return rows, weekly

    def ahead(self, weeks: Sequence[Sequence[Form]], changes: Sequence[Changes]) -> SessionAhead:
        """The minutes of the session, and what of them does not fit."""
        seconds = tuple(Fraction(self._together([form.seconds for form in week])) for week in weeks)
        within = self.session.within
        over = next((week for week, took in enumerate(seconds, start=1) if within and took > within.base), None)
        blame = self._blame(weeks[over - 1]) if over is not None else None
        shorts = tuple(ShortAhead(short, self._impossible(short, weeks, changes)) for short in self.session.shorts)
        return SessionAhead(self.session, seconds, over, blame, shorts)

    def _blame(self, week: Sequence[Form]) -> tuple[Entry, Fraction] | None:
        """The entry that has grown most beyond what is written, and by how many seconds."""
        written = [part_of(block, timed) for block in self.session.blocks
                   for timed in block_clock(self.program, block).entries]  # fmt: skip
        now = [part for form in week for part in form.parts]
        grown = [
            (part.clock.entry, Fraction(part.seconds - before.seconds))
            for before, part in zip(written, now, strict=True)
        ]
        most = max(grown, key=lambda pair: pair[1])
        return most if most[1] > 0 else None

    def _together(self, blocks: Sequence[Seconds]) -> Seconds:
        """Seconds of all blocks, and the changes between those that take time."""
        return sum(blocks) + max(sum(map(bool, blocks)) - 1, 0) * self.change

    def _impossible(
        self, short: Short, weeks: Sequence[Sequence[Form]], changes: Sequence[Changes]
    ) -> tuple[int, Fraction] | None:
        """The first week in which nothing fits a short version, and the seconds of the shortest.

        One set of movements that may stay is tried in every week, and the search asked only where it does not fit.
        """
        limit = plain(short.limit.base)
        keeps = self._may_stay()
        last: Sequence[Form] | None = None
        for number, (week, easing) in enumerate(zip(weeks, changes, strict=True), start=1):
            if easing or (last is not None and all(map(is_, last, week))):
                continue
            last = week
            tried = zip(self.blocks, week, keeps, strict=True)
            if self._together([block.shortest(form, kept, short.by) for block, form, kept in tried]) <= limit:
                continue
            shortest = trim(self.program, _session_in(self.session, week), Fraction(-1), short.by)
            assert isinstance(shortest, Infeasible)  # nothing takes less than no time
            if shortest.smallest.seconds > limit:
                return number, shortest.smallest.seconds
            keeps = self._by_block(map(bool, shortest.smallest.kept))
        return None

    def _may_stay(self) -> list[list[bool]]:
        """Movements that a version may have alone: those that must stay, and the first of every category left open."""
        places = [(block, entry) for block in self.session.blocks for entry in block.entries]
        stays = [entry.priority == "must" for _, entry in places]
        binding = binding_categories(self.program, self.session)
        filled = [fills(block, entry, binding) for block, entry in places]
        for category in binding:
            holders = [place for place, names in enumerate(filled) if category.name in names]
            if holders and not any(stays[place] for place in holders):
                stays[holders[0]] = True
        return self._by_block(stays)

    def _by_block(self, values: Iterable[bool]) -> list[list[bool]]:
        left = iter(values)
        return [list(islice(left, len(block.entries))) for block in self.session.blocks]


def _ahead(session: Session, block: BlockForward, path: Path, at: int, forms: Sequence[Form]) -> Ahead:
    """The row of the entry at a place of its block, with its doses eased where the week is."""
    here = block.entries[at]
    stages = []
    for number, form in zip(path.numbers, forms, strict=True):
        stage, entry = here.stages[number], form.parts[at].clock.entry
        stages.append(stage if stage.entry is entry else Stage(entry, stage.rung, stage.standing))
    found = (path.exhausted, path.jump, path.heaviest)
    return Ahead(session, block.block, here.entry, here.course, tuple(stages), path.steps, *found)


def _session_in(session: Session, week: Sequence[Form]) -> Session:
    """The session as it is in a week."""
    blocks = (attrs.evolve(form.clock.block, entries=tuple(part.clock.entry for part in form.parts)) for form in week)
    return attrs.evolve(session, blocks=tuple(blocks))
