"""A small program made by hand, with something of everything that a sheet can tell."""

from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest
from setwright.compiler.fitting import Fitting, fit
from setwright.compiler.model import (
    Alternative,
    Amrap,
    Axis,
    Block,
    Category,
    Distance,
    Dose,
    Entry,
    Movement,
    NoProgress,
    Program,
    Project,
    RampSet,
    Reps,
    Rule,
    Rung,
    Session,
    Short,
    Tempo,
    Timed,
    WorkSet,
)
from setwright.compiler.pipeline import Result, compile_texts
from setwright.compiler.quantity import Quantity
from setwright.grammar.source import Source, Span

SPAN = Span(Source("small.coach", "program small\n"), 0, 7)


def q(amount: int | str, unit: str) -> Quantity:
    return Quantity(Fraction(amount), unit)


def sets(number: int, target: object) -> tuple[WorkSet, ...]:
    return (WorkSet(target),) * number  # type: ignore[arg-type]


def movement(name: str, title: str, *patterns: str, **more: object) -> Movement:
    return Movement(name, title, patterns, span=SPAN, **more)  # type: ignore[arg-type]


def entry(priority: str, what: Movement, *works: WorkSet, rule: object = None, **more: object) -> Entry:
    of_entry = {key: more.pop(key) for key in ("otherwise", "condition", "note") if key in more}
    return Entry(priority, what, Dose(works, span=SPAN, **more), rule, span=SPAN, **of_entry)  # type: ignore[arg-type]


def axis(name: str, **more: object) -> Axis:
    return Axis(name, span=SPAN, **more)  # type: ignore[arg-type]


def rule(*axes: Axis, **more: object) -> Rule:
    return Rule(axes, span=SPAN, **more)  # type: ignore[arg-type]


def small_program() -> Program:
    squat = movement(
        "goblet-squat", "Goblet squat", "squat", loaded_by=("dumbbell", "kettlebell"), rep=q(4, "s"), needs=("floor",),
        cues=("Hug the weight", "Elbows between the knees"), cautions=("Put the weight down on the step",),
        how="Sit down between the knees.\nStand up *tall*.",
    )  # fmt: skip
    push = movement(
        "push-up", "Push-up", "push", cautions=("Sore wrists: make fists.",),
        rungs=(Rung("knees", "on the knees", q(49, "%"), "A study of 2011", ("floor",)), Rung("toes", "on the toes")),
    )  # fmt: skip
    chair = movement("chair-stand", "Chair stand", "squat", needs=("chair",), how="Sit down softly.")
    carry = movement("can-carry", "Can carry", "carry", loaded_by=("container",))
    walk = movement("walk", "Walk", "locomotion", needs=("outside",))
    lift = movement("deadlift", "Deadlift", "hinge", loaded_by=("barbell",))
    plank = movement("plank", "Plank", "trunk", held=True)
    ready = Block("ready", "Get ready", "warm-up", (entry("do", chair, *sets(1, Reps(10, 10))),), span=SPAN)
    legs = Block("legs", "Legs", "work", (
        entry(
            "must", squat, *sets(3, Reps(6, 8)), load=q("12.5", "kg"), rest=q(75, "s"), least_sets=2,
            tempo=Tempo(lower=q(3, "s"), cues=3, up="fast"), note="Count aloud.",
            rule=rule(axis("load"), axis("reps", step=1, bound=10), axis("sets", step=1, bound=5), missed=2,
                      ease=("load", q(10, "%"))),
            otherwise=(Alternative(chair, Dose(sets(3, Reps(12, 12)), span=SPAN), span=SPAN),),
        ),
        entry("key", lift, WorkSet(Reps(5, 5), q(65, "%")), WorkSet(Amrap(), q(85, "%")),
              ramp=(RampSet(q(40, "%"), 5), RampSet(q(60, "%"), 3)), rpe="7",
              rule=NoProgress("the maximum is set by the coach", span=SPAN)),
    ), span=SPAN)  # fmt: skip
    upper = Block("upper", "Push and hold", "work", (
        entry("must", push, *sets(1, Amrap(2, 9)), rule=rule(axis("rung", at=15))),
        entry("may", plank, *sets(1, Timed(q(30, "s"))), each_side=True, condition="able",
              rule=rule(axis("hold", step=q(5, "s"), bound=q(60, "s")), good=2)),
    ), rounds=3, rest=q(30, "s"), change=q(15, "s"), note="One set of each, then a rest.", span=SPAN)  # fmt: skip
    last = Block("last", "Carry", "work", (
        entry("do", carry, *sets(4, Distance(q(20, "m"))), condition="corridor",
              rule=rule(axis("load"), axis("distance", step=q(5, "m"), bound=q(40, "m"), restarting=("load",)))),
    ), span=SPAN)  # fmt: skip
    out = Block("out", "Outside", "conditioning", (
        entry("do", walk, *sets(1, Timed(q(30, "min"))), logs=("distance", "time"),
              rule=rule(axis("pace", step=q(5, "s")))),
    ), span=SPAN)  # fmt: skip
    return Program(
        "small", "Small program", 2, date(2026, 6, 14), "The crew", "The shore coach", "the Thursday mail", "kg", 12,
        q(60, "s"), q(45, "s"), aims="Stay strong.", rules="Train in order.\n\nLog **every** session.\n\n- one\n- two",
        categories=(Category("legs", "Legs", ("squat",), True, span=SPAN),
                    Category("push", "Push", ("push",), True, 2, span=SPAN)),
        sessions=(
            Session("main", "Main session", (ready, legs, upper, last), 3, within=q(60, "min"), note="Lay out first.",
                    shorts=(Short(q(25, "min"), "sets", span=SPAN), Short(q(20, "min"), "movements", span=SPAN)),
                    span=SPAN, within_span=SPAN),
            Session("walk", "Daily walk", (out,), 7, span=SPAN, within_span=None),
        ),
        fingerprint="0123456789abcdef0123", span=SPAN,
    )  # fmt: skip


@pytest.fixture(scope="session")
def program() -> Program:
    return small_program()


@pytest.fixture(scope="session")
def project(program: Program) -> Project:
    return Project(programs=(program,))


@pytest.fixture(scope="session")
def boat_shed_texts() -> dict[str, str | bytes]:
    """A project with a program of everything that a personal sheet can tell; the people stand in a folder below it."""
    folder = Path(__file__).with_name("boat-shed")
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*.coach"))}


@pytest.fixture(scope="session")
def boat_shed(boat_shed_texts: dict[str, str | bytes]) -> Result:
    return compile_texts(boat_shed_texts)


@pytest.fixture(scope="session")
def fittings(boat_shed: Result) -> dict[str, Fitting]:
    (program,) = boat_shed.project.programs
    return {athlete.name: fit(program, athlete) for athlete in boat_shed.project.athletes}


@pytest.fixture(scope="session")
def ewa(fittings: dict[str, Fitting]) -> Fitting:
    """Somebody with a pair, plates in pounds and kilograms, a container, a band, a rung, another movement, large print."""
    return fittings["ewa"]


@pytest.fixture(scope="session")
def joss(fittings: dict[str, Fitting]) -> Fitting:
    """Somebody of whom little is known, and who cannot do a movement that must be done."""
    return fittings["joss"]
