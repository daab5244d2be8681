"""The pack of one athlete: what they lift, how they make it, what they do in place of something, and their own log."""

import re
from typing import Any

import attrs
import pytest
from setwright.compiler.fitting import Fitting
from setwright.compiler.pipeline import compile_texts
from setwright.targets import words
from setwright.targets.pack import pack
from syrupy.assertion import SnapshotAssertion
from syrupy.extensions.single_file import SingleFileSnapshotExtension, WriteMode

FILES = (
    "ewa-boat-shed-guide.pdf",
    "ewa-boat-shed-handout.html",
    "ewa-boat-shed-handout.md",
    "ewa-boat-shed-handout.pdf",
    "ewa-boat-shed-log-week-1.html",
    "ewa-boat-shed-log.csv",
    "ewa-boat-shed-log.html",
    "ewa-boat-shed-log.pdf",
    "ewa-boat-shed-log.txt",
    "ewa-boat-shed-log.xlsx",
    "ewa-boat-shed-main-short-45min.html",
    "ewa-boat-shed-main-short-45min.md",
    "ewa-boat-shed-main-short-45min.pdf",
    "ewa-boat-shed.ics",
)

# The log for a phone is looked at in its own tests.
SHEETS = [name for name in FILES if not name.endswith((".csv", ".xlsx", ".pdf", ".ics")) and "week" not in name]


class SheetFile(SingleFileSnapshotExtension):
    """A sheet as a file that can be read on its own."""

    _write_mode = WriteMode.TEXT
    file_extension = "txt"


@pytest.fixture(scope="module")
def files(ewa: Fitting) -> dict[str, str]:
    return pack(ewa)


@pytest.fixture(scope="module")
def handout(files: dict[str, str]) -> str:
    return files["ewa-boat-shed-handout.md"]


@pytest.mark.parametrize("name", [*SHEETS, "ewa-boat-shed-log.csv"])
def test_the_pack(name: str, files: dict[str, str], snapshot: SnapshotAssertion):
    text = files[name].replace("\r\n", "\n")
    # The style is that of every sheet, and is looked at there.
    assert re.sub(r"<style>.*</style>", "<style></style>", text, flags=re.DOTALL) == snapshot(extension_class=SheetFile)


def test_the_files_of_a_pack(files: dict[str, str]):
    assert tuple(sorted(files)) == FILES


def test_the_same_fitting_gives_the_same_pack(ewa: Fitting, files: dict[str, str]):
    assert pack(attrs.evolve(ewa, program=attrs.evolve(ewa.program))) == files


def entry(handout: str, title: str) -> str:
    """What a handout says of a movement, up to the next."""
    found = re.search(rf"^- .*\*\*{re.escape(title)}.*\n(  .*\n)*", handout, re.MULTILINE)
    assert found is not None
    return found[0]


@pytest.mark.parametrize(
    ("title", "told"),
    [
        ("Back squat", "set 3: as many as you can with 65.3 kg"),
        ("Back squat", "First, lighter: 5 with 29 kg, then 3 with 38.1 kg."),
        ("Back squat", "  - 29 kg: bar with 10 lb each side.\n"),
        ("Back squat", "  - 65.3 kg: bar with 45 lb and 5 lb each side.\n"),
        ("Deadlift", "3 sets of 5, with 74.4 kg."),
        ("Deadlift", "  - Take: bar with 45 lb, 10 lb and 5 lb each side.\n"),
        ("Push-up", "  - Do it: hands on the wall.\n"),
        ("Band row", "  - Take: the red band.\n"),
        ("Floor press", "3 sets of 8, with 4.5 kg in each hand."),
        ("Floor press", "  - Take: two 10 lb dumbbells, one in each hand.\n"),
        ("Suitcase carry", "  - Take: water jug, sand to 3.1 l (62% of its height).\n"),
        ("Dumbbell step up", "**Dumbbell step up (in place of Split squat).**"),
        ("Side plank", "If you are able to."),
        ("Side plank", "  - Instead: Dead bug. 2 sets of 10.\n"),
    ],
)
def test_what_the_handout_says(title: str, told: str, handout: str):
    assert told in entry(handout, title)


def test_the_head_says_whose_it_is(handout: str, files: dict[str, str]):
    assert "- **For:** Ewa\n- **Your days:** Monday, Wednesday and Friday, from 15 June 2026\n" in handout
    assert "Whoever trains" not in handout
    assert "<title>Ewa · Boat shed" in files["ewa-boat-shed-handout.html"]


def test_the_first_day_alone(joss: Fitting):
    assert "- **You begin:** 16 June 2026\n" in pack(joss)["joss-boat-shed-handout.md"]


