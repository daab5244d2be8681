"""The horizon: worked by hand, and against a run that works out every week anew."""

from fractions import Fraction
from pathlib import Path
from random import Random

import attrs
import pytest
from setwright.compiler.checks.ahead import ahead_findings
from setwright.compiler.clock import session_clock, session_time
from setwright.compiler.course import course_of, dose_at
from setwright.compiler.easier import eased_session
from setwright.compiler.horizon import Horizon, outlook
from setwright.compiler.model import Easier, Program, Reps, Rule, Session
from setwright.compiler.pipeline import Result, compile_path, compile_texts
from setwright.compiler.progression import after
from setwright.compiler.quantity import Quantity
from setwright.compiler.trim import Infeasible, trim
from setwright.compiler.week import COUNTED, times_a_week

from ..generate import NOWHERE, random_weeks

PROGRAMS = 60

SQUATS = """
use basics

program squats
  rest 60 s
  runs 6 weeks
  {line}
  session main, 3 a week
    within {within}
    {short}
    block legs
      must goblet-squat 3 x 8 at 8 kg
        advance reps by 1 to 10, then load restarting reps, then sets by 1 to 4
        {allow}

athlete maren
  has kettlebell 8 kg, 10 kg, 16 kg
  jump 25%
"""


def squats(line: str = "", within: str = "60 min", short: str = "", allow: str = "") -> Result:
    lines = SQUATS.format(line=line, within=within, short=short, allow=allow).splitlines()
    result = compile_texts({"squats.coach": "\n".join(each for each in lines if each.strip())})
    assert not result.has_errors, result.diagnostics
    return result


def doses(ahead: Horizon) -> list[tuple[int, int, str]]:
    """Sets, repetitions and load of the squat in each week."""
    told = []
    for stage in ahead.rows[0].stages:
        target = stage.entry.dose.sets[0].target
        assert isinstance(target, Reps)
        told.append((len(stage.entry.dose.sets), target.high, str(stage.entry.dose.load)))
    return told


def test_worked_by_hand_with_every_session_good():
    """Three sessions a week. By hand, the dose of every session:

    week 1: 3 x 8, 9, 10 at 8 kg; week 2: 8, 9, 10 at 10 kg (25 % more: as much as may be); then 16 kg is 60 % more and
    is passed over: week 3 is 4 x 10 three times, and from its first session on nothing can move.
    """
    result = squats()
    ahead = outlook(result.project.programs[0], result.project.athletes[0]).good
    assert doses(ahead) == [(3, 10, "8 kg"), (3, 10, "10 kg"), *[(4, 10, "10 kg")] * 4]
    row = ahead.rows[0]
    assert row.steps[:3] == (("reps", "reps", "load"), ("reps", "reps", "sets"), ())
    assert row.exhausted is not None and row.exhausted[0] == 3
    assert [(one.axis, one.reason) for one in row.exhausted[1].blocked] == [
        ("reps", "bound"), ("load", "jump"), ("sets", "bound"),
    ]  # fmt: skip
    assert row.jump == (2, 10, 16)
    # 3 x 10 takes 3 x 40 s and two rests, 4 x 10 takes 4 x 40 s and three: 4 s a repetition.
    assert ahead.sessions[0].seconds == (240, 240, 340, 340, 340, 340)
    assert ahead.sets == (9, 9, 12, 12, 12, 12)
    assert ahead.tension == (360, 360, 480, 480, 480, 480)


def test_worked_by_hand_with_every_third_session_missed():
    """Session 3, 6, 9 ... fall short: week 1 is 8, 9, 10 (missed); week 2: 10, then 8 at 10 kg, 9 (missed); week 3: 9, 10,
    then 4 x 10 (missed), from which nothing moves.
    """
    result = squats()
    ahead = outlook(result.project.programs[0], result.project.athletes[0]).missed
    assert doses(ahead)[:4] == [(3, 10, "8 kg"), (3, 9, "10 kg"), (4, 10, "10 kg"), (4, 10, "10 kg")]
    assert ahead.rows[0].steps[:3] == (("reps", "reps"), ("load", "reps"), ("reps", "sets"))
    assert ahead.rows[0].exhausted is not None and ahead.rows[0].exhausted[0] == 4


