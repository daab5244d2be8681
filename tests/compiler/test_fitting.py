"""A program fitted to an athlete: every choice by hand, and what holds for any athlete."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from random import Random

import attrs
import pytest
from setwright.compiler.checks.fitting import fitting_findings
from setwright.compiler.clock import session_time
from setwright.compiler.fitting import Choice, Fitting, fit, serving
from setwright.compiler.horizon import outlook
from setwright.compiler.implements import makeable_loads
from setwright.compiler.load_scale import loads_of
from setwright.compiler.model import Entry, Fitted, Made, Reps, Rule
from setwright.compiler.pipeline import compile_texts, library_movements
from setwright.compiler.reasons import lines
from setwright.compiler.trim import Version, trim

PROGRAM = """use basics

program shed "The shed"
  units kg
  jump 20%
  session main, 3 a week
    within 60 min
    short 30 min by sets
    block ready, warm-up
      do chair-stand 1 x 10
    block lifts
{entries}

athlete maren "Maren"
{says}
"""


def fitted(entries: str, *says: str) -> Fitting:
    """The program of these entries, each with a rule unless it brings one, fitted to an athlete who says this."""
    written = "\n".join(f"      {line}" for line in entries.splitlines())
    text = PROGRAM.format(entries=written, says="\n".join(f"  {line}" for line in says or ("body 68 kg",)))
    result = compile_texts({"shed.coach": text})
    errors = [one for one in result.diagnostics if one.severity == "error"]
    fitting = fit(result.project.programs[0], result.project.athletes[0])
    assert {one.code for one in errors} <= {one.code for one in fitting_findings(fitting)}, errors
    return fitting


def last(fitting: Fitting) -> Choice:
    return fitting.choices[-1]


def chosen(fitting: Fitting) -> Entry:
    found = last(fitting).chosen
    assert found is not None
    return found


def made(fitting: Fitting) -> list[tuple[str, Made]]:
    how = chosen(fitting).fitted
    assert how is not None
    return [(str(told), making) for told, making in how.made]


def loads(fitting: Fitting) -> dict[str, Fraction | None]:
    return {told: making.load for told, making in made(fitting)}


def kinds(choice: Choice) -> list[str]:
    return [reason.kind for reason in choice.reasons]


SQUAT = "must goblet-squat 3 x 8{dose}\n  advance reps by 1 to 12, then load restarting reps\n"
INSTEAD = "  else chair-stand 3 x 12\n    advance reps by 1 to 20\n  else wall-sit 3 x 30 s\n"


def squat(dose: str = "", instead: str = INSTEAD) -> str:
    return SQUAT.format(dose=dose) + instead


# Which movement


@pytest.mark.parametrize(
    ("says", "movement", "reasons"),
    [
        (("has kettlebell 8 kg", "has chair"), "goblet-squat", ["load-lightest"]),
        (("has chair, cushion",), "chair-stand", ["no-implement"]),
        (("has wall",), "wall-sit", ["no-implement", "needs-missing"]),
        (("has kettlebell 8 kg", "has chair", 'avoids goblet-squat "wrist"'), "chair-stand", ["avoided", "rungs-left-out"]),
        (("has kettlebell 8 kg", "has chair, wall", 'avoids squat "knees"'), None, ["avoided"] * 3),
        (("has barbell 20 kg",), None, ["no-implement", "needs-missing", "needs-missing"]),
        (("has band \"red\"", "has wall"), "wall-sit", ["no-implement", "needs-missing"]),
        (("trains alone",), "goblet-squat", ["load-unknown"]),  # nobody says what there is
    ],
)  # fmt: skip
def test_the_first_that_can_be_done(says: tuple[str, ...], movement: str | None, reasons: list[str]) -> None:
    choice = last(fitted(squat(), *says))
    assert (choice.chosen and choice.chosen.movement.name) == movement
    assert kinds(choice) == reasons


def test_an_else_brings_its_own_dose_and_rule_and_no_note() -> None:
    entries = squat().replace("restarting reps\n", "restarting reps\n  | Hug it close.\n", 1)
    entry = chosen(fitted(entries, "has chair"))
    assert entry.dose.sets[0].target == Reps(12, 12) and isinstance(entry.rule, Rule) and entry.note == ""
    assert entry.fitted is not None and entry.fitted.instead_of is not None
    assert entry.fitted.instead_of.name == "goblet-squat" and entry.otherwise == ()
    assert chosen(fitted(entries, "has kettlebell 8 kg")).note == "Hug it close."


def test_a_movement_is_logged_once_in_a_session() -> None:
    both = squat() + "do step-up 2 x 8 each side\n  advance reps by 1 to 12\n  else chair-stand 2 x 10\n"
    fitting = fitted(both, "has chair, wall")
    assert kinds(last(fitting)) == ["needs-missing", "in-session"] and last(fitting).chosen is None
    # In the warm-up nothing is logged: there it may stand, too.
    assert [entry.movement.name for entry in fitting.program.sessions[0].entries] == ["chair-stand", "chair-stand"]
    # An entry's own movement goes before an `else` that stands above it.
    own = squat() + "do chair-stand 2 x 10\n  advance reps by 1 to 12\n"
    assert [entry.movement.name for entry in fitted(own, "has chair, wall").program.sessions[0].entries[1:]] == [
        "wall-sit",
        "chair-stand",
    ]


@pytest.mark.parametrize(
    ("dose", "says", "done", "condition"),
    [
        (", if has step", "has step", True, None),
        (", if has step", "has floor", False, None),
        (", if has step", "body 68 kg", True, "step"),  # nobody knows
        (", if able", "has step", True, "able"),
    ],
)
def test_conditions(dose: str, says: str, done: bool, condition: str | None) -> None:
    choice = last(fitted(f"may step-up 2 x 8 each side{dose}\n  advance reps by 1 to 12", says))
    assert (choice.chosen is not None) == done
    if choice.chosen is not None:
        assert choice.chosen.condition == condition


def test_who_may_not_be_able_keeps_what_they_can_do_instead() -> None:
    entries = (
        "do push-up 3 x 8, if able\n  advance reps by 1 to 12\n  else floor-press 3 x 8 at 9 kg\n"
        "  else overhead-press 3 x 8\n  else plank 2 x 20 s\n"
    )
    entry = chosen(fitted(entries, "has floor", "has dumbbell pair 4 kg, 8 kg", 'avoids overhead-press "shoulder"'))
    assert [other.movement.name for other in entry.otherwise] == ["floor-press", "plank"]
    assert str(entry.otherwise[0].dose.load) == "8 kg"


# Rungs

PUSH = "must push-up 3 x 8\n  advance reps by 1 to 12, then rung to {bound} restarting reps\n"


@pytest.mark.parametrize(
    ("says", "rung", "rungs", "bound", "reasons"),
    [
        (("has floor, wall, bench, step",), "wall", 6, "toes", ["rung-first"]),
        (("has floor, wall, bench, step", "begins push-up on box"), "box", 6, "toes", ["rung-begun"]),
        (("has floor", "begins push-up on box"), "knees", 2, "toes", ["rung-lower", "rungs-left-out"]),
        (("has wall, bench", "begins push-up on bench"), "bench", 2, "bench", ["rung-begun", "rungs-left-out"]),
        (("has step",), "box", 2, "box", ["rung-first", "rungs-left-out"]),
    ],
)
def test_rungs(says: tuple[str, ...], rung: str, rungs: int, bound: str, reasons: list[str]) -> None:
    fitting = fitted(PUSH.format(bound="toes"), *says)
    entry = chosen(fitting)
    assert entry.fitted is not None and entry.fitted.rung == rung
    assert len(entry.movement.rungs) == rungs
    assert isinstance(entry.rule, Rule) and entry.rule.axes[1].bound == bound
    assert kinds(last(fitting)) == reasons


def test_nobody_begins_on_a_harder_rung_than_was_said() -> None:
    choice = last(
        fitted(PUSH.format(bound="toes") + "  else floor-press 3 x 8\n", "has step", "begins push-up on bench")
    )
    assert choice.chosen is None and kinds(choice) == ["no-rung", "needs-missing"]
    assert choice.reasons[0].names == ("wall", "bench", "floor")


def test_where_nothing_climbs_the_athlete_chooses_the_rung() -> None:
    entry = chosen(fitted("must chair-stand 3 x 8\n  advance reps by 1 to 12", "has chair"))
    assert entry.fitted == Fitted(None) and [rung.name for rung in entry.movement.rungs] == [
        "hands", "arms-crossed", "two-count",
    ]  # fmt: skip


def test_the_horizon_goes_on_from_the_rung_that_was_chosen() -> None:
    fitting = fitted(PUSH.format(bound="toes"), "has floor", "begins push-up on box")
    ahead = outlook(fitting.written, fitting.athlete, weeks=1).good
    assert ahead.rows[-1].stages[0].rung == "knees"


# Loads


@pytest.mark.parametrize(
    ("dose", "says", "load", "reasons"),
    [
        (" at 12 kg", ("has kettlebell 8 kg, 12 kg, 16 kg",), 12, ["load-written"]),
        (" at 13 kg", ("has kettlebell 8 kg, 12 kg, 16 kg",), 12, ["load-written", "load-rounded"]),
        (" at 13 kg", ("has kettlebell 8 kg, 12 kg, 16 kg", "begins goblet-squat at 9 kg"), 8,
         ["load-begun", "load-rounded"]),
        ("", ("has kettlebell 8 kg, 12 kg, 16 kg",), 8, ["load-lightest"]),
        (" at 70%", ("has kettlebell 8 kg, 12 kg, 16 kg", "max goblet-squat 20 kg"), 12, ["load-share", "load-rounded"]),
        (" at 80%", ("has kettlebell 8 kg, 12 kg, 16 kg", "max goblet-squat 20 kg"), 16, ["load-share"]),
        (" at 80%", ("has kettlebell 8 kg, 12 kg, 16 kg", "max goblet-squat 20 kg", "trains alone", "alone at most 70%"), 12,
         ["load-share", "load-capped", "load-rounded"]),
        (" at 16 kg", ("has kettlebell 8 kg, 16 kg", "max goblet-squat 20 kg", "trains alone", "alone at most 70%"), 8,
         ["load-written", "load-capped", "load-rounded"]),
        (" at 16 kg", ("has kettlebell 8 kg, 16 kg", "max goblet-squat 20 kg", "trains with coach"), 16, ["load-written"]),
    ],
)  # fmt: skip
def test_loads(dose: str, says: tuple[str, ...], load: int, reasons: list[str]) -> None:
    fitting = fitted(squat(dose), "has chair", *says)
    assert set(loads(fitting).values()) == {load}
    assert kinds(last(fitting)) == reasons


def test_too_heavy_a_load_is_no_load() -> None:
    choice = last(fitted(squat(" at 6 kg"), "has chair", "has kettlebell 8 kg"))
    assert choice.chosen is not None and choice.chosen.movement.name == "chair-stand"
    assert (choice.reasons[0].kind, str(choice.reasons[0].figure), str(choice.reasons[0].before)) == (
        "too-heavy", "8 kg", "6 kg",
    )  # fmt: skip


BAR = "has barbell 20 kg with plates 2 x 20 kg, 2 x 10 kg, 2 x 5 kg, 2 x 2.5 kg"
LIFT = "must deadlift sets 5 at 65%, 5 at 75%, amrap at 85%, ramp 20% x 5, 40% x 5, 60% x 3\n  advance load by 2.5%\n"


def test_shares_stay_shares_and_each_is_made() -> None:
    fitting = fitted(LIFT, BAR, "max deadlift 102 kg")
    # 65 % of 102 kg are 66.3, 75 % 76.5, 85 % 86.7, 40 % 40.8, 60 % 61.2; 20 % are 20.4, the empty bar.
    assert loads(fitting) == {"65%": 65, "75%": 75, "85%": 85, "20%": 20, "40%": 40, "60%": 60}
    assert {str(load) for load in loads_of(chosen(fitting).dose)} == {"65%", "75%", "85%"}
    plates = dict(made(fitting))["85%"].plates
    assert [(count, str(plate)) for count, plate in plates] == [(1, "20 kg"), (1, "10 kg"), (1, "2.5 kg")]


def test_lighter_sets_that_cannot_be_made_are_left_out() -> None:
    fitting = fitted(LIFT, BAR, "max deadlift 60 kg")
    # 20 % of 60 kg are 12, less than the bar; 40 % are 24, 60 % 36, and the work begins at 39, made as 35.
    assert loads(fitting) == {"65%": 35, "75%": 45, "85%": 50, "40%": 20}
    assert [str(lighter.share) for lighter in chosen(fitting).dose.ramp] == ["40%"]
    assert kinds(last(fitting)).count("ramp-left-out") == 2


def test_a_share_of_a_maximum_that_nobody_knows_stays_as_it_is() -> None:
    fitting = fitted(LIFT, BAR)
    assert made(fitting) == [] and chosen(fitting).dose == last(fitting).written.dose
    assert kinds(last(fitting)) == ["load-unknown"]


def test_who_says_nothing_of_what_there_is_lifts_what_is_told() -> None:
    fitting = fitted(LIFT, "max deadlift 100 kg")
    assert loads(fitting) == {"65%": 65, "75%": 75, "85%": 85, "20%": 20, "40%": 40, "60%": 60}
    assert all(making.implement is None for _, making in made(fitting))


def test_a_cap_while_nobody_watches_holds_for_every_set() -> None:
    fitting = fitted(LIFT, BAR, "max deadlift 100 kg", "trains alone", "alone at most 80%")
    assert max(load for load in loads(fitting).values() if load is not None) == 80
    assert "load-capped" in kinds(last(fitting))


def test_a_bound_above_the_cap_comes_down_to_it() -> None:
    bounded = LIFT.replace("by 2.5%", "by 2.5% to 90%")
    for says, bound in ((("trains alone", "alone at most 85%"), "85%"), (("trains with coach",), "90%")):
        rule = chosen(fitted(bounded, BAR, "max deadlift 100 kg", *says)).rule
        assert isinstance(rule, Rule) and str(rule.axes[0].bound) == bound


def test_a_can_that_comes_near_enough_is_not_told() -> None:
    can = 'has container 20 l "can" weighing 1 kg, limit 40 kg, fill sand'
    carry = "must suitcase-hinge 3 x 8\n  advance reps by 1 to 12\n"
    for begins, told in (("25 kg", False), ("60 kg", True)):  # 15.4 l are 24.9 kg, and full it is 32.1 kg
        found = {
            one.code for one in fitting_findings(fitted(carry, can, "has floor", f"begins suitcase-hinge at {begins}"))
        }
        assert ("begins-unmakeable" in found) == told


def test_a_band_has_no_weight() -> None:
    row = "must band-row 3 x 12\n  advance reps by 1 to 20, then load restarting reps\n"
    for says, band, why in (((), "red", "band-first"), (('begins band-row with "blue"',), "blue", "band-begun")):
        fitting = fitted(row, 'has band "red", "blue"', "has door", *says)
        assert [(told, making.band, making.load) for told, making in made(fitting)] == [("None", band, None)]
        assert kinds(last(fitting)) == [why]


PULLS = "use basics\n\nmovement towel-pull\n  pattern pull\n  loaded by one of band, dumbbell"


@pytest.mark.parametrize(
    ("says", "told", "load"),
    [("begins towel-pull at 5.5 kg", "5 kg", 5), ('begins towel-pull with "red"', "None", None)],
)
def test_of_bands_and_weights_it_is_the_weight_unless_a_band_is_said(says: str, told: str, load: int | None) -> None:
    text = PROGRAM.replace("use basics", PULLS).format(
        entries="      must towel-pull 3 x 8\n        advance load",
        says=f'  has band "red"\n  has dumbbell 5 kg\n  {says}',
    )
    project = compile_texts({"shed.coach": text}).project
    entry = fit(project.programs[0], project.athletes[0]).program.sessions[0].entries[-1]
    assert entry.fitted is not None
    assert [(str(one), making.load) for one, making in entry.fitted.made] == [(told, load)]


def test_repetitions_and_times_that_the_athlete_begins_with() -> None:
    assert chosen(fitted(squat(), "has kettlebell 8 kg", "begins goblet-squat 9 reps")).dose.sets[0].target == Reps(
        9, 9
    )
    held = fitted("must plank 2 x 20 s\n  advance hold by 5 s to 60 s", "has floor, wall", "begins plank 35 s")
    assert str(chosen(held).dose.sets[0].target) == "Timed(time=Quantity(amount=Fraction(35, 1), unit='s'))"
    assert "amount-begun" in kinds(last(held))


def test_a_session_stands_on_the_days_of_the_athlete() -> None:
    assert fitted(squat(), "starts 2026-06-15 on mon, wed, fri").program.sessions[0].days == ("mon", "wed", "fri")
    assert fitted(squat(), "starts 2026-06-15 on mon, wed").program.sessions[0].days == ()


# What is told


def test_every_reason_leads_to_its_line() -> None:
    fitting = fitted(squat(" at 80%"), "has chair", "has kettlebell 8 kg, 12 kg", "max goblet-squat 20 kg", "trains alone",
                     "alone at most 70%")  # fmt: skip
    told = {reason.kind: [span.text for span in lines(reason, fitting.athlete)] for reason in last(fitting).reasons}
    assert told["load-share"][0] == "max goblet-squat 20 kg"
    assert told["load-capped"][0] == "alone at most 70%"
    assert told["load-rounded"][0] == "has kettlebell 8 kg, 12 kg"


def test_what_would_serve_can_be_done() -> None:
    fitting = fitted(squat(instead=""), "has chair, floor", 'avoids chair-stand "hip"')
    (found,) = (one for one in fitting_findings(fitting) if one.code == "must-impossible")
    assert "Maren cannot do `must goblet-squat` in session `main`" in found.message
    assert "there is no `dumbbell`, `kettlebell` or `container` to load it with" in found.message
    assert "`bodyweight-squat`" in found.help and "`chair-stand`" not in found.help
    offered = serving(fitting.athlete, ("squat",), library_movements())
    assert all("squat" in one.patterns and one.name != "chair-stand" and not one.loaded_by for one in offered)


def test_nothing_is_named_that_the_session_has_already() -> None:
    entries = squat(instead="")
    entries += "must deadlift 3 x 5\n  advance load\n  else chair-stand 3 x 8\n    advance reps by 1 to 12\n"
    fitting = fitted(entries, "has chair, floor")
    (found,) = (one for one in fitting_findings(fitting) if one.code == "must-impossible")
    assert "`bodyweight-squat`" in found.help and "`chair-stand`" not in found.help
    none = fitted(squat(instead=""), "has chair", 'avoids squat "knees"')
    (told,) = (one for one in fitting_findings(none) if one.code == "must-impossible")
    assert told.help == "Nothing else in the library would serve Maren: declare a movement that does."


def test_a_jug_begins_at_a_quarter_of_what_it_holds() -> None:
    jug = 'has container 5 l "jug" weighing 0.3 kg, limit 9 kg, fill sand'
    assert loads(fitted(squat(), jug)) == {"2.3 kg": Fraction("2.3")}  # 1.3 l of sand are 2.02 kg
    assert loads(fitted(squat(), jug, "has dumbbell 2 kg")) == {"2 kg": 2}
    assert loads(fitted(squat(" at 1 kg"), jug)) == {"0.9 kg": Fraction("0.9")}  # as told, or the next lighter


@pytest.mark.parametrize(
    ("instead", "says", "told"),
    [
        ("curl-up 2 x 10", 'avoids single-leg-stand "dizzy"', True),
        ("heel-to-toe-stand 2 x 20 s", 'avoids single-leg-stand "dizzy"', False),
        ("curl-up 2 x 10", "body 68 kg", False),
    ],
)
def test_a_week_that_misses_what_a_category_asks_for(instead: str, says: str, told: bool) -> None:
    entries = f"may single-leg-stand 2 x 20 s each side\n        advance hold by 5 s to 30 s\n        else {instead}"
    text = PROGRAM.replace("  session main", "  category balance at least 2 a week\n  session main")
    result = compile_texts({"shed.coach": text.format(entries=f"      {entries}", says=f"  {says}")})
    assert ("fitted-week-unreached" in {one.code for one in result.diagnostics}) == told


# What holds for any athlete

THINGS = ("floor", "wall", "chair", "step", "bench", "table", "door", "rack")
IMPLEMENTS = (
    "has kettlebell 8 kg, 12 kg", "has dumbbell pair 4 kg, 6 kg", "has dumbbell 5 kg",
    "has handle 2 kg with plates 2 x 1.25 kg, 4 x 2.5 kg", BAR, "has barbell 45 lb with plates 4 x 10 lb, 2 x 2.5 lb",
    'has container 5 l "jug" weighing 0.3 kg, fill water, sand', 'has band "red", "blue"',
)  # fmt: skip
SAYS = (
    "max deadlift 90 kg", "max goblet-squat 18 kg", "begins goblet-squat at 7 kg", "begins push-up on knees, 9 reps",
    "trains alone\n  alone at most 75%", 'avoids lunge "knee"', 'avoids push-up "wrist"', "begins plank on wall, 25 s",
)  # fmt: skip
EVERYTHING = (
    "must goblet-squat 3 x 8 at 60%\n  advance load by 5%, then reps by 1 to 12\n  else chair-stand 3 x 12\n"
    "  else bodyweight-squat 3 x 10\n"
    "key split-squat 2 x 8 each side\n  advance reps by 1 to 12\n"
    "must push-up 3 x 8\n  advance reps by 1 to 12, then rung to toes restarting reps\n  else floor-press 3 x 8\n"
    "    advance reps by 1 to 12, then load restarting reps\n"
    "do one-arm-row 3 x 8 each side at 9 kg\n  advance load by 10%\n"
    + LIFT
    + "do plank 2 x 20 s\n  advance hold by 5 s to 60 s\nmay band-row 3 x 12, if able\n  advance reps by 1 to 20\n"
)


def at_random(seed: int) -> Fitting:
    random = Random(f"fitting {seed}")
    things = [thing for thing in THINGS if random.random() < 0.6]
    says = [f"has {', '.join(things)}"] if things else []
    says += [one for one in (*IMPLEMENTS, *SAYS) if random.random() < 0.4]
    return fitted(EVERYTHING, *says)


@pytest.mark.parametrize("seed", range(60))
def test_for_any_athlete(seed: int) -> None:
    fitting = at_random(seed)
    athlete = fitting.athlete
    things = {*athlete.things, *(implement.kind for implement in athlete.implements)}
    avoided = {exclusion.movement for exclusion in athlete.avoids}
    maxima = {name: maximum.base for name, maximum in athlete.maxima}
    begun = {start.movement: start.load.base for start in athlete.begins if start.load is not None}
    for entry in fitting.program.sessions[0].entries if fitting.program.sessions else ():
        assert avoided.isdisjoint((entry.movement.name, *entry.movement.patterns))
        if not things:
            continue
        assert things.issuperset(entry.movement.needs)
        assert all(things.issuperset(rung.needs) for rung in entry.movement.rungs)
        assert entry.fitted is not None
        there = makeable_loads(athlete, entry.movement)
        maximum = maxima.get(entry.movement.name)
        for told, making in entry.fitted.made:
            if told is None or making.load is None:
                continue
            assert making.load in there
            assert making.load * 100 <= 75 * maximum if athlete.alone and athlete.alone_cap and maximum else True
            if told.unit == "%" and maximum is not None and entry.movement.name not in begun:
                assert making.load <= told.base * maximum
                assert not any(making.load < load <= told.base * maximum for load in there) or athlete.alone
            elif entry.movement.name in begun:
                assert making.load <= begun[entry.movement.name]
    told = {one.code for one in fitting_findings(fitting)}
    lost = [choice for choice in fitting.choices if choice.chosen is None]
    assert ("must-impossible" in told) == any(choice.written.priority == "must" for choice in lost)


@pytest.mark.parametrize("seed", range(25))
def test_a_fitted_program_is_a_program(seed: int) -> None:
    """Fitting it once more changes nothing, and clock, trimming and horizon work on it."""
    fitting = at_random(seed)
    if not fitting.program.sessions:
        return
    assert fitting.program.athlete is not None
    again = fit(attrs.evolve(fitting.program, athlete=None), fitting.program.athlete)
    bare = [
        [attrs.evolve(entry, fitted=None) for entry in each.program.sessions[0].entries] for each in (fitting, again)
    ]
    assert bare[0] == bare[1]
    (session,) = fitting.program.sessions
    whole = session_time(fitting.program, session)
    shorter = trim(fitting.program, session, whole, "sets")
    assert isinstance(shorter, Version) and not shorter.cuts
    look = outlook(fitting.written, fitting.athlete, weeks=3)
    firsts = [row.stages[0].entry for row in look.good.rows]
    assert [entry.movement.name for entry in firsts] == [entry.movement.name for entry in session.entries]


def test_the_first_session_of_the_horizon_is_what_the_sheet_says() -> None:
    once = PROGRAM.replace("3 a week", "1 a week")
    for says in product(("has kettlebell 8 kg, 12 kg",), ("begins goblet-squat at 9 kg, 7 reps", "body 68 kg")):
        text = once.format(
            entries="      " + squat().replace("\n", "\n      ").rstrip(), says="\n".join(f"  {line}" for line in says)
        )
        result = compile_texts({"shed.coach": text})
        program, athlete = result.project.programs[0], result.project.athletes[0]
        entry = outlook(program, athlete, weeks=1).good.rows[-1].stages[0].entry
        assert entry.dose == fit(program, athlete).program.sessions[0].entries[-1].dose
