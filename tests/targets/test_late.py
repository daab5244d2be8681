"""What the handout tells an athlete who runs late agrees with the cut list, and is told so that it can be read."""

import re
from fractions import Fraction
from html.parser import HTMLParser
from itertools import pairwise

import attrs
import pytest
from setwright.compiler.cut_list import cut_list
from setwright.compiler.model import Block, Entry, Program, Session, Timed
from setwright.targets import handout, words
from setwright.targets.handout.late import Late, late

from .conftest import SPAN, entry, movement, q, sets

HALVES = {"½": Fraction(1, 2), "": Fraction(0)}


def minutes(told: str) -> Fraction:
    found = re.fullmatch(r"(\d*)(½?) min", told)
    assert found
    return Fraction(found[1] or 0) + HALVES[found[2]]


def of(*blocks: Block, within: int | None = 60) -> Late | None:
    limit = None if within is None else q(within, "min")
    session = Session("main", "Main session", blocks, within=limit, span=SPAN, within_span=None)
    return late(Program("small", "Small", sessions=(session,), rest=q(30, "s"), change=q(60, "s"), span=SPAN), session)


def block(title: str, *entries: Entry, **more: object) -> Block:
    return Block(title.lower(), title, "work", entries, span=SPAN, **more)  # type: ignore[arg-type]


def lift(title: str, number: int, priority: str = "do") -> Entry:
    return entry(priority, movement(title.lower(), title), *sets(number, Timed(q(30, "s"))))


def test_minutes_add_up_and_never_promise_too_much(program: Program):
    session = program.sessions[0]
    told, found = late(program, session), cut_list(program, session)
    assert told is not None
    together = [Fraction(0), *(minutes(cut.together) for cut in told.cuts)]
    for cut, step, (before, after) in zip(told.cuts, found.steps, pairwise(together), strict=True):
        assert minutes(cut.saves) == after - before
        assert step.together / 60 - Fraction(1, 2) < after <= step.together / 60


def test_minutes_of_cuts_are_rounded_down(program: Program):
    session = program.sessions[0]
    told, found = late(program, session), cut_list(program, session)
    assert told is not None
    for row, pace in zip(told.pace, found.pace, strict=True):
        assert row.cuts == tuple("–" if until is None else str(until // 60) for until in pace.until)
        assert (row.minute, row.last) == (pace.start // 60, pace.last // 60)


def test_what_to_leave_out_is_told_in_one_line():
    told = of(block("Legs", lift("Squat", 3, "must"), lift("Lunge", 2)), block("End", lift("Stretch", 1, "may")))
    assert told is not None
    assert [cut.what for cut in told.cuts] == [
        "Lunge: only 1 set.",
        "Squat: only 2 sets.",
        "Squat: only 1 set.",
        "Leave out Stretch.",
        "Leave out Lunge.",
    ]


def test_rounds_and_several_movements():
    assert words.only_rounds(["Push and pull"], 2) == "Push and pull: only 2 rounds."
    assert words.only_sets(["Squat", "Lunge"], 1) == "Squat and Lunge: only 1 set each."
    assert words.only_sets(["Squat", "Lunge", "Row"], 0) == "Leave out Squat, Lunge and Row."
    circuit = of(block("Circle", lift("Press", 1, "must"), lift("Row", 1, "must"), rounds=2))
    assert circuit is not None and [cut.what for cut in circuit.cuts] == ["Circle: only 1 round."]


def test_the_same_movement_twice_is_told_apart():
    told = of(block("First", lift("Squat", 1, "must"), lift("Squat", 1)), block("Second", lift("Squat", 1, "may")))
    assert told is not None
    assert [cut.what for cut in told.cuts] == [
        "Leave out Squat in “Second”.",
        "Leave out Squat in “First”, number 2.",
    ]


def test_the_same_block_twice_is_told():
    twice = block("Legs", lift("Squat", 1))
    told = of(twice, block("Middle", lift("Row", 1, "must")), twice)
    assert told is not None
    assert [cut.what for cut in told.cuts] == ["Leave out Squat in “Legs”.", "Leave out Squat in “Legs”."]


def test_the_example_reads_the_row_as_a_reader_would(program: Program):
    told = late(program, program.sessions[0])
    assert told is not None
    found = re.search(r"you begin “(.+)” at minute (\d+)\. The minutes of cuts (.+) are", told.reading)
    assert found
    title, minute, numbers = found.groups()
    row = next(row for row in told.pace if row.title == title)
    past = [str(number) for number, cut in enumerate(row.cuts, 1) if cut != "–" and int(cut) < int(minute)]
    assert re.findall(r"\d+", numbers) == past


def test_without_a_limit_there_is_no_pace():
    told = of(block("Legs", lift("Squat", 2)), within=None)
    assert told is not None and told.cuts
    assert (told.pace, told.reading, told.last) == ((), "", "")


def test_where_nothing_can_be_cut_the_sheet_says_so():
    told = of(block("Legs", lift("Squat", 1, "must"), lift("Lunge", 1, "must")))
    assert told is not None
    assert "Nothing of this session can be left out" in told.order and "Stop at minute 60." in told.order
    assert (told.cuts, told.pace) == ((), ())


def test_a_session_of_one_movement_has_no_list():
    assert of(block("Out", lift("Walk", 1))) is None


class Tables(HTMLParser):
    """The cells of each table by row: tag, scope, span and text."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tables: dict[str, list[list[tuple[str, str | None, int]]]] = {}
        self.rows: list[list[tuple[str, str | None, int]]] = []
        self.captions = 0
        self.feed(page)

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        told = dict(attributes)
        if tag == "table":
            self.rows = self.tables.setdefault(str(told.get("class")).split()[0], [])
        elif tag == "tr":
            self.rows.append([])
        elif tag in {"th", "td"}:
            self.rows[-1].append((tag, told.get("scope"), int(told.get("colspan") or 1)))
        self.captions += tag == "caption"


@pytest.mark.parametrize("large", [False, True])
def test_the_tables_can_be_read_aloud(program: Program, large: bool):
    pages = handout.render_large(program) if large else handout.render(program)
    (page,) = (text for name, text in pages.items() if name.endswith(".html"))
    found = Tables(page)
    assert found.captions == 1
    for name in ("cut-list", "pace"):
        rows = found.tables[name]
        assert len({sum(span for _, _, span in row) for row in rows}) == 1
        assert all(scope == "col" for _, scope, _ in rows[0])
        assert all(scope for row in rows for tag, scope, _ in row if tag == "th")
    assert all(row[0][:2] == ("th", "row") for row in found.tables["cut-list"][1:])
    assert all(row[0][:2] == ("th", "rowgroup") for row in found.tables["pace"][1::2])


def test_a_session_over_its_limit_begins_with_all_that_is_needed(program: Program):
    session = attrs.evolve(program.sessions[0], within=q(5, "min"))
    told = late(program, session)
    assert told is not None and told.pace[0].cuts[0] == "0"
