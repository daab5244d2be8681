"""The figures with which an athlete begins an entry: its rung, its repetitions or time, and its loads."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from .at_hand import AtHand
from .axes import AXES
from .course import UNKNOWN, Means, course_of, dose_at
from .lifting import lifted
from .model import Amrap, Axis, Block, Dose, Entry, Made, Movement, NoProgress, Program, Reps, Rule, Rung, Start, Value
from .quantity import Quantity
from .reasons import Kind, Reason
from .remembering import remembered

_BEGUN = tuple(name for name, kind in AXES.items() if kind.begun and name not in ("rung", "total reps"))


@attrs.frozen(eq=False, repr=False, match_args=False)
class Started(Value):
    """An entry as an athlete begins it: its movement with the rungs that can be done, its dose and its rule for them."""

    movement: Movement
    dose: Dose
    rule: Rule | NoProgress | None
    rung: str | None
    made: tuple[tuple[Quantity | None, Made], ...]
    reasons: tuple[Reason, ...]


MOST = 4096
_KNOWN: dict[tuple[object, ...], tuple[tuple[object, ...], Started | Reason]] = {}


def started(program: Program, block: Block, entry: Entry, hands: AtHand) -> Started | Reason:
    """The entry as the athlete begins it, or why it cannot be begun: all loads are too heavy, or all rungs too hard.

    For athletes who bring the same it is the same object.
    """
    key = (id(program), id(block), id(entry), *hands.brought(entry.movement))
    if key not in _KNOWN:
        if len(_KNOWN) >= MOST:
            _KNOWN.clear()
        _KNOWN[key] = ((program, block, entry), _started(program, block, entry, hands))
    return _KNOWN[key][1]


def _started(program: Program, block: Block, entry: Entry, hands: AtHand) -> Started | Reason:
    begins = hands.begins.get(entry.movement.name)
    stands = _rung(entry, begins, hands)
    if isinstance(stands, Reason):
        return stands
    movement, rung, reasons = stands
    means = hands.means(entry.movement)
    assert means is not None  # what is avoided is never begun
    cap = means.cap if movement.loaded_by else None
    rule = entry.rule if movement is entry.movement and cap is None else _rule(entry, movement, cap)
    if not movement.loaded_by and (begins is None or (begins.reps is None and begins.amount is None)):
        return Started(movement, _dose_of_anybody(program, block, entry), rule, rung, (), reasons)
    dose = _dose(program, block, attrs.evolve(entry, movement=movement), means)
    reasons += tuple(_counted(movement, entry.dose, begins))
    if not movement.loaded_by:
        return Started(movement, dose, rule, rung, (), reasons)
    loads = lifted(program, entry, dose, means, hands)
    if isinstance(loads, Reason):
        return loads
    return Started(movement, loads.dose, rule, rung, loads.made, reasons + loads.reasons)


@remembered(256)  # of what nobody begins otherwise it is the same for all
def _dose_of_anybody(program: Program, block: Block, entry: Entry) -> Dose:
    return _dose(program, block, entry, UNKNOWN)


def _dose(program: Program, block: Block, entry: Entry, means: Means) -> Dose:
    """The dose with the athlete's first figures, whichever of them the rule moves."""
    axes = tuple(Axis(name, span=entry.span) for name in _BEGUN if AXES[name].unfit(block, entry) is None)
    course = course_of(program, block, attrs.evolve(entry, rule=Rule(axes, span=entry.span)), means)
    assert course is not None
    return dose_at(entry, course, course.start)


def _rung(
    entry: Entry, begins: Start | None, hands: AtHand
) -> tuple[Movement, str | None, tuple[Reason, ...]] | Reason:
    """The movement with the rungs that can be done, and the one to begin on: never a harder one than was said.

    Where nobody says one, a rule that climbs begins on the lowest; else the athlete may choose.
    """
    movement = entry.movement
    if not movement.rungs:
        return movement, None, ()
    names = [rung.name for rung in movement.rungs]
    possible = hands.rungs(movement)
    able = [rung.name for rung in possible]
    reasons: list[Reason] = []
    if len(able) < len(names):
        reasons.append(Reason("rungs-left-out", movement, names=tuple(name for name in names if name not in able)))
    fewer = movement if len(able) == len(names) else _with_rungs(movement, *possible)
    said = begins.rung if begins is not None else None
    if begins is None or said is None or said not in names:
        climbs = isinstance(entry.rule, Rule) and any(axis.name == "rung" for axis in entry.rule.axes)
        if not climbs:
            return fewer, None, tuple(reasons)
        return fewer, able[0], (Reason("rung-first", movement, able[0]), *reasons)
    easier = [name for name in names[: names.index(said) + 1] if name in able]
    if not easier:
        return Reason("no-rung", movement, before=said, names=hands.lacking(movement))
    kind: Kind = "rung-begun" if easier[-1] == said else "rung-lower"
    why = Reason(kind, movement, easier[-1], said if kind == "rung-lower" else None)
    return fewer, easier[-1], (why, *reasons)


@remembered(512)
def _with_rungs(movement: Movement, *rungs: Rung) -> Movement:
    return attrs.evolve(movement, rungs=rungs)


@remembered(512)
def _rule(entry: Entry, movement: Movement, cap: Quantity | None) -> Rule | NoProgress | None:
    """The rule of an entry for a shorter ladder and under a cap: a bound that cannot be done comes down to what can."""
    if not isinstance(entry.rule, Rule):
        return entry.rule
    names = [rung.name for rung in entry.movement.rungs]
    able = [rung.name for rung in movement.rungs]

    def within(axis: Axis) -> Axis:
        share = axis.bound if axis.name == "load" and isinstance(axis.bound, Quantity) else None
        if share is not None and cap is not None and share.unit == "%" and share.base > cap.base:
            return attrs.evolve(axis, bound=cap)
        if axis.name != "rung" or axis.bound not in names or axis.bound in able:
            return axis
        below = [name for name in names[: names.index(str(axis.bound))] if name in able]
        return attrs.evolve(axis, bound=below[-1] if below else able[0])

    return attrs.evolve(entry.rule, axes=tuple(map(within, entry.rule.axes)))


def _counted(movement: Movement, written: Dose, begins: Start | None) -> Iterator[Reason]:
    """The repetitions, the time or the distance that the athlete begins with, where the dose counts in such."""
    if begins is None:
        return
    if begins.reps is not None and any(isinstance(work.target, Reps | Amrap) for work in written.sets):
        yield Reason("reps-begun", movement, begins.reps)
    told = [figure for name in ("hold", "time", "distance") for figure in AXES[name].figures(written)]
    if begins.amount is not None and any(figure.dimension == begins.amount.dimension for figure in told):
        yield Reason("amount-begun", movement, begins.amount)
