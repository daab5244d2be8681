"""The coach's overview: who gets what and why, those who need the coach first, and nothing that grows with their number."""

import json
from collections.abc import Iterator
from html.parser import HTMLParser

import attrs
import pytest
from setwright.compiler.fitting import Fitting
from setwright.compiler.pipeline import Result
from setwright.targets import words
from setwright.targets.overview import Row, as_json, from_json, render_overview, row_of, row_without
from setwright.targets.overview.view import summary


@pytest.fixture(scope="module")
def rows(boat_shed: Result, ewa: Fitting, joss: Fitting) -> list[Row]:
    about = {
        who.athlete.name: [one for one in boat_shed.diagnostics if who.athlete.title in one.message]
        for who in (ewa, joss)
    }
    return [row_of(ewa, about["ewa"]), row_of(joss, about["joss"]), row_without("maren", "Maren")]


@pytest.fixture(scope="module")
def pages(rows: list[Row]) -> dict[str, str]:
    return {name: "".join(pieces) for name, pieces in render_overview(lambda: iter(rows)).items()}


def test_what_is_otherwise_is_told_a_sentence_each(rows: list[Row]):
    assert rows[0].changes == (
        "Back squat: alone no more than 65.6 kg, where it would be 69.7 kg.",
        "Back squat: 65.3 kg can be made of what there is, where it would be 65.6 kg.",
        "Deadlift: 74.4 kg can be made of what there is, where it would be 77 kg.",
        "Floor press: nothing says with what to begin, so it begins light: 4.5 kg.",
        "Suitcase carry: 5.1 kg can be made of what there is, where it would be 5.2 kg.",
        "Dumbbell step up in place of Split squat: Ewa avoids it (“left hip: nothing with the feet far apart”).",
        "Dumbbell step up: nothing says with what to begin, so it begins light: 2.3 kg.",
    )
    assert rows[1].changes[0] == ("Back squat: nobody knows the training maximum, so the sheet tells the share: 85%.")
    assert (
        "Without Band row: Joss avoids every movement of the pattern “pull” (“right elbow: nothing that pulls until August”)."
        in rows[1].changes
    )
    assert (
        "Push-up: “on the knees” in place of “hands on a 30 cm box”, which needs what is not there." in rows[1].changes
    )


def test_who_does_another_movement(rows: list[Row]):
    assert rows[0].replaced == (("Split squat", "Dumbbell step up"),)
    assert rows[1].replaced == (("Band row", ""),)


def test_a_row_is_plain_values(rows: list[Row]):
    assert [from_json(json.loads(json.dumps(as_json(row)))) for row in rows] == rows


def test_those_who_need_the_coach_come_first(pages: dict[str, str]):
    text = pages["overview.md"]
    first = text[text.index(words.OVERVIEW_NEEDS) : text.index(words.OVERVIEW_PROGRAMS)]
    assert f"- **Joss**\n  - **{words.NO_SHEET}**\n  - Joss cannot do “must band-row”" in first
    assert "begins “push-up” on “box”" in first.replace("\\", "")
    assert "Maren" not in first


def test_everyone_stands_in_the_table(pages: dict[str, str]):
    text = pages["overview.html"]
    everyone = text[text.index(words.OVERVIEW_ALL) :]
    assert [name for name in ("Ewa", "Joss", "Maren") if name in everyone] == ["Ewa", "Joss", "Maren"]
    assert '<a href="ewa/ewa-boat-shed-handout.html">Ewa</a>' in everyone
    assert "joss-boat-shed-handout" not in text  # there is none
    assert words.NO_PROGRAM in everyone


def test_the_programs_with_how_many_train_by_them(pages: dict[str, str], ewa: Fitting):
    assert f"| Boat shed | 2 | {ewa.program.fingerprint[:12]} | 2 |" in pages["overview.md"]


