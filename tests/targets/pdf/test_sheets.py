"""The sheets for paper, read back: what stands on them, on how many pages, how they are tagged, and that nothing is cut off."""

import itertools
import os
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest
from setwright.compiler.fitting import fit
from setwright.compiler.model import Program
from setwright.compiler.pipeline import Result, compile_path
from setwright.targets import handout, pdf, words
from setwright.targets.handout.view import Handout, MovementText
from setwright.targets.log_sheet.view import log_sheet
from setwright.targets.plan import PlannedEntry
from setwright.targets.printing import PAPERS, USUAL, Paper, Printing
from setwright.targets.short import versions

from .reading import Letter, described, letters, page_sizes, pages, rectangles, text_of, told

PROGRAMS = Path(__file__).resolve().parents[3] / "programs"
MILLIMETRE = 72 / 25.4
STEM = "winter-store-room"
SIZES = {"a4": (595.28, 841.89), "letter": (612, 792)}  # ISO 216 and ANSI/ASME Y14.1, in points


@pytest.fixture(scope="module")
def station() -> Result:
    return compile_path(PROGRAMS / "tern-holm")


def newest(result: Result) -> Program:
    return max(result.project.programs, key=lambda one: one.revision)


@pytest.fixture(scope="module")
def everybodys(station: Result) -> dict[str, bytes]:
    return printed(newest(station))


def printed(program: Program, printing: Printing = USUAL) -> dict[str, bytes]:
    return pdf.render(program, versions(program), printing)


def own(station: Result, name: str) -> Program:
    (athlete,) = [one for one in station.project.athletes if one.name == name]
    return fit(newest(station), athlete).program


# How much paper


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", ["", "maren", "tomas", "birgit", "ravi", "piet", "ines"])
def test_a_handout_is_one_leaf_and_a_week_of_the_log_one_page(station: Result, name: str, paper: Paper):
    program = own(station, name) if name else newest(station)
    made = printed(program, Printing(paper))
    stem = f"{name}-{STEM}" if name else STEM
    assert pages(made[f"{stem}-handout.pdf"]) == 2
    assert pages(made[f"{stem}-log.pdf"]) == 1


@pytest.mark.parametrize("paper", PAPERS)
def test_the_size_of_the_paper(program: Program, paper: Paper):
    for made in printed(program, Printing(paper)).values():
        assert all(size == pytest.approx(SIZES[paper], abs=0.1) for size in page_sizes(made))


# What stands on it


def entry_told(entry: PlannedEntry) -> str:
    """An entry as the plan of a sheet tells it, without its next step."""
    takes = [f"{words.TAKE if len(entry.takes) == 1 else load}: {how}." for load, how in entry.takes]
    return told(
        "".join(
            (
                entry.priority, entry.title, entry.in_place_of, entry.condition, entry.before, entry.dose, entry.in_full,
                entry.rest, entry.also, f"{words.DO_IT}: {entry.form}." if entry.form else "", *takes, entry.tempo,
                entry.note.replace("*", ""), *(f"{words.INSTEAD}: {other}" for other in entry.instead),
            )
        )
    )  # fmt: skip


def movement_told(one: MovementText) -> str:
    """A movement as the guide tells it, up to its forms."""
    parts = [one.title]
    parts += [f"{words.LIFT} {one.with_what}"] if one.with_what else []
    parts += [f"{words.NEEDS} {one.needs}"] if one.needs else []
    parts += [one.how.replace("*", "")]
    parts += [f"{words.CUES}: {one.cues}"] if one.cues else []
    parts += [f"{words.TAKE_CARE}: {' '.join(one.cautions)}"] if one.cautions else []
    return told("".join(parts))


def in_order(text: str, parts: list[str]) -> None:
    """Every part stands in the text, after the one before it."""
    place = 0
    for part in parts:
        found = text.find(part, place)
        assert found >= 0, f"missing, or out of order: {part}"
        place = found + len(part)


def programs() -> list[object]:
    return [pytest.param(folder, id=folder) for folder in ("tern-holm", "larch-street", "quay-pilots")]


