"""Doses, tempo and progression in words that need no key."""

from fractions import Fraction

import pytest
from setwright.compiler.pipeline import compile_texts
from setwright.targets import telling

SOURCE = """\
movement thing
  pattern push
  loaded by barbell
  rungs
    low "on the knees"
    high "on the toes"

program test
  session main, 3 a week
    block one
      do thing {dose}
        {rule}
"""


def told(dose: str, rule: str = "advance load", rounds: bool = False) -> tuple[str, str, str]:
    """The dose, the tempo and the next step of an entry written in the language."""
    source = SOURCE.format(dose=dose, rule=rule).replace("block one", "block one, rounds 3" if rounds else "block one")
    result = compile_texts({"test.coach": source})
    (entry,) = result.project.programs[0].sessions[0].entries
    kept = 3 if rounds else len(entry.dose.sets)
    return telling.dose(entry.dose, kept, rounds), telling.tempo(entry.dose.tempo), telling.next_step(entry, rounds)


@pytest.mark.parametrize(
    ("dose", "words"),
    [
        ("3 x 6 each side", "3 sets of 6 each side."),
        ("3 x 6-10, at 12 kg", "3 sets of 6 to 10, with 12 kg."),
        ("8", "8 repetitions."),
        ("1 x 1", "1 repetition."),
        ("2 x 30 s", "2 sets of 30 seconds."),
        ("1 x 1 min", "1 minute."),
        ("4 x 20 m", "4 sets of 20 metres."),
        ("3 x 5 at 70%", "3 sets of 5, at 70% of your training maximum."),
        ("3 x 5 at rpe 7", "3 sets of 5, at an effort of 7 out of 10."),
        ("amrap leaving 2", "As many as you can; stop when you could still do 2 more."),
        ("3 x amrap", "3 sets, each as many as you can; stop when the next one would no longer look like the first."),
        (
            "sets 5 at 65%, amrap at 85%",
            "Set 1: 5 at 65% of your training maximum; set 2: as many as you can at 85% of your training maximum; "
            "stop when the next one would no longer look like the first.",
        ),
    ],
)
def test_dose(dose: str, words: str):
    assert told(dose)[0] == words


def test_dose_of_a_circuit():
    assert told("8 each side", rounds=True)[0] == "8 repetitions each side."


@pytest.mark.parametrize(
    ("tempo", "words"),
    [
        ("lower 3 s", "Lower slowly: 3 seconds."),
        ("pause 3 cues", "Pause and say 3 cues in your mind, one a second."),
        ("pause 1 s", "Pause for 1 second."),
        ("tempo 3-1-x-0", "Lower slowly: 3 seconds; pause for 1 second; come back as fast as you can keep it tidy."),
    ],
)
def test_tempo(tempo: str, words: str):
    assert told(f"3 x 6, {tempo}")[1] == words


@pytest.mark.parametrize(
    ("rule", "words"),
    [
        (
            "advance lower by 1 s to 6 s",
            "When every set reached its target: lower 1 second more slowly, up to 6 seconds.",
        ),
        (
            "advance load, then reps by 1 to 10, then sets by 1 to 5",
            "When every set reached its target: first take the next heavier load; when you cannot, add a repetition to each "
            "set, up to 10; from there on, add a set, up to 5.",
        ),
        (
            "advance reps by 2 to 12, then load by 2.5 kg restarting reps",
            "When every set reached its target: first add 2 repetitions to each set, up to 12; from there on, add 2.5 kg, "
            "and go back to the repetitions you began with.",
        ),
        (
            "advance rest by 15 s to 30 s",
            "When every set reached its target: rest 15 seconds less, down to 30 seconds.",
        ),
        (
            "advance rung to high",
            "When every set reached its target: go to the next harder form, up to “on the toes”.",
        ),
        ('advance none because "it is hard enough"', "It stays as it is: it is hard enough."),
    ],
)
def test_next_step(rule: str, words: str):
    assert told("3 x 6", rule)[2] == words


EASIER = """use basics

program test
  runs 12 weeks
  {weeks}
  session main, 3 a week
    block ready, warm-up
      do march-in-place 2 x 1 min
    block one
      must goblet-squat 3 x 8, at least 2 sets
        advance reps by 1 to 12
      must plank 1 x 30 s
        advance hold by 5 s to 60 s
    block two "In turn", rounds 3
      must push-up amrap
        advance rung at 15 reps
"""


@pytest.mark.parametrize(
    ("weeks", "words"),
    [
        (
            "weeks 4, 8: sets by -1",
            "Weeks 4 and 8 are easier on purpose: one set less of each movement and one round less of a block done in "
            "rounds. A single set stays. Warm-up and cool-down stay as they are.",
        ),
        (
            "weeks 3, 6 and 9: sets by -2",
            "Weeks 3, 6 and 9 are easier on purpose: 2 sets less of each movement and 2 rounds less of a block done in "
            "rounds. A single set stays. Goblet squat keeps 2 sets. Warm-up and cool-down stay as they are.",
        ),
        (
            "week 4: reps by -2",
            "Week 4 is easier on purpose: 2 repetitions less in each set and stop 2 repetitions earlier where you do as many "
            "as you can. Warm-up and cool-down stay as they are.",
        ),
        (
            "week 4: load by -10%, hold by -5 s",
            "Week 4 is easier on purpose: every load 10% lighter (or the next lighter that you have) and the time held "
            "5 seconds shorter. Warm-up and cool-down stay as they are.",
        ),
    ],
)
def test_easier_weeks(weeks: str, words: str):
    (program,) = compile_texts({"test.coach": EASIER.format(weeks=weeks)}).project.programs
    assert telling.easier_on_log(program, program.sessions[0]) == (words,)
    ((lead, less),) = telling.easier_weeks(program)
    assert f"{lead} {less}".startswith(words)


def test_easier_weeks_tell_their_minutes_where_they_are_fewer():
    (program,) = compile_texts(
        {"test.coach": EASIER.format(weeks="weeks 4: sets by -1\n  week 8: load by -5%")}
    ).project.programs
    fewer, same = (less for _, less in telling.easier_weeks(program))
    # 60 + 60 + 60, 2 x 32 + 60, 30, 2 x 30 + 60 and three changes of 45 seconds
    assert fewer.endswith("Main is then planned for 10 minutes.")
    assert same == same.strip() and "planned" not in same


@pytest.mark.parametrize(
    ("eased", "words"),
    [
        ("load 10%", "10% less load."),
        ("load 2.5 kg", "2.5 kg less load."),
        ("reps 2", "2 repetitions less."),
        ("reps 1", "a repetition less."),
        ("sets 1", "a set less."),
    ],
)
def test_what_is_eased(eased: str, words: str):
    rule = f"advance load\n        after 2 missed, ease {eased}"
    assert told("3 x 8", rule)[2].endswith(f"After 2 sessions in a row that fell short: {words}")


def test_next_step_of_as_many_as_possible():
    assert told("amrap", "advance rung at 15 reps")[2] == (
        "Try to beat your best total so far; once you reach 15 repetitions, go to the next harder form."
    )


@pytest.mark.parametrize(
    ("seconds", "words"),
    [(45, "45 seconds"), (60, "1 minute"), (90, "1 minute 30 seconds"), (0, "0 seconds")],
)
def test_duration(seconds: int, words: str):
    assert telling.duration(Fraction(seconds)) == words


def test_planned_minutes_are_never_too_few():
    assert [telling.whole_minutes(Fraction(seconds)) for seconds in (60, 61, 0)] == [1, 2, 0]
