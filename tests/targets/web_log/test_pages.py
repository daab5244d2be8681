"""The log for the phone as a file: for which week it is, what it asks for, and that no text of a coach gets out of its place."""

import base64
import hashlib
import json
import re
from datetime import date, timedelta
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import attrs
import pytest
from setwright.compiler.fitting import Fitting, fit
from setwright.compiler.logbook import logbook_of
from setwright.compiler.model import Program
from setwright.compiler.pipeline import Result, compile_path
from setwright.compiler.today import today
from setwright.targets import web_log, words
from setwright.targets.command_line import main
from setwright.targets.log_sheet.table import log_table
from setwright.targets.pack import pack
from setwright.targets.printing import Printing
from setwright.targets.web_log import words as own_words
from setwright.targets.web_log.week import in_week, weeks_to_log

from ..test_hostile import with_text
from .conftest import PROGRAMS, fitted

MOST_BYTES = 150_000
HOSTILE = "</script><script>alert(1)</script><!-- ]]> \u202eabc\u2028 {{ 7 * 191 }} ' \" & </template></title></style>"


def only(files: dict[str, str]) -> str:
    ((_, text),) = files.items()
    return text


def data(page: str) -> dict[str, Any]:
    """What the script of a page is given."""
    found = re.search(r'<script type="application/json" id="plan">(.*?)</script>', page, re.DOTALL)
    assert found is not None
    return json.loads(found[1])


@pytest.fixture(scope="module")
def page(maren: Fitting) -> str:
    return only(web_log.render(maren.program))


# The week


@pytest.mark.parametrize(
    ("after", "week"),
    [
        (None, 1),
        (date(2026, 6, 17), 1),  # a Wednesday: Friday is left of the week
        (date(2026, 6, 19), 2),  # a Friday: Maren trains on Monday again
        (date(2026, 6, 20), 2),
        (date(2026, 8, 21), 11),
    ],
)
def test_the_log_is_for_the_week_of_the_next_day_of_training(after: date | None, week: int, maren: Fitting):
    program = attrs.evolve(maren.program, after=after)
    assert weeks_to_log(program) == (week,)
    assert list(web_log.render(program)) == [f"maren-winter-store-room-log-week-{week}.html"]


def test_without_a_first_day_nobody_knows_the_week(maren: Fitting, station: Result):
    nobody = attrs.evolve(maren.program, athlete=attrs.evolve(maren.athlete, starts=None))
    assert list(web_log.render(nobody)) == ["maren-winter-store-room-log-week.html"]
    program = maren.written
    text = only(web_log.render(program))
    assert data(text)["athlete"] == "" and data(text)["file"] == "winter-store-room-log"


def test_a_way_back_has_a_log_for_each_of_its_weeks():
    project = compile_path(PROGRAMS / "return", PROGRAMS).project
    (athlete,) = (one for one in project.athletes if one.name == "joss")
    program = next(one for one in project.programs if one.name == "boat-shed-return")
    files = web_log.render(fit(program, athlete).program)
    assert list(files) == [f"joss-boat-shed-return-log-week-{number}.html" for number in (1, 2, 3, 4)]
    for number, text in enumerate(files.values(), start=1):
        names = [session["name"] for session in data(text)["sessions"]]
        assert names and all(name.startswith(f"week-{number}-") for name in names)


def pilot(week: int) -> tuple[Program, Program]:
    """Ewa's program of the boat shed as it is, and as it is in a week."""
    project = compile_path(PROGRAMS / "quay-pilots").project
    program = fitted(project, "ewa", "boat-shed").program
    return program, in_week(program, week)


def test_an_easier_week_asks_for_less_and_for_loads_that_can_be_made():
    usual, easier = pilot(4)
    for before, after in zip(usual.sessions[0].entries, easier.sessions[0].entries, strict=True):
        if before.fitted is None or not before.fitted.made or before.movement.name != "back-squat":
            continue
        assert len(after.dose.sets) == len(before.dose.sets) - 1
        assert after.fitted is not None
        loads = {load: made.load for load, made in after.fitted.made}
        assert all(made is not None for made in loads.values())
        assert {work.load or after.dose.load for work in after.dose.sets} <= set(loads)
        assert max(filter(None, loads.values())) < max(made.load or 0 for _, made in before.fitted.made)
        break
    else:
        raise AssertionError("no squat")


def test_an_easier_week_says_so():
    usual, _ = pilot(4)
    assert usual.athlete is not None and usual.athlete.starts is not None
    for week in range(1, 6):
        first = usual.athlete.starts + timedelta(weeks=week - 1)
        ((name, text),) = web_log.render(attrs.evolve(usual, after=first)).items()
        assert name == f"ewa-boat-shed-log-week-{week}.html"
        easier = data(text)["sessions"][0]["easier"]
        assert easier == ([own_words.THIS_WEEK_EASIER, words.EASIER_COUNTED] if week == 4 else [])


# What it holds


def test_the_columns_are_those_of_the_blank_table(maren: Fitting, page: str):
    table, told = log_table(maren.program), data(page)
    assert tuple(told["headers"]) == table.headers
    assert (told["mark"], told["athlete"], told["program"], str(told["revision"])) == table.head
    entries = [entry for block in told["sessions"][0]["blocks"] if block["logged"] for entry in block["entries"]]
    rows = [dict(zip(table.headers, row.cells, strict=True)) for row in table.rows]
    for entry, row in zip(entries, rows[: len(entries)], strict=True):
        way = entry["ways"][0]
        assert (way["name"], way["asked"], way["unit"]) == (row["movement"], row["asked"], row["unit"])


