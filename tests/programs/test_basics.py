"""The shipped movement library holds what its users rely on, and the worked examples are in order."""

from collections import Counter
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from setwright.compiler.model import Movement
from setwright.compiler.pipeline import compile_path, library_names
from setwright.compiler.vocabulary import IMPLEMENTS, THINGS

PROGRAMS = Path(__file__).resolve().parents[2] / "programs"
PATTERNS = ("squat", "lunge", "hinge", "push", "pull", "carry", "trunk", "balance", "mobility", "locomotion")

# Movements that need nothing, neither a thing nor an implement, in no rung: room to stand and to turn round is enough.
NEED_NOTHING = {"bodyweight-squat", "split-squat", "side-lunge", "shoulder-rolls", "arm-circles", "walk"}

# What the reference's example program uses.
EXPECTED = {
    "march-in-place",
    "chair-stand",
    "split-squat",
    "goblet-squat",
    "step-up",
    "push-up",
    "one-arm-row",
    "suitcase-hinge",
    "jerrycan-carry",
    "walk",
    "deadlift",
    "overhead-press",
}


@pytest.fixture(scope="module")
def library() -> tuple[Movement, ...]:
    result = compile_path(PROGRAMS / "basics.coach")
    assert not result.diagnostics
    return result.project.movements


def test_the_library_is_large_enough_and_every_name_is_there_once(library: tuple[Movement, ...]) -> None:
    names = [movement.name for movement in library]
    assert len(names) >= 60
    assert len(names) == len(set(names))
    assert tuple(names) == library_names()
    assert set(names) >= EXPECTED


def test_every_pattern_has_at_least_five_movements_and_no_other_pattern_is_used(library: tuple[Movement, ...]) -> None:
    counted = Counter(pattern for movement in library for pattern in movement.patterns)
    assert set(counted) == set(PATTERNS)
    assert min(counted.values()) >= 5, counted


def test_every_movement_is_cued_and_cautioned_and_explained(library: tuple[Movement, ...]) -> None:
    poor = {
        movement.name
        for movement in library
        if len(movement.cues) < 2 or not movement.cautions or not 1 <= len(movement.how.splitlines()) <= 4
    }
    assert not poor


def test_every_movement_says_how_long_it_takes_in_exactly_one_way(library: tuple[Movement, ...]) -> None:
    ways = {
        movement.name: movement.held + (movement.rep is not None) + (movement.covers is not None)
        for movement in library
    }
    assert {name: count for name, count in ways.items() if count != 1} == {}


def test_a_movement_needs_something_or_deliberately_nothing(library: tuple[Movement, ...]) -> None:
    without = {movement.name for movement in library if not movement.loaded_by and not any(_needs(movement))}
    assert without == NEED_NOTHING


def test_only_known_things_and_implements_are_needed(library: tuple[Movement, ...]) -> None:
    assert {thing for movement in library for thing in _needs(movement)} <= THINGS
    kinds = {kind.removesuffix(" pair") for movement in library for kind in movement.loaded_by}
    assert kinds <= set(IMPLEMENTS)


def test_a_bench_press_and_a_squat_with_the_bar_warn_of_lifting_alone(library: tuple[Movement, ...]) -> None:
    for movement in library:
        if movement.name in ("back-squat", "bench-press"):
            assert "alone" in " ".join(movement.cautions).lower()
            assert "safety bars" in " ".join(movement.cautions).lower()


def test_rungs_rise_and_every_share_of_body_mass_names_its_source(library: tuple[Movement, ...]) -> None:
    for movement in library:
        assert len({rung.name for rung in movement.rungs}) == len(movement.rungs), movement.name
        shares = [rung.moves.base for rung in movement.rungs if rung.moves is not None]
        assert all(low < high for low, high in pairwise(shares)), movement.name
        assert all(rung.source for rung in movement.rungs if rung.moves is not None), movement.name


def test_the_push_up_moves_what_was_published(library: tuple[Movement, ...]) -> None:
    """Ebben WP et al. J Strength Cond Res 2011;25(10):2891-2894; shares read in a table reprinted from the paper."""
    (push_up,) = (movement for movement in library if movement.name == "push-up")
    shares = {rung.name: rung.moves and str(rung.moves) for rung in push_up.rungs}
    assert shares == {
        "wall": None,
        "bench": "41%",
        "knees": "49%",
        "box": "55%",
        "toes": "64%",
        "feet-raised": "70%",
    }


@pytest.mark.parametrize("folder", sorted(path.name for path in PROGRAMS.iterdir() if any(path.rglob("*.coach"))))
def test_an_example_folder_is_free_of_errors_and_warnings(folder: str) -> None:
    result = compile_path(PROGRAMS / folder, PROGRAMS)  # one leads back to the program of another
    assert [one.message for one in result.diagnostics if one.severity in ("error", "warning")] == []


def _needs(movement: Movement) -> Iterator[str]:
    yield from movement.needs
    for rung in movement.rungs:
        yield from rung.needs
