"""The pages of a review: what they tell, in which order, for whom, and that nothing in a log can become more than text."""

import re
from datetime import date
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import attrs
import pytest
from markdown_it import MarkdownIt
from setwright.compiler.crew_review import ranked
from setwright.compiler.fitting import fit
from setwright.compiler.logbook import logbook_of
from setwright.compiler.model import Project
from setwright.compiler.pipeline import compile_path
from setwright.compiler.review import Review, review
from setwright.compiler.training import who_trains
from setwright.targets.review import charts, render, render_crew
from setwright.targets.review import words as say
from syrupy.assertion import SnapshotAssertion
from syrupy.extensions.single_file import SingleFileSnapshotExtension, WriteMode

PROGRAMS = Path(__file__).resolve().parents[2] / "programs"
NEWEST = date(2026, 8, 14)
HOSTILE = (
    "# <script>alert(1)</script> | a | {{ 7 * 1217 }} <img src=x onerror=alert(3)> </svg></title> chest pain \\| `b`"
)


class PageFile(SingleFileSnapshotExtension):
    """A page as a file that can be read on its own."""

    _write_mode = WriteMode.TEXT
    file_extension = "txt"


@pytest.fixture(scope="module")
def station() -> Project:
    return compile_path(PROGRAMS / "tern-holm").project


@pytest.fixture(scope="module")
def found(station: Project) -> dict[str, Review]:
    """The reviews of those of the station who have a log."""
    program = max(station.programs, key=lambda one: one.revision)
    books = [logbook_of(fit(program, one), station.programs, station.logs) for one in who_trains(station, program)]
    return {book.fitting.athlete.name: review(book, NEWEST) for book in books if book.sessions}


@pytest.fixture(scope="module")
def maren(found: dict[str, Review]) -> dict[str, str]:
    return render(found["maren"])


def noted(one: Review, note: str) -> Review:
    """The same log with a note in its last session."""
    book = one.logbook
    last = attrs.evolve(book.sessions[-1], note=note)
    return review(attrs.evolve(book, sessions=(*book.sessions[:-1], last)), one.newest)


class Tags(HTMLParser):
    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str]] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += [(name, value or "") for name, value in attributes]


@pytest.mark.parametrize(
    "name",
    ["maren-winter-store-room-review.md", "maren-winter-store-room-progress.md", "birgit-winter-store-room-review.md"],
)
def test_a_review(name: str, found: dict[str, Review], snapshot: SnapshotAssertion):
    assert render(found[name.split("-", maxsplit=1)[0]])[name] == snapshot(extension_class=PageFile)


def test_the_crew(found: dict[str, Review], snapshot: SnapshotAssertion):
    assert render_crew(ranked(found.values()), ["Otto"])["review.md"] == snapshot(extension_class=PageFile)


def test_the_same_log_gives_the_same_bytes(found: dict[str, Review], maren: dict[str, str]):
    assert render(found["maren"]) == maren


def test_a_picture_for_each_movement_with_words_for_it(found: dict[str, Review], maren: dict[str, str]):
    page = maren["maren-winter-store-room-review.html"]
    pictures = re.findall(r"<svg .*?</svg>", page, re.DOTALL)
    assert len(pictures) == len(found["maren"].movements)
    for picture in pictures:
        assert 'role="img"' in picture and "<title" in picture and "<desc" in picture
        named = re.search(r'aria-labelledby="(\S+) (\S+)"', picture)
        assert named is not None and all(f'id="{key}"' in picture for key in named.groups())
        colours = set(re.findall(r'(?:fill|stroke)="(#[0-9a-f]+|[a-z]+)"', picture))
        assert colours <= {"#000", "#fff", "#ccc", "none", "transparent", "white", "black"}
    ids = re.findall(r' id="([^"]+)"', page)
    assert len(ids) == len(set(ids))


def test_pages_load_nothing(maren: dict[str, str]):
    for name, text in maren.items():
        if name.endswith(".html"):
            assert "default-src 'none'" in text
            assert not [value for key, value in Tags(text).attributes if key == "src" or "url(" in value]


