"""What a program *is*: frozen objects in which every name is resolved and every figure exact.

Durations are seconds and distances metres as `Quantity` where the coach wrote them. Spans point at the source and take no
part in comparisons.
"""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from typing import TYPE_CHECKING, Any, Literal, TypeAlias

import attrs

from ..grammar.source import Span
from .quantity import Quantity

if TYPE_CHECKING:
    from .progression import Course, Standing

Priority = Literal["must", "key", "do", "may"]
PRIORITIES: tuple[Priority, ...] = ("must", "key", "do", "may")
BlockKind = Literal["warm-up", "work", "conditioning", "cool-down"]
BLOCK_KINDS: tuple[BlockKind, ...] = ("warm-up", "work", "conditioning", "cool-down")
CutBy = Literal["sets", "movements"]
DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


class Value:
    """What all values of the model share: equal where their fields are, places left out.

    One method here instead of one made for each class: making them is a good part of a short check.
    """

    __slots__ = ()

    def _compared(self) -> tuple[object, ...]:
        fields: tuple[attrs.Attribute[object], ...] = attrs.fields(type(self))  # type: ignore[arg-type]
        return tuple(getattr(self, field.name) for field in fields if field.eq)

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and self._compared() == other._compared()

    def __hash__(self) -> int:
        return hash((type(self), self._compared()))

    def __repr__(self) -> str:
        fields: tuple[attrs.Attribute[object], ...] = attrs.fields(type(self))  # type: ignore[arg-type]
        shown = (f"{field.name}={getattr(self, field.name)!r}" for field in fields if field.repr)
        return f"{type(self).__name__}({', '.join(shown)})"


def place() -> Any:
    """A field for the span of an object: kept, but not compared and not shown."""
    return attrs.field(eq=False, repr=False, kw_only=True)


@attrs.frozen(eq=False, repr=False, match_args=False)
class Allow(Value):
    """A code silenced in the source, in sight, with the coach's reason."""

    code: str
    because: str
    span: Span = place()


# Movements


@attrs.frozen(eq=False, repr=False, match_args=False)
class Rung(Value):
    """One step of a ladder of variants; `moves` is the share of body mass moved, with where it was read."""

    name: str
    text: str
    moves: Quantity | None = None
    source: str | None = None
    needs: tuple[str, ...] = ()


@attrs.frozen(eq=False, repr=False, match_args=False)
class Movement(Value):
    name: str
    title: str
    patterns: tuple[str, ...]
    held: bool = False
    rungs: tuple[Rung, ...] = ()
    needs: tuple[str, ...] = ()
    loaded_by: tuple[str, ...] = ()  # "dumbbell", "dumbbell pair", ...
    rep: Quantity | None = None  # time of one repetition
    covers: tuple[Quantity, Quantity] | None = None  # a distance, and the time it takes
    cues: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    how: str = ""
    allows: tuple[Allow, ...] = ()
    span: Span = place()


# Doses


@attrs.frozen(eq=False, repr=False, match_args=False)
class Reps(Value):
    """A number of repetitions, or a range."""

    low: int
    high: int


@attrs.frozen(eq=False, repr=False, match_args=False)
class Amrap(Value):
    """As many repetitions as possible, leaving some in reserve; `expect` is what the clock counts with."""

    leaving: int | None = None
    expect: int | None = None


@attrs.frozen(eq=False, repr=False, match_args=False)
class Timed(Value):
    """A set that lasts a time."""

    time: Quantity


@attrs.frozen(eq=False, repr=False, match_args=False)
class Distance(Value):
    """A set that covers a distance."""

    length: Quantity


Target: TypeAlias = Reps | Amrap | Timed | Distance


@attrs.frozen(eq=False, repr=False, match_args=False)
class WorkSet(Value):
    """One set: what is to be reached, and its own load (a mass or a share of the training maximum) if it has one."""

    target: Target
    load: Quantity | None = None


