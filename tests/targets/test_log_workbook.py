"""The blank log as a spreadsheet, opened by openpyxl, python-calamine and LibreOffice, none of which wrote it."""

import csv
import io
import shutil
import subprocess
from pathlib import Path

import attrs
import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.worksheet import Worksheet
from python_calamine import CalamineWorkbook
from setwright.compiler.fitting import fit
from setwright.compiler.log_files.table import guarded, unguarded, written
from setwright.compiler.model import Log, Program
from setwright.compiler.pipeline import compile_texts
from setwright.targets import log_sheet
from setwright.targets.log_sheet.table import LogTable, as_csv, log_table
from setwright.targets.log_sheet.workbook import Foot, as_xlsx

DEMO = Path(__file__).resolve().parents[2] / "programs"
FORMULAS = ("=1200+17", "+1200+17", "-1200-17", "@SUM(1200;17)", "\t=1200+17", '=HYPERLINK("http://a.b")', "'=1200+17")


def demo(folder: str, name: str) -> Program:
    result = compile_texts({path.name: path.read_bytes() for path in sorted((DEMO / folder).glob("*.coach"))})
    athlete = next(one for one in result.project.athletes if one.name == name)
    named = [one for one in result.project.programs if one.name == athlete.follows[0]]
    return fit(max(named, key=lambda one: one.revision), athlete).program


@pytest.fixture(scope="module")
def maren() -> Program:
    return demo("tern-holm", "maren")


@pytest.fixture(scope="module")
def table(maren: Program) -> LogTable:
    return log_table(maren)


@pytest.fixture(scope="module")
def content(maren: Program) -> bytes:
    made = log_sheet.render_tables(maren)["maren-winter-store-room-log.xlsx"]
    assert isinstance(made, bytes)
    return made


@pytest.fixture(scope="module")
def sheet(content: bytes) -> Worksheet:
    return openpyxl.load_workbook(io.BytesIO(content)).worksheets[0]


def hostile(table: LogTable) -> LogTable:
    """The table with a text in each cell that a spreadsheet could take for a formula."""
    rows = tuple(
        attrs.evolve(row, cells=tuple(FORMULAS[(number + place) % len(FORMULAS)] for place, _ in enumerate(row.cells)))
        for number, row in enumerate(table.rows)
    )
    return attrs.evolve(table, rows=rows)


# On paper


def test_it_is_ready_to_print(sheet: Worksheet, table: LogTable):
    setup = sheet.page_setup
    assert (setup.orientation, str(setup.paperSize)) == ("landscape", sheet.PAPERSIZE_A4)
    assert sheet.sheet_properties.pageSetUpPr is not None and sheet.sheet_properties.pageSetUpPr.fitToPage
    assert (setup.fitToWidth or 1, setup.fitToHeight) == (1, 0)  # one page is what is meant where nothing is said
    assert sheet.print_title_rows == "$1:$2"
    last = openpyxl.utils.get_column_letter(len(table.headers))
    assert sheet.print_area == f"'Log'!$A$1:${last}${len(table.lines)}"
    assert sheet.oddHeader.left.text == "Maren · Winter store-room strength · revision 3"
    assert str(sheet.oddFooter.left.text).startswith("Revision 3, 14 June 2026")


