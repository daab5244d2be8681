"""Texts that are no program: each is answered at its place, or with the number of the limit it breaks."""

from collections.abc import Callable

import pytest

PROGRAM = """\
use basics

program hall "Hall class"
  revision 1, 2026-06-14
  for "The Tuesday class"
  category legs required, counts squat and lunge
  session main "Main session", 2 a week
    block strength "Strength"
      must chair-stand 3 x 8
        advance reps by 1 to 12
"""
DOSE = "      must chair-stand 3 x 8\n"


def test_the_program_without_any_fault(check: Callable):
    answer = check(PROGRAM)
    answer.told("0 errors") if answer.code else answer.told()
    assert answer.code == 0


@pytest.mark.parametrize("encoding", ["utf-16", "latin-1"])
def test_a_file_that_is_not_utf8(check: Callable, encoding: str):
    answer = check(PROGRAM.replace("Hall class", "Hallenübung").encode(encoding))
    answer.told("bad.coach:", "not-utf8")
    assert answer.code == 1


def test_bytes_of_no_text_at_all(check: Callable):
    answer = check(bytes(range(256)) * 400)
    answer.told("bad.coach:", "not-utf8")
    assert answer.code == 1


def test_a_mark_of_byte_order_is_no_fault(check: Callable):
    assert check(b"\xef\xbb\xbf" + PROGRAM.encode()).code == 0


def test_tabs(check: Callable):
    answer = check(PROGRAM.replace("    block", "\tblock"))
    answer.told("bad.coach:8:1", "tab-in-source")
    assert answer.code == 1


def test_windows_line_ends_are_read(check: Callable):
    answer = check(PROGRAM.replace("\n", "\r\n"))
    answer.told("windows-line-ends")
    assert answer.code == 0


def test_places_are_right_with_windows_line_ends(check: Callable):
    answer = check(PROGRAM.replace("3 x 8", "3 x eight").replace("\n", "\r\n"))
    answer.told("bad.coach:9:")
    assert answer.code == 1


@pytest.mark.parametrize("text", ["", "\n\n", "   ", "# nothing yet"])
def test_an_empty_file(check: Callable, text: str):
    answer = check(text)
    answer.told("bad.coach:", "file-empty")
    assert answer.code == 0


def test_a_file_of_50_megabytes(check: Callable):
    answer = check(b"# a long note\n" * 3_600_000)
    answer.told("bad.coach:", "file-too-large", "4,000,000")
    assert answer.code == 1


def test_a_line_of_two_megabytes(check: Callable):
    answer = check(PROGRAM.replace('"The Tuesday class"', f'"{"long " * 400_000}"'))
    assert answer.code in (0, 1)
    assert len(answer.text) < 20_000


def test_a_word_of_two_megabytes(check: Callable):
    answer = check(PROGRAM + "x" * 2_000_000 + "\n")
    answer.told("bad.coach:11:1")
    assert answer.code == 1
    assert len(answer.text) < 20_000


def test_10_000_levels_of_lines(check: Callable):
    # One space more on each line would be 50 MB: that many levels, as far as the size of a file allows.
    answer = check("program deep\n" + "".join(f"{' ' * level}x\n" for level in range(1, 2_800)))
    answer.told("bad.coach:", "12")
    assert answer.code == 1
    assert len(answer.text) < 100_000


def test_10_000_levels_and_too_large(check: Callable):
    answer = check("program deep\n" + "".join(f"{' ' * level}x\n" for level in range(1, 10_001)))
    answer.told("bad.coach:", "4,000,000")
    assert answer.code == 1


def test_a_quantity_of_400_digits(check: Callable):
    answer = check(PROGRAM.replace("3 x 8", f"3 x 1{'0' * 400} s"))
    answer.told("bad.coach:9:", "number-too-long", "401")
    assert answer.code == 1


def test_a_small_part_of_400_digits(check: Callable):
    answer = check(PROGRAM.replace("3 x 8", f"3 x 8, at 0.{'0' * 400}1 kg"))
    answer.told("bad.coach:9:", "number-too-long")
    assert answer.code == 1