@pytest.mark.parametrize("folder", programs())
@pytest.mark.parametrize("large", [False, True], ids=["usual", "large"])
def test_every_movement_dose_and_caution_stands_there_once_in_order(folder: str, large: bool):
    result = compile_path(PROGRAMS / folder)
    program = newest(result)
    for one in (program, fit(program, result.project.athletes[0]).program):
        made = printed(one, Printing(large=large))
        values = handout.sheet_values(one)
        sheet: Handout = values["sheet"]
        (leaf,) = [text_of(made[name]) for name in made if name.endswith("-handout.pdf")]
        (guide,) = [text_of(made[name]) for name in made if name.endswith("-guide.pdf")]
        entries = [entry for session in sheet.sessions for block in session.blocks for entry in block.entries]
        in_order(leaf, [told(caution) for caution in values["cautions"]] + [entry_told(entry) for entry in entries])
        for entry, number in Counter(map(entry_told, entries)).items():
            assert leaf.count(entry) == number
        for caution in values["cautions"]:
            assert leaf.count(told(caution)) == 1
        in_order(guide, [told(f"{entry.title}{entry.next_step}") for entry in entries if entry.next_step])
        how = list(map(movement_told, sheet.movements))
        in_order(guide, how)
        assert all(guide.count(one) == 1 for one in how)
        for late in filter(None, sheet.late.values()):
            in_order(guide, [told(f"{cut.number}{cut.what}{cut.saves}{cut.together}") for cut in late.cuts])


def test_the_log_has_a_box_for_every_figure(everybodys: dict[str, bytes], station: Result):
    text = text_of(everybodys[f"{STEM}-log.pdf"])
    rows = [
        told(f"{row.title}{row.dose}{words.log_instead(row.instead) if row.instead else ''}")
        + "".join(told(box.caption) for box in row.boxes) * len(session.times)
        for session in log_sheet(newest(station)).sessions
        for row in session.rows
    ]
    in_order(text, rows)


def test_boxes_are_big_enough_for_a_pen(everybodys: dict[str, bytes]):
    """At least 9 mm each way (common practice, no source: lines of ruled paper are 7 to 9 mm apart)."""
    found = rectangles(everybodys[f"{STEM}-log.pdf"])
    boxes = [(wide, high) for wide, high in found if min(wide, high) > 6 * MILLIMETRE]
    assert len(boxes) > 100
    assert min(map(min, boxes)) >= 9 * MILLIMETRE


# Nothing is cut off


def overlapping(found: list[Letter]) -> list[tuple[Letter, Letter]]:
    """Letters that stand on one another."""
    hit = []
    by_place: dict[tuple[int, int, int], list[Letter]] = {}
    for one in found:
        if one.text.strip("\u200b \xad"):
            left, top, right, bottom = one.box
            near = (one.page, int((left + right) / 48), int((top + bottom) / 48))
            cells = itertools.product(
                [one.page], (near[1] - 1, near[1], near[1] + 1), (near[2] - 1, near[2], near[2] + 1)
            )
            for other in itertools.chain.from_iterable(by_place.get(cell, ()) for cell in cells):
                x = min(right, other.box[2]) - max(left, other.box[0])
                y = min(bottom, other.box[3]) - max(top, other.box[1])
                same_line = abs(bottom - other.box[3]) < 0.5  # a comma stands below a quotation mark
                smaller = min(
                    (right - left) * (bottom - top), (other.box[2] - other.box[0]) * (other.box[3] - other.box[1])
                )
                if x > 0 and y > 0 and x * y > (0.8 if same_line else 0.35) * smaller:
                    hit.append((one, other))
            by_place.setdefault(near, []).append(one)
    return hit


def whole(made: dict[str, bytes], paper: Paper = "a4", edge: float = 8) -> None:
    """No letter stands beyond the printable part of a page, or on another letter."""
    width, height = SIZES[paper]
    for name, content in made.items():
        found = letters(content)
        margin = edge * MILLIMETRE
        beyond = [
            one for one in found if one.text.strip("\u200b ")
            if one.box[0] < margin or one.box[2] > width - margin or one.box[1] < margin / 2 or one.box[3] > height - margin / 2
        ]  # fmt: skip
        assert not beyond, (name, "".join(one.text for one in beyond)[:80], beyond[0])
        hit = overlapping(found)
        assert not hit, (name, hit[0])


@pytest.mark.parametrize(("paper", "large"), [("a4", False), ("a4", True), ("letter", False)])
@pytest.mark.parametrize("folder", programs())
def test_nothing_is_cut_off(folder: str, large: bool, paper: Paper):
    result = compile_path(PROGRAMS / folder)
    whole(printed(fit(newest(result), result.project.athletes[0]).program, Printing(paper, large)), paper)