@pytest.mark.parametrize("name", SHEETS)
def test_no_sheet_tells_why_something_is_not_done(name: str, files: dict[str, str]):
    assert "hip" not in re.sub(r"how to do each movement.*", "", files[name], flags=re.DOTALL | re.IGNORECASE)


def test_a_weight_that_nobody_knows_stays_a_share(joss: Fitting, handout: str):
    text = pack(joss)["joss-boat-shed-handout.md"]
    assert "3 sets of 5, at 70% of your training maximum." in text
    assert words.EXPLAIN_MAXIMUM in text
    assert words.EXPLAIN_MAXIMUM not in handout


def test_the_movements_are_those_that_are_done(handout: str):
    titles = re.findall(r"^### (.*)", handout.partition(f"## {words.MOVEMENTS}")[2], re.MULTILINE)
    assert titles == [
        "March in place", "Back squat", "Deadlift", "Push-up", "Band row", "Floor press", "Suitcase carry",
        "Dumbbell step up", "Side plank", "Dead bug",
    ]  # fmt: skip


def test_forms_and_loads_are_those_that_there_are(handout: str):
    forms = handout[handout.index("### Push-up") : handout.index("### Band row")]
    assert "1. hands on the wall (needs a wall; you begin here)\n" in forms
    assert "bench" not in forms.partition(words.RUNGS)[2]
    deadlift = handout[handout.index("### Deadlift") : handout.index("### Push-up")]
    assert f"- **{words.YOUR_NEXT_LOADS}:**\n  1. 78.9 kg: bar with 45 lb and 2 × 10 lb each side\n" in deadlift


@pytest.mark.parametrize("name", SHEETS)
def test_what_is_to_be_minded_of_containers_and_plates(name: str, files: dict[str, str]):
    filled, plates = (
        (words.CAUTION_FILLED_SHORT, words.CAUTION_PLATES_SHORT)
        if "log" in name
        else (words.CAUTION_FILLED, words.CAUTION_PLATES)
    )
    assert filled in files[name]
    assert plates in files[name]


def test_no_caution_for_what_is_not_there(joss: Fitting):
    told = pack(joss)
    assert not [
        name
        for name, text in told.items()
        if isinstance(text, str) and (words.CAUTION_FILLED_SHORT in text or words.CAUTION_FILLED in text)
    ]
    assert words.CAUTION_PLATES in told["joss-boat-shed-handout.md"]


def test_large_print_for_who_asks_for_it(joss: Fitting, files: dict[str, str]):
    for name, text in files.items():
        if name.endswith(".html") and "log" not in name:
            assert "html { font-size: 18pt;" in text
    assert "html { font-size: 12pt;" in pack(joss)["joss-boat-shed-handout.html"]


@pytest.mark.parametrize("name", ["ewa", "joss"])
def test_a_log_that_is_filled_in_is_read(name: str, fittings: dict[str, Fitting], boat_shed_texts: dict[str, Any]):
    text = pack(fittings[name])[f"{name}-boat-shed-log.txt"]
    assert f"\nlog {name} on boat-shed, revision 2\n" in text
    head, body = text.split("\nlog ", 1)
    body = re.sub(r"^__ ", "2026-06-17 ", body, flags=re.MULTILINE)
    body = re.sub(r"(# Form, one of: ([a-z-]+).*\n  [a-z-]+ +)__", r"\1\2", body)
    body = body.replace('"__"', '"red"').replace("__", "7")
    result = compile_texts({**boat_shed_texts, f"people/{name}-log.coach": f"{head}\nlog {body}"})
    found = {one.code for one in result.diagnostics if one.span.source.name.endswith("-log.coach")}
    assert found <= {"logged-load-not-makeable", "logged-far-ahead"}  # nobody has 7 kg
    (log,) = result.project.logs
    done = [entry.movement.name for entry in fittings[name].program.sessions[0].entries]
    assert [entry.movement for entry in log.sessions[0].entries] == done[1:]  # without the warm-up


def test_a_log_uses_what_stands_beside_it(files: dict[str, str]):
    text = files["ewa-boat-shed-log.txt"]
    assert '\nuse "crew.coach"\nuse "../boat-shed.coach"\n' in text
    assert "save it in the folder of crew.coach\n" in text
    assert "as in `ewa-log.coach`" in text
    assert words.LOG_TEXT_NAME not in text


def test_the_paper_log_tells_who_and_what_with(files: dict[str, str]):
    text = files["ewa-boat-shed-log.html"]
    assert f'{words.LOG_NAME} <span class="fill long">Ewa</span>' in text
    assert "3 sets of 5, with 74.4 kg." in text
    assert "Do it: hands on the wall." in text
