"""What holds of every rule, dose, athlete and row of sessions, made at random."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

import attrs
from hypothesis import assume, event, given, settings
from hypothesis import strategies as st
from setwright.compiler.axes import AXES
from setwright.compiler.course import Means, course_of, dose_at
from setwright.compiler.model import (
    Amrap,
    Axis,
    Block,
    Distance,
    Dose,
    Entry,
    Movement,
    Program,
    Reps,
    Rule,
    Rung,
    Start,
    Target,
    Tempo,
    Timed,
    WorkSet,
)
from setwright.compiler.progression import Course, Standing, Turn, after
from setwright.compiler.quantity import Quantity

from ..generate import NOWHERE, block, program, session

MEASURES = {"load": "kg", "distance": "m", **dict.fromkeys(("lower", "pause", "hold", "time", "pace", "rest"), "s")}


def quantities(unit: str, least: int = 1, most: int = 60) -> st.SearchStrategy[Quantity]:
    return st.integers(least, most).map(lambda figure: Quantity(Fraction(figure), unit))


COUNTS = st.integers(1, 12)
RANGES = st.tuples(COUNTS, COUNTS).map(lambda ends: Reps(min(ends), max(ends)))
AMRAPS = st.builds(Amrap, st.none() | st.integers(0, 3), st.none() | COUNTS)
LOADS = st.lists(st.integers(2, 80), unique=True, max_size=12).map(lambda some: tuple(map(Fraction, sorted(some))))


@st.composite
def doses(draw: st.DrawFn, *, circuit: bool, held: bool) -> Dose:
    kinds: list[st.SearchStrategy[Target]] = [
        COUNTS.map(lambda reps: Reps(reps, reps)),
        RANGES,
        st.just(draw(AMRAPS)),  # what is expected is told once for all of them
        quantities("s").map(Timed),
        quantities("m").map(Distance),
    ]
    targets = draw(st.sampled_from(kinds[3:4] if held else kinds))
    count = 1 if circuit else draw(st.integers(1, 5))
    unlike = draw(st.booleans())
    each = [draw(targets) for _ in range(count)] if unlike else [draw(targets)] * count
    told = st.none() | (quantities("kg") if draw(st.booleans()) else quantities("%", 20, 95))
    own = [draw(told) for _ in each] if unlike else [None] * count
    return Dose(
        tuple(map(WorkSet, each, own)),
        load=draw(told),
        tempo=Tempo(lower=draw(st.none() | quantities("s", 1, 6)), cues=draw(st.none() | st.integers(1, 4))),
        rest=None if circuit else draw(st.none() | quantities("s", 0, 120)),
        least_sets=draw(st.integers(1, count)),
        span=NOWHERE,
    )


@st.composite
def axes(draw: st.DrawFn, name: str, others: list[str], entry: Entry) -> Axis:
    unit = MEASURES.get(name)
    step: int | Quantity | None
    bound: int | Quantity | str | None
    if unit is None:
        step, bound = draw(st.integers(1, 3)), draw(st.none() | st.integers(1, 30))
    else:
        step = draw(quantities(unit, 1, 10) | quantities("%", 1, 30))
        bound = draw(st.none() | quantities(unit, 1, 120))
    at = None
    if name == "load":
        step = draw(st.none() | st.just(step))
    if name == "rung":
        step, bound = None, draw(st.none() | st.sampled_from([rung.name for rung in entry.movement.rungs]))
        if all(isinstance(work.target, Reps | Amrap) for work in entry.dose.sets):
            at = draw(st.none() | st.integers(1, 20))
    restarting = draw(st.lists(st.sampled_from(others), unique=True)) if others else []
    return Axis(name, step, bound, at, tuple(restarting), span=NOWHERE)


@attrs.frozen
class Made:
    """An entry with a rule, and who does it."""

    program: Program
    block: Block
    entry: Entry
    means: Means
    course: Course


@st.composite
def made(draw: st.DrawFn, *, only_earlier: bool = False, nobody: bool = False) -> Made:
    """`only_earlier`: an axis restarts none that stands after it. `nobody`: no athlete brings anything."""
    circuit, held = draw(st.booleans()), draw(st.booleans())
    rungs = tuple(Rung(f"rung-{number}", "So") for number in range(draw(st.integers(0, 4))))
    covers = draw(st.none() | st.just((Quantity(Fraction(10), "m"), Quantity(Fraction(12), "s"))))
    lift = Movement("lift", "Lift", ("squat",), held, rungs, loaded_by=("dumbbell",), covers=covers, span=NOWHERE)
    entry = Entry("must", lift, draw(doses(circuit=circuit, held=held)), span=NOWHERE)
    where = block(entry, rounds=draw(st.integers(1, 5)) if circuit else None)
    whole = program(session(where))
    fit = [name for name in AXES if AXES[name].unfit(where, entry) is None]
    names = draw(st.lists(st.sampled_from(fit), min_size=1, max_size=4, unique=True))
    rule = Rule(
        tuple(
            draw(axes(name, names[:place] if only_earlier else [one for one in names if one != name], entry))
            for place, name in enumerate(names)
        ),
        draw(st.integers(1, 3)),
        draw(st.none() | st.integers(1, 3)),
        draw(st.none() | eases(fit)),
        span=NOWHERE,
    )
    entry = attrs.evolve(entry, rule=rule)
    means = Means() if nobody else draw(brought(rungs))
    course = course_of(whole, where, entry, means)
    assert course is not None
    return Made(whole, where, entry, means, course)


def eases(fit: list[str]) -> st.SearchStrategy[tuple[str, int | Quantity]]:
    def part(name: str) -> st.SearchStrategy[tuple[str, int | Quantity]]:
        unit = MEASURES.get(name)
        amounts = st.integers(1, 9) if unit is None else quantities(unit, 1, 40) | quantities("%", 1, 99)
        return st.tuples(st.just(name), amounts)

    return st.sampled_from(fit).flatmap(part)


@st.composite
def brought(draw: st.DrawFn, rungs: tuple[Rung, ...]) -> Means:
    begins = None
    if draw(st.booleans()):
        begins = Start(
            "lift",
            draw(st.none() | quantities("kg")),
            draw(st.none() | st.sampled_from([rung.name for rung in rungs])) if rungs else None,
            draw(st.none() | COUNTS),
            draw(st.none() | quantities("s") | quantities("m")),
            span=NOWHERE,
        )
    return Means(
        begins,
        draw(st.none() | LOADS),
        draw(st.none() | st.integers(40, 200).map(Fraction)),
        draw(st.none() | st.integers(1, 60).map(lambda share: Fraction(share, 100))),
        draw(st.none() | st.integers(30, 120).map(lambda share: Quantity(Fraction(share), "%"))),
    )


OUTCOMES = st.lists(st.tuples(st.sampled_from((True, True, True, False)), st.none() | st.integers(1, 30)), max_size=25)
GOOD = st.integers(1, 40).map(lambda times: [(True, None)] * times)


def turns(course: Course, outcomes: list[tuple[bool, int | None]]) -> Iterator[tuple[Standing, Turn]]:
    standing = course.start
    for good, repetitions in outcomes:
        turn = after(course, standing, good, repetitions)
        yield standing, turn
        standing = turn.standing


@settings(deadline=None)
@given(made(), OUTCOMES)
def test_the_same_in_gives_the_same_out_and_changes_nothing(one: Made, outcomes: list[tuple[bool, int | None]]):
    path = list(turns(one.course, outcomes))
    assert path == list(turns(one.course, outcomes))
    again = course_of(one.program, one.block, one.entry, one.means)
    assert again == one.course and hash(again) == hash(one.course)
    for (standing, turn), (following, _) in pairwise(path):
        assert turn.standing is following
        assert len(standing.figures) == len(one.course.tracks)


@settings(deadline=None)
@given(made(), OUTCOMES)
def test_a_step_moves_one_axis_and_restarts_those_it_names(one: Made, outcomes: list[tuple[bool, int | None]]):
    """All other figures stay: after a good session none goes back that is not named by `restarting`."""
    for (before, turn), (good, _) in zip(turns(one.course, outcomes), outcomes, strict=True):
        event(turn.kind)
        now = turn.standing.figures
        if turn.kind not in ("moved", "eased"):
            assert now == before.figures
            continue
        assert good == (turn.kind == "moved")
        (place,) = (place for place, track in enumerate(one.course.tracks) if track.name == turn.axis)
        moved = one.course.tracks[place]
        sent_back = moved.restarts if good else ()
        for other, (track, figure, was) in enumerate(zip(one.course.tracks, now, before.figures, strict=True)):
            if other == place and figure is not None and was is not None:
                assert (figure > was) == (good != (track.kind.shrinks)) and figure != was
            elif other in sent_back:
                assert figure == track.start
            elif other != place:
                assert figure == was


@settings(deadline=None)
@given(made(only_earlier=True), OUTCOMES)
def test_a_good_session_never_goes_back(one: Made, outcomes: list[tuple[bool, int | None]]):
    """Where every axis restarts only axes before it, a later one counting more, each step is one up.

    So no standing comes again while all goes well, and a rule whose axes all end is exhausted some day.
    """
    assume(all(track.start is not None for track in one.course.tracks))

    def height(standing: Standing) -> list[Fraction]:
        both = list(zip(one.course.tracks, standing.figures, strict=True))[: one.course.axes]
        return [Fraction(figure or 0) * (-1 if track.kind.shrinks else 1) for track, figure in reversed(both)]

    for before, turn in turns(one.course, outcomes):
        # A load may become unknown, where nobody knows the next that can be made.
        if turn.kind == "moved" and None not in (*before.figures, *turn.standing.figures):
            assert height(turn.standing) > height(before)


@settings(deadline=None)
@given(made(), OUTCOMES)
def test_no_step_passes_its_bound_its_ladder_its_jump_or_what_can_be_made(
    one: Made, outcomes: list[tuple[bool, int | None]]
):
    course = one.course
    for before, turn in turns(course, outcomes):
        for track, was, now in zip(course.tracks, before.figures, turn.standing.figures, strict=True):
            if was is None or now is None or track.name != turn.axis:
                continue
            if track.name == "load" and course.loads and not course.shares:
                assert now in course.loads
            if turn.kind == "eased":
                assert now >= min(track.least, was)
                continue
            if track.bound is not None:
                assert now >= track.bound if track.kind.shrinks else now <= track.bound
            if track.kind.shrinks:
                assert now >= (1 if track.name == "pace" else 0)
            if track.name == "rung":
                assert now < len(one.entry.movement.rungs)
            if track.name == "load" and was:
                before_it, after_it = course.lifted(was), course.lifted(now)
                assert after_it - before_it <= course.jump * before_it


@settings(deadline=None)
@given(made(), OUTCOMES)
def test_who_is_not_exhausted_moves_in_time(one: Made, outcomes: list[tuple[bool, int | None]]):
    """Within so many good sessions as are asked for in a row, and as many more as repetitions are waited for.

    Only a rung that waits for more repetitions than a fixed dose asks for can wait for ever, until a log brings them.
    """
    course = one.course
    at = next((track.at for track in course.tracks if track.at is not None), 0)
    assume(not at or (course.expected is not None and course.asked is None))
    standing = course.start
    for _, turn in turns(course, outcomes):
        standing = turn.standing
    patience = course.good - standing.good + max(at - (standing.expected or 0), 0) + 1
    kinds = []
    for _ in range(patience):
        turn = after(course, standing, good=True)
        standing = turn.standing
        kinds.append(turn.kind)
    assert "moved" in kinds or kinds[-1] == "exhausted"


@settings(deadline=None)
@given(made(), GOOD)
def test_exhausted_is_the_end_and_is_said_with_a_reason_for_every_axis(
    one: Made, outcomes: list[tuple[bool, int | None]]
):
    last: Turn | None = None
    for before, turn in turns(one.course, outcomes):
        if last is not None and last.kind == "exhausted":
            assert turn == last and turn.standing == before
        last = turn
        if turn.kind == "exhausted":
            rule = one.entry.rule
            assert isinstance(rule, Rule)
            assert [blocked.axis for blocked in turn.blocked] == [axis.name for axis in rule.axes]
            # What nobody knows is never called exhausted.
            unknown = [
                track.name
                for track, figure in zip(one.course.tracks, before.figures, strict=True)
                if figure is None and track.at is None and not (track.name == "load" and one.course.loads == ())
            ]
            assert not set(unknown) & {blocked.axis for blocked in turn.blocked}


@settings(deadline=None)
@given(made(), OUTCOMES)
def test_the_dose_of_every_standing_can_be_done(one: Made, outcomes: list[tuple[bool, int | None]]):
    """It is a dose that could be written: 1 set, repetition, second or metre at the least, and some weight."""
    told = one.entry.dose
    for _, turn in turns(one.course, outcomes):
        dose = dose_at(one.entry, one.course, turn.standing)
        figures = {track.name: now for track, now in zip(one.course.tracks, turn.standing.figures, strict=True)}
        if one.block.rounds is None and figures.get("sets") is not None:
            assert len(dose.sets) == figures["sets"]
        else:
            assert len(dose.sets) == len(told.sets)
        assert len(dose.sets) >= min(told.least_sets, len(told.sets))
        for work in dose.sets:
            match work.target:
                case Reps(low=low, high=high):
                    assert 1 <= low <= high
                    assert isinstance(low, int)
                case Amrap(expect=expect):
                    assert expect is None or (expect >= 1 and isinstance(expect, int))
                case Timed(time=time):
                    assert time.base >= 1 and time.dimension == "time"
                case Distance(length=length):
                    assert length.base >= 1 and length.dimension == "length"
        loads = [load for load in (dose.load, *(work.load for work in dose.sets)) if load is not None]
        assert all(load.base > 0 for load in loads)
        assert dose.rest is None or dose.rest.base >= 0
        for part in (dose.tempo.lower, dose.tempo.pause):
            assert part is None or part.base >= 1
        assert dose.tempo.cues is None or dose.tempo.cues >= 1


@settings(deadline=None)
@given(made(nobody=True))
def test_where_nobody_begins_otherwise_the_first_dose_is_the_one_that_was_written(one: Made):
    """But for a range whose repetitions advance: it begins at its bottom."""
    first = dose_at(one.entry, one.course, one.course.start)
    tracked = {track.name for track in one.course.tracks}

    def bottom(target: Target) -> Target:
        return Reps(target.low, target.low) if isinstance(target, Reps) and "reps" in tracked else target

    sets = tuple(attrs.evolve(work, target=bottom(work.target)) for work in one.entry.dose.sets)
    assert first == attrs.evolve(one.entry.dose, sets=sets)