def test_in_an_easier_week_nothing_advances():
    result = squats("week 2: sets by -1, load by -10%")
    ahead = outlook(result.project.programs[0], result.project.athletes[0]).good
    # After week 1 the next load is due: week 2 does it with a set less and a tenth lighter, for which 8 kg are there.
    assert doses(ahead)[:3] == [(3, 10, "8 kg"), (2, 8, "8 kg"), (3, 10, "10 kg")]
    assert ahead.rows[0].steps[1] == ()
    assert ahead.easier == {2}


def test_without_an_athlete_a_load_can_always_be_made_heavier():
    ahead = outlook(squats().project.programs[0]).good
    assert ahead.rows[0].exhausted is None
    assert doses(ahead)[5][:2] == (3, 10)


def test_the_week_in_which_the_session_outgrows_its_limit_and_the_movement_to_blame():
    result = squats(within="5 min")
    good = outlook(result.project.programs[0], result.project.athletes[0]).good
    assert good.sessions[0].over == 3
    entry, grown = good.sessions[0].blame
    assert (entry.movement.name, grown) == ("goblet-squat", 124)  # 340 s, and 3 x 32 + 2 x 60 as it is written


def test_the_week_from_which_no_short_version_fits():
    # One set of ten takes 40 s, of eight 32 s.
    result = squats(short="short 35 s by sets")
    ahead = outlook(result.project.programs[0], result.project.athletes[0]).good
    assert ahead.sessions[0].shorts[0].impossible == (1, 40)
    assert outlook(squats(short="short 40 s by sets").project.programs[0]).good.sessions[0].shorts[0].impossible is None


ENTRY = """
use basics

program one
  runs 8 weeks
  jump 12%
  {line}
  session main, 2 a week
    within 10 min
    block legs
      do plank 3 x 60 s
        advance none because "It is enough."
      {entry}

athlete maren
  {has}
  has floor, chair
  max goblet-squat 100 kg
"""


def ahead_of(entry: str, rule: str, has: str = "has wall", line: str = "rest 60 s") -> tuple[Horizon, dict[str, str]]:
    """The run with every session good, and what is found: code, and message with its help."""
    text = ENTRY.format(entry=f"{entry}\n        {rule}", has=has, line=line)
    result = compile_texts({"one.coach": text})
    assert not result.has_errors, result.diagnostics
    look = outlook(result.project.programs[0], result.project.athletes[0])
    found = ahead_findings(result.project, look)
    return look.good, {finding.code: f"{finding.message} {finding.help}" for finding in found}


def loads(ahead: Horizon) -> list[str]:
    return [str(stage.entry.dose.load) for stage in ahead.rows[1].stages]


def test_a_rung_that_waits_for_what_no_session_asks_is_told_as_the_end():
    _, found = ahead_of("must push-up 3 x 8", "advance rung at 15 reps")
    assert "nowhere to go from week 1 of 8" in found["rule-exhausted"]
    assert "`rung` waits for 15 repetitions, and no session asks for as many" in found["rule-exhausted"]
    _, found = ahead_of("must push-up 3 x amrap, expect 8", "advance rung to bench at 15 reps")
    assert "rule-exhausted" not in found or "waits" not in found["rule-exhausted"]


def test_an_easier_week_is_never_heavier():
    has = "has kettlebell 8 kg, 12 kg, 16 kg"
    easier = "week 3: load by -10%"
    ahead, _ = ahead_of("must goblet-squat 3 x 8 at 8 kg", "advance reps by 1 to 30, then load", has, easier)
    assert loads(ahead)[1:4] == ["8 kg", "8 kg", "8 kg"]  # nothing lighter is there
    ahead, _ = ahead_of("must goblet-squat 3 x 8 at 16 kg", "advance reps by 1 to 30, then load", has, easier)
    assert loads(ahead)[1:4] == ["16 kg", "12 kg", "16 kg"]


