"""The axes of progression, by name: each is one class, which holds all that the compiler knows of it.

Their words for people are in the catalogue of the targets.
"""

from __future__ import annotations

from .counted import Cues, Repetitions, Rung, Sets, TotalRepetitions
from .kind import AxisKind
from .measured import Distance, Hold, Load, Lower, Pace, Pause, Rest, Time

AXES: dict[str, AxisKind] = {
    kind.name: kind
    for kind in (
        Load(), Repetitions(), TotalRepetitions(), Sets(), Lower(), Pause(), Cues(), Hold(), Distance(), Time(), Pace(),
        Rest(), Rung(),
    )
}  # fmt: skip

EASED = tuple(kind.name for kind in AXES.values() if kind.easing)  # the axes that an easier week can lower
