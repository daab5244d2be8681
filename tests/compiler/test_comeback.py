"""Coming back after a break: the published figures, doses worked out by hand, and what holds for any program."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from random import Random

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st
from setwright.compiler.clock import full_sets, session_time
from setwright.compiler.comeback import comeback, less_volume, offered_loads, offered_volume, origin
from setwright.compiler.fitting import fit, led_back
from setwright.compiler.horizon import outlook
from setwright.compiler.load_scale import loads_of
from setwright.compiler.logbook import logbook_of
from setwright.compiler.model import Amrap, Distance, Dose, Entry, Program, Reps, Return, Session, Timed, WorkSet
from setwright.compiler.pipeline import compile_texts
from setwright.compiler.today import today
from setwright.compiler.trim import Infeasible, trim
from setwright.compiler.week import COUNTED
from setwright.compiler.week_coverage import week_coverage

from ..generate import NOWHERE, quantity, random_weeks, target

WEEKS = tuple(Fraction(share, 100) for share in (50, 70, 80, 90))
SHED = """use basics

program shed "The shed"
  units kg
  coach "The shed coach", ask by "the log book"
  runs 12 weeks
  rest 60 s, change 30 s
  week 4: sets by -1
  rules
    | Keep the floor dry.
  category legs required, counts squat
  category pull at least 1 a week
  session main, 2 a week
    within 60 min
    short 20 min by sets
    block ready, warm-up
      do chair-stand 2 x 10
    block lifts
      must goblet-squat 3 x 10 at 16 kg
        advance reps by 1 to 12
      must deadlift sets 5 at 65%, 5 at 75%, amrap leaving 2 at 80%, expect 6, ramp 40% x 5
        advance load by 2.5% to 90%
      must push-up 3 x amrap leaving 2, expect 10
        advance total reps by 1 to 75
        else floor-press 4 x 8 at 12 kg
    block circle, rounds 3
      do band-row 12
        advance reps by 1 to 20
      do plank 30 s
        advance hold by 5 s to 60 s
    block out, conditioning
      may walk 30 min
        advance time by 10%

program shed-return "Back to the shed"
  return to shed after 3 weeks
{lines}
athlete maren "Maren"
  follows shed-return
  has kettlebell 8 kg, 12 kg, 16 kg
  has barbell 20 kg with plates 4 x 10 kg, 2 x 5 kg, 2 x 2.5 kg
  has floor, chair, wall, bench, table, door, strap, outside
  has band "red"
  max deadlift 80 kg
  begins goblet-squat at 16 kg
  begins push-up on knees, 8 reps
