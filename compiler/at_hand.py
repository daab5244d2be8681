"""What an athlete has at hand and must not do, asked for each movement of a program."""

from __future__ import annotations

from collections.abc import Hashable

from .implements import Makings, bands, makings
from .means import means_of
from .model import Athlete, Made, Movement, Rung
from .reasons import Reason


class AtHand:
    """An athlete's things, implements and exclusions; what was found once is kept."""

    def __init__(self, athlete: Athlete) -> None:
        self.athlete = athlete
        self.said = bool(athlete.implements or athlete.things)  # else nobody knows, and everything counts as there
        self.means = means_of(athlete)
        self.begins = {start.movement: start for start in reversed(athlete.begins)}
        self._things = {*athlete.things, *(implement.kind for implement in athlete.implements)}
        self._avoids = {exclusion.movement: exclusion for exclusion in reversed(athlete.avoids)}
        self._makings: dict[tuple[str, ...], Makings] = {}
        self._bands: dict[tuple[str, ...], tuple[Made, ...]] = {}
        self._hindrances: dict[str, Reason | None] = {}
        self._brought: dict[int, tuple[Hashable, ...]] = {}

    def makings(self, movement: Movement) -> Makings:
        """Every load that can be made for a movement."""
        if movement.loaded_by not in self._makings:
            self._makings[movement.loaded_by] = makings(self.athlete, movement)
        return self._makings[movement.loaded_by]

    def bands(self, movement: Movement) -> tuple[Made, ...]:
        """The bands for a movement, the weakest first."""
        if movement.loaded_by not in self._bands:
            self._bands[movement.loaded_by] = bands(self.athlete, movement) if movement.loaded_by else ()
        return self._bands[movement.loaded_by]

    def hindrance(self, movement: Movement) -> Reason | None:
        """Why a movement cannot be done; None where it can."""
        if movement.name not in self._hindrances:
            self._hindrances[movement.name] = self._hindrance(movement)
        return self._hindrances[movement.name]

    def _hindrance(self, movement: Movement) -> Reason | None:
        for name in (movement.name, *movement.patterns):
            if name in self._avoids:
                exclusion = self._avoids[name]
                return Reason("avoided", movement, names=(name,), text=exclusion.because)
        if not self.said:
            return None
        missing = tuple(need for need in movement.needs if need not in self._things)
        if missing:
            return Reason("needs-missing", movement, names=missing)
        if movement.loaded_by and not self.makings(movement) and not self.bands(movement):
            return Reason("no-implement", movement, names=movement.loaded_by)
        if movement.rungs and not self.rungs(movement):
            return Reason("no-rung", movement, names=self.lacking(movement))
        return None

    def brought(self, movement: Movement) -> tuple[Hashable, ...]:
        """All that a movement is begun with: of athletes who bring the same, one begins it as the other does."""
        if id(movement) not in self._brought:
            means, begins = self.means(movement), self.begins.get(movement.name)
            begun = begins and (begins.load, begins.rung, begins.reps, begins.amount, begins.band)
            able = tuple(rung.name for rung in self.rungs(movement)) if movement.rungs else ()
            lacking = self.lacking(movement) if len(able) < len(movement.rungs) else ()
            more = means and (means.maximum, means.jump, means.cap)
            self._brought[id(movement)] = (self.said, begun, able, lacking, self.makings(movement), more)
        return self._brought[id(movement)]

    def lacks(self, condition: str | None) -> bool:
        """Whether a condition asks for a thing that is not there."""
        return self.said and condition not in (None, "able", *self._things)

    def rungs(self, movement: Movement) -> tuple[Rung, ...]:
        """The rungs that can be done."""
        if not self.said:
            return movement.rungs
        return tuple(rung for rung in movement.rungs if self._things.issuperset(rung.needs))

    def lacking(self, movement: Movement) -> tuple[str, ...]:
        """The things that rungs of a movement need, and that are not there."""
        needs = dict.fromkeys(need for rung in movement.rungs for need in rung.needs)
        return tuple(need for need in needs if need not in self._things)