def test_a_day_that_is_not_in_the_calendar(check: Callable):
    answer = check(PROGRAM.replace("2026-06-14", "2026-02-31"))
    answer.told("bad.coach:4:", "2026-02-31")
    assert answer.code == 1


@pytest.mark.parametrize("sets", ["0", "10000", "999999999"])
def test_sets_that_nobody_does(check: Callable, sets: str):
    answer = check(PROGRAM.replace("3 x 8", f"{sets} x 8"))
    answer.told("bad.coach:9:")
    assert answer.code == 1


@pytest.mark.parametrize("dose", ["3 x 0", "3 x 999999999", "3 x 12-8", "3 x 0 s", "3 x 999999999 h", "3 x 0 m"])
def test_doses_that_nobody_does(check: Callable, dose: str):
    answer = check(PROGRAM.replace("3 x 8", dose))
    answer.told("bad.coach:9:")


@pytest.mark.parametrize("rounds", ["0", "10000", "999999999"])
def test_rounds_that_nobody_does(check: Callable, rounds: str):
    text = PROGRAM.replace('"Strength"', f'"Strength", rounds {rounds}').replace("3 x 8", "8")
    answer = check(text)
    answer.told("bad.coach:8:")
    assert answer.code == 1


@pytest.mark.parametrize(
    ("line", "column"),
    [
        ("weeks 4, 4: sets by -1", 12),
        ("weeks 99: sets by -1", 9),
        ("weeks 4 sets by -1", 11),
        ("weeks 4: sets by -1, by -2", 24),
        ("weeks 4: sets by -999999999999", 21),
        ("week 4: load by -1e9%", 21),
        ("weeks: sets by -1", 8),
        ("weeks 4: " + "sets by -1, " * 2_000 + "reps by -1", 24),
        ("weeks " + "4, " * 20_000 + "4: sets by -1", 12),
    ],
)
def test_easier_weeks_that_cannot_be(check: Callable, line: str, column: int):
    answer = check(PROGRAM.replace("  for ", f"  runs 12 weeks\n  {line}\n  for "))
    answer.told(f"bad.coach:6:{column}: error")
    assert answer.code == 1


@pytest.mark.parametrize("place", ['"The \0 class"', "\0"])
def test_nul_characters(check: Callable, place: str):
    answer = check(PROGRAM.replace('"The Tuesday class"', place))
    answer.told("bad.coach:5:")
    assert answer.code == 1
    assert "\0" not in answer.text


def test_signs_that_steer_a_terminal_are_not_printed(check: Callable):
    answer = check(PROGRAM.replace("Tuesday", "\x1b[31m\x07Tuesday").replace("3 x 8", "3 x \x1b[2J"))
    answer.told("bad.coach:9:")
    assert answer.code == 1
    assert "\x1b" not in answer.text


def test_a_thousand_faulty_lines(check: Callable):
    answer = check(PROGRAM + DOSE.replace("3 x", "three times") * 1_000)
    answer.told("bad.coach:11:")
    assert answer.code == 1


def test_a_hundred_thousand_lines_of_prose(check: Callable):
    answer = check("Dear crew, this is a letter.\n" * 100_000)
    answer.told("bad.coach:1:1")
    assert answer.code == 1


def test_one_file_twice_the_same(check: Callable):
    answer = check(PROGRAM + PROGRAM)
    answer.told("bad.coach:13:9")
    assert answer.code == 1


SESSION = 'session main "Main session", 2 a week\n'


@pytest.mark.parametrize(
    ("line", "place", "code"),
    [
        ("within 0 min", "bad.coach:8:5", "limit-out-of-range"),
        ("short 0 min by sets", "bad.coach:8:5", "limit-out-of-range"),
        ("within 700 min", "bad.coach:8:5", "limit-out-of-range"),
        ("within -5 min", "bad.coach:8:12", "figure-negative"),
        ("short -5 min by sets", "bad.coach:8:11", "figure-negative"),
        ("within 1 min", "bad.coach:8:5", "session-over-limit"),
    ],
)
def test_limits_that_cannot_be(check: Callable, line: str, place: str, code: str):
    answer = check(PROGRAM.replace(SESSION, f"{SESSION}    {line}\n"))
    answer.told(place, code)
    assert answer.code == 1