@attrs.frozen(eq=False, repr=False, match_args=False)
class RampSet(Value):
    """A lighter set before the work: a share of the training maximum, and repetitions."""

    share: Quantity
    reps: int


@attrs.frozen(eq=False, repr=False, match_args=False)
class Tempo(Value):
    """Seconds of the parts of a repetition, None where the coach said nothing; `cues` are counted words in the pause."""

    lower: Quantity | None = None
    pause: Quantity | None = None
    cues: int | None = None
    up: Quantity | Literal["fast"] | None = None  # written `raise`
    top: Quantity | None = None


@attrs.frozen(eq=False, repr=False, match_args=False)
class Dose(Value):
    """What one entry asks for. `sets` holds one target a set; in a circuit it holds one, done in every round."""

    sets: tuple[WorkSet, ...]
    ramp: tuple[RampSet, ...] = ()
    each_side: bool = False
    load: Quantity | None = None  # a mass or a share of the training maximum, for every set without its own
    rpe: str | None = None  # as written: "7" or "7.5"
    tempo: Tempo = Tempo()
    rest: Quantity | None = None
    least_sets: int = 1
    logs: tuple[str, ...] = ()  # what else to write down: "distance", "time"
    span: Span = place()


# Progression


@attrs.frozen(eq=False, repr=False, match_args=False)
class Axis(Value):
    """One axis of a rule: its step and bound (a count or a quantity, a rung's name as a bound), None where not said."""

    name: str
    step: int | Quantity | None = None
    bound: int | Quantity | str | None = None
    at: int | None = None  # `rung at 15 reps`
    restarting: tuple[str, ...] = ()
    span: Span = place()


@attrs.frozen(eq=False, repr=False, match_args=False)
class Rule(Value):
    """An ordered list of axes; `good` sessions in a row before a step, `missed` before easing `ease`."""

    axes: tuple[Axis, ...]
    good: int = 1
    missed: int | None = None
    ease: tuple[str, int | Quantity] | None = None
    span: Span = place()


@attrs.frozen(eq=False, repr=False, match_args=False)
class NoProgress(Value):
    """`advance none because "..."`: the coach's word that a movement stays as it is."""

    because: str
    span: Span = place()


# Programs


@attrs.frozen(eq=False, repr=False, match_args=False)
class Alternative(Value):
    movement: Movement
    dose: Dose
    rule: Rule | NoProgress | None = None
    condition: str | None = None  # as of an entry
    span: Span = place()


@attrs.frozen(eq=False, repr=False, match_args=False)
class Fitted(Value):
    """How an entry was fitted to its athlete.

    `rung` is the variant that it is done in, for a movement with rungs. `made` has each load that the dose tells, a weight
    or a share of the training maximum, with how it is made, and None with a band. A share of a maximum that nobody knows is
    left out. `instead_of` is the movement as the program has it, where an `else` took its place. `stands` is the course
    that the athlete began and where a log has led on it; None where none did, and they stand where they begin.
    """

    rung: str | None = None
    made: tuple[tuple[Quantity | None, Made], ...] = ()
    instead_of: Movement | None = None
    stands: tuple[Course, Standing] | None = None


@attrs.frozen(eq=False, repr=False, match_args=False)
class Entry(Value):
    priority: Priority
    movement: Movement
    dose: Dose
    rule: Rule | NoProgress | None = None
    otherwise: tuple[Alternative, ...] = ()
    condition: str | None = None  # "able", or the name of a thing that must be there
    note: str = ""
    allows: tuple[Allow, ...] = ()
    fitted: Fitted | None = None  # of a program that was fitted to an athlete
    span: Span = place()


@attrs.frozen(eq=False, repr=False, match_args=False)
class Block(Value):
    name: str
    title: str
    kind: BlockKind
    entries: tuple[Entry, ...]
    rounds: int | None = None  # a circuit, where not None
    rest: Quantity | None = None
    change: Quantity | None = None
    note: str = ""
    allows: tuple[Allow, ...] = ()
    damaged: bool = attrs.field(default=False, eq=False)  # entries of it could not be read
    span: Span = place()


