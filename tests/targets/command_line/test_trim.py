"""`setwright trim`: a version of each session for any limit."""

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest
from setwright.targets.command_line.trim import minutes, read_limit


def test_what_stays_what_is_cut_and_why(run: Callable, hall: Path):
    ran = run("trim", "hall.coach", "--to", "15min")
    assert (ran.code, ran.err) == (0, "")
    for words in ("Main session of Hall class, revision 1, in 15 min by sets", "What stays", "What is cut", "saves"):
        assert words in ran.out
    stays, _, cut = ran.out.partition("What is cut")
    for title in ("Chair stand", "Push-up"):
        assert title in stays
    assert "Heel raise" in cut
    assert "too long" in cut


def test_by_movements_all_sets_stay(run: Callable, hall: Path):
    ran = run("trim", "hall.coach", "--to", "20 min", "--by", "movements")
    assert ran.code == 0
    assert "3 sets" in ran.out
    assert " of 3 sets" not in ran.out


def test_a_session_that_fits_whole(run: Callable, hall: Path):
    ran = run("trim", "hall.coach", "--to", "2h")
    assert ran.code == 0
    assert "Fits whole" in ran.out
    assert "cut" not in ran.out


def test_the_smallest_limit_is_told_and_fits(run: Callable, hall: Path):
    ran = run("trim", "hall.coach", "--to", "1min")
    assert ran.code == 1
    smallest = ran.out.partition("the smallest limit is --to ")[2].partition(".")[0]
    assert run("trim", "hall.coach", "--to", smallest).code == 0


@pytest.mark.parametrize(
    ("limit", "answer"),
    [
        ("30", "`30min`?".replace("`", "")),
        ("30m", "30min?"),
        ("30 minutes", "30min?"),
        ("half an hour", "such as 30min"),
        ("0min", "not a time"),
        ("-5min", "--to"),
        ("5 kg", "not a time"),
        ("9" * 400 + "min", "not a time"),
        ("", "not a time"),
    ],
)
def test_a_limit_that_is_no_time(run: Callable, hall: Path, limit: str, answer: str):
    ran = run("trim", "hall.coach", f"--to={limit}")
    assert ran.code == 2
    assert answer in ran.err


@pytest.mark.parametrize(
    ("text", "seconds"), [("30min", 1800), ("30 min", 1800), ("1h", 3600), ("90 S", 90), ("1.5h", 5400)]
)
def test_limits_as_people_type_them(text: str, seconds: int):
    assert read_limit(text).base == seconds


def test_a_session_of_which_nothing_fits_and_nothing_must_stay(run: Callable, hall: Path):
    text = hall.read_text("utf-8").partition("  category")[0]
    entry = "      do   walk 1 x 30 min, log distance and time\n        advance distance by 5% to 4 km\n"
    hall.write_text(f"{text}  session walk\n    block out, conditioning\n{entry}", "utf-8")
    ran = run("trim", "hall.coach", "--to", "20min")
    assert ran.code == 0
    assert "leave it out that day" in ran.out


def test_one_session_by_name(run: Callable, hall: Path):
    assert run("trim", "hall.coach", "--to", "30min", "--session", "main").code == 0
    ran = run("trim", "hall.coach", "--to", "30min", "--session", "mian")
    assert ran.code == 2
    assert "Did you mean `main`?" in ran.err


def test_one_of_several_programs_has_to_be_named(run: Callable, hall: Path):
    Path("home.coach").write_text(hall.read_text("utf-8").replace("program hall", "program home"))
    ran = run("trim", ".", "--to", "30min")
    assert ran.code == 2
    assert "--program hall or home" in ran.err
    assert run("trim", ".", "--to", "30min", "--program", "home").code == 0


def test_errors_in_the_source_come_first(run: Callable, hall: Path):
    hall.write_text(hall.read_text("utf-8").replace("3 x 8\n", "3 x eight\n", 1), "utf-8")
    ran = run("trim", "hall.coach", "--to", "30min")
    assert (ran.code, ran.out) == (1, "")
    assert "hall.coach:12:28" in ran.err


def test_times_are_never_told_shorter_than_they_are():
    told = [minutes(Fraction(seconds)) for seconds in (0, 1, 59, 60, 61, 3600)]
    assert told == ["0 s", "1 s", "59 s", "1 min", "1 min 1 s", "60 min"]
    assert minutes(Fraction(119, 2)) == "1 min"


def test_trim_loads_no_templates(process: Callable, hall: Path):
    script = "import sys; from setwright.targets.command_line import main; main(); print('jinja2' in sys.modules)"
    assert process("trim", "hall.coach", "--to", "30min", code=script).out.splitlines()[-1] == "False"
