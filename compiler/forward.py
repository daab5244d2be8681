"""An entry, and a block, run forward over weeks; what weeks and runs have in common is worked out once.

Seconds are whole numbers here where they can be: they are added up for every week, and fractions add slowly.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import TypeAlias

import attrs

from .axes.measured import made_of
from .clock import BlockClock, EntryClock, block_clock, change_time, entry_clock, least_sets, round_rest_time, total
from .course import UNKNOWN, Means, course_of, dose_at
from .easier import Changes, eased_block
from .model import Block, CutBy, Entry, Program, Rule, Value
from .progression import Course, Standing, Turn, after
from .quantity import Figure
from .week import COUNTED

Seconds: TypeAlias = int | Fraction


@attrs.frozen(eq=False, repr=False, match_args=False)
class Stage(Value):
    """An entry as it is for a while: its dose, its rung, and what the axes of its rule have come to."""

    entry: Entry
    rung: str | None
    standing: Standing | None


@attrs.frozen(eq=False, repr=False, match_args=False)
class Path(Value):
    """An entry over the weeks: the number of its stage in each, and the axes that took a step in each.

    `exhausted` is the first week after one of whose sessions no axis could move, nor ever will if all goes on as planned, and
    the turn that told so. `jump` is the first week in which a heavier load was passed over because the step to it is too
    large, with what is lifted and the heavier one; `heaviest` the first in which nothing heavier could be made, with what
    is lifted.
    """

    numbers: tuple[int, ...]
    steps: tuple[tuple[str, ...], ...]
    exhausted: tuple[int, Turn] | None
    jump: tuple[int, Figure, Figure] | None
    heaviest: tuple[int, Figure | None] | None


class EntryForward:
    """An entry with its course, and every stage of it that a run has come to."""

    def __init__(self, program: Program, block: Block, entry: Entry, means: Means | None) -> None:
        self.entry = entry
        follows = means is not None and isinstance(entry.rule, Rule) and entry.dose.sets
        self.course: Course | None = course_of(program, block, entry, means or UNKNOWN) if follows else None
        self.stages: list[Stage] = []
        self._numbers: dict[object, int] = {}
        self._last: tuple[Standing | None, int] = (None, -1)

    def walk(self, weeks: Sequence[Changes], times: int, missed_every: int | None) -> Path:
        """Follow the rule from session to session; a week is told by its last."""
        standing = self.course.start if self.course is not None else None
        numbers: list[int] = []
        steps: list[tuple[str, ...]] = []
        exhausted = jump = heaviest = None
        done, stands = 0, self.course is None
        for week, easing in enumerate(weeks, start=1):
            moved: tuple[str, ...] = ()
            if stands and numbers:
                numbers.append(self._number(standing))
                steps.append(moved)
                continue
            for time in range(times):
                if time == times - 1:
                    numbers.append(self._number(standing))
                if stands or easing or self.course is None or standing is None:
                    continue
                done += 1
                turn = after(self.course, standing, not missed_every or done % missed_every != 0)
                if turn.axis is not None:
                    moved += (turn.axis if turn.kind == "moved" else f"-{turn.axis}",)
                if turn.kind == "exhausted" or _waits_for_ever(standing, turn):
                    exhausted = exhausted or (week, turn)
                    stands = not missed_every or self.course.missed is None
                for blocked, figure in zip(turn.blocked, standing.figures, strict=False):  # the first axes, in order
                    lifted = None if figure is None else self.course.lifted(figure)
                    if blocked.reason == "jump" and lifted is not None and blocked.figure is not None:
                        jump = jump or (week, lifted, blocked.figure)
                    elif blocked.reason == "no-heavier":
                        heaviest = heaviest or (week, lifted)
                standing = turn.standing
            steps.append(moved)
        return Path(tuple(numbers), tuple(steps), exhausted, jump, heaviest)

    def makeable(self, entry: Entry, ordinary: Entry) -> Entry:
        """The entry as it is in an easier week, with loads that can be made."""
        if self.course is None or not self.course.loads:
            return entry
        return attrs.evolve(entry, dose=made_of(entry.dose, ordinary.dose, self.course.loads))

    def _number(self, standing: Standing | None) -> int:
        if standing is self._last[0] and self.stages:
            return self._last[1]
        key = None if standing is None else (standing.figures, standing.expected)
        number = self._numbers.setdefault(key, len(self.stages))
        if number == len(self.stages):
            self.stages.append(self._stage(standing))
        self._last = (standing, number)
        return number

    def _stage(self, standing: Standing | None) -> Stage:
        if standing is None or self.course is None:
            return Stage(self.entry, None, None)
        dose = dose_at(self.entry, self.course, standing)
        return Stage(attrs.evolve(self.entry, dose=dose), _rung(self.entry, self.course, standing), standing)


def _rung(entry: Entry, course: Course, standing: Standing) -> str | None:
    for track, figure in zip(course.tracks, standing.figures, strict=True):
        if track.kind.ladder and figure is not None and entry.movement.rungs:
            return entry.movement.rungs[int(figure)].name
    return None


def _waits_for_ever(before: Standing, turn: Turn) -> bool:
    """Whether an axis waits for repetitions that no session will bring, because it changed nothing."""
    now = turn.standing
    return turn.kind == "waiting" and (now.figures, now.expected) == (before.figures, before.expected)


@attrs.frozen(eq=False, repr=False, match_args=False)
class Part(Value):
    """An entry in some week: its clock, its seconds in full, and those spent in its sets."""

    clock: EntryClock
    seconds: Seconds
    tension: Seconds


@attrs.frozen(eq=False, repr=False, match_args=False)
class Form(Value):
    """A block in some week: its clock, its entries, its seconds in full, its sets, and the seconds spent in them."""

    clock: BlockClock
    parts: tuple[Part, ...]
    seconds: Seconds
    sets: int
    tension: Seconds


class BlockForward:
    """A block with its entries, and every form of it that a run has come to."""

    def __init__(self, program: Program, block: Block, entries: Sequence[EntryForward]) -> None:
        self.program, self.block, self.entries = program, block, entries
        self._change, self._rest = change_time(program, block), round_rest_time(program, block)
        self._parts: dict[tuple[int, int], Part] = {}
        self._forms: dict[tuple[int, ...], Form] = {}
        self._around: dict[tuple[int, ...], Seconds] = {}
        self._cut: dict[tuple[int, int], Seconds] = {}

    def weekly(self, weeks: Sequence[Changes], paths: Sequence[Path]) -> list[Form]:
        """The form of the block in every week."""
        forms = []
        for week, easing in enumerate(weeks):
            key = tuple(path.numbers[week] for path in paths)
            if easing:
                forms.append(self._eased(key, easing))
            else:
                if key not in self._forms:
                    self._forms[key] = self._form(key)
                forms.append(self._forms[key])
        return forms

    def shortest(self, form: Form, keeps: Sequence[bool], by: CutBy) -> Seconds:
        """Seconds of a form of the block with these movements alone, each with the fewest sets that a cut allows."""
        kept = [
            0
            if not keep
            else len(part.clock.sets)
            if by == "movements"
            else least_sets(part.clock.entry, len(part.clock.sets))
            for part, keep in zip(form.parts, keeps, strict=True)
        ]
        if self.block.rounds is not None:
            kept = [max(kept) if sets else 0 for sets in kept]
        work = [self._kept(part, sets) for part, sets in zip(form.parts, kept, strict=True) if sets]
        return sum(work) + self._between(form.clock, tuple(kept)) if work else 0

    def _kept(self, part: Part, sets: int) -> Seconds:
        if sets == len(part.clock.sets):
            return part.seconds
        key = (id(part), sets)  # parts live as long as the block does
        if key not in self._cut:
            clock, circuit = part.clock, self.block.rounds is not None
            self._cut[key] = plain(clock.circuit_seconds(sets) if circuit else clock.seconds(sets))
        return self._cut[key]

    def _between(self, clock: BlockClock, kept: tuple[int, ...]) -> Seconds:
        if kept not in self._around:
            self._around[kept] = plain(clock.around(kept))
        return self._around[kept]

    def _form(self, key: tuple[int, ...]) -> Form:
        parts = tuple(self._part(place, number) for place, number in enumerate(key))
        clock = BlockClock(self.block, tuple(part.clock for part in parts), self._change, self._rest)
        return _form(clock, parts, self._between(clock, tuple(len(part.clock.sets) for part in parts)))

    def _part(self, place: int, number: int) -> Part:
        if (place, number) not in self._parts:
            entry = self.entries[place].stages[number].entry
            self._parts[place, number] = part_of(self.block, entry_clock(self.block, entry, self._rest))
        return self._parts[place, number]

    def _eased(self, key: tuple[int, ...], easing: Changes) -> Form:
        entries = tuple(here.stages[number].entry for here, number in zip(self.entries, key, strict=True))
        eased = eased_block(attrs.evolve(self.block, entries=entries), easing)
        both = zip(self.entries, eased.entries, entries, strict=True)
        made = tuple(here.makeable(entry, ordinary) for here, entry, ordinary in both)
        clock = block_clock(self.program, attrs.evolve(eased, entries=made))
        parts = tuple(part_of(clock.block, timed) for timed in clock.entries)
        return _form(clock, parts, plain(clock.around([len(timed.sets) for timed in clock.entries])))


def part_of(block: Block, clock: EntryClock) -> Part:
    """An entry of a block with its sums."""
    kept = len(clock.sets)
    tension = total(clock.sets)
    if not kept:
        return Part(clock, 0, 0)
    rests = clock.rest * (len(clock.ramp) + (kept - 1 if block.rounds is None else 0))
    around = rests + total(clock.ramp) if clock.ramp else rests
    return Part(clock, plain(tension) + plain(around), plain(tension))


def _form(clock: BlockClock, parts: tuple[Part, ...], around: Seconds) -> Form:
    seconds = around + sum(part.seconds for part in parts)
    if clock.block.kind not in COUNTED:
        return Form(clock, parts, seconds, 0, 0)
    return Form(clock, parts, seconds, sum(len(part.clock.sets) for part in parts), sum(part.tension for part in parts))


def plain(seconds: Seconds) -> Seconds:
    """The same as a whole number, where it is one."""
    return seconds.numerator if seconds.denominator == 1 else seconds