def test_what_was_done_the_last_time(station: Result, maren: Fitting):
    logged = compile_path(PROGRAMS / "tern-holm").project
    book = logbook_of(fitted(logged, "maren"), logged.programs, logged.logs)
    files = pack(today(book), logbook=book)
    (name,) = (name for name in files if "log-week" in name)
    assert name == "maren-winter-store-room-log-week-8.html"
    text = str(files[name])
    entries = [entry for block in data(text)["sessions"][0]["blocks"] for entry in block["entries"]]
    (row,) = (entry for entry in entries if entry["ways"][0]["name"] == "one-arm-row")
    assert row["last"] == "Last time (31 July 2026): 9 9 9, with 14.5 kg"


def test_a_build_tells_it_what_was_done_the_last_time(tmp_path: Path):
    assert main(["build", str(PROGRAMS / "tern-holm"), "--for", "maren", "--for", "otto", "--to", str(tmp_path)]) == 0
    assert "Last time (31 July 2026): 9 9 9, with 14.5 kg" in next(tmp_path.glob("maren/*-week-8.html")).read_text(
        "utf-8"
    )
    assert '"last":""' in next(tmp_path.glob("otto/*-week-1.html")).read_text("utf-8")  # who has logged nothing


def test_a_pack_can_go_without(maren: Fitting):
    assert set(pack(maren)) - set(pack(maren, Printing(without=("phone",)))) == {
        "maren-winter-store-room-log-week-1.html"
    }


def test_the_cautions_are_those_of_the_log_sheet(page: str):
    for caution in words.CAUTIONS_SHORT:
        assert page.count(caution) == 2  # in the week, and again in a session
    assert words.CAUTION_FILLED_SHORT in page


@pytest.mark.parametrize("folder", ["tern-holm", "larch-street", "quay-pilots"])
def test_every_log_is_small_and_the_same_every_time(folder: str):
    project = compile_path(PROGRAMS / folder).project
    for program in project.programs:
        for athlete in project.athletes:
            fitting = fit(program, athlete)
            files = web_log.render(fitting.program)
            assert files == web_log.render(attrs.evolve(fitting.program))
            assert all(len(text.encode()) <= MOST_BYTES for text in files.values())


# Nothing gets out of its place


class Page(HTMLParser):
    """The tags of a page, what is in their attributes, and what stands in scripts and styles."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str]] = []
        self.inside: dict[str, list[str]] = {"script": [], "style": []}
        self.feed(text)

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += [(name, value or "") for name, value in attributes]
        if tag in self.inside:
            self.inside[tag].append("")

    def handle_data(self, data: str) -> None:
        if self.tags and self.tags[-1] in self.inside and self.cdata_elem:
            self.inside[self.tags[-1]][-1] += data


def test_the_policy_lets_nothing_but_the_one_script_and_style(page: str):
    """W3C, Content Security Policy Level 3: the hashes are of the texts between the tags, as they stand there."""
    read = Page(page)
    policy = next(value for _, value in read.attributes if value.startswith("default-src"))
    (style,), (_, script) = read.inside["style"], read.inside["script"]

    def fingerprint(text: str) -> str:
        return "sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()

    assert policy.split("; ") == [
        "default-src 'none'", f"script-src '{fingerprint(script)}'", f"style-src '{fingerprint(style)}'",
        "base-uri 'none'", "form-action 'none'", "require-trusted-types-for 'script'", "trusted-types 'none'",
    ]  # fmt: skip


def test_the_page_names_no_address(page: str):
    read = Page(page)
    assert not [name for name, _ in read.attributes if name in {"src", "style", "srcset"} or name.startswith("on")]
    assert not re.search(r"https?://|url\(|@import|fetch\(|XMLHttp|innerHTML|\beval\b", page)


@pytest.fixture
def hostile(program: Program, maren: Fitting) -> Program:
    """A program of everything, with a hostile text in every field of words; its athlete is no better."""
    athlete = attrs.evolve(maren.athlete, title=HOSTILE, implements=(), things=())
    return attrs.evolve(with_text(program, HOSTILE), athlete=athlete)


def test_hostile_words_stay_words(hostile: Program, page: str):
    text = only(web_log.render(hostile))
    tags = Page(text).tags
    assert tags.count("script") == 2 and tags.count("style") == 1 and tags.count("title") == 1
    assert set(tags) <= set(Page(page).tags) | {"em", "strong", "code", "ol", "circle"}
    assert data(text)["sessions"][0]["title"] == HOSTILE
    assert "1337" not in text


def test_hostile_words_in_the_browser(hostile: Program, visit: Any, tmp_path: Path):
    path = tmp_path / "hostile.html"
    path.write_text(only(web_log.render(hostile)), "utf-8")
    page = visit(path, before="window.alert = () => { throw new Error('a script ran'); };")
    page.locator(".sessions a").first.click()
    assert page.locator("h1").inner_text().startswith("</script><script>alert(1)</script>")
    for head in range(page.locator(".block h2 button[aria-expanded]").count()):
        page.locator(".block h2 button[aria-expanded]").nth(head).click()
    assert page.evaluate("document.scripts.length") == 2


# Words


def test_every_word_of_the_script_is_in_the_catalogue_and_no_other(page: str):
    script = Page(page).inside["script"][1]
    used = set(re.findall(r'"(\w+)"', script))
    asked = set(re.findall(r'tell\("(\w+)"', script))
    assert asked <= set(own_words.PAGE)
    assert set(own_words.PAGE) - used == set()