@attrs.frozen(eq=False, repr=False, match_args=False)
class Short(Value):
    """A shorter version that the coach asks for: its limit, and whether sets or whole movements go."""

    limit: Quantity
    by: CutBy
    span: Span = place()


@attrs.frozen(eq=False, repr=False, match_args=False)
class Session(Value):
    name: str
    title: str
    blocks: tuple[Block, ...]
    per_week: int | None = None
    days: tuple[str, ...] = ()
    within: Quantity | None = None
    shorts: tuple[Short, ...] = ()
    note: str = ""
    allows: tuple[Allow, ...] = ()
    pace: Fraction = Fraction(1)  # how long it takes an athlete, by their own logs, as a share of what is planned
    span: Span = place()
    within_span: Span | None = place()
    week: int | None = attrs.field(default=None, kw_only=True)  # on the way back: the only week in which it is held

    @property
    def entries(self) -> tuple[Entry, ...]:
        """All entries in the order of work."""
        return tuple(entry for block in self.blocks for entry in block.entries)


@attrs.frozen(eq=False, repr=False, match_args=False)
class Category(Value):
    """A category of movements: those whose pattern it counts."""

    name: str
    title: str
    counts: tuple[str, ...]
    required: bool = False
    at_least: int | None = None  # times a week
    span: Span = place()

    def holds(self, movement: Movement) -> bool:
        """Whether the movement belongs to the category."""
        return any(pattern in self.counts for pattern in movement.patterns)


@attrs.frozen(eq=False, repr=False, match_args=False)
class Easier(Value):
    """Weeks that are easier on purpose, and by how much each axis: `weeks 4, 8: sets by -1, load by -10%`.

    Weeks count from 1. A change is below zero: `("sets", -1)`, `("load", Quantity(Fraction(-10), "%"))`.
    """

    weeks: tuple[int, ...]
    changes: tuple[tuple[str, int | Quantity], ...]
    span: Span = place()


@attrs.frozen(eq=False, repr=False, match_args=False)
class Return(Value):
    """The way back to another program after weeks without training: `return to boat-shed after 3 weeks`.

    `volume` and `loads` hold a share of the normal work for each week of it. `normal` is the other program; None where there
    is none of that name.
    """

    to: str
    after: int
    volume: tuple[Quantity, ...]
    loads: tuple[Quantity, ...]
    normal: Program | None = attrs.field(default=None, eq=False, repr=False)
    span: Span = place()


@attrs.frozen(eq=False, repr=False, match_args=False)
class Program(Value):
    name: str
    title: str
    revision: int = 1
    dated: date | None = None
    audience: str = ""
    coach: str = ""
    ask_by: str = ""
    units: Literal["kg", "lb"] = "kg"
    weeks: int | None = None
    rest: Quantity | None = None
    change: Quantity | None = None
    jump: Quantity | None = None
    easier: tuple[Easier, ...] = ()
    returns: Return | None = None
    aims: str = ""
    rules: str = ""
    categories: tuple[Category, ...] = ()
    sessions: tuple[Session, ...] = ()
    allows: tuple[Allow, ...] = ()
    fingerprint: str = attrs.field(default="", eq=False)  # of the source files it was compiled from
    athlete: Athlete | None = None  # whom it was fitted to
    after: date | None = None  # the last logged session that led to what it asks for
    damaged: bool = attrs.field(default=False, eq=False)  # lines of it could not be read
    span: Span = place()


# Athletes


