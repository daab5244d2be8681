"""The model told in plain words: doses, tempo, rests, progression. The words themselves stand in `words.py`."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from fractions import Fraction

import attrs

from ..compiler.clock import session_time
from ..compiler.easier import Changes, eased_dose, eased_rounds, eased_session, eases
from ..compiler.model import (
    Amrap,
    Axis,
    Block,
    Distance,
    Dose,
    Easier,
    Entry,
    Movement,
    NoProgress,
    Program,
    Reps,
    Rule,
    Session,
    Target,
    Tempo,
    Timed,
    WorkSet,
)
from ..compiler.quantity import Quantity
from ..compiler.remembering import remembered
from ..compiler.week import COUNTED
from . import words


def duration(seconds: Fraction) -> str:
    """Seconds read aloud: `45 seconds`, `2 minutes`, `1 minute 30 seconds`."""
    whole = round(seconds)
    minutes, rest = divmod(whole, 60)
    told = [words.amount(Quantity(Fraction(minutes), "min"))] if minutes else []
    if rest or not minutes:
        told.append(words.amount(Quantity(Fraction(rest), "s")))
    return " ".join(told)


def whole_minutes(seconds: Fraction) -> int:
    """Planned minutes of something that takes seconds: no sheet promises less time than it plans."""
    return -(-seconds // 60)


def file_time(seconds: Fraction) -> str:
    """A time as part of a file's name: `25min`, `90s`."""
    return f"{seconds // 60}min" if seconds % 60 == 0 else f"{round(seconds)}s"


def day(moment: date) -> str:
    """A date read aloud, the same in every country: `14 June 2026`."""
    return f"{moment.day} {words.MONTHS[moment.month - 1]} {moment.year}"


def frequency(session: Session) -> str:
    """How often a session stands in the week, "" where the coach says nothing."""
    if len(session.days) == 7 or session.per_week == 7:
        return words.EVERY_DAY
    if session.week is not None and not session.days:
        return words.times(session.per_week or 1)
    if session.days:
        return words.days(session.days)
    return words.times_a_week(session.per_week) if session.per_week else ""


# Doses


def target(wanted: Target) -> str:
    """What one set is to reach: `6 to 10`, `30 seconds`."""
    match wanted:
        case Reps(low=low, high=high):
            return words.repetitions(low, high)
        case Timed(time=time):
            return words.amount(time)
        case Distance(length=length):
            return words.amount(length)
        case Amrap():
            return words.AS_MANY


def dose(asked: Dose, kept: int, circuit: bool = False, at_load: words.LoadTold = words.at_load) -> str:
    """The sets of a dose, the first `kept` of them, with load and effort: `3 sets of 6 each side, with 12 kg`."""
    sets = asked.sets[:1] if circuit else asked.sets[:kept]
    if not sets:
        return ""
    alike = all(work is sets[0] or work == sets[0] for work in sets)
    told = _alike(asked, sets, kept, circuit) if alike else _unlike(asked, sets, at_load)
    load = asked.load if sets[0].load is None or not alike else sets[0].load
    parts = [told]
    if load is not None:
        parts.append(at_load(load))
    if asked.rpe is not None:
        parts.append(words.at_effort(asked.rpe))
    return words.sentence(", ".join(parts))


def _alike(asked: Dose, sets: tuple[WorkSet, ...], kept: int, circuit: bool) -> str:
    """Sets that are all the same."""
    wanted = sets[0].target
    side = f" {words.EACH_SIDE}" if asked.each_side else ""
    if isinstance(wanted, Amrap):
        many = f"{words.AS_MANY}{side}{_reserve(wanted)}"
        return many if circuit or len(asked.sets) == 1 else f"{words.sets(kept)}, {words.each_one(many)}"
    one = target(wanted)
    if circuit or len(asked.sets) == 1:
        return f"{words.repeated(one) if isinstance(wanted, Reps) else one}{side}"
    return f"{words.sets_of(kept, one)}{side}"


def _unlike(asked: Dose, sets: tuple[WorkSet, ...], at_load: words.LoadTold) -> str:
    """Sets of which each has its own target or load."""
    side = f" {words.EACH_SIDE}" if asked.each_side else ""
    told = []
    for number, work in enumerate(sets, start=1):
        reserve = _reserve(work.target) if isinstance(work.target, Amrap) else ""
        load = f" {at_load(work.load)}" if work.load is not None else ""
        told.append(words.numbered_set(number, f"{target(work.target)}{side}{load}{reserve}"))
    return "; ".join(told)


def _reserve(wanted: Amrap) -> str:
    return f"; {words.leaving(wanted.leaving) if wanted.leaving else words.TO_FAILING_FORM}"


def ramp(asked: Dose, at_load: words.LoadTold = words.at_load) -> str:
    """The lighter sets before the work, "" where there are none."""
    if not asked.ramp:
        return ""
    told = [f"{lighter.reps} {at_load(lighter.share)}" for lighter in asked.ramp]
    return words.first_lighter(told)


