"""Logs as tables: the same values as the text log, every problem at its cell, and nothing counted twice."""

import csv
import io
from pathlib import Path

import attrs
import openpyxl
import pytest
from setwright.compiler.disk import Unreadable
from setwright.compiler.model import Log
from setwright.compiler.person import base_of, compile_person
from setwright.compiler.pipeline import Result, compile_path, compile_texts
from setwright.compiler.project import load
from setwright.compiler.quantity import read_quantity
from setwright.compiler.render import render
from setwright.compiler.roster import Roster

SOURCE = """use basics

program store-room
  revision 3, 2026-06-14
  session main "Main session"
    within 60 min
    short 10 min by movements
    block all
      must goblet-squat 3 x 8
        advance load
      key split-squat 2 x 6 each side, lower 3 s
        advance lower by 1 s to 6 s
      do push-up 2 x 8
        advance rung at 12 reps
      do plank 2 x 30 s
        advance hold by 5 s to 60 s
  session walk
    block out, conditioning
      do walk 30 min, log distance and time

athlete maren
  starts 2026-06-15
  has kettlebell 12 kg
  has floor
"""
TEXT = """use "program.coach"

log maren on store-room, revision 3

2026-06-17 main, 21 min, rpe 6
  goblet-squat 12 kg, rpe 7  8 8 8
  split-squat  lower 3 s, rest 45 s  6 6
  push-up      knees         8 8
  plank        30 s, 25 s
  | Knee fine.
  | Slept badly.
2026-06-18 walk, 31 min
  walk 2.4 km 31:00
2026-06-19 main short 10 min, 9.5 min
  goblet-squat 12 kg 8 8 8
"""
COLUMNS = (
    "date,session,short,minutes,rpe,note,movement,load kg,rung,lower s,rest s,effort,unit,set 1,set 2,set 3,"
    "distance km,time min"
)
ROWS = """\
2026-06-17,main,,21,6,"Knee fine.
Slept badly.",goblet-squat,12,,,,7,reps,8,8,8,,
,,,,,,split-squat,,,3,45,,reps,6,6,,,
,,,,,,push-up,,knees,,,,reps,8,8,,,
,,,,,,plank,,,,,,s,30,25,,,
2026-06-18,walk,,31,,,walk,,,,,,,,,,2.4,31:00
2026-06-19,main,10,9.5,,,goblet-squat,12,,,,,reps,8,8,8,,
"""
HEAD = "setwright log 1,maren,store-room,3"
TABLE = f"{HEAD}\n{COLUMNS}\n{ROWS}"


def compiled(**files: str | bytes) -> Result:
    named = {name.replace("_", "."): content for name, content in files.items()}
    return compile_texts({"program.coach": SOURCE, **named})


def told(result: Result) -> list[str]:
    return [f"{one.code} {one.span.text}" for one in result.diagnostics]


@pytest.fixture(scope="module")
def expected() -> Log:
    result = compiled(log_coach=TEXT)
    assert told(result) == []
    return result.project.logs[0]


def as_xlsx(text: str) -> bytes:
    """A table as people's spreadsheets hold it: figures as figures, days as days."""
    from datetime import date

    book = openpyxl.Workbook()
    for row in csv.reader(io.StringIO(text)):
        cells: list[object] = []
        for cell in row:
            try:
                cells.append(date.fromisoformat(cell))
            except ValueError:
                cells.append(float(cell) if cell.replace(".", "", 1).isdigit() else cell or None)
        book.active.append(cells)
    made = io.BytesIO()
    book.save(made)
    return made.getvalue()


GERMAN = "\n".join(line.replace(",", ";").replace("9.5", "9,5").replace("2.4", "2,4") for line in TABLE.split("\n"))


@pytest.mark.parametrize(
    "content",
    [
        TABLE,
        TABLE.encode("utf-8-sig"),
        TABLE.replace("\n", "\r\n"),
        TABLE.encode("utf-16"),
        TABLE.replace(",", "\t"),
        GERMAN,
        as_xlsx(TABLE),
        TABLE.replace("2026-06-17", "17.06.2026").replace("2026-06-18", "18/6/2026"),
        TABLE.replace("goblet-squat,12,", "Goblet squat,12 KG,").replace(",main,", ",Main session,"),
        TABLE.replace(",reps,", ",,").replace(",s,30,25", ",,30 s,25 sec"),
        TABLE.replace("\n,,,,,,", "\n2026-06-17,main,,21,6,,"),  # what is of the session on every row
        TABLE.replace(",,,,,,plank", "\n,,,,,,,,,,,,,,,,,\n,,,,,,plank"),
    ],
    ids=[
        "csv",
        "bom",
        "crlf",
        "utf-16",
        "tabs",
        "semicolons",
        "xlsx",
        "days",
        "titles",
        "units",
        "repeated",
        "blank-rows",
    ],
)
def test_a_table_says_what_the_text_says(content: str | bytes, expected: Log):
    result = compiled(maren_csv=content)
    assert told(result) == []
    assert result.project.logs == (expected,)