def test_a_movement_with_who_does_another(pages: dict[str, str]):
    assert "- **Split squat**\n  - Dumbbell step up: Ewa\n" in pages["overview.md"]
    assert "- **Band row**\n  - left out: Joss\n" in pages["overview.md"]


def test_nothing_to_tell():
    row = Row("ines", "Ines", "hall", "Hall", 1)
    text = "".join(render_overview(lambda: [row])["overview.md"])
    for told in (words.OVERVIEW_NO_NEED, words.OVERVIEW_NOBODY_ELSE, words.AS_WRITTEN):
        assert told in text


def test_an_athlete_with_two_programs_counts_once():
    found = summary([Row("ines", "Ines", "hall", "Hall", 1), Row("ines", "Ines", "stairs", "Stairs", 1)])
    assert found.athletes == 1
    assert [program.athletes for program in found.programs] == [1, 1]


class Tables(HTMLParser):
    """How many cells each row of each table has, and whether each header says of what it is one."""

    def __init__(self) -> None:
        super().__init__()
        self.tables: list[list[int]] = []
        self.headers: list[str | None] = []

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        if tag == "table":
            self.tables.append([])
        elif tag == "tr":
            self.tables[-1].append(0)
        elif tag in {"th", "td"}:
            self.tables[-1][-1] += 1
            if tag == "th":
                self.headers.append(dict(attributes).get("scope"))


def test_tables_can_be_read_aloud(pages: dict[str, str]):
    reader = Tables()
    reader.feed(pages["overview.html"])
    assert len(reader.tables) == 4
    assert all(len(set(cells)) == 1 for cells in reader.tables)
    assert set(reader.headers) == {"col", "row"}


def test_hostile_names_are_text(rows: list[Row]):
    row = attrs.evolve(rows[0], title="<script>alert(1)</script>", changes=("a | b", "# c"), warnings=("<b>",))
    pages = {name: "".join(pieces) for name, pieces in render_overview(lambda: [row]).items()}
    assert "<script>" not in pages["overview.html"]
    assert "<b>" not in pages["overview.html"]
    assert "\n- # c" not in pages["overview.md"]
    assert "<script>" not in pages["overview.md"]


def test_rows_are_told_as_they_come():
    """The first pieces are there before the last rows were asked for, in every pass but the one that counts."""
    asked = 0

    def many() -> Iterator[Row]:
        nonlocal asked
        for number in range(5000):
            asked += 1
            yield Row(f"a{number}", f"A {number}", "hall", "Hall", 1, warnings=("Mind the step.",))

    for name, pieces in render_overview(many).items():
        counted = asked
        next(iter(pieces))
        assert asked - counted < 5000, name


def test_of_many_who_do_the_same_the_first_are_named():
    rows = [
        Row(f"a{number}", f"A {number}", "hall", "Hall", 1, replaced=(("Squat", "Step up"),)) for number in range(40)
    ]
    (squat,) = summary(rows).replaced
    assert squat.instead == (f"Step up: {', '.join(f'A {number}' for number in range(12))} and 28 more",)


def test_everyone_has_room_for_what_is_otherwise(pages: dict[str, str]):
    """What is the same for all, or stands above already, takes no column."""
    ines = Row("ines", "Ines", "hall", "Hall", 1, own_source="0123456789ab", warnings=["Come and see."])
    otto = Row("otto", "Otto", "hall", "Hall", 1)
    one = "".join(render_overview(lambda: [ines, otto])["overview.html"]).partition(words.OVERVIEW_ALL)[2]
    assert one.count('<th scope="col">') == 2
    assert ">Hall<" not in one
    assert f'<p class="under">{words.SOURCE} 0123456789ab</p>' in one
    assert one.count(f"<strong>{words.OPEN}:</strong>") == 1 and "Come and see." in one
    stairs = Row("otto", "Otto", "stairs", "Stairs", 1)
    two = "".join(render_overview(lambda: [ines, stairs])["overview.html"]).partition(words.OVERVIEW_ALL)[2]
    assert ">Hall<" in two and ">Stairs<" in two
