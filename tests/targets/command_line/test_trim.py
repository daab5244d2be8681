"""`setwright trim`: a version of each session for any limit."""

import re
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest
from setwright.targets.command_line.terminal import minutes
from setwright.targets.command_line.trim import read_limit


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
        ("half an hour", "such as 30min, 90s or 1h.\n"),
        ("1:30", "Did you mean 90min?"),
        ("1,5h", "Did you mean 90min?"),
        ("1.5 hours", "Did you mean 90min?"),
        ("1h30", "Did you mean 90min?"),
        ("1h 30min", "Did you mean 90min?"),
        ("1h30min", "Did you mean 90min?"),
        ("1 hour and 30 minutes", "Did you mean 90min?"),
        ("30min 20s", "Did you mean 1820s?"),
        ("90 sec", "Did you mean 90s?"),
        ("2,5 min", "Did you mean 150s?"),
        ("1,7 s", "such as 30min, 90s or 1h.\n"),
        ("1:75", "such as 30min, 90s or 1h.\n"),
        ("30 monkeys", "such as 30min, 90s or 1h.\n"),
        ("0", "not a time"),
        ("0min", "leaves no time"),
        ("0s", "leaves no time"),
        ("-5min", "not a time"),
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


@pytest.mark.parametrize("words", [("trim",), ("trim", "--to", "20min"), ("week",), ("horizon",)])
@pytest.mark.parametrize(
    ("line", "code"), [("within 5 min", "session-over-limit"), ("short 2 min by sets", "short-impossible")]
)
def test_errors_about_minutes_are_told_and_do_not_stop(
    run: Callable, hall: Path, words: tuple[str, ...], line: str, code: str
):
    command, *more = words
    whole = run(command, "hall.coach", *more).out
    more_said = line if line.startswith("within") else f"within 60 min\n    {line}"
    hall.write_text(hall.read_text("utf-8").replace("within 60 min", more_said), "utf-8")
    ran = run(command, "hall.coach", *more)
    assert ran.code == 1
    assert code in ran.err
    assert "mend" not in ran.err
    assert ran.out.splitlines()[0] == whole.splitlines()[0]
    assert len(ran.out.splitlines()) >= 5
    built = run("build", "hall.coach")
    assert built.code == 1
    assert built.err.endswith("\n1 error: nothing is written.\n")
    assert not Path("sheets").exists()


@pytest.mark.parametrize(("command", "told"), [("trim", "then trim."), ("week", "first."), ("horizon", "first.")])
def test_only_errors_have_to_be_mended_and_with_others_all_stop(run: Callable, hall: Path, command: str, told: str):
    text = hall.read_text("utf-8").replace("within 60 min", "within 5 min").replace("  for", "  runs 12 weeks\n  for")
    hall.write_text(text.replace("must band-row 3 x 8", "must band-rwo 3 x 8"), "utf-8")
    ran = run(command, "hall.coach")
    assert (ran.code, ran.out) == (1, "")
    assert ran.err.splitlines()[-1].endswith(told)
    assert ran.err.splitlines()[-1].startswith("1 error: mend it")
    hall.write_text(text.replace("band-row 3", "band-rwo 3").replace("curl-up 3", "curlup 3"), "utf-8")
    ran = run(command, "hall.coach")
    assert ran.err.splitlines()[-1].startswith("2 errors: mend them")


CIRCUIT = """\
    block round "Round", rounds 2, rest 30 s
      must walk 1 x 10 min
        advance time by 1 min to 20 min
      do   curl-up 8
        advance reps by 1 to 12
"""


def test_a_must_of_ten_minutes_in_a_circuit_and_a_limit_of_five(run: Callable, hall: Path):
    text = hall.read_text("utf-8").partition("  category")[0]
    hall.write_text(f"{text}  session main\n{CIRCUIT.replace('1 x 10', '10')}", "utf-8")
    ran = run("trim", "hall.coach", "--to", "5min")
    assert (ran.code, ran.err) == (1, "")
    assert "the smallest limit is --to 10min." in ran.out
    assert "    Round: 10 min\n      must Walk " in ran.out
    assert "1 of 2 rounds" in ran.out and "stays in every version" in ran.out
    assert "Curl" not in ran.out
    assert run("trim", "hall.coach", "--to", "10min").code == 0


def test_what_a_category_of_the_week_holds_up(run: Callable, hall: Path):
    text = hall.read_text("utf-8").replace("  category pull required", "  category trunk at least 2 a week")
    hall.write_text(text, "utf-8")
    ran = run("trim", "hall.coach", "--to", "1min")
    assert "do   Curl up                      1 of 3 sets   one movement stays for Trunk (at least 2 a week)" in ran.out


def rows(out: str) -> list[str]:
    """The rows of the table that begin with a time."""
    return [line for line in out.splitlines() if re.match(r" +\d+ (s|min) ", line)]


def test_without_a_limit_all_are_told(run: Callable, hall: Path):
    ran = run("trim", "hall.coach")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.startswith(
        "Main session of Hall class, revision 1: the best version for the time there is, by sets\n"
    )
    assert "keeps Chair stand 1 of 3, Push-up 1 of 3, Band row 1 of 3" in ran.out
    first, second, third, *_, last = rows(ran.out)
    assert first.startswith("     2 min 42 s     3 of 6    3 of 17  keeps ")
    assert second == "     3 min 59 s     4 of 6    4 of 17  + Curl up 1 set"
    assert third == "     4 min 15 s     4 of 6    4 of 17  + Step up 1 set, - Curl up"
    assert last == "    23 min 21 s     6 of 6   17 of 17  + Step up to 2 sets; the full session"


def test_a_limit_of_the_table_is_one_of_trim(run: Callable, hall: Path):
    def stays(limit: str) -> str:
        return run("trim", "hall.coach", "--to", limit).out.partition("What is cut")[0]

    assert "Curl up" in stays("254s") and "Step up" not in stays("254s")
    assert "Curl up" not in stays("255s") and "Step up" in stays("255s")


def test_all_shows_every_limit(run: Callable, hall: Path):
    some, every = run("trim", "hall.coach").out, run("trim", "hall.coach", "--all").out
    assert set(rows(some)[:1]) <= set(rows(every)) and len(rows(some)) < len(rows(every))
    assert f"--all shows all {len(rows(every))} versions." in some and "--all" not in every
    assert max(map(len, every.splitlines())) <= 98


def test_all_is_for_the_table(run: Callable, hall: Path):
    ran = run("trim", "hall.coach", "--all", "--to", "30min")
    assert ran.code == 2
    assert "write either" in ran.err


def test_a_table_by_movements_names_no_part_of_an_entry(run: Callable, hall: Path):
    out = run("trim", "hall.coach", "--by", "movements", "--all").out
    assert " of 3," not in out and " to " not in out.partition("what changes")[2]


def test_a_session_that_cannot_be_cut_says_so(run: Callable, hall: Path):
    text = hall.read_text("utf-8").partition("  category")[0]
    hall.write_text(f"{text}  session main\n{CIRCUIT.replace('1 x 10', '10').replace('do  ', 'must')}", "utf-8")
    assert "Nothing of it can be cut." in run("trim", "hall.coach", "--by", "movements").out


def test_movements_of_one_title_are_told_apart(run: Callable, hall: Path):
    again = '    block again "Again"\n      may chair-stand 2 x 8\n        advance reps by 1 to 12\n'
    hall.write_text(hall.read_text("utf-8") + again, "utf-8")
    assert "+ Chair stand (Again) 1 set" in run("trim", "hall.coach").out


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