def test_all_forms_together_count_once_and_in_any_order(expected: Log):
    forms: dict[str, str | bytes] = {"log.coach": TEXT, "a.csv": TABLE, "b.xlsx": as_xlsx(TABLE)}
    for names in (list(forms), list(reversed(forms))):
        result = compile_texts({"program.coach": SOURCE, **{name: forms[name] for name in names}})
        assert told(result) == []
        assert [log.sessions for log in result.project.logs] == [expected.sessions]


def test_of_two_that_differ_the_one_with_more_in_it_counts(expected: Log):
    less = TABLE.replace(",reps,8,8,8,,\n,,,,,,split", ",reps,8,8,,,\n,,,,,,split")
    for files in ({"a.csv": TABLE, "b.csv": less}, {"b.csv": less, "a.csv": TABLE}):
        result = compile_texts({"program.coach": SOURCE, **files})
        assert [one.code for one in result.diagnostics] == ["log-forms-differ"]
        assert result.diagnostics[0].span.source.name == "b.csv"
        sessions = [one for log in result.project.logs for one in log.sessions]
        assert sorted(sessions, key=lambda one: one.date) == list(expected.sessions)


def test_two_walks_of_one_day_in_two_forms_stay_two():
    walks = "2026-06-18,walk,,31,,,walk,,,,,,,,,,2.4,31:00\n2026-06-18,walk,,20,,,walk,,,,,,,,,,1.4,20:00\n"
    table = f"{HEAD}\n{COLUMNS}\n{walks}"
    result = compiled(a_csv=table, b_csv=table)
    assert [len(log.sessions) for log in result.project.logs] == [2]


