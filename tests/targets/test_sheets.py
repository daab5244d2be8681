"""The sheets as they are: every file of the small program, and the texts of the demo program."""

import html
import re
from pathlib import Path

import pytest
from setwright.compiler.model import Athlete, Program, Project
from setwright.compiler.pipeline import compile_path
from setwright.targets import sheets
from setwright.targets.prose import css_string
from syrupy.assertion import SnapshotAssertion
from syrupy.extensions.single_file import SingleFileSnapshotExtension, WriteMode

DEMO = Path(__file__).resolve().parents[2] / "programs" / "tern-holm"
SMALL_FILES = (
    "small-handout.html",
    "small-handout.md",
    "small-coach.html",
    "small-coach.md",
    "small-log.html",
    "small-main-short-20min.html",
    "small-main-short-20min.md",
    "small-log.txt",
    "small-log.csv",
    "small.program.json",
)
DEMO_FILES = (
    "winter-store-room-handout.md",
    "winter-store-room-coach.md",
    "winter-store-room-main-short-25min.md",
    "winter-store-room-main-short-40min.md",
    "winter-store-room-log.txt",
)
DEMO_SHEETS = (
    *DEMO_FILES,
    "winter-store-room-handout.html",
    "winter-store-room-handout-large.html",
    "winter-store-room-main-short-25min.html",
    "winter-store-room-main-short-40min.html",
    "winter-store-room-log.html",
    "winter-store-room-coach.html",
    "winter-store-room-log-week.html",
)
# What no sheet may do without, in the words of the long cautions or of the short ones.
CAUTIONS = (
    r"Stop at once with (pain or pressure in the chest|chest pain)",
    r"dizziness",
    r"faintness",
    r"breathlessness that is unusual|unusual breathlessness",
    r"sharp (joint pain|pain in a joint)",
    r"Before you start with this program, ask a physician",
    r"Hold only implements that cannot slip, tip or spill",
    r"not medical advice",
    r"The rules of your place and the word of those licensed to treat you come first",
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


@pytest.fixture(scope="module")
def demo_program() -> Program:
    return max(compile_path(DEMO).project.programs, key=lambda program: program.revision)


def shown(name: str, page: str) -> str:
    """What a reader sees of a sheet, on one line, without marks of its format."""
    if name.endswith(".html"):
        page = html.unescape(re.sub(r"<[^>]+>", " ", page[page.index("<body>") :]))
    return re.sub(r"\s+", " ", re.sub(r"\\(?=\W)|\*\*|^# ", "", page, flags=re.MULTILINE))


@pytest.mark.parametrize("name", SMALL_FILES)
def test_small_program(name: str, small_files: dict[str, str | bytes], snapshot: SnapshotAssertion):
    assert str(small_files[name]).replace("\r\n", "\n") == snapshot


@pytest.mark.parametrize("name", DEMO_FILES)
def test_demo_program(name: str, demo_files: dict[str, str | bytes], snapshot: SnapshotAssertion):
    assert demo_files[name] == snapshot


def test_the_sheets_of_the_demo_program_are_all_known(demo_files: dict[str, str | bytes]):
    sheets = {name for name in demo_files if not name.endswith((".json", ".pdf"))}
    assert sheets == {*DEMO_SHEETS, "winter-store-room-log.csv", "winter-store-room-log.xlsx"}


@pytest.mark.parametrize("caution", CAUTIONS)
@pytest.mark.parametrize("name", DEMO_SHEETS)
def test_every_sheet_has_every_caution(name: str, caution: str, demo_files: dict[str, str | bytes]):
    assert re.search(caution, shown(name, str(demo_files[name])))


@pytest.mark.parametrize("name", DEMO_SHEETS)
def test_every_sheet_says_what_it_was_made_from(name: str, demo_files: dict[str, str | bytes], demo_program: Program):
    text = shown(name, str(demo_files[name]))
    assert demo_program.title in text
    assert re.search(r"Revision:? 3, 14 June 2026\b", text)
    assert re.search(rf"Source:? {demo_program.fingerprint[:12]}\b", text)


@pytest.mark.parametrize("name", [name for name in DEMO_SHEETS if name.endswith(".html") and "week" not in name])
def test_every_page_has_its_number_and_program(name: str, demo_files: dict[str, str | bytes], demo_program: Program):
    style = str(demo_files[name]).partition("</style>")[0]
    left, right = (re.search(rf"@bottom-{side} {{ content: ([^;]+);", style) for side in ("left", "right"))
    assert left and css_string(demo_program.title)[:-1] in left[1] and css_string("revision 3")[1:] in left[1]
    assert right and re.sub(r'"[^"]*"', "", right[1]).split() == ["counter(page)", "counter(pages)"]


def test_files_of_a_program(small_files: dict[str, str | bytes]):
    longer = {"small-main-short-25min.html", "small-main-short-25min.md", "program.schema.json", "small-log.xlsx",
              "small-log-week.html"}  # fmt: skip
    printed = {f"small-{name}.pdf" for name in ("handout", "guide", "log", "main-short-25min", "main-short-20min")}
    assert set(small_files) == {*SMALL_FILES, *longer, *printed}


def test_large_print_is_made_when_somebody_needs_it(program: Program):
    agnes = Athlete("agnes", "Agnes", prints=("large",), span=program.span)
    made = sheets.build(Project(athletes=(agnes,)), program)
    assert {"small-handout-large.html", "small-handout-large.pdf", "small-guide-large.pdf"} <= set(made)


def test_the_same_program_gives_the_same_files(project: Project, program: Program):
    assert sheets.build(project, program) == sheets.build(project, program)