def test_no_row_is_lower_than_a_pen_needs_and_none_cuts_its_text(sheet: Worksheet, table: LogTable):
    for number, row in enumerate(table.rows, start=3):
        height = sheet.row_dimensions[number].height
        asked = table.headers.index("asked")
        lines = -(-len(row.cells[asked]) // int(sheet.column_dimensions["H"].width))
        assert height >= max(27, 15 * lines)


# What may be filled in


def test_all_is_locked_but_what_is_filled_in(sheet: Worksheet, table: LogTable):
    assert sheet.protection.sheet and not sheet.protection.password and not sheet.protection.hashValue
    once = {"date", "short", "minutes", "rpe", "note"}
    for line in range(1, len(table.lines) + 1):
        for place, header in enumerate(table.headers, start=1):
            name = header.split()[0]
            is_open = line > 2 and name not in {"session", "movement", "asked", "unit"}
            if is_open and name in once:
                is_open = table.rows[line - 3].begins
            assert sheet.cell(line, place).protection.locked == (not is_open), (line, header)


def test_rows_for_more_weeks_can_be_put_below(content: bytes):
    """Cells that are not there have the format of their column."""
    columns = openpyxl.load_workbook(io.BytesIO(content)).worksheets[0].column_dimensions
    assert len(columns) > 10
    assert not any(column.protection.locked for column in columns.values())


def check_of(sheet: Worksheet, row: int, header: str) -> DataValidation:
    headers = [cell.value for cell in sheet[2]]
    cell = sheet.cell(row, headers.index(header) + 1).coordinate
    (found,) = [one for one in sheet.data_validations.dataValidation if cell in one.sqref]
    return found


def row_of(table: LogTable, movement: str) -> int:
    return next(number for number, row in enumerate(table.rows, start=3) if movement in row.cells)


@pytest.mark.parametrize(
    ("movement", "header", "told"),
    [
        ("split-squat", "rpe", ("decimal", "stop", "0", "10")),
        ("split-squat", "minutes min", ("decimal", "warning", "1", "300")),
        ("split-squat", "short min", ("list", "warning", '"40,25"', None)),
        ("split-squat", "date", ("date", "warning", "36526", "73050")),  # days from 30 December 1899
        ("split-squat", "lower s", ("decimal", "warning", "0", "120")),
        ("goblet-squat", "load kg", ("decimal", "warning", "0", "1000")),
        ("goblet-squat", "set 1", ("whole", "warning", "0", "200")),
        ("side-plank", "set 1", ("decimal", "warning", "0", "1200")),
        ("jerrycan-carry", "set 3", ("decimal", "warning", "0", "10000")),
        ("walk", "distance km", ("decimal", "warning", "0", "200")),
    ],
)
def test_what_is_asked_about(
    movement: str, header: str, told: tuple[str | None, ...], sheet: Worksheet, table: LogTable
):
    check = check_of(sheet, row_of(table, movement), header)
    assert (check.type, check.errorStyle or "stop", check.formula1, check.formula2) == told
    assert check.error and check.errorTitle


def test_a_rung_is_one_of_the_movement(maren: Program, sheet: Worksheet, table: LogTable):
    entry = next(one for one in maren.sessions[0].entries if one.movement.name == "push-up")
    check = check_of(sheet, row_of(table, "push-up"), "rung")
    assert (check.type, check.errorStyle) == ("list", "warning")
    assert check.formula1.strip('"').split(",") == [rung.name for rung in entry.movement.rungs]


def test_a_band_is_one_of_the_athletes():
    agnes = demo("larch-street", "agnes")
    table = log_table(agnes)
    sheet = openpyxl.load_workbook(io.BytesIO(as_xlsx(table))).worksheets[0]
    bands = [step for one in agnes.athlete.implements for step in one.steps] if agnes.athlete else []
    assert len(bands) > 1
    check = check_of(sheet, row_of(table, "band-pull-apart"), "load kg")
    assert check.formula1.strip('"').split(",") == bands


def test_every_cell_is_checked_once_at_most(sheet: Worksheet):
    cells = [cell for one in sheet.data_validations.dataValidation for part in one.sqref.ranges for cell in part.cells]
    assert len(cells) == len(set(cells)) > 100


# Text stays text


def test_a_second_reader_finds_every_text(content: bytes, table: LogTable):
    book = CalamineWorkbook.from_filelike(io.BytesIO(content))
    rows = book.get_sheet_by_index(0).to_python(skip_empty_area=False)
    width = len(table.headers)
    assert [[str(cell) for cell in row] for row in rows] == [
        [*line, *[""] * (width - len(line))] for line in table.lines
    ]


def test_no_text_becomes_a_formula(table: LogTable):
    odd = hostile(table)
    content = as_xlsx(odd, FORMULAS, Foot(FORMULAS[0], FORMULAS[1]))
    for sheet in openpyxl.load_workbook(io.BytesIO(content)).worksheets:
        assert {cell.data_type for row in sheet.iter_rows() for cell in row if cell.value is not None} == {"s"}
    names = {"movement", "asked", "session", "unit"}
    rows = CalamineWorkbook.from_filelike(io.BytesIO(content)).get_sheet_by_index(0).to_python(skip_empty_area=False)
    for cells, row in zip(rows[2:], odd.rows, strict=True):
        told = [(cell, text) for cell, text, name in zip(cells, row.cells, odd.headers, strict=True) if name in names]
        assert told and all(cell == text for cell, text in told)


@given(st.text(max_size=20) | st.sampled_from(FORMULAS) | st.from_regex(r"\A'*[=+\-@\t]?x?\Z"))
def test_what_is_guarded_comes_back_as_it_was(text: str):
    assert unguarded(guarded(text)) == text
    assert not guarded(text).startswith(("=", "+", "-", "@", "\t", "\r", "\n"))


@given(st.lists(st.text(st.characters(exclude_categories=["Cs"]), max_size=12), min_size=2, max_size=4))
def test_a_row_is_read_by_another_reader_of_csv(cells: list[str]):
    (row,) = csv.reader(io.StringIO(written(cells, ",") + "\r\n", newline=""))
    assert row == cells


@pytest.mark.parametrize("note", [*FORMULAS[:4], "'twas fine", "''", "- easier than before", 'fine, "really"'])
def test_a_note_comes_back_from_csv(note: str):
    sources = {path.name: path.read_bytes() for path in sorted((DEMO / "tern-holm").glob("*.coach"))}
    head = "setwright log 1,maren,winter-store-room,3\ndate,session,note,movement,set 1\n"
    row = written(["2026-06-17", "main", guarded(note), "goblet-squat", "6"], ",")
    result = compile_texts({**sources, "maren.csv": f"{head}{row}\n"})
    assert [log.sessions[0].note for log in result.project.logs] == [note]


# LibreOffice


@pytest.fixture(scope="module")
def office(tmp_path_factory: pytest.TempPathFactory):
    """A function that opens files in LibreOffice and saves them in another format, each beside itself."""
    program = shutil.which("soffice")
    if program is None:
        pytest.skip("LibreOffice is not installed (Debian: libreoffice-calc)")
    profile = tmp_path_factory.mktemp("profile")

    def convert(folder: Path, to: str, *files: str) -> None:
        words = [program, f"-env:UserInstallation={profile.as_uri()}", "--headless", "--convert-to", to]
        done = subprocess.run([*words, *files], cwd=folder, capture_output=True, check=True, timeout=120)
        assert b"Error" not in done.stderr

    return convert


def test_libreoffice_shows_what_was_written(office, tmp_path: Path, content: bytes, table: LogTable):
    (tmp_path / "log.xlsx").write_bytes(content)
    (tmp_path / "odd.xlsx").write_bytes(as_xlsx(hostile(table)))
    office(tmp_path, "csv", "log.xlsx", "odd.xlsx")
    shown = list(csv.reader(io.StringIO((tmp_path / "log.csv").read_text("utf-8"))))
    assert [row[: len(line)] for row, line in zip(shown, table.lines, strict=True)] == [
        list(one) for one in table.lines
    ]
    odd = (tmp_path / "odd.csv").read_text("utf-8")
    assert "=1200+17" in odd and "1217" not in odd


def test_libreoffice_works_out_nothing_in_the_csv(office, tmp_path: Path, table: LogTable):
    (tmp_path / "odd.csv").write_text(as_csv(hostile(table)), "utf-8")
    office(tmp_path, "ods", "odd.csv")
    office(tmp_path, "txt:Text - txt - csv (StarCalc):44,34,76", "odd.ods")
    shown = (tmp_path / "odd.txt").read_text("utf-8")
    assert "1200+17" in shown and "1217" not in shown and "=HYPERLINK" in shown


def test_filled_in_and_saved_by_libreoffice_it_is_the_same_log(office, tmp_path: Path, maren: Program, content: bytes):
    book = openpyxl.load_workbook(io.BytesIO(content))
    sheet = book.worksheets[0]
    headers = [cell.value for cell in sheet[2]]
    rows = {str(sheet.cell(number, headers.index("movement") + 1).value): number for number in range(12, 2, -1)}
    filled = {
        ("split-squat", "date"): "2026-06-17", ("split-squat", "minutes min"): 48, ("split-squat", "rpe"): 6.5,
        ("split-squat", "note"): "=fine & well", ("split-squat", "lower s"): 3, ("split-squat", "set 1"): 6,
        ("goblet-squat", "load kg"): 10, ("goblet-squat", "set 1"): 6, ("goblet-squat", "set 2"): 6,
        ("push-up", "rung"): "knees", ("push-up", "set 1"): 9, ("side-plank", "set 1"): 20,
    }  # fmt: skip
    for (movement, header), value in filled.items():
        cell = sheet.cell(rows[movement], headers.index(header) + 1)
        assert not cell.protection.locked
        cell.value = value
        if isinstance(value, str):
            cell.data_type = "s"
    book.save(tmp_path / "log.xlsx")
    (tmp_path / "saved").mkdir()
    office(tmp_path, "xlsx --outdir saved".split(maxsplit=1)[0], "--outdir", "saved", "log.xlsx")

    def read(path: Path) -> Log:
        sources = {one.name: one.read_bytes() for one in sorted((DEMO / "tern-holm").glob("*.coach"))}
        (log,) = compile_texts({**sources, "maren.xlsx": path.read_bytes()}).project.logs
        return log

    log = read(tmp_path / "saved" / "log.xlsx")
    assert log == read(tmp_path / "log.xlsx")
    (session,) = log.sessions
    assert (session.date.isoformat(), session.rpe, session.note) == ("2026-06-17", "6.5", "=fine & well")
    assert [entry.results for entry in session.entries][:3] == [(6,), (6, 6), (9,)]


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="poppler is not installed")
def test_every_page_that_libreoffice_prints_has_the_names_of_the_columns(office, tmp_path: Path, content: bytes):
    (tmp_path / "log.xlsx").write_bytes(content)
    office(tmp_path, "pdf", "log.xlsx")
    text = subprocess.run(
        ["pdftotext", "-layout", "log.pdf", "-"], cwd=tmp_path, capture_output=True, check=True
    ).stdout
    *pages, helping, _ = text.decode().split("\f")
    assert len(pages) == 2  # a week of the store room
    for number, page in enumerate(pages, start=1):
        assert all(word in page for word in ("movement", "asked", "set 3", "distance km"))
        assert f"Page {number} of" in page and "Maren · Winter store-room strength" in page
    assert "The rules of your place and the word of those licensed to treat you come first." in " ".join(
        helping.split()
    )


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="poppler is not installed")
@pytest.mark.parametrize("title", ["Salt & pepper && &P", '&Bbold &"Arial"&24', "x" * 400])
def test_a_title_is_no_order_to_the_printer(title: str, office, tmp_path: Path, table: LogTable):
    (tmp_path / "log.xlsx").write_bytes(as_xlsx(table, (), Foot(title, title)))
    office(tmp_path, "pdf", "log.xlsx")
    text = subprocess.run(
        ["pdftotext", "-layout", "log.pdf", "-"], cwd=tmp_path, capture_output=True, check=True
    ).stdout
    assert text.decode().splitlines()[0].strip() == title[:120]