@pytest.mark.parametrize("large", [False, True], ids=["usual", "large"])
@pytest.mark.parametrize("folder", programs())
def test_no_row_is_split_between_pages(folder: str, large: bool):
    result = compile_path(PROGRAMS / folder)
    program = newest(result)
    sheet: Handout = handout.sheet_values(program)["sheet"]
    (content,) = [
        made for name, made in printed(program, Printing(large=large)).items() if name.endswith("-handout.pdf")
    ]
    by_page: dict[int, str] = {}
    for one in letters(content):
        by_page[one.page] = by_page.get(one.page, "") + told(one.text)
    for session in sheet.sessions:
        for entry in (entry for block in session.blocks for entry in block.entries):
            # Left to right and down, so that the name of a row stands among the lines of its dose.
            parts = [told(entry.title), told(entry.dose), *map(told, entry.instead)]
            assert any(all(part[:12] in text for part in parts) for text in by_page.values()), entry.title


def test_a_heading_stands_with_what_follows_it(everybodys: dict[str, bytes]):
    """Below the last heading of a page stands at least a line more."""
    for name, content in everybodys.items():
        found = [one for one in letters(content) if one.text.strip()]
        for page in {one.page for one in found}:
            here = [one for one in found if one.page == page and one.box[3] < SIZES["a4"][1] - 17 * MILLIMETRE]
            lowest = max(here, key=lambda one: one.box[3])
            assert lowest.size < 13, (name, page)


# Tags


@pytest.mark.parametrize("kind", ["handout", "guide", "log", "main-short-25min"])
def test_tags(everybodys: dict[str, bytes], kind: str):
    made = described(everybodys[f"{STEM}-{kind}.pdf"])
    sheet = {"handout": words.HANDOUT, "guide": words.GUIDE, "log": words.LOG}.get(kind, words.SHORT)
    assert made.title.startswith("Winter store-room strength") and made.title.endswith(f" · {sheet}")
    assert (made.language, made.conforms) == ("en", "1")
    headings = [int(tag.kind[1]) for tag in made.root.all("H1", "H2", "H3")]
    assert headings[0] == 1 and headings.count(1) == 1 and 2 in headings
    assert all(after <= before + 1 for before, after in itertools.pairwise(headings))
    tables = list(made.root.all("Table"))
    assert tables
    for table in tables:
        header = list(table.all("TH"))
        assert header and all(tag.scope == "Column" for tag in header)
        (first,) = (tag for tag in table.children if tag.kind == "THead")
        assert list(first.all("TH"))


@pytest.mark.parametrize("kind", ["handout", "main-short-25min"])
def test_the_marks_have_alternative_texts(everybodys: dict[str, bytes], kind: str):
    figures = list(described(everybodys[f"{STEM}-{kind}.pdf"]).root.all("Figure"))
    assert [tag.alt for tag in figures] == [words.MARK_SHAPES[mark] for mark in ("must", "key", "do", "may")]


def test_lists_and_movements_are_tagged(everybodys: dict[str, bytes], station: Result):
    made = described(everybodys[f"{STEM}-guide.pdf"])
    assert len(list(made.root.all("H3"))) == len(
        handout.sheet_values(newest(compile_path(PROGRAMS / "tern-holm")))["sheet"].movements
    )
    assert all({"Lbl", "LBody"} >= {tag.kind for tag in item.children} for item in made.root.all("LI"))


# Always the same


def test_the_same_bytes_in_every_process(tmp_path: Path):
    script = (
        "import hashlib, pathlib, sys\n"
        "from setwright.compiler.pipeline import compile_path\n"
        "from setwright.targets import pdf\n"
        "from setwright.targets.short import versions\n"
        f"program = compile_path(pathlib.Path({str(PROGRAMS / 'quay-pilots')!r})).project.programs[-1]\n"
        "for name, made in pdf.render(program, versions(program)).items():\n"
        "    print(name, hashlib.sha256(made).hexdigest())\n"
    )
    found = {
        subprocess.run(
            [sys.executable, "-c", script],
            env={**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "HOME": str(tmp_path)},
            capture_output=True, check=True, encoding="utf-8",
        ).stdout
        for seed, zone in (("0", "UTC"), ("1", "Pacific/Auckland"), ("random", "America/Lima"))
    }  # fmt: skip
    assert len(found) == 1 and found.pop().count("\n") >= 3


def test_threads_make_the_same(program: Program):
    from concurrent.futures import ThreadPoolExecutor

    alone = printed(program)
    with ThreadPoolExecutor(4) as pool:
        assert all(made == alone for made in pool.map(lambda _: printed(program), range(8)))


def test_checking_needs_no_typesetting(tmp_path: Path):
    script = (
        "import sys\n"
        "from setwright.targets.command_line import main\n"
        f"main(['check', {str(PROGRAMS / 'tern-holm' / 'winter-store-room.coach')!r}])\n"
        "assert not [name for name in sys.modules if 'typst' in name or 'targets.pdf' in name or 'source_sans' in name]\n"
    )
    subprocess.run([sys.executable, "-c", script], check=True, capture_output=True)