@pytest.mark.parametrize(
    ("wrong", "instead", "found"),
    [
        ("goblet-squat,12", "goblet-squad,12", "log-name-unknown goblet-squad"),
        ("goblet-squat,12,,,,7", "goblet-squat,16,,,,7", "logged-load-not-makeable 16"),
        ("goblet-squat,12,,,,7", "goblet-squat,heavy,,,,7", "log-cell-unreadable heavy"),
        ("reps,8,8,8,,\n,", "reps,8,88,8,,\n,", "logged-figure-unlikely 88"),
        (",s,30,25", ",reps,30,25", "logged-figure-unfit 30"),
        ("reps,8,8,8,,\n,", "reps,8,8.5,8,,\n,", "log-cell-unreadable 8.5"),
        ("2026-06-18", "2026-05-18", "log-before-start 2026-05-18"),
        ("2026-06-18", "06/07/2026", "log-date-unreadable 06/07/2026"),
        ("2026-06-18", "yesterday", "log-date-unreadable yesterday"),
        (",walk,,31,", ",swim,,31,", "log-name-unknown swim"),
        (",21,6,", ",21,16,", "rpe-out-of-range 16"),
        (",21,6,", ",400,6,", "logged-minutes-out-of-range 400"),
        (",21,6,", ",0:21,6,", "log-cell-unreadable 0:21"),
        ("main,10,9.5", "main,12,9.5", "logged-short-unknown 12"),
        (",knees,", ",knee,", "log-name-unknown knee"),
        ("31:00", "31 parsecs", "log-cell-unreadable 31 parsecs"),
        ("2.4,31:00", "2.4,31:00:00", "logged-figure-unlikely 31:00:00"),
        ("lower s", "lover s", "log-column-unknown lover s"),
        (",,,,,,push-up,", ",,,,,,,", "log-row-unplaced "),
        ("2026-06-18,walk", ",walk", "log-row-unplaced "),
        ("maren,store", "marin,store", "log-file-unplaced marin"),
        ("store-room,3", "store-room,4", "log-file-unplaced 4"),
        ("setwright log 1", "setwright log 2", "log-file-unplaced setwright log 2"),
        (",,,,,,plank", "2026-06-17,main,,22,6,,plank", "log-said-otherwise 22"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("form", ["csv", "xlsx"])
def test_every_problem_stands_at_its_cell(form: str, wrong: str, instead: str, found: str):
    table = TABLE.replace(wrong, instead, 1)
    assert table != TABLE
    result = compile_texts({"program.coach": SOURCE, f"maren.{form}": table if form == "csv" else as_xlsx(table)})
    codes = [one for one in told(result) if "out-of-order" not in one and "before-revision" not in one]
    assert codes == [found]


def test_what_is_readable_is_used(expected: Log):
    result = compiled(
        maren_csv=TABLE.replace("goblet-squat,12,,,,7,reps,8,8,8", "goblet-squat,heavy,,,,7,reps,8,ate,8")
    )
    entry = result.project.logs[0].sessions[0].entries[0]
    assert entry == attrs.evolve(expected.sessions[0].entries[0], load=None, results=(8, 8))


def test_a_cell_of_a_spreadsheet_is_told_by_row_and_column():
    table = TABLE.replace("2.4,31:00", "far,31:00")
    (finding,) = compiled(maren_xlsx=as_xlsx(table)).diagnostics
    assert render([finding], False).startswith(
        "maren.xlsx: row 7, column Q: warning[log-cell-unreadable]: `far` is not"
    )


def test_a_session_pasted_twice_is_told():
    again = "2026-06-19,main,10,9.5,,,goblet-squat,12,,,,,reps,8,8,8,,\n"
    assert [one.code for one in compiled(maren_csv=TABLE + again).diagnostics] == ["session-logged-twice"]


def test_rows_sorted_by_movement_are_the_same_sessions(expected: Log):
    lines = TABLE.replace("\n,,,,,,", "\n2026-06-17,main,,21,6,,").replace("\nSlept", " Slept").split("\n")
    rows = sorted(lines[2:-1], key=lambda line: line.split(",")[6])
    result = compiled(maren_csv="\n".join([*lines[:2], *rows]))
    (log,) = result.project.logs
    assert {one.date: len(one.entries) for one in log.sessions} == {
        one.date: len(one.entries) for one in expected.sessions
    }


def test_an_older_revision_is_read_against_that_one():
    older = (
        SOURCE.split("athlete", maxsplit=1)[0]
        .replace("revision 3, 2026-06-14", "revision 2, 2026-06-01")
        .replace("plank 2 x 30 s", "side-plank 2 x 30 s each side")
    )
    table = TABLE.replace("store-room,3", "store-room,2").replace("plank,", "side-plank,")
    result = compiled(older_coach=older, maren_csv=table)
    assert told(result) == []
    assert result.project.logs[0].revision == 2


def test_other_tables_are_left_alone():
    result = compiled(
        shopping_csv="item,price\nrice,2\n", sums_xlsx=as_xlsx("item,price\nrice,2\n"), odd_xlsx=b"PK\x03\x04no"
    )
    assert (told(result), result.project.logs) == ([], ())


def test_a_blank_log_says_nothing():
    blank = f"{HEAD}\n{COLUMNS}\n,main,,,,,goblet-squat,,,,,,reps,,,,,\n"
    result = compiled(maren_csv=blank, other_csv=blank.replace("maren", ""))
    assert (told(result), result.project.logs) == ([], ())


def test_a_cell_like_a_formula_is_a_text():
    table = TABLE.replace('"Knee fine.\nSlept badly."', "'=1+1")
    assert compiled(maren_csv=table).project.logs[0].sessions[0].note == "=1+1"


def test_a_stray_quote_swallows_no_row():
    table = TABLE.replace('"Knee fine.\nSlept badly."', '"Knee')
    result = compiled(maren_csv=table)
    assert [len(one.entries) for one in result.project.logs[0].sessions] == [4, 1, 1]
    assert result.project.logs[0].sessions[0].note == '"Knee'


def test_a_folder_is_searched_and_a_source_names_what_it_uses(tmp_path: Path, expected: Log):
    (tmp_path / "logs").mkdir()
    (tmp_path / "program.coach").write_text(SOURCE, "utf-8")
    (tmp_path / "logs" / "maren.csv").write_text(TABLE, "utf-8")
    assert compile_path(tmp_path).project.logs == (expected,)
    assert compile_path(tmp_path / "program.coach").project.logs == ()
    (tmp_path / "program.coach").write_text('use "logs/maren.csv"\n' + SOURCE, "utf-8")
    assert compile_path(tmp_path / "program.coach").project.logs == (expected,)
    with pytest.raises(Unreadable, match="is a table"):
        compile_path(tmp_path / "logs" / "maren.csv")
    assert (tmp_path / "logs" / "maren.csv").read_text("utf-8") == TABLE


@pytest.mark.parametrize("form", ["csv", "xlsx"])
def test_an_athlete_compiled_alone_has_the_log_too(form: str, expected: Log):
    files = {"program.coach": SOURCE.encode(), f"maren.{form}": TABLE.encode() if form == "csv" else as_xlsx(TABLE)}
    roster = Roster(files.get)
    base = base_of(load(list(files), roster.fetch))
    person = compile_person(base, roster.pieces("maren"))
    assert person.diagnostics == ()
    assert person.logs == (expected,)


def test_a_load_is_read_in_its_own_unit():
    result = compiled(maren_csv=TABLE.replace("goblet-squat,12,,,,7", "goblet-squat,26.5 lb,,,,7"))
    assert result.project.logs[0].sessions[0].entries[0].load == read_quantity("26.5 lb")


def test_blank_logs_among_what_was_built_are_no_sources(tmp_path: Path):
    (tmp_path / "program.coach").write_text(SOURCE, "utf-8")
    (tmp_path / "sheets" / "maren").mkdir(parents=True)
    (tmp_path / "sheets" / "maren" / ".made.json").write_text("{}", "utf-8")
    (tmp_path / "sheets" / "maren" / "maren-log.csv").write_text(TABLE, "utf-8")
    assert compile_path(tmp_path).project.logs == ()


def test_a_blank_log_is_no_piece_of_an_athlete():
    files = {
        "program.coach": SOURCE.encode(),
        "maren.csv": f"{HEAD}\n{COLUMNS}\n,main,,,,,plank,,,,,,s,,,,,\n".encode(),
    }
    roster = Roster(files.get)
    load(list(files), roster.fetch)
    assert [piece.path for piece in roster.pieces("maren")] == ["program.coach"]
    assert list(roster.base) == ["program.coach"]
