"""`setwright explain`: each figure from its causes, with the line of the source that each comes from."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

SHED = Path(__file__).parents[1] / "boat-shed"


@pytest.fixture
def explained(run: Callable, own_folder: Path) -> Callable[[str, str], str]:
    for path in SHED.rglob("*.coach"):
        copy = own_folder / path.relative_to(SHED)
        copy.parent.mkdir(exist_ok=True)
        copy.write_bytes(path.read_bytes())

    def explain(athlete: str, movement: str) -> str:
        return str(run("explain", athlete, movement).out)

    return explain


def figure(text: str, name: str) -> str:
    """What is told of a figure, up to the next, on one line."""
    told = text[text.index(f"\n  {name}  ") + 1 :].partition("\n\n")[0]
    return " ".join(told.split())


def line_of(file: Path, words: str) -> str:
    """The place of the line that begins with words."""
    lines = file.read_text().splitlines()
    number = next(number for number, line in enumerate(lines, 1) if " ".join(line.split()).startswith(words))
    return f"{file.as_posix()}:{number}"


CREW, PROGRAM = Path("people/crew.coach"), Path("boat-shed.coach")


@pytest.mark.parametrize(
    ("movement", "name", "told", "file", "line"),
    [
        ("back-squat", "Movement", "Back squat As the program has it.", PROGRAM, "must back-squat"),
        ("back-squat", "First, lighter", "5 with 29 kg and 3 with 38.1 kg", PROGRAM, "must back-squat"),
        ("back-squat", "Load", "85% of the training maximum of 82 kg is 69.7 kg.", CREW, "max back-squat 82 kg"),
        ("back-squat", "Load", "Alone no more than 65.6 kg, where it would be 69.7 kg.", CREW, "alone at most 80%"),
        ("back-squat", "Load", "65.3 kg can be made of what there is", CREW, "has barbell 20 kg"),
        ("back-squat", "Take", "65.3 kg: bar with 45 lb and 5 lb each side", CREW, "has barbell 20 kg"),
        ("back-squat", "Rest", "1 minute 30 seconds The entry and its block say nothing", PROGRAM, "rest 90 s"),
        (
            "back-squat",
            "Next step",
            "After 2 sessions in a row that fell short",
            PROGRAM,
            "after 2 missed, ease load 10%",
        ),
        ("push-up", "Form", "hands on the wall Ewa begins with “hands on the wall”.", CREW, "begins push-up on wall"),
        ("push-up", "What to do", "Ewa begins with 8 repetitions.", CREW, "begins push-up on wall"),
        ("band-row", "Take", "the red band Ewa begins with the red band.", CREW, 'begins band-row with "red"'),
        ("floor-press", "Load", "4.5 kg in each hand Nothing says with what to begin", CREW, "has dumbbell pair"),
        ("split-squat", "Movement", "Dumbbell step up Split squat: Ewa avoids it", CREW, "avoids split-squat"),
        ("split-squat", "Movement", "The first `else` that can be done", PROGRAM, "else dumbbell-step-up"),
        ("dumbbell-step-up", "Movement", "Dumbbell step up Split squat: Ewa avoids it", CREW, "avoids split-squat"),
        ("chair-stand", "Movement", "Chair stand is not needed: what stands before it", PROGRAM, "else chair-stand"),
        ("side-plank", "Movement", "Only whoever is able to does it", PROGRAM, "may side-plank"),
        ("side-plank", "Next step", "hold 5 seconds longer", PROGRAM, "advance hold by 5 s to 60 s"),
    ],
)
def test_a_figure_and_its_cause(  # noqa: PLR0917 (columns of a table)
    movement: str, name: str, told: str, file: Path, line: str, explained: Callable[[str, str], str]
):
    found = figure(explained("ewa", movement), name)
    assert told in found
    assert f"{line_of(file, line)} {line}" in found


def test_the_time_comes_from_sets_and_rests(explained: Callable[[str, str], str]):
    found = figure(explained("ewa", "floor-press"), "Minutes")
    assert "4 minutes 12 seconds 3 times 24 seconds, and 2 rests of 1 minute 30 seconds between them." in found
    assert re.search(r"basics\.coach:\d+ rep 3 s$", found)


def test_a_movement_that_nothing_takes_the_place_of(run: Callable, explained: Callable[[str, str], str]):
    text = explained("joss", "band-row")
    assert text.startswith("Band row, for Joss\nBoat shed, revision 2: Main session, “Push, pull and carry”\n")
    found = figure(text, "Movement")
    assert found.startswith("Movement none Band row: Joss avoids every movement of the pattern “pull” (“right elbow")
    assert "It has no `else` that would serve, so it is left out." in found
    ran = run("explain", "joss", "band-row")
    assert ran.code == 1
    assert "error[must-impossible]" in ran.err
    assert "advice" not in ran.err


def test_comments_are_left_out(run: Callable, hall: Path):
    text = hall.read_text().replace("must chair-stand 3 x 8", "must chair-stand 3 x 8  # on the blue chairs")
    hall.write_text(text + '\nathlete agnes "Agnes"\n  has floor, chair, step, door\n  has band "red # 2"\n')
    ran = run("explain", "agnes", "chair-stand", str(hall))
    assert ran.code == 0, ran.err
    assert "hall.coach:12  must chair-stand 3 x 8\n" in ran.out.replace(str(hall.parent) + "/", "")
    assert "blue" not in ran.out
    assert 'has band "red # 2"' in run("explain", "agnes", "band-row", str(hall)).out


@pytest.mark.parametrize(
    ("typed", "answer"),
    [
        ("ewa split-sqat", "there is no movement `split-sqat` in what Ewa trains by. Did you mean `split-squat`?"),
        ("jos push-up", "there is no athlete `jos` here. Did you mean `joss`?"),
        ("ewa push-up elsewhere", "there is no file or folder elsewhere."),
        ("ewa push-up . --program hall", "there is no program `hall`"),
    ],
)
def test_what_is_misspelt(typed: str, answer: str, run: Callable, explained: Callable[[str, str], str]):
    ran = run("explain", *typed.split())
    assert ran.code == 2
    assert answer in ran.err


def test_who_trains_by_no_program(run: Callable, revisions: Path):
    (revisions / "other.coach").write_text(
        'use "hall-1.coach"\n' + (revisions / "hall-1.coach").read_text().replace("program hall", "program stairs")
        + '\nathlete agnes "Agnes"\n'
    )  # fmt: skip
    ran = run("explain", "agnes", "chair-stand", ".")
    assert ran.code == 2
    assert "Agnes trains by no program here. Say which: --program NAME (hall, stairs)." in ran.err
    assert run("explain", "agnes", "chair-stand", ".", "--program", "hall").out.startswith("Chair stand, for Agnes\n")


def test_lines_fit_the_width_and_keep_figures_together(explained: Callable[[str, str], str]):
    lines = explained("ewa", "back-squat").splitlines()
    assert max(map(len, lines)) <= 100
    assert not [line for line in lines if re.search(r"\d$", line) and line.lstrip().startswith("Set")]
