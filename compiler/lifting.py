"""The loads that an athlete lifts in an entry, and how each is made: never above what is prescribed, nor above a cap."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

import attrs

from .at_hand import AtHand
from .course import Means
from .implements import Makings, nearest
from .load_scale import Scale, loads_of, scale_of
from .model import Dose, Entry, Implement, Made, Program, RampSet, Value, WorkSet
from .quantity import UNITS, Quantity
from .reasons import Reason

MadeOf = dict[Quantity | None, Made]


@attrs.frozen(eq=False, repr=False, match_args=False)
class Lifted(Value):
    """A dose with the loads that are lifted, how each is made, and why it is these."""

    dose: Dose
    made: tuple[tuple[Quantity | None, Made], ...]
    reasons: tuple[Reason, ...]


def lifted(program: Program, entry: Entry, begun: Dose, means: Means, hands: AtHand) -> Lifted | Reason:
    """The loads of an entry that is loaded, or that they are too heavy.

    `begun` is its dose with the loads that the athlete begins with, shares of a maximum that is known as weights. Shares
    stay shares in the dose: what is lifted for each stands beside it.
    """
    scale = scale_of(program.units, entry.dose, means)
    makings, bands = hands.makings(entry.movement), hands.bands(entry.movement)
    if bands and (not makings or (means.begins is not None and means.begins.band is not None)):
        return _band(entry, begun, means, bands)
    made: MadeOf = {}
    told: list[Quantity | None] = []  # of the whole dose, then of each set
    for written, load in _both(entry.dose, begun):
        if load is None or load.dimension != "mass":  # none, or a share of a maximum that nobody knows
            told.append(load)
            continue
        making = nearest(makings, load.base) if hands.said else Made(load.base, None)
        if making is None or making.load is None:
            return Reason("too-heavy", entry.movement, _told(makings.loads[0], program.units), load)
        share = written is not None and written.unit == "%"
        told.append(written if share else _told(making.load, load.unit))
        made.setdefault(told[-1], making)
    ramp = tuple(_ramp(entry.dose, scale, makings, made, hands))
    sets = tuple(WorkSet(work.target, load) for work, load in zip(begun.sets, told[1:], strict=True))
    reasons = (*_why(program, entry, scale, means, made), *_left_out(entry, ramp))
    return Lifted(attrs.evolve(begun, sets=sets, load=told[0], ramp=ramp), tuple(made.items()), reasons)


def _band(entry: Entry, begun: Dose, means: Means, bands: Sequence[Made]) -> Lifted:
    """The band to begin with: the weakest, where nobody says another. A band has no weight that a dose could tell."""
    begins = means.begins
    said = next((band for band in bands if begins is not None and band.band == begins.band), None)
    band = said or bands[0]
    why = Reason("band-first" if said is None else "band-begun", entry.movement, band.band)
    sets = tuple(WorkSet(work.target) for work in begun.sets)
    return Lifted(attrs.evolve(begun, sets=sets, load=None, ramp=()), ((None, band),), (why,))


def _both(written: Dose, begun: Dose) -> Iterator[tuple[Quantity | None, Quantity | None]]:
    """The load of the whole dose, then of each set, as written and as begun; added sets are as the last that is written."""
    yield written.load, begun.load
    for place, work in enumerate(begun.sets):
        yield written.sets[min(place, len(written.sets) - 1)].load, work.load


def _ramp(dose: Dose, scale: Scale, makings: Makings, made: MadeOf, hands: AtHand) -> Iterator[RampSet]:
    """The lighter sets that can be made and are lighter than all work."""
    work = min((making.load for making in made.values() if making.load is not None), default=None)
    for lighter in dose.ramp:
        load = scale.figure(lighter.share)
        if load is None or scale.unit == "%":
            yield lighter
            continue
        making = nearest(makings, load) if hands.said else Made(load, None)
        if making is not None and making.load is not None and (work is None or making.load < work):
            made.setdefault(lighter.share, making)
            yield lighter


def _left_out(entry: Entry, ramp: Sequence[RampSet]) -> Iterator[Reason]:
    for lighter in entry.dose.ramp:
        if lighter not in ramp:
            yield Reason("ramp-left-out", entry.movement, before=lighter.share, spans=(entry.dose.span,))


def _why(program: Program, entry: Entry, scale: Scale, means: Means, made: MadeOf) -> Iterator[Reason]:
    """Where the heaviest load comes from, and what became of it."""
    movement, units = entry.movement, program.units
    told = loads_of(entry.dose)
    shares = [load for load in told if load.unit == "%"]
    now = max((making.load for making in made.values() if making.load is not None), default=None)
    if now is None:
        yield Reason("load-unknown", movement, before=max(shares, key=_base, default=None), spans=(entry.dose.span,))
        return
    if means.begins is not None and means.begins.load is not None:
        asked = means.begins.load.base
        yield Reason("load-begun", movement, means.begins.load)
    elif shares and scale.maximum is not None:
        share = max(shares, key=_base)
        asked = share.base * scale.maximum
        whole = _told(scale.maximum, units)
        yield Reason("load-share", movement, _told(asked, units), whole, (str(share),), spans=(entry.dose.span,))
    elif told:
        heaviest = max(told, key=_base)
        asked = heaviest.base
        yield Reason("load-written", movement, heaviest, spans=(entry.dose.span,))
    else:
        yield Reason("load-lightest", movement, _told(now, units), implement=_implement(made, now))
        return
    if scale.most is not None and scale.most < asked:
        yield Reason("load-capped", movement, _told(scale.most, units), _told(asked, units))
        asked = scale.most
    if now != asked:
        yield Reason("load-rounded", movement, _told(now, units), _told(asked, units), implement=_implement(made, now))


def _base(load: Quantity) -> Fraction:
    return load.base


def _implement(made: MadeOf, load: Fraction) -> Implement | None:
    return next((one.implement for one in made.values() if one.load == load), None)


def _told(load: Fraction, unit: str) -> Quantity:
    return Quantity(load / UNITS[unit][1], unit)