def tempo(asked: Tempo) -> str:
    """How fast a repetition goes, "" where the coach says nothing."""
    parts = []
    if asked.lower is not None and asked.lower.amount:
        parts.append(words.lowering(asked.lower))
    if asked.pause is not None and asked.pause.amount:
        parts.append(words.pausing(asked.pause))
    if asked.cues:
        parts.append(words.saying_cues(asked.cues))
    if asked.up == "fast":
        parts.append(words.RISING_FAST)
    elif asked.up is not None and asked.up.amount:
        parts.append(words.rising(asked.up))
    if asked.top is not None and asked.top.amount:
        parts.append(words.topping(asked.top))
    return words.sentence("; ".join(parts)) if parts else ""


def condition(said: str | None) -> str:
    """When an entry is done at all, "" for always."""
    if said is None:
        return ""
    return words.IF_ABLE if said == "able" else words.if_there(said)


# Easier weeks


def easier_weeks(program: Program) -> tuple[tuple[str, str], ...]:
    """The easier weeks, by what changes in them: which they are, and what an athlete leaves out."""
    blocks = tuple(block for session in program.sessions for block in session.blocks)
    told = ((easier, _eased(blocks, dict(easier.changes)), _minutes(program, easier)) for easier in program.easier)
    short = words.EASIER_SHORT if any(session.shorts for session in program.sessions) else ""
    return tuple(
        (words.easier_on_purpose(easier.weeks), " ".join(filter(None, (less, minutes, short))))
        for easier, less, minutes in told
        if less
    )


def easier_on_log(program: Program, session: Session) -> tuple[str, ...]:
    """What an athlete leaves out of one session in its easier weeks; nothing where it stays as it is."""
    return tuple(told for _, told in easier_by_week(program, session))


@remembered(64)  # a log and a calendar tell it of the same sessions
def easier_by_week(program: Program, session: Session) -> tuple[tuple[Easier, str], ...]:
    """The easier weeks in which an athlete leaves something out of a session, and what."""
    told = ((easier, _eased(session.blocks, dict(easier.changes))) for easier in program.easier)
    return tuple((easier, f"{words.easier_on_purpose(easier.weeks)} {less}") for easier, less in told if less)


def _eased(blocks: Iterable[Block], changes: Changes) -> str:
    """What the blocks lose together, and what of them stays, "" where nothing is lost."""
    work = [block for block in blocks if block.kind in COUNTED]
    lost = [
        phrase
        for axis, change in changes.items()
        for phrase in _less(axis, change, [block for block in work if eases(block, axis, change)])
    ]
    if not lost:
        return ""
    told = [f"{words.joined(lost)}.", *_keeping(work, changes)]
    return " ".join(told if len(work) == len(tuple(blocks)) else [*told, words.FRAME_STAYS])


def _less(axis: str, change: int | Quantity, blocks: list[Block]) -> Iterator[str]:
    """What one change takes from the blocks in which it takes part."""
    targets = {type(work.target) for block in blocks for entry in block.entries for work in entry.dose.sets}
    match axis, -change:
        case "sets", int(number):
            if any(block.rounds is None for block in blocks):
                yield words.sets_less(number)
            if any(block.rounds is not None for block in blocks):
                yield words.rounds_less(number)
        case "reps", int(number):
            if Reps in targets:
                yield words.repetitions_less(number)
            if Amrap in targets:
                yield words.stop_earlier(number)
        case "load", Quantity() as by if blocks:
            yield words.lighter(by)
        case _, Quantity() as by if blocks:
            yield words.shorter(axis, by)


def _keeping(blocks: list[Block], changes: Changes) -> Iterator[str]:
    """The sets and rounds that stay although the change would take them."""
    change = changes.get("sets")
    if not isinstance(change, int):
        return
    keeping: dict[str, list[str]] = {}
    for block in blocks:
        rounds = eased_rounds(block, changes)
        if block.rounds is not None and rounds is not None and rounds > max(block.rounds + change, 1):
            keeping.setdefault(words.counted(rounds, "round", "rounds"), []).append(words.quoted(block.title))
        for entry in block.entries if block.rounds is None else ():
            sets = len(eased_dose(entry.dose, changes, entry.movement).sets)
            if sets > max(len(entry.dose.sets) + change, 1):
                keeping.setdefault(words.sets(sets), []).append(entry.movement.title)
    if any(len(entry.dose.sets) == 1 for block in blocks if block.rounds is None for entry in block.entries):
        yield words.SINGLE_SET_STAYS
    yield from (words.keeps(titles, what) for what, titles in keeping.items())


@remembered(64)
def easier_minutes(program: Program, session: Session, easier: Easier) -> int:
    """The minutes of a session in its easier weeks."""
    return whole_minutes(session_time(program, eased_session(program, session, easier.weeks[0])))


def _minutes(program: Program, easier: Easier) -> str:
    """The minutes of every session that takes fewer in these weeks."""
    told = []
    for session in program.sessions:
        whole = whole_minutes(session_time(program, session))
        less = easier_minutes(program, session, easier)
        told += [words.easier_minutes(session.title, less)] if less < whole else []
    return " ".join(told)


