"""`setwright horizon`: what comes, week by week."""

import json
import re
from collections.abc import Callable
from io import StringIO
from pathlib import Path

import pytest
from setwright.compiler.axes import AXES
from setwright.compiler.horizon import RISE, outlook
from setwright.compiler.pipeline import compile_path
from setwright.targets import words
from setwright.targets.command_line.arguments import read
from setwright.targets.command_line.horizon import read_loads
from setwright.targets.command_line.terminal import Refusal, width
from setwright.targets.horizon_lines import ahead_lines

SOURCE = """\
use basics

program hall "Hall class"
  runs {weeks} weeks
  session main "Main session", 2 a week
    within 15 min
    block strength "Strength"
      must chair-stand 3 x 8
        advance reps by 1 to 12
        else bodyweight-squat 3 x 8
      must goblet-squat 3 x 8
        advance reps by 1 to 10, then load restarting reps
      do   curl-up 3 x 8
        advance reps by 2 to 40
      may  arm-circles 1 x 10
        advance none because "It only warms."
  session walk "Walk"
    block out, conditioning
      do march-in-place 1 x 2 min
        advance time by 1 min to 20 min

athlete agnes "Agnes"
  has dumbbell 4 kg, 5 kg
  has chair, floor
  avoids chair-stand "left hip"
  begins goblet-squat at 4 kg
"""


@pytest.fixture
def class_(own_folder: Path) -> Path:
    path = own_folder / "hall.coach"
    path.write_text(SOURCE.format(weeks=6), "utf-8")
    return path


def tables(text: str) -> str:
    """What stands below the signs of the first session."""
    return text.partition("\n  Every session good\n")[2]


def cells(text: str, title: str) -> list[str]:
    """All cells of a title in the first run of the first session."""
    run = tables(text).partition("\n  Every 3rd session missed\n")[0]
    found = [line for line in run.splitlines() if line.startswith(f"  {title}  ")]
    return [cell for line in found for cell in re.split(r"  +", line.strip())[1:]]


def signs(text: str, title: str) -> list[str]:
    """The signs of a movement in each run."""
    head = text.partition("\n  Every session good\n")[0]
    line = next(line for line in head.splitlines() if line.startswith(f"  {title}  "))
    return re.split(r"  +", line.strip())[1:]


def test_every_week_of_a_movement_in_both_runs(run: Callable, class_: Path):
    ran = run("horizon", "hall.coach")
    assert ran.code == 0
    assert ran.out.startswith("Hall class, revision 1: 6 weeks ahead, for nobody in particular\n")
    # Each week is told by its second session: 8 in the first, 9 in the second of week 1.
    assert cells(ran.out, "Chair stand") == ["3 x 9", "3 x 11", "3 x 12 #", ".", ".", "."]
    assert signs(ran.out, "Chair stand") == ["RR#===", "RRR#=="]
    assert "Unchanged: Arm circles 1 x 10." in ran.out


def test_what_moves_without_a_figure_is_told_by_its_axis(run: Callable, class_: Path):
    ran = run("horizon", "hall.coach")
    assert "+load" in " ".join(cells(ran.out, "Goblet squat"))
    assert "+load is heavier than before" in ran.out
    assert "+load" not in run("horizon", "hall.coach", "--loads", "4kg 6kg").out


def test_loads_at_hand_begin_with_the_lightest(run: Callable, class_: Path):
    ran = run("horizon", "hall.coach", "--loads", "10 kg, 9kg")
    assert ran.out.startswith("Hall class, revision 1: 6 weeks ahead, with 9 kg and 10 kg\n")
    assert cells(ran.out, "Goblet squat")[0] == "3 x 9, 9 kg"
    # 10 kg is more than the jump of 10% above 9 kg: the rule is exhausted once the repetitions are at their bound.
    assert "10 kg is too large a jump" in ran.out


def test_for_an_athlete(run: Callable, class_: Path):
    ran = run("horizon", "hall.coach", "--athlete", "agnes")
    assert ran.out.startswith("Hall class, revision 1: 6 weeks ahead, for Agnes\n")
    assert cells(ran.out, "Goblet squat")[:2] == ["3 x 9, 4 kg", "3 x 10 #"]
    assert "Agnes does Squat without a load in place of Chair stand." in ran.out


