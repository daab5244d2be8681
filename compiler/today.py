"""Today: the program as it was fitted to an athlete, with what every movement asks for by now."""

from __future__ import annotations

import attrs

from .at_hand import AtHand
from .fitting import Fitting
from .lifting import lifted
from .logbook import Logbook, Stands, asked_now
from .model import Entry, Program
from .reasons import Reason


def today(logbook: Logbook) -> Fitting:
    """The fitting with the doses and rungs of the next session, instead of those that the athlete began with."""
    if not logbook.sessions:
        return logbook.fitting
    fitting = logbook.fitting
    hands = AtHand(fitting.athlete)
    now = {
        (one.session.name, one.entry.movement.name): _now(fitting.program, one, hands)
        for one in logbook.stands
        if one.steps and one.course is not None
    }

    def moved(session: str, entry: Entry) -> Entry:
        return now.get((session, entry.movement.name), entry)

    sessions = tuple(
        attrs.evolve(
            session,
            blocks=tuple(
                attrs.evolve(block, entries=tuple(moved(session.name, entry) for entry in block.entries))
                for block in session.blocks
            ),
        )
        for session in fitting.program.sessions
    )
    choices = tuple(
        choice if choice.chosen is None else attrs.evolve(choice, chosen=moved(choice.session.name, choice.chosen))
        for choice in fitting.choices
    )
    return attrs.evolve(fitting, program=attrs.evolve(fitting.program, sessions=sessions), choices=choices)


def _now(program: Program, stands: Stands, hands: AtHand) -> Entry:
    """An entry with the dose that it asks for now, how its loads are made, and its rung."""
    entry, asked = stands.entry, asked_now(stands)
    assert entry.fitted is not None
    fitted = attrs.evolve(entry.fitted, rung=asked.rung)
    means = hands.means(entry.movement)
    if not entry.movement.loaded_by or means is None:
        return attrs.evolve(entry, dose=asked.dose, fitted=fitted)
    loads = lifted(program, entry, asked.dose, means, hands)
    assert not isinstance(loads, Reason)  # nobody has come to a load that cannot be made
    return attrs.evolve(entry, dose=loads.dose, fitted=attrs.evolve(fitted, made=loads.made))