@attrs.frozen(eq=False, repr=False, match_args=False)
class Implement(Value):
    """Something to lift: its kind, and masses, plates, volume or names as the kind has them."""

    kind: str
    pair: bool = False
    masses: tuple[Quantity, ...] = ()
    plates: tuple[tuple[int, Quantity], ...] = ()
    volume: Quantity | None = None
    title: str = ""
    weighing: Quantity | None = None
    fill: tuple[str, ...] = ()
    steps: tuple[str, ...] = ()  # bands
    limit: Quantity | None = None  # the most that a container may weigh, filled
    straight: bool = False  # a container with straight sides: shares of its height are shares of its volume
    span: Span = place()


@attrs.frozen(eq=False, repr=False, match_args=False)
class Made(Value):
    """A load as somebody makes it of an implement; None where nobody says what there is to lift.

    `load` is in kg and that of one, where it takes `two`; None for a band, which has a `band` step instead. `plates` are
    those of one end, how many of each, the heaviest first. `litres` of a `filling` are those to the line.
    """

    load: Fraction | None
    implement: Implement | None
    two: bool = False
    plates: tuple[tuple[int, Quantity], ...] = ()
    filling: str = ""
    litres: Fraction | None = None
    band: str = ""


@attrs.frozen(eq=False, repr=False, match_args=False)
class Exclusion(Value):
    movement: str  # a movement or a pattern
    because: str
    span: Span = place()


@attrs.frozen(eq=False, repr=False, match_args=False)
class Start(Value):
    """Where an athlete begins in a movement."""

    movement: str
    load: Quantity | None = None
    rung: str | None = None
    reps: int | None = None
    amount: Quantity | None = None
    band: str | None = None
    span: Span = place()


@attrs.frozen(eq=False, repr=False, match_args=False)
class Athlete(Value):
    name: str
    title: str
    born: int | None = None
    body: Quantity | None = None
    alone: bool = False
    starts: date | None = None
    days: tuple[str, ...] = ()
    implements: tuple[Implement, ...] = ()
    things: tuple[str, ...] = ()  # floor, step, ...
    avoids: tuple[Exclusion, ...] = ()
    begins: tuple[Start, ...] = ()
    maxima: tuple[tuple[str, Quantity], ...] = ()
    alone_cap: Quantity | None = None
    jump: Quantity | None = None
    prints: tuple[str, ...] = ()
    follows: tuple[str, ...] = ()  # names of programs
    allows: tuple[Allow, ...] = ()
    fingerprint: str = attrs.field(
        default="", eq=False
    )  # of all that is written about them, where they are compiled alone
    span: Span = place()


@attrs.frozen(eq=False, repr=False, match_args=False)
class Group(Value):
    name: str
    title: str
    members: tuple[str, ...]
    span: Span = place()


# Logs


@attrs.frozen(eq=False, repr=False, match_args=False)
class LoggedEntry(Value):
    """What was done of one movement: the state it was done in, and the figure of each set."""

    movement: str
    load: Quantity | None = None
    rung: str | None = None
    tempo: Tempo = Tempo()
    rpe: str | None = None
    rest: Quantity | None = None
    results: tuple[int | Quantity, ...] = ()
    band: str | None = None
    span: Span = place()


@attrs.frozen(eq=False, repr=False, match_args=False)
class LoggedSession(Value):
    date: date
    session: str
    short: Quantity | None = None
    took: Quantity | None = None
    rpe: str | None = None
    entries: tuple[LoggedEntry, ...] = ()
    note: str = ""
    span: Span = place()


@attrs.frozen(eq=False, repr=False, match_args=False)
class Log(Value):
    athlete: str
    program: str
    revision: int | None
    sessions: tuple[LoggedSession, ...]
    span: Span = place()


@attrs.frozen(eq=False, repr=False, match_args=False)
class Project(Value):
    """All that a set of sources declares."""

    movements: tuple[Movement, ...] = ()
    programs: tuple[Program, ...] = ()
    athletes: tuple[Athlete, ...] = ()
    groups: tuple[Group, ...] = ()
    logs: tuple[Log, ...] = ()