"""


def shed(*lines: str) -> tuple[Program, Program]:
    """The program, and the way back to it."""
    result = compile_texts({"shed.coach": SHED.format(lines="".join(f"    {line}\n" for line in lines))})
    assert not result.has_errors, result.diagnostics
    normal, back = result.project.programs
    return normal, back


def by_week(program: Program, movement: str) -> list[Dose]:
    """The dose of a movement in every week."""
    return [entry.dose for session in program.sessions for entry in session.entries if entry.movement.name == movement]


def told(dose: Dose) -> list[object]:
    """The sets of a dose: repetitions, seconds, or metres."""
    return [_told(work) for work in dose.sets]


def _told(work: WorkSet) -> object:
    match work.target:
        case Reps(low=low, high=high):
            assert low == high
            return low
        case Timed(time=amount) | Distance(length=amount):
            return str(amount)
        case Amrap():
            return "amrap"


def dose(sets: int, each: str, least: int = 1) -> Dose:
    return Dose((WorkSet(target(each)),) * sets, least_sets=least, span=NOWHERE)


# What is offered


def test_the_published_shares_are_offered() -> None:
    # 50/30/20/10 % less in four weeks: 50, 70, 80 and 90 % of normal.
    assert [share.base for share in offered_volume()] == list(WEEKS)


def test_half_as_much_is_taken_from_loads() -> None:
    assert [str(share) for share in offered_loads(offered_volume())] == ["75%", "85%", "90%", "95%"]


def test_beside_loads_of_the_coach_as_many_shares_are_offered_as_these() -> None:
    two, six = (tuple(quantity("80%") for _ in range(number)) for number in (2, 6))
    assert [str(share) for share in offered_volume(two)] == ["80%", "90%"]  # type: ignore[arg-type]
    assert [str(share) for share in offered_volume(six)] == ["50%", "70%", "80%", "90%", "90%", "90%"]  # type: ignore[arg-type]


# Volume


@pytest.mark.parametrize(
    ("sets", "each", "weeks"),
    [
        (3, "10", [[5] * 3, [7] * 3, [8] * 3, [9] * 3]),  # 30 repetitions: 15, 21, 24, 27
        (3, "8", [[6] * 2, [8] * 2, [6] * 3, [7] * 3]),  # 24: 12, 16 of 16.8, 18 of 19.2, 21 of 21.6
        (4, "5", [[5] * 2, [4] * 3, [4] * 4, [4] * 4]),  # 20: 10, 12 of 14, 16, 16 of 18
        (5, "1", [[1] * 2, [1] * 3, [1] * 4, [1] * 4]),  # no half repetitions: 2 of 2.5, 3 of 3.5, 4, 4 of 4.5
        (1, "1", [[1], [1], [1], [1]]),  # one always stays
        (3, "6-10", [[3] * 3, [4] * 3, [4] * 3, [5] * 3]),  # a range counts as its lower end
        (2, "amrap 9", [[9], [6] * 2, [7] * 2, [8] * 2]),  # a fixed number in place of as many as possible
        (2, "30 s", [["30 s"], ["20 s"] * 2, ["20 s"] * 2, ["25 s"] * 2]),
        (1, "30 min", [["15 min"], ["21 min"], ["24 min"], ["27 min"]]),
        (1, "3 min", [["1.5 min"], ["2 min"], ["2 min"], ["2.5 min"]]),
        (4, "20 m", [["20 m"] * 2, ["14 m"] * 4, ["16 m"] * 4, ["18 m"] * 4]),
        (1, "2.4 km", [["1.2 km"], ["1.6 km"], ["1.9 km"], ["2.1 km"]]),
    ],
)
def test_doses_worked_out_by_hand(sets: int, each: str, weeks: list[list[object]]) -> None:
    assert [told(less_volume(dose(sets, each), share)) for share in WEEKS] == weeks


def test_the_smallest_number_of_sets_stays() -> None:
    assert told(less_volume(dose(4, "5", least=3), Fraction(1, 2))) == [3, 3, 3]  # 9 of 10
    assert told(less_volume(dose(4, "1", least=3), Fraction(1, 2))) == [1, 1, 1]  # more than half, but no less can be


@given(st.integers(1, 8), st.integers(1, 40), st.integers(1, 8), st.lists(st.integers(1, 100), min_size=2, max_size=12))
def test_never_more_than_the_share_and_rising_with_it(sets: int, reps: int, least: int, percents: list[int]) -> None:
    normal = dose(sets, str(reps), min(least, sets))
    totals = []
    for percent in sorted(percents):
        back = less_volume(normal, Fraction(percent, 100))
        assert normal.least_sets <= len(back.sets) <= sets
        counts = [work.target.low for work in back.sets if isinstance(work.target, Reps)]
        assert all(1 <= count <= reps for count in counts)
        assert sum(counts) * 100 <= sets * reps * percent or counts == [1] * normal.least_sets
        totals.append(sum(counts))
    assert totals == sorted(totals)
    assert told(less_volume(normal, Fraction(1))) == [reps] * sets


# The program


def test_a_session_for_each_week_named_after_it() -> None:
    normal, back = shed()
    assert back.weeks == 4
    assert [(one.name, one.title, one.week) for one in back.sessions] == [
        (f"week-{week}-main", f"Week {week}: Main", week) for week in (1, 2, 3, 4)
    ]
    assert {origin(one.name) for one in back.sessions} == {"main"}
    assert back.returns is not None and back.returns.normal is normal


def test_what_it_does_not_say_is_as_in_the_other() -> None:
    normal, back = shed()
    assert (back.title, back.coach, back.ask_by, back.rules) == (
        "Back to the shed", normal.coach, normal.ask_by, normal.rules,
    )  # fmt: skip
    assert (back.categories, back.rest, back.change, back.units) == (
        normal.categories, normal.rest, normal.change, normal.units,
    )  # fmt: skip
    assert back.easier == ()


def test_volume_and_loads_in_each_week() -> None:
    _, back = shed("volume 50%, 80%", "load 60%, 90%")
    first, second = by_week(back, "goblet-squat")
    assert (told(first), str(first.load)) == ([5, 5, 5], "9.6 kg")
    assert (told(second), str(second.load)) == ([8, 8, 8], "14.4 kg")
    first, second = by_week(back, "deadlift")  # 5, 5 and 6 repetitions: 8 and 12.8
    assert [(count, str(work.load)) for count, work in zip(told(first), first.sets, strict=True)] == [
        (4, "39%"), (4, "45%"),
    ]  # fmt: skip
    assert [(count, str(work.load)) for count, work in zip(told(second), second.sets, strict=True)] == [
        (4, "58.5%"), (4, "67.5%"), (4, "72%"),
    ]  # fmt: skip
    assert [str(one.share) for one in (*first.ramp, *second.ramp)] == ["24%", "36%"]


def test_an_else_is_less_too_and_nothing_advances() -> None:
    _, back = shed()
    for session in back.sessions:
        for block in session.blocks:
            for entry in block.entries if block.kind in COUNTED else ():
                assert entry.rule is None
                assert all(other.rule is None for other in entry.otherwise)
    presses = [entry.otherwise[0].dose for one in back.sessions for entry in one.entries if entry.otherwise]
    assert [told(press) for press in presses] == [[8] * 2, [7] * 3, [6] * 4, [7] * 4]


def test_a_circuit_keeps_its_rounds_and_a_warm_up_stays_as_it_is() -> None:
    normal, back = shed()
    circles = [block for session in back.sessions for block in session.blocks if block.rounds is not None]
    assert [block.rounds for block in circles] == [3, 3, 3, 3]
    assert [told(one) for one in by_week(back, "band-row")] == [[6], [8], [9], [10]]
    assert [told(one) for one in by_week(back, "plank")] == [["15 s"], ["20 s"], ["20 s"], ["25 s"]]
    assert {session.blocks[0] for session in back.sessions} == {normal.sessions[0].blocks[0]}


def test_short_versions_stay_where_the_session_is_longer() -> None:
    _, back = shed()
    for session in back.sessions:
        longer = session_time(back, session) > 1200
        assert [short.limit.base for short in session.shorts] == ([1200] if longer else [])


def test_the_week_is_the_last_one() -> None:
    normal, back = shed()
    assert (week_coverage(back).sessions, week_coverage(back).strength_days) == (2, 2)
    assert week_coverage(back).seconds < week_coverage(normal).seconds


def test_the_shortest_version_of_every_week_holds_what_the_week_must() -> None:
    _, back = shed()
    for session in back.sessions:
        shortest = trim(back, session, Fraction(-1), "movements")
        assert isinstance(shortest, Infeasible)  # nothing takes less than no time
        both = zip(session.entries, shortest.smallest.kept, strict=True)
        kept = {pattern for entry, sets in both if sets for pattern in entry.movement.patterns}
        assert {"squat", "pull"} <= kept


# For an athlete


def test_loads_of_an_athlete_are_made_of_what_there_is() -> None:
    _, back = shed()
    result = compile_texts({"shed.coach": SHED.format(lines="")})
    fitting = fit(back, result.project.athletes[0])
    squats = [str(one.load) for one in by_week(fitting.program, "goblet-squat")]
    assert squats == ["12 kg", "12 kg", "12 kg", "12 kg"]  # 16 kg by 75, 85, 90 and 95 %
    pulls = [entry for one in fitting.program.sessions for entry in one.entries if entry.movement.name == "deadlift"]
    made = [dict(entry.fitted.made) for entry in pulls if entry.fitted is not None]
    lifted = [[float(made[week][work.load].load or 0) for work in entry.dose.sets] for week, entry in enumerate(pulls)]
    # 52, 60 and 64 kg of 80 kg came to 50, 60 and 60: by 75 % 37.5 and 45, by 85 % 42.5 and 51 twice, ...
    assert lifted == [[35, 45], [40, 50, 50], [45, 50, 50], [45, 55, 55]]
    assert [told(one) for one in by_week(fitting.program, "push-up")] == [[6] * 2, [8] * 2, [6] * 3, [7] * 3]
    assert {choice.chosen is not None for choice in fitting.choices} == {True}
    assert len(fitting.choices) == sum(len(session.entries) for session in fitting.program.sessions)


def test_it_leads_back_from_what_an_athlete_has_come_to() -> None:
    normal, back = shed()
    result = compile_texts({"shed.coach": SHED.format(lines="")})
    fitting = fit(normal, result.project.athletes[0])

    def more(entry: Entry) -> Entry:
        return attrs.evolve(entry, dose=dose(3, "12")) if entry.movement.name == "goblet-squat" else entry

    sessions = tuple(
        attrs.evolve(
            session,
            blocks=tuple(attrs.evolve(one, entries=tuple(map(more, one.entries))) for one in session.blocks),
        )
        for session in fitting.program.sessions
    )
    now = attrs.evolve(fitting, program=attrs.evolve(fitting.program, sessions=sessions))
    led = led_back(back, now)
    assert [told(one) for one in by_week(led.program, "goblet-squat")] == [[9] * 2, [8] * 3, [9] * 3, [10] * 3]


def test_the_horizon_tells_the_weeks_side_by_side() -> None:
    _, back = shed()
    look = outlook(back)
    assert look.good.weeks == 4
    (ahead,) = look.good.sessions
    assert ahead.session.name == "main"
    assert list(ahead.seconds) == [session_time(back, session) for session in back.sessions]
    squats = next(row for row in look.good.rows if row.entry.movement.name == "goblet-squat")
    assert [told(stage.entry.dose) for stage in squats.stages] == [[5] * 3, [7] * 3, [8] * 3, [9] * 3]
    assert look.good.sets[-1] == 2 * sum(
        full_sets(block, entry)
        for block in back.sessions[-1].blocks
        if block.kind in COUNTED
        for entry in block.entries
    )


# For any program


def amounts(program: Program, session: Session) -> Iterator[tuple[Fraction, list[Fraction], int]]:
    """Of every entry: all that it counts, its loads, and its sets."""
    for block in session.blocks:
        for entry in block.entries:
            sizes = [_size(work) for work in entry.dose.sets]
            yield sum(sizes, Fraction(0)), [load.base for load in loads_of(entry.dose)], full_sets(block, entry)


def _size(work: WorkSet) -> Fraction:
    match work.target:
        case Reps(low=low):
            return Fraction(low)
        case Amrap(expect=expect):
            return Fraction(expect or 10)
        case Timed(time=amount) | Distance(length=amount):
            return amount.base


@pytest.mark.parametrize("seed", range(40))
def test_never_more_than_normal_and_no_week_less_than_the_one_before(seed: int) -> None:
    normal = random_weeks(Random(seed), 12)
    shares = tuple(filter(None, map(quantity, ("40%", "55%", "70%", "85%", "100%"))))
    empty = attrs.evolve(normal, name="back", returns=Return(normal.name, 3, shares, shares, span=NOWHERE))
    back = comeback(empty, normal)
    for session in normal.sessions:
        weekly = [one for one in back.sessions if origin(one.name) == session.name]
        assert len(weekly) == len(shares)
        for one in weekly:
            assert [entry.movement for entry in one.entries] == [entry.movement for entry in session.entries]
            assert session_time(back, one) <= session_time(normal, session)
        for before, after in pairwise([*weekly, session]):
            for (less, light, few), (more, heavy, many) in zip(
                amounts(back, before), amounts(back, after), strict=True
            ):
                assert less <= more
                assert few <= many or less < more
                assert all(low <= high for low, high in zip(light, heavy, strict=False))


ODD = """use basics

