"""Logs as tables: cells and rows of which somebody could not tell what they say. All else of the table is read."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime

from ...grammar.diagnostic import Check

_SOURCE = """use basics

program store-room
  revision 3, 2026-06-14
  session main
    within 60 min
    block legs
      must chair-stand 3 x 10
        advance reps by 1 to 15

athlete maren
  starts 2026-06-15
  has chair
"""
_HEAD = "setwright log 1,maren,store-room,3\n"
_COLUMNS = "date,session,minutes,movement,set 1,set 2,set 3\n"
_ROW = "2026-06-17,main,20,chair-stand,10,10,10\n"


def _table(rows: str = _ROW, head: str = _HEAD, columns: str = _COLUMNS) -> Callable[[], dict[str, str | bytes]]:
    return lambda: {"program.coach": _SOURCE, "maren.csv": head + columns + rows}


NO_LOG = Check(
    code="use-no-log",
    severity="error",
    title="A table to use that is no log",
    message="`{found}` is no log as a table: {why}.",
    help="Use a table that was made of a blank log, with its first row `setwright log 1` left as it is.",
    explain="A table is a log where its first cell says so. Any other is no business of ours, and is left alone unless a "
    "`use` line names it.",
    wrong=lambda: {"program.coach": 'use "maren.csv"\n' + _SOURCE, "maren.csv": _COLUMNS + _ROW},
    right=lambda: {"program.coach": 'use "maren.csv"\n' + _SOURCE, "maren.csv": _HEAD + _COLUMNS + _ROW},
)
UNPLACED = Check(
    code="log-file-unplaced",
    severity="warning",
    title="A log as a table of somebody or something unknown",
    message="{what}, so that this log is not read.",
    help="{instead}",
    explain="The first row of a log as a table says whose it is, of which program and of which revision, each in a cell of "
    "its own: `setwright log 1`, `maren`, `store-room`, `3`. Without the revision it is the newest one.",
    wrong=_table(head="setwright log 1,maron,store-room,3\n"),
    right=_table(),
)
OLD_LETTERS = Check(
    code="log-file-old-letters",
    severity="warning",
    title="A log as a table in an old kind of letters",
    message="This log is not written in UTF-8: letters with accents may be read as others.",
    help="Save it as CSV in UTF-8.",
    explain="Some spreadsheets save CSV in letters of Windows, of which there are several kinds. The kind of western Europe is "
    "taken. Figures and names are the same in all of them.",
    wrong=lambda: {
        "program.coach": _SOURCE,
        "maren.csv": f"{_HEAD}{_COLUMNS[:-1]},note\n{_ROW[:-1]},Müde\n".encode("cp1252"),
    },
    right=lambda: {"program.coach": _SOURCE, "maren.csv": f"{_HEAD}{_COLUMNS[:-1]},note\n{_ROW[:-1]},Müde\n"},
)
COLUMN_MISSING = Check(
    code="log-column-missing",
    severity="warning",
    title="A log as a table without a column that it needs",
    message="This log has no column `{column}`, so that it is not read.",
    help="Name the columns in the second row: {columns}.",
    explain="Below the first row stands one with the names of the columns, in any order. A date and a movement there must be.",
    wrong=_table(columns="day,session,minutes,movement,set 1,set 2,set 3\n"),
    right=_table(),
)
COLUMN_UNKNOWN = Check(
    code="log-column-unknown",
    severity="warning",
    title="A column that no log has, or has twice",
    message="`{found}` is {what}: what stands in it is not read.",
    help="{near}",
    explain="Columns are known by their names in the second row. A column of one's own is left alone, and that is told once.",
    wrong=_table(columns=_COLUMNS[:-1] + ",weather\n", rows=_ROW[:-1] + ",snow\n"),
    right=_table(columns=_COLUMNS[:-1] + ",note\n", rows=_ROW[:-1] + ",Snow.\n"),
)
CELL_UNREADABLE = Check(
    code="log-cell-unreadable",
    severity="warning",
    title="A cell of a log that does not say what belongs there",
    message="`{found}` is not {what}.",
    help="Write {example}. Until then the cell is left out, and the rest of its row counts.",
    explain="A cell of a log holds one figure, with its unit or without. What cannot be read is left out, so that nothing is "
    "guessed.",
    wrong=_table("2026-06-17,main,20,chair-stand,10,ten,10\n"),
    right=_table("2026-06-17,main,20,chair-stand,10,10,10\n"),
)
DATE_UNREADABLE = Check(
    code="log-date-unreadable",
    severity="warning",
    title="A date of a log that may be several days, or none",
    message="`{found}` {what}.",
    help="Write year, month and day: {example}. Until then this session is left out.",
    explain="`05/06/2026` is the fifth of June for some, and the sixth of May for others. No such date is guessed. `17/06/2026` "
    "can only be the 17th of June, and is read so.",
    wrong=_table("05/06/2026,main,20,chair-stand,10,10,10\n"),
    right=_table("17/06/2026,main,20,chair-stand,10,10,10\n"),
)
ROW_UNPLACED = Check(
    code="log-row-unplaced",
    severity="warning",
    title="Figures of which a log does not say where they belong",
    message="{what}.",
    help="{instead}",
    explain="A row belongs to the session whose date stands in it, or in the last row above that has one, and to the movement "
    "that it names. Without them nobody knows what its figures are.",
    wrong=_table("2026-06-17,main,20,,10,10,10\n"),
    right=_table(),
)
NAME_UNKNOWN = Check(
    code="log-name-unknown",
    severity="warning",
    title="A name in a log as a table that nothing has",
    message="There is no {kind} named `{found}` here.",
    help="{near} Until then {left_out}.",
    explain="Sessions, movements and rungs are called in a table as in the program, by name or by title. In a table this is a "
    "warning, and what has the name is left out; the rest of the log counts.",
    wrong=_table("2026-06-17,main,20,chair-stant,10,10,10\n"),
    right=_table(),
)
SAID_OTHERWISE = Check(
    code="log-said-otherwise",
    severity="warning",
    title="A session of which two rows say different things",
    message="This row says `{found}`, and one above says `{first}` of the same session.",
    help="Write it in the first row of the session only. Until then that is what counts.",
    explain="The minutes, the effort and the short version are those of a whole session. They can stand in its first row, or "
    "in each of its rows alike.",
    wrong=_table("2026-06-17,main,20,chair-stand,10,10,10\n,,25,,,,\n"),
    right=_table("2026-06-17,main,20,chair-stand,10,10,10\n,,20,,,,\n"),
)
SECOND_SHEET = Check(
    code="log-sheet-second",
    severity="warning",
    title="A spreadsheet with a second log in it",
    message="This spreadsheet holds {count} sheets that are logs: only the first of them is read.",
    help="Put each log into a file of its own, or all its rows on one sheet.",
    explain="A spreadsheet is one log, on the first of its sheets that begins with `setwright log 1`.",
    wrong=lambda: {"program.coach": _SOURCE, "maren.xlsx": _two_sheets(2)},
    right=lambda: {"program.coach": _SOURCE, "maren.xlsx": _two_sheets(1)},
)
FORMS_DIFFER = Check(
    code="log-forms-differ",
    severity="warning",
    title="Two logs that tell the same session differently",
    message="Session `{session}` of {date} is told differently in two logs: this one is left out, as no more stands in it.",
    help="Mend or delete the one that is wrong.",
    explain="The same log may come back in several forms, as a text, as CSV and as a spreadsheet. A session that they tell "
    "alike counts once. Where they differ, the one with more in it counts, whichever of them is read first.",
    wrong=lambda: {
        "program.coach": _SOURCE,
        "maren.csv": _HEAD + _COLUMNS + _ROW,
        "paper.csv": _HEAD + _COLUMNS + _ROW.replace("10\n", "9\n"),
    },
    right=lambda: {
        "program.coach": _SOURCE,
        "maren.csv": _HEAD + _COLUMNS + _ROW,
        "paper.csv": _HEAD + _COLUMNS + _ROW,
    },
)


def _two_sheets(marked: int) -> bytes:
    """A small spreadsheet of two sheets, of which so many are logs."""
    import io

    from xlsxwriter import Workbook

    made = io.BytesIO()
    book = Workbook(made, {"in_memory": True})
    book.set_properties({"created": datetime(2026, 6, 17, tzinfo=UTC)})  # the same bytes on every day
    for number in range(2):
        sheet = book.add_worksheet()
        for place, line in enumerate((_HEAD if number < marked else "Shopping", _COLUMNS, _ROW)):
            for column, cell in enumerate(line.strip().split(",")):
                sheet.write_string(place, column, cell)
    book.close()
    return made.getvalue()


CHECKS: tuple[Check, ...] = (
    NO_LOG, UNPLACED, OLD_LETTERS, COLUMN_MISSING, COLUMN_UNKNOWN, CELL_UNREADABLE, DATE_UNREADABLE, ROW_UNPLACED,
    NAME_UNKNOWN, SAID_OTHERWISE, SECOND_SHEET, FORMS_DIFFER,
)  # fmt: skip
