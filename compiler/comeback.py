"""Coming back: the weeks after a break, in which the work grows to what it was.

Each session of the normal program stands there once for each week of the way back, with a share of its volume and of its
loads. In work and conditioning a set does fewer repetitions, or there are fewer sets, so that all together are at most the
share; of the ways to that the one with the most work left is taken. `at least N sets` stays. A circuit keeps its rounds
and does less in each. Warm-up, cool-down, rungs, tempo and rests stay as they are. A set of as many as possible has a fixed
number of repetitions, and nothing advances. No figure is ever above the normal one.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import floor

import attrs

from .at_hand import AtHand
from .axes.counted import planned
from .axes.measured import with_loads
from .clock import session_time
from .guidelines import VOLUME_LESS_AFTER_BREAK
from .lifting import lifted
from .load_scale import makeable, scale_of
from .model import (
    Amrap,
    Block,
    Distance,
    Dose,
    Entry,
    Look,
    Program,
    RampSet,
    Reps,
    Return,
    Session,
    Target,
    Timed,
    WorkSet,
)  # fmt: skip
from .quantity import UNITS, Quantity
from .reasons import Reason
from .week import COUNTED

Change = Callable[[Entry, Block, "Week"], Entry]  # an entry as it is in a week of the way back


@attrs.frozen(eq=False)
class Week:
    """A week of the way back: its number, counted from 1, and its shares of the normal volume and loads."""

    number: int
    volume: Fraction
    load: Fraction


# What is offered


def offered_volume(loads: tuple[Quantity, ...] | None = None) -> tuple[Quantity, ...]:
    """The shares of the volume where the coach writes none: the published ones; beside other loads as many as these.

    Of more weeks than are published the last share stays.
    """
    published = tuple(Quantity(Fraction(100 - less), "%") for less in VOLUME_LESS_AFTER_BREAK)
    count = len(loads) if loads else len(published)
    return (*published, *published[-1:] * count)[:count] if count >= len(published) else published[-count:]


def offered_loads(volume: tuple[Quantity, ...]) -> tuple[Quantity, ...]:
    """The shares of the loads where the coach writes none: half as much is taken from a load as from the volume.

    Common practice is to bring back the load less far than the volume; how much less, no source says.
    """
    return tuple(Quantity((100 + share.amount) / 2, "%") for share in volume)


def weeks_of(returns: Return) -> tuple[Week, ...]:
    """The weeks of the way back; where the shares of volume and loads are not as many, as many as both have."""
    whole = Fraction(1)
    pairs = zip(returns.volume, returns.loads, strict=False)
    return tuple(
        Week(number, min(volume.base, whole), min(load.base, whole))
        for number, (volume, load) in enumerate(pairs, start=1)
    )


# The program


def comeback(program: Program, normal: Program, change: Change | None = None) -> Program:
    """The program that leads back to the normal one: its own words, and what it does not say as the other has it.

    `change` is how an entry changes: `entry_back` where nobody knows what there is to lift.
    """
    assert program.returns is not None
    return attrs.evolve(
        program,
        returns=attrs.evolve(program.returns, normal=normal),
        audience=program.audience or normal.audience,
        coach=program.coach or normal.coach,
        ask_by=program.ask_by or ("" if program.coach else normal.ask_by),
        look=program.look if program.look != Look() else normal.look,
        aims=program.aims or normal.aims,
        rules=program.rules or normal.rules,
        units=normal.units,
        weeks=len(weeks_of(program.returns)),
        rest=normal.rest,
        change=normal.change,
        jump=normal.jump,
        categories=normal.categories,
        sessions=tuple(
            _session(normal, session, week, change or entry_back)
            for week in weeks_of(program.returns)
            for session in normal.sessions
        ),
        athlete=normal.athlete,
        damaged=program.damaged or normal.damaged,
    )


def origin(name: str) -> str:
    """The name of the session of the normal program that a session of the way back comes from."""
    return name.split("-", 2)[2]


def _session(normal: Program, session: Session, week: Week, change: Change) -> Session:
    """A session in a week of the way back; short versions go that it needs no longer."""
    blocks = tuple(
        attrs.evolve(block, allows=(), entries=tuple(change(entry, block, week) for entry in block.entries))
        if block.kind in COUNTED
        else block
        for block in session.blocks
    )
    back = attrs.evolve(
        session,
        name=f"week-{week.number}-{session.name}",
        title=f"Week {week.number}: {session.title}",
        blocks=blocks,
        allows=(),
        week=week.number,
    )
    seconds = session_time(normal, back)
    return attrs.evolve(back, shorts=tuple(short for short in session.shorts if short.limit.base < seconds))


def entry_back(entry: Entry, block: Block, week: Week) -> Entry:
    """An entry in a week of the way back, for nobody in particular. Nothing advances."""
    others = tuple(attrs.evolve(other, dose=dose_back(other.dose, block, week), rule=None) for other in entry.otherwise)
    return attrs.evolve(entry, dose=dose_back(entry.dose, block, week), rule=None, otherwise=others, allows=())


def lifted_back(normal: Program, entry: Entry, block: Block, week: Week, hands: AtHand) -> Entry:
    """An entry of an athlete's own program in a week of the way back, its loads made of what there is.

    Each is the share of what they lifted before the break, or the next lighter that can be made; else the lightest.
    """
    back = entry_back(entry, block, week)
    means = hands.means(entry.movement)
    before = {load: made.load for load, made in entry.fitted.made if load is not None} if entry.fitted else {}
    if means is None or entry.fitted is None or not before:
        return back

    def weight(load: Quantity) -> Quantity:
        lifted_before = before.get(load)
        if lifted_before is None:
            return load
        wanted = lifted_before * week.load
        makeable_now = wanted if not means.loads else makeable(means.loads, wanted, min(means.loads[0], lifted_before))
        unit = load.unit if load.dimension == "mass" else normal.units
        return Quantity(makeable_now / UNITS[unit][1], unit)

    kept = attrs.evolve(entry.dose, sets=entry.dose.sets[: len(back.dose.sets)])
    weights = with_loads(kept, weight)
    sets = tuple(WorkSet(one.target, made.load) for one, made in zip(back.dose.sets, weights.sets, strict=True))
    begun = attrs.evolve(back.dose, sets=sets, load=weights.load)
    known = attrs.evolve(means, maximum=scale_of(normal.units, entry.dose, means).maximum)
    loads = lifted(normal, back, begun, known, hands)
    assert not isinstance(loads, Reason)  # nothing is heavier than it was
    return attrs.evolve(back, dose=loads.dose, fitted=attrs.evolve(entry.fitted, made=loads.made))


# Doses


def dose_back(dose: Dose, block: Block, week: Week) -> Dose:
    """A dose in a week of the way back."""
    return lighter(less_volume(dose, week.volume, circuit=block.rounds is not None), week.load)


def lighter(dose: Dose, share: Fraction) -> Dose:
    """A dose with a share of its loads, its ramp too: rounded down to half a point of the maximum, or a tenth of the unit."""

    def less(load: Quantity) -> Quantity:
        grain = Fraction(1, 2) if load.unit == "%" else Fraction(1, 10)
        return Quantity(_down(load.amount * share, grain, load.amount), load.unit)

    if share >= 1:
        return dose
    ramp = tuple(RampSet(less(one.share), one.reps) for one in dose.ramp)
    return attrs.evolve(with_loads(dose, less), ramp=ramp)


def less_volume(dose: Dose, share: Fraction, *, circuit: bool = False) -> Dose:
    """A dose with at most a share of its repetitions, times or distances in all sets together; the last sets go first.

    Of all numbers of sets the one is taken with which most is left; of equal ones as many as the share of the sets,
    rounded up. Where a repetition in each set is more than the share, so much stays.
    """
    full = [_size(dose, work.target) for work in dose.sets]
    if circuit or not full or not all(full):
        return attrs.evolve(dose, sets=tuple(WorkSet(_part(one.target, share), one.load) for one in dose.sets))
    allowed = share * sum(full)
    least = max(min(dose.least_sets, len(full)), 1)

    def kept(sets: int) -> Dose:
        part = min(allowed / sum(full[:sets]), Fraction(1))
        return attrs.evolve(dose, sets=tuple(WorkSet(_part(one.target, part), one.load) for one in dose.sets[:sets]))

    def judged(made: Dose) -> tuple[object, ...]:
        size, sets = sum(_size(dose, work.target) for work in made.sets), len(made.sets)
        if size > allowed:
            return False, -size, -sets
        return True, size, sets >= share * len(full), -sets

    return max(map(kept, range(max(least, floor(share * len(full))), len(full) + 1)), key=judged)


def _size(dose: Dose, target: Target) -> Fraction:
    """What a set counts: repetitions, seconds or metres; where a dose has sets of several kinds, itself."""
    if len({Reps if isinstance(work.target, Amrap) else type(work.target) for work in dose.sets}) > 1:
        return Fraction(1)
    match target:
        case Timed(time=quantity) | Distance(length=quantity):
            return quantity.base
        case Reps(low=low):
            return Fraction(low)
        case Amrap():
            return Fraction(planned(target))


def _part(target: Target, share: Fraction) -> Target:
    """A share of a set, rounded down to what can be counted: of as many as possible, a fixed number."""
    match target:
        case Timed(time=time):
            return Timed(_shorter(time, share))
        case Distance(length=length):
            return Distance(_nearer(length, share))
        case Reps(low=reps):
            pass
        case Amrap():
            reps = planned(target)
    reps = int(_down(reps * share, Fraction(1), Fraction(reps)))
    return Reps(reps, reps)


def _shorter(time: Quantity, share: Fraction) -> Quantity:
    """A time in whole minutes, half minutes, five seconds or seconds, by how long it is."""
    wanted = time.base * share
    grain = next((grain for above, grain in ((600, 60), (60, 30), (10, 5)) if wanted >= above), 1)
    seconds = _down(wanted, Fraction(grain), time.base)
    told = Quantity(seconds, "s").to(time.unit)
    return told if (2 * told.amount).denominator == 1 else Quantity(seconds, "s")


def _nearer(length: Quantity, share: Fraction) -> Quantity:
    """A distance in tenths of a kilometre or mile, tens of centimetres, else in tens or ones of its unit."""
    wanted = length.amount * share
    grain = (
        Fraction(1, 10) if length.unit in ("km", "mi") else Fraction(10 if wanted >= 100 or length.unit == "cm" else 1)
    )
    return Quantity(_down(wanted, grain, length.amount), length.unit)


def _down(figure: Fraction, grain: Fraction, normal: Fraction) -> Fraction:
    """Rounded down to a grain, but to no less than one, and never above the normal figure."""
    return min(max(floor(figure / grain) * grain, grain), normal)