@pytest.mark.parametrize(
    ("typed", "answer"),
    [
        (("--athlete", "agnse"), "Did you mean `agnes`?"),
        (("--athlete", "agnes", "--loads", "4kg"), "leave out --athlete"),
        (("--loads", ""), "no load is said"),
        (("--loads", "0kg"), "`0kg` is no weight"),
        (("--loads", "4"), "`4` is not a load"),
        (("--loads", "4 kg heavy"), "`heavy` is not a load"),
        (("--loads", "4 min"), "`4min` is not a load"),
        (("--loads", "70%"), "`70%` is not a load"),
        (("--loads=-4kg",), "`-4kg` is not a load"),
        (("--loads", "9" * 400 + "kg"), "is not a load"),
        (("--weeks", "0"), "from 1 to 104"),
        (("--weeks", "105"), "from 1 to 104"),
        (("--weeks", "ten"), "from 1 to 104"),
        (("--missed-every", "1"), "from 2 to 12"),
        (("--rise", "0%"), "a share above 0%"),
        (("--rise", "20"), "as in --rise 20%"),
        (("--rise", "half"), "as in --rise 20%"),
        (("--program", "hal"), "Did you mean `hall`?"),
    ],
)
def test_what_cannot_be_meant_is_refused(run: Callable, class_: Path, typed: tuple[str, ...], answer: str):
    ran = run("horizon", "hall.coach", *typed)
    assert (ran.code, ran.out) == (2, "")
    assert answer in ran.err


def test_there_may_be_no_athlete(run: Callable, hall: Path):
    assert "It declares none." in run("horizon", "hall.coach", "--athlete", "agnes").err


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("4kg 6kg", ["4 kg", "6 kg"]),
        ("25 lb,10 kg", ["10 kg", "25 lb"]),
        ("6KG; 4 kg 4kg", ["4 kg", "6 kg"]),
        (" 2.5kg ", ["2.5 kg"]),
    ],
)
def test_loads_as_people_type_them(text: str, told: list[str]):
    assert [str(load) for load in read_loads(text)] == told


def test_a_load_is_never_read_from_half_of_a_word():
    with pytest.raises(Refusal):
        read_loads("4 kg6 kg")


def test_findings_stand_below_the_tables_and_the_last_line_counts_them(run: Callable, class_: Path):
    ran = run("horizon", "hall.coach")
    below = ran.out.partition("warning[rule-exhausted]")
    assert "Minutes" in below[0] and "Minutes" not in below[2]
    assert "session-outgrows-limit" in ran.out
    count = len(re.findall(r"warning\[", ran.out))
    assert ran.out.splitlines()[-1] == f"6 weeks ahead, for nobody in particular: {count} warnings."


def test_a_week_over_the_limit_is_marked(run: Callable, class_: Path):
    ran = run("horizon", "hall.coach")
    minutes = cells(ran.out, "Minutes, at most 15 min")
    assert all(int(cell.rstrip("!")) > 15 for cell in minutes if cell.endswith("!"))
    assert all(int(cell) <= 15 for cell in minutes if not cell.endswith("!"))
    assert any(cell.endswith("!") for cell in minutes)
    assert "! after the minutes: more than the limit." in ran.out


def test_the_share_of_a_week_over_the_one_before(run: Callable, class_: Path):
    assert "week-rises-fast" in run("horizon", "hall.coach", "--rise", "1%").out
    assert "week-rises-fast" not in run("horizon", "hall.coach", "--rise", "300%").out


def test_which_session_is_missed(run: Callable, class_: Path):
    ran = run("horizon", "hall.coach", "--missed-every", "2")
    # The first of the two sessions of every week is good, the second is missed.
    assert signs(ran.out, "Chair stand")[1] == "RRRR#="
    assert "Every 2nd session missed" in ran.out


def test_easier_weeks_are_marked(run: Callable, class_: Path):
    class_.write_text(
        SOURCE.format(weeks="6 weeks\n  weeks 2: sets by -1").replace(" weeks\n  session", "\n  session"), "utf-8"
    )
    ran = run("horizon", "hall.coach")
    assert ran.code == 0
    assert "2~" in tables(ran.out).splitlines()[0]
    assert cells(ran.out, "Chair stand")[:3] == ["3 x 9", "2 x 10", "3 x 11"]
    assert signs(ran.out, "Chair stand")[0] == "R~R#=="