# Progression


@attrs.frozen
class FromHere:
    """What is known of the next steps of an athlete.

    `ends` are the axes that can never move again, `stops` whether nothing moves on once the others are through, `why` says
    of the load why. `back` tells what axes go back to, by their names.
    """

    ends: frozenset[str] = frozenset()
    stops: bool = False
    why: str = ""
    back: Mapping[str, str] = attrs.field(factory=dict)


ANYBODY = FromHere()


def next_step(entry: Entry, circuit: bool = False, here: FromHere = ANYBODY) -> str:
    """When and how an entry moves on, "" where it has no rule."""
    if entry.rule is None:
        return ""
    if isinstance(entry.rule, NoProgress):
        return words.sentence(words.stays(entry.rule.because))
    amrap = any(isinstance(work.target, Amrap) for work in entry.dose.sets)
    heavier = _heavier(entry)
    once = len(entry.dose.sets) == 1 and not circuit
    if here.ends or here.back:
        return _advance(entry.rule, entry.movement, amrap, once, heavier, here=here)
    return _advancing(entry.rule, entry.movement, amrap, once, heavier)


def _heavier(entry: Entry) -> str:
    """How a step of the load is told to an athlete whose next loads are known; "" where they are not."""
    made = [made for _, made in entry.fitted.made] if entry.fitted is not None else []
    if any(how.band for how in made):
        return words.NEXT_BAND
    return words.STEPS["load"][1] if made else ""


@remembered(512)  # athletes of a program share its rules
def _advancing(rule: Rule, movement: Movement, amrap: bool, once: bool, heavier: str) -> str:
    return _advance(rule, movement, amrap, once, heavier, here=ANYBODY)


def _advance(rule: Rule, movement: Movement, amrap: bool, once: bool, heavier: str, *, here: FromHere) -> str:
    axes = tuple(axis for axis in rule.axes if axis.name not in here.ends)
    when = _when_good(rule, axes, amrap, once) if axes else ""
    told = words.sentence(f"{when}{_axes(axes, movement, heavier, here)}.")
    if rule.missed is not None and rule.ease is not None:
        told += f" {words.ease(rule.missed, *rule.ease)}"
    return told


def _when_good(rule: Rule, axes: tuple[Axis, ...], amrap: bool, once: bool) -> str:
    """What must have happened before a step; a first axis that waits for a figure says that itself."""
    if axes[0].at is not None:
        return f"{words.BEAT_YOUR_BEST} " if amrap else ""
    told = words.WHEN_TOTAL_BEATEN if amrap else words.WHEN_SET_REACHED if once else words.WHEN_ALL_REACHED
    return f"{told}{words.in_a_row(rule.good) if rule.good > 1 else ''}: "


def _axes(axes: tuple[Axis, ...], movement: Movement, heavier: str, here: FromHere) -> str:
    """`first add a repetition, up to 10; from there on, take the next heavier load`."""
    steps = [_axis_step(axis, movement, heavier, here.back) for axis in axes]
    if here.stops:
        steps.append(words.in_brackets(words.STAY_AND_ASK, [here.why] if here.why else []))
    told = words.first(steps[0]) if len(steps) > 1 else steps[0]
    for before, step in zip(axes, steps[1:], strict=False):
        connection = words.WHEN_YOU_CANNOT if before.bound is None else words.FROM_THERE_ON
        told += f"; {connection}, {step}"
    return told


def _axis_step(axis: Axis, movement: Movement, heavier: str, back: Mapping[str, str]) -> str:
    """One step of one axis, with its bound and what goes back to its start."""
    by, plain = words.STEPS[axis.name]
    told = plain if axis.step is None else by.format(step=words.step_of(axis.name, axis.step))
    known = heavier if axis.name == "load" else ""
    if axis.at is not None:
        told = words.at_repetitions(known or told, axis.at)
    elif known:
        told = known
    share = isinstance(axis.bound, Quantity) and axis.bound.unit == "%"
    if axis.bound is not None and not (known and share):
        told += f", {words.up_to(axis.name, _bound(axis.bound, movement))}"
    return f"{told}, {words.restarting(axis.restarting, back)}" if axis.restarting else told


def _bound(bound: int | Quantity | str, movement: Movement) -> str:
    if isinstance(bound, Quantity):
        return words.amount(bound)
    return str(bound) if isinstance(bound, int) else words.quoted(rung_text(movement, bound))


def rung_text(movement: Movement, name: str) -> str:
    """The words of a rung, or its name where the movement has none of that name."""
    return next((rung.text for rung in movement.rungs if rung.name == name), name)


def axes_in_order(entry: Entry, here: FromHere = ANYBODY) -> str:
    """What a movement is to progress in, in which order, in as few words as fit on a log."""
    if not isinstance(entry.rule, Rule):
        return words.LOG_ORDER_NONE if isinstance(entry.rule, NoProgress) else ""
    return words.LOG_ORDER_THEN.join(
        words.AXIS_NAMES[axis.name] for axis in entry.rule.axes if axis.name not in here.ends
    )