def test_without_the_extra_the_figures_stay(found: dict[str, Review], monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(charts, "available", lambda: False)
    page = render(found["maren"])["maren-winter-store-room-review.html"]
    assert "<svg" not in page
    assert "setwright[review]" in page
    assert "goblet" in page.lower() and page.count("<caption") == len(found["maren"].movements) + 1


def test_notes_to_read_first_stand_first(found: dict[str, Review]):
    pages = render(noted(found["maren"], "Pain in the chest on the stairs."))
    for name, text in pages.items():
        stop = say.STOP if "review" in name else say.STOP_YOU
        assert text.index(stop[:60]) < text.index("Pain in the chest on the stairs") < text.index(say.WEEKS)
    coach = pages["maren-winter-store-room-review.md"]
    assert coach.index(say.READ_FIRST) < coach.index(say.LOOK)


def test_a_page_for_the_athlete_proposes_nothing(found: dict[str, Review]):
    pages = render(found["piet"])
    assert say.PROPOSED in pages["piet-winter-store-room-review.md"]
    progress = pages["piet-winter-store-room-progress.md"]
    for words in (say.PROPOSED, say.LOOK, say.MONOTONY, say.STRAIN, "Stalled", "Theil"):
        assert words not in progress
    assert say.YOUR_STALL in progress


def test_trends_and_loads_are_told_with_their_source(maren: dict[str, str], found: dict[str, Review]):
    page = maren["maren-winter-store-room-review.md"]
    assert "About 8.2 kg more volume load each session; between 4.3 and 11 (Theil-Sen, 95% interval)." in page
    assert "by Epley" in page and "by Brzycki" in page
    knees = render(found["piet"])["piet-winter-store-room-review.md"]
    assert "“on the knees” moves 49% of the body's mass, about 45 kg of 92 kg (Ebben et al. 2011" in knees


def test_the_marks_of_a_session_stand_together(found: dict[str, Review]):
    book = found["maren"].logbook
    once = tuple(attrs.evolve(one, steps=one.steps[:1]) for one in book.stands)
    page = render(review(attrs.evolve(book, stands=once), NEWEST))["maren-winter-store-room-review.md"]
    assert page.count("**first, best, last**") == len(found["maren"].movements)
    assert page.count(say.TOO_FEW) == len(found["maren"].movements)


@pytest.mark.parametrize(
    ("less", "more", "told"),
    [("4 kg", "2 kg", "between 4 kg less and 2 kg more"), ("", "2 kg", "between none and 2 kg more"),
     ("4 kg", "", "between 4 kg less and none")],
)  # fmt: skip
def test_an_interval_that_holds_none(less: str, more: str, told: str):
    assert say.trend_unclear("volume", less, more).endswith(told)


def test_who_needs_the_coach_first_and_why(found: dict[str, Review]):
    order = ranked([*(one for name, one in found.items() if name != "maren"), noted(found["maren"], "Dizzy.")])
    page = render_crew(order)["review.html"]
    assert page.index(">Maren<") < page.index(">Tomas<")
    assert "no training until a physician agrees" in page
    assert 'href="maren/maren-winter-store-room-review.html"' in page


def with_text(thing: Any, text: str) -> Any:
    """The same logbook with another text for all titles, forms and sources of its movements."""
    movement = attrs.evolve(
        thing.entry.movement,
        title=text,
        rungs=tuple(attrs.evolve(rung, text=text, source=text) for rung in thing.entry.movement.rungs),
    )
    return attrs.evolve(thing, entry=attrs.evolve(thing.entry, movement=movement))


def test_hostile_texts_stay_texts(found: dict[str, Review]):
    book = found["piet"].logbook
    program = attrs.evolve(book.fitting.program, title=HOSTILE, coach=HOSTILE)
    fitting = attrs.evolve(book.fitting, program=program)
    sessions = (attrs.evolve(book.sessions[0], note=HOSTILE), *book.sessions[1:])
    stands = tuple(with_text(one, HOSTILE) for one in book.stands)
    hostile = review(attrs.evolve(book, fitting=fitting, sessions=sessions, stands=stands), NEWEST)
    plain = {name: text for name, text in render(found["piet"]).items() if name.endswith(".html")}
    files = render(hostile) | render_crew(ranked([hostile]))
    for name, text in files.items():
        assert "8519" not in text
        if name.endswith(".html"):
            tags = Tags(text)
            assert not {"script", "img"} & set(tags.tags)
            assert tags.tags.count("svg") == (plain[name].count("<svg") if name in plain else 0)
            assert not [key for key, _ in tags.attributes if key.startswith("on") or key == "src"]
        else:
            made = MarkdownIt("commonmark", {"html": True}).enable("table").render(text)
            assert "<script" not in made and "<img" not in made