@pytest.mark.parametrize(
    ("lines", "place", "code"),
    [
        ("    short 90 min by sets\n", "bad.coach:8:5", "short-cuts-nothing"),
        ("    within 60 min\n    short 90 min by sets\n", "bad.coach:9:5", "short-not-shorter"),
    ],
)
def test_short_versions_longer_than_the_session(check: Callable, lines: str, place: str, code: str):
    check(PROGRAM.replace(SESSION, SESSION + lines)).told(place, code)


@pytest.mark.parametrize(
    "axis",
    ["reps by 1 to 8", "sets by 1 to 2", "total reps by 1 to 20", "pause by 1 s to 0 s", "rest by 5 s to 90 s"],
)
def test_bounds_passed_at_the_start(check: Callable, axis: str):
    answer = check(PROGRAM.replace("reps by 1 to 12", axis))
    answer.told("bad.coach:10:", "bound-below-start", axis[axis.index("to ", 3) :].removeprefix("to "))
    assert answer.code == 1


LADDER = (
    PROGRAM
    + """\
      key push-up 2 x 8
        advance reps by 1 to 12, then rung to knees restarting reps
      key goblet-squat 2 x 8
        advance load to 16 kg
      key plank 2 x 30 s
        advance hold by 5 s to 60 s

athlete maren "Maren"
"""
)


@pytest.mark.parametrize(
    ("begins", "axis", "bound"),
    [
        ("goblet-squat at 20 kg", "load", "16 kg"),
        ("goblet-squat at 40 lb", "load", "16 kg"),
        ("push-up 15 reps", "reps", "12"),
        ("push-up on toes", "rung", "knees"),
        ("plank 75 s", "hold", "60 s"),
    ],
)
def test_beginnings_beyond_a_bound(check: Callable, begins: str, axis: str, bound: str):
    answer = check(f"{LADDER}  begins {begins}\n")
    answer.told("bad.coach:19:3", "begins-past-bound", "Maren", f"`{axis}` goes only to {bound}")


def test_a_beginning_beyond_the_top_of_a_range(check: Callable):
    ranged = LADDER.replace("push-up 2 x 8", "push-up 2 x 8-12").replace("reps by 1 to 12", "reps")
    answer = check(f"{ranged}  begins push-up 15 reps\n")
    answer.told("bad.coach:19:3", "begins-past-bound", "Maren", "`reps` goes only to 12")


@pytest.mark.parametrize("begins", ["goblet-squat at 16 kg", "push-up 12 reps", "push-up on knees", "plank 60 s"])
def test_a_beginning_at_a_bound_is_no_slip(check: Callable, begins: str):
    answer = check(f"{LADDER}  begins {begins}\n")
    assert answer.code == 0
    assert "begins-past-bound" not in answer.text


@pytest.mark.parametrize("often", ["", ", 2 a week", ", on mon, thu", ", every day"])
def test_a_program_of_twelve_weeks_without_days(check: Callable, often: str):
    weeks = PROGRAM.replace("  category", "  runs 12 weeks\n  category").replace(", 2 a week", often)
    answer = check(weeks)
    if often:
        assert "how-often-not-said" not in answer.text
    else:
        answer.told("bad.coach:8:11", "how-often-not-said", "12 weeks", "`main`")


CIRCLE = """\
    block circle "Circle", rounds 3, rest 30 s
      must march-in-place 10 min
        advance time by 5%
      do chair-stand 10
        advance reps by 1 to 15
"""


@pytest.mark.parametrize(
    ("line", "code", "says"),
    [
        ("short 5 min by sets", "short-impossible", "`must` keeps `march-in-place`"),
        ("short 5 min by movements", "short-impossible", "`must` keeps `march-in-place`"),
        ("within 5 min", "session-over-limit", "of it `march-in-place` 30 min"),
    ],
)
def test_a_must_of_ten_minutes_in_a_circuit_of_five(check: Callable, line: str, code: str, says: str):
    head = PROGRAM[: PROGRAM.index("    block strength")].replace(", counts squat and lunge", ", counts locomotion")
    answer = check(f"{head}    {line}\n{CIRCLE}")
    answer.told("bad.coach:8:5", code, says)
    assert answer.code == 1
