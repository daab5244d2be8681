"""What there is to lift: which figures are told as slips, where, and which are not."""

from __future__ import annotations

import pytest
from setwright.compiler.pipeline import compile_texts

TEXT = """use basics

athlete maren "Maren"
  starts 2026-06-15
  {has}
"""
TRAINED = """
program store-room
  session main
    block legs
      must goblet-squat 3 x 8
        advance load, then reps by 1 to 12
        else band-squat 3 x 12
"""


def found(has: str, more: str = "") -> list[tuple[str, str, str]]:
    """Code, marked words and message of every finding."""
    told = compile_texts({"a.coach": TEXT.format(has=has.replace("\n", "\n  ")) + more}).diagnostics
    return [(one.code, one.span.text, one.message) for one in told]


@pytest.mark.parametrize(
    ("has", "code", "marked", "words"),
    [
        # Below nothing, and absurd.
        ("has dumbbell -4 kg", "figure-negative", "-4 kg", "has a minus sign"),
        ("has dumbbell 4 kg, -6 kg", "figure-negative", "-6 kg", "has a minus sign"),
        ("has handle 2 kg with plates 2 x -1.25 kg", "figure-negative", "-1.25 kg", "has a minus sign"),
        ("has container -5 l weighing 0.5 kg, fill water", "figure-negative", "-5 l", "has a minus sign"),
        ("has container 5 l weighing 0.5 kg, limit -8 kg, fill water", "figure-negative", "-8 kg", "has a minus sign"),
        ("has kettlebell 0 kg", "implement-mass-out-of-range", "0 kg", "more than 0 kg"),
        ("has kettlebell 6000 g, 1200 lb", "implement-mass-out-of-range", "1200 lb", "at most 500 kg"),
        ("has barbell 20 kg with plates 2 x 0.00 kg", "implement-mass-out-of-range", "0.00 kg", "A plate of 0 kg"),
        ("has container 5 l weighing 600 kg, fill water", "implement-mass-out-of-range", "600 kg", "weight of its own"),
        (
            "has container 5 l weighing 0.5 kg, fill water, limit 900 kg",
            "implement-mass-out-of-range",
            "900 kg",
            "A limit of 900 kg",
        ),
        ("has container 0 l weighing 0.5 kg, fill water", "container-out-of-range", "0 l", "more than 0 l"),
        ("has container 200.5 l weighing 0.5 kg, fill water", "container-out-of-range", "200.5 l", "at most 200 l"),
        # Plates that cannot balance.
        ("has handle 2 kg with plates 2 x 5 kg, 3 x 1.25 kg", "plates-odd", "3 x 1.25 kg", "two ends of a handle"),
        ("has handle 2 kg with plates 0 x 5 kg", "plates-odd", "0 x 5 kg", "two ends"),
        ("has handle pair 2 kg with plates 6 x 1.25 kg", "plates-odd", "6 x 1.25 kg", "four ends of two handles"),
        ("has barbell 20 kg with plates 42 x 5 kg", "plates-many", "42 x 5 kg", "at most 40"),
        # Over a limit.
        (
            "has container 5 l weighing 3 kg, fill sand, limit 3 kg",
            "container-over-limit",
            "limit 3 kg",
            "weighs 3 kg empty",
        ),
        (
            "has container 5 l weighing 8 lb, limit 3 kg, fill sand",
            "container-over-limit",
            "limit 3 kg",
            "weighs 8 lb empty",
        ),
        # Told in the figures of something else.
        ("has kettlebell 5 l, fill sand", "implement-unfit", "has kettlebell 5 l, fill sand", "Litres"),
        ("has band 5 kg", "implement-unfit", "has band 5 kg", "A band has no weight"),
        ('has dumbbell "red"', "implement-unfit", 'has dumbbell "red"', "not told by a name"),
        ('has container "jug"', "implement-unfit", 'has container "jug"', "not told by a name"),
        ("has kettlebell 8 kg with plates 2 x 1 kg", "implement-unfit", "", "No plates go on a kettlebell"),
        # Said twice.
        ("has dumbbell 8 kg, 8 kg", "implement-twice", "8 kg, 8 kg", "Maren has the same dumbbell of 8 kg twice"),
        ("has dumbbell pair 8 kg\nhas dumbbell pair 8.0 kg", "implement-twice", "8.0 kg", "pair of dumbbells of 8 kg"),
        ('has band "red", "red"', "implement-twice", "", 'band "red" twice'),
        (
            "has container 5 l weighing 0.5 kg, fill water\nhas container 5 l weighing 0.5 kg, fill water",
            "implement-twice",
            "",
            "the same container",
        ),
        ("has container 5 l weighing 1 kg, fill water, weighing 2 kg", "said-twice", "2 kg", ""),
        ("has container 5 l weighing 0.5 kg, straight, fill water, straight", "said-twice", "straight", ""),
        (
            "has container 5 l weighing 0.5 kg, fill watr, limit 8 kg",
            "word-unknown",
            "watr",
            "something to fill a container with",
        ),
    ],
)
def test_a_slip_is_told_once_at_its_place(has: str, code: str, marked: str, words: str) -> None:
    ((told, where, message),) = [one for one in found(has) if one[0] != "container-without-fill"]
    assert told == code
    assert where == marked or not marked
    assert words in message


@pytest.mark.parametrize(
    "has",
    [
        "has dumbbell 8 kg\nhas dumbbell pair 8 kg",  # another one, or two more
        "has dumbbell 8 kg\nhas kettlebell 8 kg",
        'has container 5 l "jug" weighing 0.5 kg, fill water\nhas container 5 l "can" weighing 0.5 kg, fill water',
        "has handle pair 2 kg with plates 8 x 1.25 kg, 4 x 0.5 kg",
        "has barbell 20 kg with plates 40 x 5 kg",
        "has container pair 10 l weighing 0.5 kg, straight, fill water, sand, limit 12 kg",
        "has container 10 l, limit 12 kg, fill loam, straight, weighing 0.5 kg",
        "has container 200 l weighing 0.5 kg, fill water",
        "has container 8 kg",  # a full one
        "has dumbbell 2 kg with plates 4 x 1 kg",
        "has barbell 45 lb with plates 2 x 45 lb, 2 x 10 kg",
    ],
)
def test_what_is_no_slip(has: str) -> None:
    assert found(has) == []


@pytest.mark.parametrize(
    ("has", "codes"),
    [
        ("has kettlebell 12 kg", []),
        ("has barbell 20 kg\nhas kettlebell 12 kg", ["implement-unused"]),
        ('has kettlebell 12 kg\nhas band "red"', []),  # the `else` needs one
        ("body 68 kg", ["nothing-at-hand"]),
        ("has kettlebell 12 quid", ["unit-missing"]),  # what nobody could read may be what there is
    ],
)
def test_what_is_at_hand_is_judged_by_what_is_trained(has: str, codes: list[str]) -> None:
    told = [code for code, *_ in found(has, TRAINED)]
    assert [code for code in told if code not in ("must-impossible", "else-stays")] == codes


def test_who_trains_by_no_program_is_not_judged_by_one() -> None:
    assert found("has barbell 20 kg") == []
    assert found("body 68 kg") == []


def test_what_a_program_asks_for_that_could_not_be_read_is_not_guessed() -> None:
    broken = TRAINED.replace("must goblet-squat", "must goblet-squatt")
    assert [code for code, *_ in found("has barbell 20 kg", broken) if code.startswith(("implement", "nothing"))] == []