def test_the_heaviest_that_can_be_made_is_lifted_before_a_share_ends():
    # 58 % of 100 kg are lifted as 55; 61, 64 ... as 60, which is 9 % more.
    ahead, found = ahead_of("must goblet-squat 3 x 8 at 58%", "advance load by 3%", "has kettlebell 55 kg, 60 kg")
    assert loads(ahead)[:2] == ["60 kg", "60 kg"]
    assert "nothing that much heavier can be made" in found["rule-exhausted"]


def test_a_jump_is_told_from_what_is_lifted():
    rule = "advance load by 3%, then reps by 1 to 40"
    _, found = ahead_of("must goblet-squat 3 x 8 at 59%", rule, "has kettlebell 50 kg, 60 kg, 70 kg")
    assert "from 50 kg to 60 kg is 20% more" in found["jump-ahead"]


def test_the_next_load_is_judged_by_what_is_lifted_for_a_share() -> None:
    # 58 % of 100 kg are lifted as 50: 60 kg are a step of a fifth, not of two in fifty-eight.
    rule = "advance load, then reps by 1 to 40"
    _, found = ahead_of("must goblet-squat 3 x 8 at 58%", rule, "has kettlebell 50 kg, 60 kg")
    assert "from 50 kg to 60 kg is 20% more" in found["jump-ahead"]


def test_where_nothing_heavier_can_be_made_the_rule_goes_on_and_the_coach_is_told():
    rule = "advance load, then reps by 1 to 40"
    _, found = ahead_of("must goblet-squat 3 x 8 at 10 kg", rule, "has kettlebell 10 kg, 11 kg")
    assert "comes in week 1 of 8 to the heaviest load that can be made for Maren, 11 kg." in found["load-ends"]


def test_who_is_blamed_has_grown_beyond_what_is_written():
    # Plank takes 3 x 60 + 120 s and does not grow; in the easier first week it is shorter.
    _, found = ahead_of("must chair-stand 3 x 10", "advance reps by 3 to 60", line="week 1: sets by -1")
    assert "`chair-stand` has grown most" in found["session-outgrows-limit"]
    _, found = ahead_of("must chair-stand 3 x 10", "advance reps by 3 to 90", "begins chair-stand 12 reps")
    # 12, 15, 18, 21: in the second week 27 repetitions more than what is begun with.
    assert "`chair-stand` has grown most, by 2 min" in found["session-outgrows-limit"]


def test_what_is_allowed_in_sight_is_not_told():
    def codes(result: Result) -> set[str]:
        look = outlook(result.project.programs[0], result.project.athletes[0])
        return {finding.code for finding in ahead_findings(result.project, look)}

    assert "rule-exhausted" in codes(squats())
    allowed = squats(allow='allow rule-exhausted because "The ship comes before that."')
    assert {finding.code for finding in allowed.diagnostics} == {"strength-minutes-few"}  # no `allow` is unused
    assert "rule-exhausted" not in codes(allowed)


def test_findings_stand_where_the_coach_can_mend_them():
    result = squats(within="5 min", short="short 35 s by sets")
    look = outlook(result.project.programs[0], result.project.athletes[0])
    told = {finding.code: finding.span.text for finding in ahead_findings(result.project, look)}
    assert told == {
        "session-outgrows-limit": "within 5 min",
        "short-outgrown": "short 35 s by sets",
        "rule-exhausted": "advance reps by 1 to 10, then load restarting reps, then sets by 1 to 4",
        "week-rises-fast": "squats",
        "jump-ahead": "load",
    }


