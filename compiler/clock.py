"""How long training takes: exact seconds for a repetition, a set, an entry, a block and a session.

A version of a session says how many sets of each entry are kept: a tuple with one number an entry, in source order.
In a circuit they are rounds. Sets are kept from the first on: nobody comes to a heavier set without those before it.

All figures are fractions of seconds; nothing is rounded here.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import accumulate
from typing import NamedTuple

import attrs

from .model import Amrap, Block, Distance, Dose, Entry, Movement, Program, Reps, Session, Target, Tempo, Timed, Value
from .quantity import Quantity
from .remembering import remembered

Kept = tuple[int, ...]

# The figures that stand where the coach says nothing, all in seconds but the last.

# The middle of "moderate velocity: 1-2 s concentric, 1-2 s eccentric" (ACSM position stand, Progression Models in
# Resistance Training for Healthy Adults, Med Sci Sports Exerc 2009;41(3):687-708; read in a summary).
REPETITION = Fraction(3)
# Common practice, no source. Within the ACSM's 1-2 minutes for assistance exercises (2009, as above).
REST = Fraction(60)
# Common practice, no source: walking to the next place and taking up the next weight.
CHANGE = Fraction(45)
# Common practice, no source: a metre a second, a careful walk with something in the hands.
METRE = Fraction(1)
# Common practice, no source: one word said in the mind.
CUE = Fraction(1)
# Common practice, no source: raising as fast as possible, with taking hold before it.
FAST = Fraction(1)
# Common practice, no source: repetitions of a set of as many as possible, where none are expected.
AMRAP_REPETITIONS = 10


def repetition_time(movement: Movement, tempo: Tempo) -> Fraction:
    """Seconds of one repetition: the movement's own, or the sum of the parts of a tempo.

    That the parts add up is the definition of repetition duration in Schoenfeld, Ogborn and Krieger, Sports Med
    2015;45(4):577-585. A part that the tempo leaves out is half of the movement's own time for lowering and for
    raising, and nothing for the two pauses.
    """
    own = _seconds(movement.rep, REPETITION)
    if tempo.lower is None and tempo.pause is None and tempo.cues is None and tempo.up is None and tempo.top is None:
        return own
    raising = FAST if tempo.up == "fast" else _seconds(tempo.up, own / 2)
    return _seconds(tempo.lower, own / 2) + _pause_time(tempo) + raising + _seconds(tempo.top, Fraction(0))


def set_time(movement: Movement, dose: Dose, target: Target) -> Fraction:
    """Seconds of one set, both sides of it where it is done on each side; no rest.

    A range of repetitions counts at its top, as many as possible at what is expected. A distance takes as long as the
    movement `covers` it.
    """
    sides = 2 if dose.each_side else 1
    match target:
        case Reps(high=reps):
            return repetition_time(movement, dose.tempo) * (sides * reps)
        case Amrap(expect=expected):
            reps = AMRAP_REPETITIONS if expected is None else expected
            return repetition_time(movement, dose.tempo) * (sides * reps)
        case Timed(time=time):
            return time.base * sides
        case Distance(length=length):
            return length.base * _metre_time(movement) * sides


def ramp_times(movement: Movement, dose: Dose) -> tuple[Fraction, ...]:
    """Seconds of each of the lighter sets before the work."""
    return tuple(set_time(movement, dose, Reps(lighter.reps, lighter.reps)) for lighter in dose.ramp)


def rest_time(program: Program, block: Block, entry: Entry) -> Fraction:
    """Seconds between two sets of an entry: what the entry says, else its block, else the program, else 60 s."""
    return _seconds(entry.dose.rest, round_rest_time(program, block))


def round_rest_time(program: Program, block: Block) -> Fraction:
    """Seconds between two rounds of a circuit: what the block says, else the program, else 60 s."""
    return _seconds(block.rest, _seconds(program.rest, REST))


def change_time(program: Program, block: Block | None = None) -> Fraction:
    """Seconds between two movements of a block, or of two blocks: the block's, else the program's, else 45 s."""
    return _seconds(block.change if block else None, _seconds(program.change, CHANGE))


def full_sets(block: Block, entry: Entry) -> int:
    """The work sets of an entry when nothing is cut; in a circuit the rounds."""
    if block.rounds is None:
        return len(entry.dose.sets)
    return block.rounds if entry.dose.sets else 0


def least_sets(entry: Entry, full: int) -> int:
    """The fewest sets that are left of an entry where some of so many are cut: those worth doing, and one at the least."""
    return min(max(entry.dose.least_sets, 1), full)


def full_version(session: Session) -> Kept:
    """The version of a session in which nothing is cut."""
    return tuple(full_sets(block, entry) for block in session.blocks for entry in block.entries)


@attrs.frozen(eq=False, repr=False, match_args=False)
class TimedEntry(Value):
    """An entry with its kept sets and its seconds: sets and the rests between them; in a circuit its sets alone."""

    entry: Entry
    kept: int
    seconds: Fraction


@attrs.frozen(eq=False, repr=False, match_args=False)
class TimedBlock(Value):
    """A block with the second of the session at which its first set starts, and the seconds to the end of its last.

    A block of which nothing is kept takes 0 s and starts when the work before it ends.
    """

    block: Block
    start: Fraction
    seconds: Fraction
    entries: tuple[TimedEntry, ...]


@attrs.frozen(eq=False, repr=False, match_args=False)
class Timetable(Value):
    """A version of a session on the clock, in seconds: every block, every entry, the whole.

    The blocks do not add up to the whole: the changes between them belong to none.
    """

    session: Session
    blocks: tuple[TimedBlock, ...]
    seconds: Fraction


def total(times: Sequence[Fraction]) -> Fraction:
    """The sum of times, which mostly are all the same."""
    if len(times) > 1 and times.count(times[0]) == len(times):
        return times[0] * len(times)
    return sum(times, Fraction(0))


@attrs.frozen(eq=False, repr=False, match_args=False)
class EntryClock(Value):
    """The times of one entry in seconds: each ramp set, each work set (in a circuit each round), the rest between."""

    entry: Entry
    ramp: tuple[Fraction, ...]
    sets: tuple[Fraction, ...]
    rest: Fraction

    def seconds(self, kept: int) -> Fraction:
        """Seconds of the entry with its first sets kept; ramp sets stay as long as any work set does."""
        if not kept:
            return Fraction(0)
        return total(self.ramp + self.sets[:kept]) + self.rest * (len(self.ramp) + kept - 1)

    def circuit_seconds(self, kept: int) -> Fraction:
        """Seconds of the entry in a circuit: its sets in the kept rounds; its ramp sets, with a rest after each."""
        if not kept:
            return Fraction(0)
        return total(self.sets[:kept] + self.ramp) + self.rest * len(self.ramp)


@attrs.frozen(eq=False, repr=False, match_args=False)
class BlockClock(Value):
    """The times of one block in seconds: its entries, the change between its movements, the rest between rounds."""

    block: Block
    entries: tuple[EntryClock, ...]
    change: Fraction
    rest: Fraction

    def entry_seconds(self, number: int, kept: int) -> Fraction:
        """Seconds of an entry of the block, counted from 0."""
        entry = self.entries[number]
        return entry.seconds(kept) if self.block.rounds is None else entry.circuit_seconds(kept)

    def seconds(self, kept: Sequence[int]) -> Fraction:
        """Seconds from the block's first set to the end of its last, with one number of kept sets an entry.

        In a circuit an entry with fewer rounds than others leaves out the last ones.
        """
        work = [self.entry_seconds(number, sets) for number, sets in enumerate(kept) if sets]
        return sum(work, self.around(kept))

    def around(self, kept: Sequence[int]) -> Fraction:
        """Seconds of the changes between its movements, and in a circuit of the rests between its rounds."""
        if self.block.rounds is None:
            return self.change * max(sum(map(bool, kept)) - 1, 0)
        rounds = max(kept, default=0)
        stations = sum(kept) - rounds  # each station of a round but its first is changed to
        return self.change * stations + self.rest * max(rounds - 1, 0)


@attrs.frozen(eq=False, repr=False, match_args=False)
class SessionClock(Value):
    """All times of a session, worked out once, for the clock of any version of it. Seconds."""

    session: Session
    blocks: tuple[BlockClock, ...]
    change: Fraction  # between the last movement of a block and the first of the next

    def seconds(self, kept: Kept) -> Fraction:
        """Seconds of a version, from its first set to the end of its last."""
        whole = whole_clock(self)
        parts = [block.seconds(sets) for block, sets in zip(whole.blocks, self._parts(kept), strict=True) if any(sets)]
        return Fraction(sum(parts) + max(len(parts) - 1, 0) * whole.change, whole.scale)

    def timetable(self, kept: Kept) -> Timetable:
        """When each block of a version starts, and how long each block and entry takes."""
        whole = whole_clock(self)
        now, started = 0, False
        blocks: list[TimedBlock] = []
        for clock, times, kept_here in zip(self.blocks, whole.blocks, self._parts(kept), strict=True):
            start = now + whole.change if started and any(kept_here) else now
            seconds = times.seconds(kept_here)
            entries = tuple(
                TimedEntry(part.entry, sets, Fraction(own[sets], whole.scale))
                for part, own, sets in zip(clock.entries, times.entries, kept_here, strict=True)
            )
            blocks.append(
                TimedBlock(clock.block, Fraction(start, whole.scale), Fraction(seconds, whole.scale), entries)
            )
            now = start + seconds
            started = started or any(kept_here)
        return Timetable(self.session, tuple(blocks), Fraction(now, whole.scale))

    def _parts(self, kept: Kept) -> Iterator[Kept]:
        """The kept sets of each block."""
        if len(kept) != sum(len(block.entries) for block in self.blocks):
            raise ValueError("a version has one number of kept sets an entry")
        at = 0
        for block in self.blocks:
            yield kept[at : at + len(block.entries)]
            at += len(block.entries)


class WholeBlock(NamedTuple):
    """A block in whole numbers: `entries` have the time of each for every number of its sets, from none on."""

    circuit: bool
    change: int
    rest: int
    entries: tuple[tuple[int, ...], ...]

    def seconds(self, kept: Kept) -> int:
        """The time of a version of it, as `BlockClock.seconds` has it."""
        work = sum(times[sets] for times, sets in zip(self.entries, kept, strict=True))
        if not self.circuit:
            return work + max(sum(map(bool, kept)) - 1, 0) * self.change
        rounds = max(kept, default=0)
        return work + (sum(kept) - rounds) * self.change + max(rounds - 1, 0) * self.rest


class WholeClock(NamedTuple):
    """A session clock in whole numbers, in a unit that is a `scale`th of a second: fractions are slow to reckon with."""

    scale: int
    change: int
    blocks: tuple[WholeBlock, ...]


@remembered(8)
def whole_clock(clock: SessionClock) -> WholeClock:
    """The clock in whole numbers, exactly."""
    times = [clock.change]
    for block in clock.blocks:
        times += (block.change, block.rest, *(entry.rest for entry in block.entries))
        times += (time for entry in block.entries for time in (*entry.ramp, *entry.sets))
    scale = math.lcm(*{time.denominator for time in times})

    def whole(seconds: Fraction) -> int:
        return seconds.numerator * (scale // seconds.denominator)

    def entry_times(entry: EntryClock, circuit: bool) -> tuple[int, ...]:
        # In a circuit the rest after each round is none of the entry's; outside there is one between two sets.
        rest = whole(entry.rest)
        first = sum(whole(time) + rest for time in entry.ramp) - (0 if circuit else rest)
        sets = (whole(time) + (0 if circuit else rest) for time in entry.sets)
        return (0, *tuple(accumulate(sets, initial=first))[1:])

    blocks = tuple(
        WholeBlock(
            circuit := block.block.rounds is not None,
            whole(block.change),
            whole(block.rest),
            tuple(entry_times(entry, circuit) for entry in block.entries),
        )
        for block in clock.blocks
    )
    return WholeClock(scale, whole(clock.change), blocks)


@remembered(8)  # the sheets of a program ask for it again and again
def session_clock(program: Program, session: Session) -> SessionClock:
    """The clock of a session: every set, rest and change of it in seconds, at the pace of the athlete."""
    blocks = tuple(block_clock(program, block) for block in session.blocks)
    clock = SessionClock(session, blocks, change_time(program))
    return clock if session.pace == 1 else _at_pace(clock, session.pace)


def _at_pace(clock: SessionClock, pace: Fraction) -> SessionClock:
    def entry(one: EntryClock) -> EntryClock:
        ramp, sets = (tuple(time * pace for time in times) for times in (one.ramp, one.sets))
        return EntryClock(one.entry, ramp, sets, one.rest * pace)

    blocks = tuple(
        BlockClock(one.block, tuple(map(entry, one.entries)), one.change * pace, one.rest * pace)
        for one in clock.blocks
    )
    return SessionClock(clock.session, blocks, clock.change * pace)


def session_time(program: Program, session: Session, kept: Kept | None = None) -> Fraction:
    """Seconds of a session, or of a version of it."""
    return _full_time(program, session) if kept is None else session_clock(program, session).seconds(kept)


@remembered(16)
def _full_time(program: Program, session: Session) -> Fraction:
    return session_clock(program, session).seconds(full_version(session))


def timetable(program: Program, session: Session, kept: Kept | None = None) -> Timetable:
    """The timetable of a session, or of a version of it."""
    return _timetable(program, session, kept)


@remembered(16)
def _timetable(program: Program, session: Session, kept: Kept | None) -> Timetable:
    return session_clock(program, session).timetable(full_version(session) if kept is None else kept)


def block_clock(program: Program, block: Block) -> BlockClock:
    """The clock of a block."""
    rest = round_rest_time(program, block)
    entries = tuple(entry_clock(block, entry, rest) for entry in block.entries)
    return BlockClock(block, entries, change_time(program, block), rest)


def entry_clock(block: Block, entry: Entry, round_rest: Fraction) -> EntryClock:
    """The clock of an entry in its block, with the seconds that `round_rest_time` tells of the block."""
    return _entry_clock(entry, block.rounds, round_rest)


@remembered(1024, values=2)  # athletes who begin it alike share an entry
def _entry_clock(entry: Entry, rounds: int | None, round_rest: Fraction) -> EntryClock:
    movement, dose = entry.movement, entry.dose
    if rounds is not None:
        sets = tuple(set_time(movement, dose, work.target) for work in dose.sets[:1]) * rounds
        return EntryClock(entry, ramp_times(movement, dose), sets, round_rest)
    times: dict[int, Fraction] = {}  # most sets of a dose are the same object
    for work in dose.sets:
        if id(work) not in times:
            times[id(work)] = set_time(movement, dose, work.target)
    sets = tuple(times[id(work)] for work in dose.sets)
    return EntryClock(entry, ramp_times(movement, dose), sets, _seconds(dose.rest, round_rest))


def _pause_time(tempo: Tempo) -> Fraction:
    if tempo.pause is not None or tempo.cues is None:
        return _seconds(tempo.pause, Fraction(0))
    return CUE * tempo.cues


def _metre_time(movement: Movement) -> Fraction:
    if movement.covers is None:
        return METRE
    length, time = movement.covers
    return time.base / length.base


def _seconds(said: Quantity | None, otherwise: Fraction) -> Fraction:
    return otherwise if said is None else said.base
