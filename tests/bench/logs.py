"""Reading logs: CSV against pandas' reader in C alone, XLSX against python-calamine alone. All are times of the processor."""

import gc
import io
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from random import Random
from statistics import median
from time import process_time

import pandas
import xlsxwriter
from python_calamine import CalamineWorkbook
from setwright.compiler.log_files.opening import open_table
from setwright.compiler.log_files.reading import read_table
from setwright.compiler.model import Program
from setwright.compiler.pipeline import compile_texts, uncollected

from .trimming import Line

SESSIONS, TURNS = 100_000, 5
# As in the blank log of the program below, what is asked for included.
OF_SESSION = "date,session,short,minutes,rpe,note".split(",")
OF_MOVEMENT = "movement,asked,load kg,rung,lower s,unit,set 1,set 2,set 3,distance km,time min".split(",")
ASKED = {
    "goblet-squat": "3 sets of 8, with 12 kg",
    "split-squat": "3 sets of 6 on each side, lower 3 s",
    "push-up": "3 sets of as many as you can",
    "one-arm-row": "3 sets of 8 on each side, with 10 kg",
    "plank": "3 times 30 seconds",
    "walk": "1 time 30 minutes",
}
SOURCE = """use basics

program year
  session main
    short 25 min by sets
    block all
      must goblet-squat 3 x 8
        advance load
      must split-squat 3 x 6 each side, lower 3 s
        advance lower by 1 s to 6 s
      do push-up 3 x amrap, expect 9
        advance rung at 15 reps
      do one-arm-row 3 x 8 each side
        advance load
      do plank 3 x 30 s
        advance hold by 5 s to 60 s
    block out, conditioning
      do walk 1 x 30 min, log distance and time
        advance distance by 5%

athlete maren
  starts 2026-06-15
"""


def written(sessions: int) -> list[list[str]]:
    """The rows of a log: six movements a session, every figure by chance."""
    chance = Random("logs")
    rows = [["setwright log 1", "maren", "year", "1"], [*OF_SESSION, *OF_MOVEMENT]]
    nothing = [""] * 6
    for number in range(sessions):
        day = (date(2026, 6, 15) + timedelta(days=number)).isoformat()
        short = "25" if number % 9 == 0 else ""
        about = [
            day,
            "main",
            short,
            str(chance.randint(20, 60)),
            str(chance.randint(4, 9)),
            "Slept well, cold." * (number % 5 == 0),
        ]
        for movement in _movements(chance):
            rows.append(about + movement)
            about = nothing
    return rows


def _movements(chance: Random) -> Iterator[list[str]]:
    for movement, asked in ASKED.items():
        cells = {"movement": movement, "asked": asked}
        most, unit = (60, "s") if movement == "plank" else (15, "reps")
        if movement == "walk":
            cells["distance km"] = str(chance.randint(15, 45) / 10)
            cells["time min"] = f"{chance.randint(20, 45)}:{chance.randint(0, 59):02}"
        else:
            cells |= {"unit": unit, **{f"set {number}": str(chance.randint(4, most)) for number in (1, 2, 3)}}
        if "kg" in asked:
            cells["load kg"] = str(chance.randint(8, 40) / 2)
        if movement == "push-up":
            cells["rung"] = chance.choice(("wall", "bench", "knees", "toes"))
        if movement == "split-squat":
            cells["lower s"] = str(chance.randint(3, 6))
        yield [cells.get(column, "") for column in OF_MOVEMENT]


def as_csv(rows: list[list[str]]) -> bytes:
    import csv

    made = io.StringIO()
    csv.writer(made, lineterminator="\n").writerows(rows)
    return made.getvalue().encode()


def as_xlsx(rows: list[list[str]]) -> bytes:
    """A spreadsheet with days and figures as such, as it comes back from people."""
    made = io.BytesIO()
    book = xlsxwriter.Workbook(made, {"constant_memory": True, "default_date_format": "yyyy-mm-dd"})
    sheet = book.add_worksheet()
    for place, row in enumerate(rows):
        for column, cell in enumerate(row):
            if place > 1 and column == 0 and cell:
                sheet.write_datetime(place, column, date.fromisoformat(cell))
            elif cell.replace(".", "", 1).isdigit():
                sheet.write_number(place, column, float(cell))
            elif cell:
                sheet.write_string(place, column, cell)
    book.close()
    return made.getvalue()


def program() -> Program:
    result = compile_texts({"year.coach": SOURCE})
    assert not result.has_errors, result.diagnostics
    return result.project.programs[0]


def read(name: str, raw: bytes, against: Program) -> Callable[[], object]:
    def reading() -> None:
        with uncollected():
            table, _, _ = open_table(name, raw)
            assert table is not None
            found: list = []
            log = read_table(table, [against], ["maren"], found)
            assert log is not None and not found, found[:3]

    return reading


def lines() -> Iterator[Line]:
    against = program()
    gc.collect()
    gc.freeze()  # what the measuring itself has loaded is not looked through again and again
    rows = written(SESSIONS)
    text = as_csv(rows)
    yield _against(
        "100,000 sessions as CSV / pandas' C reader alone", read("m.csv", text, against), lambda: _pandas(text), 8
    )
    book = as_xlsx(rows)
    yield _against(
        "the same as XLSX / python-calamine alone", read("m.xlsx", book, against), lambda: _calamine(book), 4
    )
    few = as_csv(written(SESSIONS // 10))
    yield _against("100,000 sessions / 10,000 sessions", read("m.csv", text, against), read("m.csv", few, against), 11)


def _pandas(text: bytes) -> object:
    return pandas.read_csv(io.BytesIO(text), skiprows=1, engine="c")


def _calamine(book: bytes) -> object:
    return CalamineWorkbook.from_filelike(io.BytesIO(book)).get_sheet_by_index(0).to_python(skip_empty_area=False)


def _against(what: str, ours: Callable[[], object], theirs: Callable[[], object], bar: float) -> Line:
    ours(), theirs()
    pairs = [(_seconds(ours), _seconds(theirs)) for _ in range(TURNS)]
    mine, other = (median(side) for side in zip(*pairs, strict=True))
    return what, median(one / two for one, two in pairs), bar, f"{mine:.2f} s / {other:.2f} s"


def _seconds(work: Callable[[], object]) -> float:
    gc.collect()
    start = process_time()
    work()
    return process_time() - start
