"""The blank log as a table: filled in by a script it comes back with the values of the text log filled in alike."""

import csv
import io
import re
from pathlib import Path

import openpyxl
import pytest
from setwright.compiler.fitting import Fitting, fit
from setwright.compiler.model import Log, Project
from setwright.compiler.pipeline import compile_texts
from setwright.compiler.quantity import Quantity
from setwright.targets import log_sheet, words
from setwright.targets.log_sheet.table import as_csv, log_table
from setwright.targets.log_sheet.workbook import as_xlsx

DEMO = Path(__file__).resolve().parents[2] / "programs" / "tern-holm"
SOURCES = {path.relative_to(DEMO).as_posix(): path.read_bytes() for path in DEMO.glob("*.coach")}


@pytest.fixture(scope="module")
def project() -> Project:
    return compile_texts(dict(SOURCES)).project


@pytest.fixture(scope="module")
def maren(project: Project) -> Fitting:
    program = max(project.programs, key=lambda one: one.revision)
    return fit(program, next(one for one in project.athletes if one.name == "maren"))


def read(**files: str | bytes) -> Log:
    """The log of the one new file beside the demo's sources, in which nothing else may be wrong."""
    ((name, content),) = files.items()
    result = compile_texts({**SOURCES, name.replace("_", "."): content})
    found = {one.code for one in result.diagnostics if one.span.source.name.startswith("new")}
    assert found <= {"logged-far-ahead"}  # 10 kg of everything
    (log,) = result.project.logs
    return log


@pytest.fixture(scope="module")
def by_text(maren: Fitting) -> Log:
    """The text log with something in every blank: loads that she has, a rung where one is asked for, figures of its own."""
    text = log_sheet.render(maren.program)["maren-winter-store-room-log.txt"].replace("__:__", "31:15")
    text = re.sub(r"^__ ", "2026-06-17 ", text, flags=re.MULTILINE)
    text = re.sub(r"(# Form, one of: ([a-z-]+).*\n  [a-z-]+ +)__", r"\1\2", text).replace("__ kg", "10 kg")
    figures = iter(range(3, 1000))
    text = re.sub(r"__(?= km)", "2.4", text)
    return read(new_coach=re.sub("__", lambda _: str(next(figures) % 7 + 4), text))


def told(figure: object) -> str:
    if not isinstance(figure, Quantity):
        return str(figure)
    return (
        f"{int(figure.amount) // 60}:{int(figure.amount) % 60:02}"
        if figure.amount > 999
        else f"{float(figure.amount):g}"
    )


def cells(log: Log, headers: list[str], rows: list[list[str]]) -> dict[tuple[int, str], str]:
    """What a person writes into which row and column of a blank table, to say what a log says."""
    written: dict[tuple[int, str], str] = {}
    for session in log.sessions:
        first = next(number for number, row in enumerate(rows) if row[headers.index("session")] == session.session)
        assert session.took is not None and session.rpe is not None
        written[first, "date"] = session.date.isoformat()
        written[first, "minutes min"], written[first, "rpe"] = told(session.took), session.rpe
        written[first, "note"] = session.note
        for entry in session.entries:
            row = next(n for n in range(first, len(rows)) if rows[n][headers.index("movement")] == entry.movement)
            done = {"load kg": entry.load, "rung": entry.rung, "lower s": entry.tempo.lower, "cues": entry.tempo.cues}
            written |= {(row, column): told(figure) for column, figure in done.items() if figure is not None}
            columns = ["distance km", "time min"] if entry.movement == "walk" else [f"set {n}" for n in range(1, 9)]
            written |= {(row, column): told(figure) for column, figure in zip(columns, entry.results, strict=False)}
    return written


def test_csv_comes_back_as_the_text_does(maren: Fitting, by_text: Log):
    blank = as_csv(log_table(maren.program))
    head, headers, *rows = list(csv.reader(io.StringIO(blank)))
    for (number, column), cell in cells(by_text, headers, rows).items():
        rows[number][headers.index(column)] = cell
    made = io.StringIO()
    csv.writer(made).writerows([head, headers, *rows])
    assert read(new_csv=made.getvalue()) == by_text


def test_a_spreadsheet_comes_back_as_the_text_does(maren: Fitting, by_text: Log):
    book = openpyxl.load_workbook(io.BytesIO(as_xlsx(log_table(maren.program))))
    sheet = book.active
    _, headers, *rows = [[str(cell or "") for cell in row] for row in sheet.iter_rows(values_only=True)]
    for (number, column), cell in cells(by_text, headers, rows).items():
        figure = float(cell) if cell.replace(".", "", 1).isdigit() else cell
        sheet.cell(number + 3, headers.index(column) + 1).value = figure
    made = io.BytesIO()
    book.save(made)
    assert read(new_xlsx=made.getvalue()) == by_text


def test_a_blank_table_is_no_log(maren: Fitting):
    tables = log_sheet.render_tables(maren.program)
    result = compile_texts({**SOURCES, **tables})
    assert result.project.logs == ()
    assert [one for one in result.diagnostics if "log" in one.span.source.name] == []


def test_the_same_bytes_every_time(maren: Fitting):
    assert log_sheet.render_tables(maren.program) == log_sheet.render_tables(maren.program)


def test_every_cell_of_the_spreadsheet_is_a_text(maren: Fitting):
    sheet = openpyxl.load_workbook(io.BytesIO(as_xlsx(log_table(maren.program)))).active
    assert {cell.data_type for row in sheet.iter_rows() for cell in row if cell.value is not None} == {"s"}
    assert sheet.freeze_panes == "A3"


def test_a_week_has_the_rows_of_all_its_sessions(maren: Fitting):
    table = log_table(maren.program)
    sessions = [row.cells[1] for row in table.rows if row.begins]
    assert sessions == ["main"] * 3 + ["walk"] * 7


def test_the_spreadsheet_says_how_and_has_the_cautions(maren: Fitting):
    tables = log_sheet.render_tables(maren.program)
    book = openpyxl.load_workbook(io.BytesIO(tables["maren-winter-store-room-log.xlsx"]))
    told = "\n".join(str(row[0]) for row in book[words.LOG_TABLE_HELP_SHEET].iter_rows(values_only=True))
    assert all(line in told for line in (*words.LOG_TABLE_HELP, *words.CAUTIONS_SHORT))