def test_json_is_one_document_of_findings_alone(run: Callable, class_: Path):
    ran = run("horizon", "hall.coach", "--format", "json")
    found = json.loads(ran.out)["findings"]
    assert {"rule-exhausted", "session-outgrows-limit"} <= {finding["code"] for finding in found}
    assert "Hall class" in ran.err
    assert "warning[" not in ran.err


def test_errors_in_the_source_come_first(run: Callable, class_: Path):
    class_.write_text(class_.read_text("utf-8").replace("3 x 8", "0 x 8"), "utf-8")
    ran = run("horizon", "hall.coach")
    assert (ran.code, ran.out) == (1, "")
    assert "sets-out-of-range" in ran.err


@pytest.mark.parametrize("weeks", [1, 2, 16, 17, 52, 104])
def test_no_line_is_wider_than_the_page_and_every_movement_has_its_signs(run: Callable, class_: Path, weeks: int):
    ran = run("horizon", "hall.coach", "--weeks", str(weeks), "--loads", "4kg 4.25kg 4.5kg 5kg 5.5kg 6kg")
    shown = ran.out.partition(": warning[")[0].splitlines()[:-1]
    assert max(map(len, shown)) <= 100
    found = [re.split(r"  +", line.strip())[1] for line in shown if line.startswith("  Goblet squat  ")]
    assert sum(len(one) for one in found if re.fullmatch(r"[RL.=#]+", one)) >= weeks


@pytest.mark.parametrize("columns", [60, 80, 120])
def test_lines_are_as_wide_as_the_terminal(class_: Path, columns: int):
    program = compile_path(class_).project.programs[0]
    told = list(ahead_lines(outlook(program, weeks=40), "for nobody in particular", columns))
    assert max(map(len, told[1:])) <= columns
    assert any(len(line) > columns - 25 for line in told)


def test_an_output_that_is_no_terminal_has_a_width_of_its_own(tmp_path: Path):
    with (tmp_path / "out").open("w") as file:
        assert width(file) == width(StringIO()) == width(None) == 100


def test_horizon_loads_no_templates(process: Callable, class_: Path):
    script = "import sys; from setwright.targets.command_line import main; main(); print('jinja2' in sys.modules)"
    assert process("horizon", "hall.coach", code=script).out.splitlines()[-1] == "False"


def test_the_readme_shows_what_is_printed(run: Callable):
    home = Path(__file__).resolve().parents[3]
    told = (
        (home / "README.md").read_text("utf-8").partition("**Ahead.**")[2].partition("```text\n")[2].partition("```")[0]
    )
    ran = run("horizon", str(home / "programs" / "tern-holm"), "--athlete", "maren")
    assert told and all(line in ran.out.splitlines() for line in told.splitlines())


def test_every_axis_has_a_sign_of_its_own():
    assert set(words.AXIS_SIGNS) == set(AXES)
    assert len(set(words.AXIS_SIGNS.values())) == len(AXES)


def test_an_axis_is_told_by_its_name_in_the_language():
    for explained in (words.signs_explained, words.picture_explained):
        told = " ".join(explained(["lower", "rung"], set()))
        assert f"{words.AXIS_SIGNS['lower']} lower" in told and f"{words.AXIS_SIGNS['rung']} rung" in told


def test_a_week_may_rise_as_much_as_the_horizon_has_it_where_nothing_is_typed():
    assert read(["horizon", "hall.coach"]).rise == RISE


def test_of_others_nothing_is_told(run: Callable, own_folder: Path):
    program = (
        "use basics\n\nprogram hall\n  session main\n    block one\n      must chair-stand 3 x 8\n"
        "        advance reps by 1 to 12\n"
    )
    person = "\nathlete {0}\n  starts 2026-06-15\n  has chair, floor, wall, step\n  has container 5 l, fill water\n"
    others = person.format("wilf") + "  begins deadlift at 40 kg\n  body 6800 kg\n"
    (own_folder / "hall.coach").write_text(program + person.format("agnes") + others, "utf-8")
    ran = run("horizon", "hall.coach", "--athlete", "agnes")
    assert ran.code == 0
    assert "Agnes" in ran.out
    assert "Wilf" not in ran.err and "body-out-of-range" not in ran.err
    assert "body-out-of-range" in run("horizon", "hall.coach").err