program shed
  session main, 2 a week
    block lifts
      must goblet-squat {dose}
        advance none because "It is a test."

program shed-return
  return to {to} after {weeks} weeks
{lines}"""


@pytest.mark.parametrize(
    ("odd", "codes"),
    [
        ({"dose": "0 x 10"}, ["sets-out-of-range"]),
        ({"dose": "3 x 0"}, ["reps-out-of-range"]),
        ({"dose": "3 x 0 s"}, ["dose-out-of-range"]),
        ({"to": "shed-return"}, ["return-to-return"]),
        ({"to": "shde"}, ["name-unknown"]),
        ({"weeks": "200"}, ["return-break-out-of-range"]),
        ({"lines": "    volume 0%, 9999%"}, ["return-share-out-of-range"] * 2),
        ({"lines": "  units lb"}, ["return-beside"]),
    ],
)
def test_what_is_odd_is_told_once_and_where_it_stands(odd: dict[str, str], codes: list[str]) -> None:
    said = {"dose": "3 x 10", "to": "shed", "weeks": "3", "lines": "", **odd}
    assert [one.code for one in compile_texts({"shed.coach": ODD.format(**said) + "\n"}).diagnostics] == codes


LOG = """
log maren on shed

2026-10-05 main, 50 min
  goblet-squat 16 kg 10 10 10
2026-10-08 main, 50 min
  goblet-squat 16 kg 11 11 11
"""


def test_it_leads_back_from_where_the_log_left_off() -> None:
    project = compile_texts({"shed.coach": SHED.format(lines="") + LOG}).project
    _, back = project.programs
    book = logbook_of(fit(back, project.athletes[0]), project.programs, project.logs)
    squats = by_week(today(book).program, "goblet-squat")
    assert [told(one) for one in squats] == [
        [9] * 2,
        [8] * 3,
        [9] * 3,
        [10] * 3,
    ]  # 3 x 12: 18, 24 of 25.2, 27 of 28.8, 30 of 32.4


def test_on_the_way_back_nothing_counts_as_missed() -> None:
    log = LOG.replace("on shed", "on shed-return").replace(" main,", " week-1-main,").replace("11 11 11", "3")
    project = compile_texts({"shed.coach": SHED.format(lines="") + log}).project
    _, back = project.programs
    book = logbook_of(fit(back, project.athletes[0]), project.programs, project.logs)
    steps = [step for stands in book.stands for step in stands.steps]
    assert len(steps) == 2
    assert all(step.short is None and step.turn is None for step in steps)
