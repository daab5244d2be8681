"""The next steps of an athlete's own sheet: only those that can be taken from where they stand, with the figures known."""

import pytest
from setwright.compiler.fitting import fit
from setwright.compiler.logbook import logbook_of
from setwright.compiler.pipeline import compile_texts
from setwright.compiler.today import today
from setwright.targets import words
from setwright.targets.pack import pack
from setwright.targets.taking import next_loads

CLOSED = "stay as you are and ask your coach"


def sheets(entry: str, *, of_program: str = "", days: str = "mon", about: str, log: str = "") -> dict[str, str]:
    """The pack of Wilf, for a program of one entry."""
    text = f"""\
use basics

program store "Store room"
  revision 1
  {of_program or "runs 12 weeks"}
  session main "Main session", on {days}
    block legs "Legs"
      must {entry}

athlete wilf "Wilf"
  starts 2026-06-15 on mon
{about}

"""
    log = f"log wilf on store, revision 1\n\n{log}" if log else ""
    result = compile_texts({"store.coach": text + log})
    assert [one.message for one in result.diagnostics if one.severity == "error"] == []
    project = result.project
    fitting = fit(project.programs[0], project.athletes[0])
    return pack(today(logbook_of(fitting, project.programs, project.logs)))


def next_step(files: dict[str, str]) -> str:
    handout = files["wilf-store-handout.md"]
    (told,) = [line for line in handout.splitlines() if line.startswith("  - Next step: ")]
    return told.removeprefix("  - Next step: ")


SQUAT = "goblet-squat 3 x 8\n        advance reps by 1 to 12, then load restarting reps"
BELLS = "  has kettlebell {}\n  begins goblet-squat at {}"


def test_a_bell_that_is_too_heavy_is_not_the_next_step():
    files = sheets(SQUAT, of_program="jump 10%", about=BELLS.format("12 kg, 16 kg, 24 kg", "12 kg"))
    assert next_step(files) == (
        "When every set reached its target: first add a repetition to each set, up to 12; from there on, "
        f"{CLOSED} (16 kg would be too large a step)."
    )
    assert "# To progress: repetitions.\n" in files["wilf-store-log.txt"]


def test_the_heaviest_that_there_is():
    files = sheets(SQUAT, about=BELLS.format("12 kg, 16 kg", "16 kg"))
    assert next_step(files).endswith(
        f"up to 12; from there on, {CLOSED} (nothing heavier can be made of what you have)."
    )


def test_a_load_that_can_be_taken_stays_with_what_the_repetitions_go_back_to():
    files = sheets(SQUAT, of_program="jump 20%", about=BELLS.format("12 kg, 14 kg, 20 kg", "12 kg"))
    assert next_step(files) == (
        "When every set reached its target: first add a repetition to each set, up to 12; from there on, "
        "take the next heavier load, and go back to 8 repetitions."
    )
    handout = files["wilf-store-handout.md"]
    assert "  1. 14 kg: the 14 kg kettlebell\n\n  Then stay as you are and ask your coach: 20 kg would" in handout


def test_after_a_log_the_steps_go_on_from_there_and_back_to_the_beginning():
    files = sheets(
        SQUAT,
        of_program="jump 40%",
        about=BELLS.format("12 kg, 16 kg, 20 kg, 24 kg", "12 kg") + ", 7 reps",
        log="".join(
            f"2026-07-{6 + 7 * week:02} main, 20 min\n  goblet-squat  12 kg  {reps} {reps} {reps}\n\n"
            for week, reps in enumerate((10, 11, 12))
        )
        + "2026-07-27 main, 20 min\n  goblet-squat  16 kg  9 9 9\n",
    )
    assert next_step(files).endswith("take the next heavier load, and go back to 7 repetitions.")
    assert "  1. 20 kg: the 20 kg kettlebell\n  2. 24 kg" in files["wilf-store-handout.md"]
    assert "- **After:** your session of 27 July 2026\n" in files["wilf-store-handout.md"]
    assert "# Asked for now: 3 sets of 8, with 16 kg." in files["wilf-store-log.txt"]


def test_what_is_at_its_end_altogether():
    files = sheets(
        "push-up 3 x 8\n        advance reps by 1 to 12", about="  has wall\n  begins push-up on wall, 12 reps"
    )
    assert next_step(files) == f"{CLOSED.capitalize()}."


def test_the_cap_of_who_trains_alone():
    about = """\
  trains alone
  has barbell 20 kg with plates 2 x 10 kg, 2 x 5 kg
  has rack
  max back-squat 50 kg
  alone at most 80%
"""
    entry = "back-squat 3 x 5 at 80%\n        advance load by 5%"
    assert next_step(sheets(entry, about=about)).endswith(f"{CLOSED} (no more while you train alone).".capitalize())


@pytest.mark.parametrize(
    ("entry", "about", "back"),
    [
        (
            "plank 3 x 20 s\n        advance hold by 5 s to 40 s, then sets to 5 restarting hold",
            "",
            "holding for 20 seconds",
        ),
        (
            "suitcase-carry 3 x 20 m each side\n        advance distance by 5 m to 40 m, then load restarting distance",
            "  begins suitcase-carry at 12 kg",
            "20 metres",
        ),
        ("push-up 3 x 8\n        advance sets to 5, then reps by 1 to 12 restarting sets", "", "3 sets"),
        (
            "goblet-squat sets 8, 6, 6\n        advance reps by 1 to 12, then load restarting reps",
            "  begins goblet-squat at 12 kg",
            "8 repetitions in the largest set",
        ),
    ],
)
def test_what_each_axis_goes_back_to(entry: str, about: str, back: str):
    about = f"  has kettlebell 12 kg, 13 kg\n  has floor\n{about}"
    assert f", and go back to {back}." in next_step(sheets(entry, about=about))


def test_an_axis_whose_beginning_nobody_knows():
    files = sheets(
        "goblet-squat 3 x 8\n        advance load by 1 kg, then reps by 1 to 12 restarting load", about="  born 1960"
    )
    assert next_step(files).endswith("and go back to the load you began with.")


@pytest.mark.parametrize(
    ("days", "told"),
    [("mon", True), ("mon, tue, wed, thu, fri, sat, sun", True), ("tue, fri", False), ("mon, thu", False)],
)
def test_your_days_are_told_where_no_session_has_others(days: str, told: bool):
    handout = sheets(SQUAT, days=days, about=BELLS.format("12 kg", "12 kg"))["wilf-store-handout.md"]
    assert ("**Your days:** Monday, from 15 June 2026" in handout) is told
    assert ("**You begin:** 15 June 2026" in handout) is not told


def test_a_band_is_followed_by_no_stronger_one():
    entry = "band-row 3 x 8\n        advance reps by 1 to 12, then load restarting reps"
    about = '  has band "yellow", "red"\n  has door\n  begins band-row with "{}"'
    assert "take the next stronger band" in next_step(sheets(entry, about=about.format("yellow")))
    assert next_step(sheets(entry, about=about.format("red"))).endswith(f"{CLOSED} ({words.NOTHING_STRONGER}).")


def test_next_loads_of_nobody(program):  # type: ignore[no-untyped-def]
    block = program.sessions[0].blocks[1]
    assert next_loads(program, block, block.entries[0]).loads == ()
