"""Large print, measured in the PDF against what is published for readers who see little.

Sizes and faces: American Printing House, large print guidelines (18 points or larger, sans serif). Lines: American Council of
the Blind, 2022 (1.15 times the size, margins of an inch, flush left). Contrast: WCAG 2.2, success criterion 1.4.6 (7:1), its
formula from G18.
"""

from itertools import pairwise
from pathlib import Path

import pytest
from setwright.compiler.fitting import fit
from setwright.compiler.model import Program
from setwright.compiler.pipeline import compile_path
from setwright.targets import handout, pdf, words
from setwright.targets.command_line import main
from setwright.targets.printing import PAPERS, Paper, Printing
from setwright.targets.short import versions

from .reading import Letter, letters, text_of, told
from .test_sheets import PROGRAMS, SIZES

INCH = 72
SMALLEST, LEAST_PITCH, LEAST_CONTRAST = 18, 1.15, 7


def program_of(folder: str, name: str) -> Program:
    result = compile_path(PROGRAMS / folder)
    (athlete,) = [one for one in result.project.athletes if one.name == name]
    return fit(max(result.project.programs, key=lambda one: one.revision), athlete).program


@pytest.fixture(scope="module", params=[("tern-holm", "otto"), ("larch-street", "agnes")], ids=["otto", "agnes"])
def reader(request: pytest.FixtureRequest) -> Program:
    """Somebody who prints large."""
    return program_of(*request.param)


@pytest.fixture(scope="module")
def sheets(reader: Program) -> dict[str, bytes]:
    assert reader.athlete is not None and "large" in reader.athlete.prints
    return pdf.render(reader, versions(reader))


@pytest.fixture(scope="module")
def found(sheets: dict[str, bytes]) -> dict[str, list[Letter]]:
    return {name: [one for one in letters(made) if one.text.strip()] for name, made in sheets.items()}


def luminance(colour: tuple[float, ...]) -> float:
    red, green, blue = colour * 3 if len(colour) == 1 else colour
    linear = [one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in (red, green, blue)]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(colour: tuple[float, ...]) -> float:
    """Against white paper."""
    return 1.05 / (luminance(colour) + 0.05)


def test_the_formula_gives_the_published_values():
    """Computed from the formula in published lists: #595959 passes 7:1, #5A5A5A fails it, black is 21:1."""
    assert contrast((0.0,)) == pytest.approx(21)
    assert contrast((0x59 / 255,)) == pytest.approx(7.005, abs=0.001)
    assert contrast((0x5A / 255,)) < 7


def test_every_letter_is_large_and_without_serifs(found: dict[str, list[Letter]]):
    for name, here in found.items():
        assert min(one.size for one in here) >= SMALLEST - 0.01, name
        assert {one.font.partition("+")[2].partition("-")[0] for one in here} == {"SourceSansPro"}, name
        assert not any("It" in one.font.partition("-")[2] for one in here)  # no italics


def test_every_letter_stands_out_from_the_paper(found: dict[str, list[Letter]]):
    assert all(contrast(one.colour) >= LEAST_CONTRAST for here in found.values() for one in here)


def test_lines_stand_apart(found: dict[str, list[Letter]]):
    """Lines of the prose of a sheet, that begin at the same edge: from one to the next more than 1.15 times the size."""
    for name, here in found.items():
        for page in {one.page for one in here}:
            edge = min(one.box[0] for one in here if one.page == page)
            lines = sorted(
                {round(one.box[3], 1) for one in here if one.page == page and one.box[0] < edge + 1 and one.size < 18.1}
            )
            apart = [after - before for before, after in pairwise(lines)]
            assert all(one >= LEAST_PITCH * SMALLEST - 0.2 for one in apart if one > 1), (name, page, min(apart))


def test_margins_are_an_inch(found: dict[str, list[Letter]]):
    width, height = SIZES["a4"]
    for here in found.values():
        assert min(one.box[0] for one in here) >= INCH - 0.1
        assert max(one.box[2] for one in here) <= width - INCH + 0.1
        assert min(one.box[1] for one in here) >= INCH - 6  # of the first line its letters, not its height
        assert max(one.box[3] for one in here if not foot(one)) <= height - INCH


def foot(one: Letter) -> bool:
    return one.box[1] > SIZES["a4"][1] - 30 / 25.4 * INCH


def test_one_movement_a_row(reader: Program, sheets: dict[str, bytes], found: dict[str, list[Letter]]):
    """The name of each movement stands on lines of its own, at the left of what is told of it."""
    (name,) = [one for one in sheets if one.endswith("-handout.pdf")]
    entries = [
        entry
        for session in handout.sheet_values(reader)["sheet"].sessions
        for block in session.blocks
        for entry in block.entries
    ]
    lines: dict[tuple[int, float], str] = {}
    for one in found[name]:
        place = (one.page, round(one.box[3]))
        lines[place] = lines.get(place, "") + one.text
    for entry in entries:
        first = told(entry.title)[:14]
        assert any(line.removeprefix(entry.priority).startswith(first) for line in lines.values()), entry.title


def test_pages_come_in_a_sensible_order(reader: Program, sheets: dict[str, bytes]):
    """When to stop comes first, and all of it before the first session; on the log, too."""
    (leaf,) = [text_of(made) for name, made in sheets.items() if name.endswith("-handout.pdf")]
    (log,) = [text_of(made) for name, made in sheets.items() if name.endswith("-log.pdf")]
    values = handout.sheet_values(reader)
    assert max(leaf.index(told(one)) for one in values["cautions"]) < leaf.index(told(words.WEEK))
    assert log.index(told("This sheet is not medical advice")) < log.index(told(words.MOVEMENT_COLUMN))


@pytest.mark.parametrize("paper", PAPERS)
def test_for_whoever_asks_for_it(program: Program, paper: Paper):
    for made in pdf.render(program, versions(program), Printing(paper, large=True)).values():
        assert min(one.size for one in letters(made) if one.text.strip()) >= SMALLEST - 0.01
    assert min(one.size for made in pdf.render(program, ()).values() for one in letters(made)) < SMALLEST


def test_build_in_large_print(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    source = str(PROGRAMS / "larch-street" / "home-ten.coach")
    assert (
        main(["build", source, "--to", str(tmp_path), "--large", "--paper", "letter", "--project", str(PROGRAMS)]) == 0
    )
    capsys.readouterr()
    for path in tmp_path.glob("*.pdf"):
        assert min(one.size for one in letters(path.read_bytes()) if one.text.strip()) >= SMALLEST - 0.01
    assert not list(tmp_path.glob("*-large.*"))
    assert "html { font-size: 18pt;" in next(tmp_path.glob("*-handout.html")).read_text("utf-8")
    assert "html { font-size: 14pt;" in next(tmp_path.glob("*-log.html")).read_text("utf-8")
