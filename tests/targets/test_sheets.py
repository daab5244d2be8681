"""The sheets as they are: every file of the small program, and the texts of the demo program."""

from pathlib import Path

import pytest
from setwright.compiler.model import Athlete, Program, Project
from setwright.compiler.pipeline import compile_path
from setwright.targets import sheets
from syrupy.assertion import SnapshotAssertion
from syrupy.extensions.single_file import SingleFileSnapshotExtension, WriteMode

DEMO = Path(__file__).resolve().parents[2] / "programs" / "tern-holm"
SMALL_FILES = (
    "small-handout.html",
    "small-handout.md",
    "small-log.html",
    "small-main-short-20min.html",
    "small-main-short-20min.md",
    "small.log.coach",
    "small.program.json",
)
DEMO_FILES = (
    "winter-store-room-handout.md",
    "winter-store-room-main-short-25min.md",
    "winter-store-room-main-short-40min.md",
    "winter-store-room.log.coach",
)


class SheetFile(SingleFileSnapshotExtension):
    """A sheet as a file that can be read on its own."""

    _write_mode = WriteMode.TEXT
    file_extension = "txt"


@pytest.fixture
def snapshot(snapshot: SnapshotAssertion) -> SnapshotAssertion:
    return snapshot.use_extension(SheetFile)


@pytest.fixture(scope="module")
def small_files(project: Project, program: Program) -> dict[str, str | bytes]:
    return sheets.build(project, program)


@pytest.fixture(scope="module")
def demo_files() -> dict[str, str | bytes]:
    result = compile_path(DEMO)
    program = max(result.project.programs, key=lambda program: program.revision)
    return sheets.build(result.project, program)


@pytest.mark.parametrize("name", SMALL_FILES)
def test_small_program(name: str, small_files: dict[str, str | bytes], snapshot: SnapshotAssertion):
    assert small_files[name] == snapshot


@pytest.mark.parametrize("name", DEMO_FILES)
def test_demo_program(name: str, demo_files: dict[str, str | bytes], snapshot: SnapshotAssertion):
    assert demo_files[name] == snapshot


def test_files_of_a_program(small_files: dict[str, str | bytes]):
    longer = {"small-main-short-25min.html", "small-main-short-25min.md", "program.schema.json"}
    assert set(small_files) == {*SMALL_FILES, *longer}


def test_large_print_is_made_when_somebody_needs_it(program: Program):
    agnes = Athlete("agnes", "Agnes", prints=("large",), span=program.span)
    assert "small-handout-large.html" in sheets.build(Project(athletes=(agnes,)), program)


def test_the_same_program_gives_the_same_files(project: Project, program: Program):
    assert sheets.build(project, program) == sheets.build(project, program)
