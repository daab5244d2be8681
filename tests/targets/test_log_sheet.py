"""A blank log that is filled in is a log of the language; a blank page has room for all that is asked."""

import re
from pathlib import Path

import pytest
from setwright.compiler.model import Program
from setwright.compiler.pipeline import compile_texts
from setwright.targets import log_sheet, words
from setwright.targets.log_sheet.view import log_sheet as view

DEMO = Path(__file__).resolve().parents[2] / "programs" / "tern-holm"


@pytest.fixture(scope="module")
def demo_sources() -> dict[str, str | bytes]:
    return {path.relative_to(DEMO).as_posix(): path.read_bytes() for path in DEMO.rglob("*.coach")}


def filled(text: str) -> str:
    """The blank log with something in every blank."""
    text = text.replace("log __", "log maren").replace("__:__", "31:00")
    text = re.sub(r"^__ ", "2026-06-17 ", text, flags=re.MULTILINE)
    text = re.sub(r"(# Form, one of: ([a-z-]+).*\n  [a-z-]+ +)__", r"\1\2", text)
    head, body = text.split("\nlog ", 1)
    return f"{head}\nlog {body.replace('__', '7')}"


def test_a_filled_log_is_read(demo_sources: dict[str, str | bytes]):
    projects = compile_texts(demo_sources).project.programs
    program = max(projects, key=lambda program: program.revision)
    text = filled(log_sheet.render(program)[f"{program.name}-log.txt"])
    text = text.replace('use "winter-store-room.coach"', 'use "winter-store-room.coach"\nuse "crew.coach"')
    result = compile_texts({**demo_sources, "new.coach": text})
    found = {finding.code for finding in result.diagnostics if finding.span.source.name == "new.coach"}
    assert found <= {"logged-load-not-makeable"}  # she has no 7 kg
    (log,) = [log for log in result.project.logs if log.span.source.name == "new.coach"]
    assert [len(session.entries) for session in log.sessions] == [10, 1]
    assert log.sessions[0].entries[0].results == (7, 7, 7)


def test_boxes_for_every_set_and_for_sets_to_come(program: Program):
    rows = {row.name: row for row in view(program).sessions[0].rows}
    squat = [(box.caption, box.later) for box in rows["goblet-squat"].boxes]
    assert squat == [("kg", False), ("lower s", False), ("cues", False), ("1", False), ("2", False), ("3", False),
                     ("4", True), ("5", True)]  # fmt: skip
    assert [box.caption for box in rows["push-up"].boxes] == ["form", "1", "2", "3"]


def test_each_movement_says_what_it_progresses_in(program: Program):
    rows = {row.name: row.order for row in view(program).sessions[0].rows}
    assert rows["goblet-squat"] == "load, then repetitions, then sets"
    assert rows["deadlift"] == ""


def test_the_text_log_says_what_each_movement_progresses_in(program: Program):
    lines = log_sheet.render(program)["small-log.txt"].splitlines()
    row = next(number for number, line in enumerate(lines) if line.startswith("  goblet-squat "))
    assert lines[row - 1] == "  # To progress: load, then repetitions, then sets."


def test_the_text_log_is_no_source_until_it_is_saved_as_one(program: Program):
    files = log_sheet.render(program)
    assert not [name for name in files if name.endswith(".coach")]
    assert "# under a name that ends in `.coach`, as in `maren.coach`" in files["small-log.txt"]
    assert '\n#   use "crew.coach"\n' in files["small-log.txt"]


def test_a_week_has_a_column_for_each_session(program: Program):
    main, walk = view(program).sessions
    assert len(main.times) == 3
    assert len(walk.times) == 7


def test_how_it_felt_and_when_to_stop_stand_together(program: Program):
    """On one page, whatever the length of the log."""
    text = log_sheet.render(program)["small-log.html"]
    for section in text.split("<section>")[1:]:
        last = section.rpartition('<tbody class="whole">')[2].partition("</tbody>")[0]
        assert words.LOG_FELT in last
        assert words.CAUTIONS_SHORT[0] in last
