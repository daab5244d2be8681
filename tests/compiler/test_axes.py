"""The axes of progression: each says all that is asked of it, and has its words."""

import pytest
from setwright.compiler.axes import AXES, EASED
from setwright.compiler.quantity import Quantity, read_quantity
from setwright.targets import words

from .worked import compiled


def written(told: str) -> int | Quantity:
    sign = -1 if told.startswith("-") else 1
    bare = told.removeprefix("-")
    if bare.isdigit():
        return sign * int(bare)
    return read_quantity(bare) if sign > 0 else -read_quantity(bare)


@pytest.mark.parametrize("name", AXES)
def test_every_axis_has_its_words(name: str):
    kind = AXES[name]
    assert name in words.AXIS_NAMES and name in words.STEPS and name in words.AXIS_SIGNS
    assert (name in words.COUNT_WORDS) == (kind.dimension is None and not kind.ladder)


@pytest.mark.parametrize("name", [name for name in AXES if not AXES[name].ladder])
def test_its_examples_suit_it(name: str):
    kind = AXES[name]
    for step in filter(None, (kind.example, kind.usual)):
        assert kind.step_unfit(written(step)) is None
    assert kind.suits(written(kind.bound_example), share=False)


def test_easier_weeks_lower_what_says_how():
    assert EASED == ("load", "reps", "sets", "hold", "distance", "time")
    for name in EASED:
        kind = AXES[name]
        assert kind.easing is not None and kind.uneased and kind.suits(written(kind.easing), share=True)
        assert name in words.SHORTER or name in {"load", "reps", "sets"}  # these have phrases of their own


def test_a_pause_that_is_counted_in_cues_does_not_move_in_seconds():
    _, block, entry = compiled("chair-stand 3 x 8, pause 3 cues", "advance cues by 1 to 6")
    assert AXES["pause"].unfit(block, entry) == ("the pause is counted in cues", "Write `cues by 1 to 6`.")
    assert AXES["cues"].unfit(block, entry) is None