@pytest.mark.parametrize("seed", range(PROGRAMS))
@pytest.mark.parametrize("missed_every", [None, 3])
def test_the_same_as_working_out_every_week_anew(seed, missed_every):
    made = random_weeks(Random(f"weeks {seed}"), Random(seed).randint(2, 10))
    both = outlook(made)
    ahead = both.good if missed_every is None else both.missed
    weeks = [in_week(made, week, missed_every) for week in range(1, ahead.weeks + 1)]
    seconds = [session_time(made, session) for session in weeks]
    assert list(ahead.sessions[0].seconds) == seconds
    assert [[stage.entry.dose for stage in row.stages] for row in ahead.rows] == [
        [session.entries[at].dose for session in weeks] for at in range(len(made.sessions[0].entries))
    ]
    limit = made.sessions[0].within
    assert limit is not None
    assert ahead.sessions[0].over == next((at for at, took in enumerate(seconds, 1) if took > limit.base), None)
    check_sums(ahead, made, weeks)
    for short in ahead.sessions[0].shorts:
        ordinary = [week for week in range(1, ahead.weeks + 1) if week not in ahead.easier]
        tried = ((week, trim(made, weeks[week - 1], short.short.limit.base, short.short.by)) for week in ordinary)
        expected = next(((week, one.smallest.seconds) for week, one in tried if isinstance(one, Infeasible)), None)
        assert short.impossible == expected


def check_sums(ahead: Horizon, made: Program, weeks: list[Session]) -> None:
    times = times_a_week(made.sessions[0])
    for at, session in enumerate(weeks):
        counted = [
            (len(timed.sets), sum(timed.sets, Fraction(0)))
            for block in session_clock(made, session).blocks
            if block.block.kind in COUNTED
            for timed in block.entries
        ]
        assert ahead.sets[at] == times * sum(sets for sets, _ in counted)
        assert ahead.tension[at] == times * sum((spent for _, spent in counted), Fraction(0))


def in_week(made: Program, week: int, missed_every: int | None) -> Session:
    """The session as the last of a week asks for it, every session before it gone through one by one."""
    session = made.sessions[0]
    eased = {one for easier in made.easier for one in easier.weeks}
    blocks = []
    for block in session.blocks:
        entries = []
        for entry in block.entries:
            course = course_of(made, block, entry)
            if not isinstance(entry.rule, Rule) or course is None:
                entries.append(entry)
                continue
            standing = course.start
            ordinary = [one for one in range(1, week) if one not in eased]
            before = len(ordinary) * times_a_week(session) + (0 if week in eased else times_a_week(session) - 1)
            for number in range(1, before + 1):
                missed = missed_every is not None and number % missed_every == 0
                standing = after(course, standing, good=not missed).standing
            entries.append(attrs.evolve(entry, dose=dose_at(entry, course, standing)))
        blocks.append(attrs.evolve(block, entries=tuple(entries)))
    return eased_session(made, attrs.evolve(session, blocks=tuple(blocks)), week)


STATION = compile_path(Path(__file__).parents[2] / "programs" / "tern-holm").project
LIGHTER = Easier((4, 8), (("sets", -1), ("load", Quantity(Fraction(-10), "%"))), span=NOWHERE)


@pytest.mark.parametrize("athlete", STATION.athletes, ids=lambda athlete: athlete.name)
def test_of_a_crew_every_load_can_be_made_and_easier_weeks_are_not_heavier(athlete):
    newest = max(STATION.programs, key=lambda program: program.revision)
    made = attrs.evolve(newest, easier=(LIGHTER,))
    for ahead in (outlook(made, athlete).good, outlook(made, athlete).missed):
        loaded = [row for row in ahead.rows if row.course is not None and row.course.loads]
        assert len(loaded) >= 3
        for row in loaded:
            weekly = [stage.entry.dose.load for stage in row.stages]
            asked = [load.base for load in weekly if load is not None]
            assert len(asked) == ahead.weeks
            assert all(load in row.course.loads for load in asked)
            for week in ahead.easier:
                assert asked[week - 1] <= asked[week], row.entry.movement.name
