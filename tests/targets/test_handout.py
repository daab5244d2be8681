"""Nothing of a program is missing on its handout."""

import html
import re

import attrs
import pytest
from setwright.compiler.clock import full_sets
from setwright.compiler.model import Category, Program
from setwright.targets import handout, telling, words


def text_of_html(page: str) -> str:
    body = page[page.index("<body>") :]
    return re.sub(r"\s+", " ", html.unescape(re.sub(r"<[^>]+>", " ", body)))


def text_of_markdown(page: str) -> str:
    return re.sub(r"\s+", " ", re.sub(r"\\(.)", r"\1", page).replace("**", ""))


@pytest.fixture(scope="module", params=["html", "md"])
def text(request: pytest.FixtureRequest, program: Program) -> str:
    page = handout.render(program)[f"small-handout.{request.param}"]
    return text_of_html(page) if request.param == "html" else text_of_markdown(page)


def test_every_movement_with_its_dose(text: str, program: Program):
    for session in program.sessions:
        for block in session.blocks:
            for entry in block.entries:
                assert entry.movement.title in text
                assert telling.dose(entry.dose, full_sets(block, entry), block.rounds is not None) in text
                assert telling.next_step(entry, block.rounds is not None) in text
                for other in entry.otherwise:
                    assert other.movement.title in text


def test_every_cue_caution_and_form(text: str, program: Program):
    for session in program.sessions:
        for entry in session.entries:
            for said in (*entry.movement.cues, *entry.movement.cautions):
                assert said in text
            for rung in entry.movement.rungs:
                assert rung.text in text


def test_every_caution_of_ours_and_the_legend(text: str):
    for said in (*words.CAUTIONS, *words.PRIORITY_MEANINGS.values()):
        assert said in text


def test_what_the_program_says_of_itself(text: str, program: Program):
    for said in (program.title, program.audience, program.coach, program.ask_by, "14 June 2026", program.aims):
        assert said in text
    assert program.fingerprint[:12] in text


def test_a_damaged_program_says_so(program: Program):
    pages = handout.render(attrs.evolve(program, damaged=True))
    assert words.DRAFT in pages["small-handout.html"]
    assert words.DRAFT in pages["small-handout.md"]
    assert words.DRAFT not in handout.render(program)["small-handout.html"]


def test_categories_of_every_session_and_of_the_week(program: Program):
    legs, push = program.categories

    def told(*categories: Category) -> str:
        changed = attrs.evolve(program, categories=categories)
        return text_of_markdown(handout.render(changed)["small-handout.md"])

    weekly = attrs.evolve(push, required=False)
    once = attrs.evolve(legs, required=False, at_least=1)
    assert "Main session: never without Legs and Push (at least twice a week). " in told(legs, push)
    assert "In every week" not in told(legs, push)
    assert "Main session: never without Legs. In every week: Push at least twice. " in told(legs, weekly)
    assert "In every week: Legs at least once and Push at least twice. " in told(once, weekly)
    assert "never without" not in told(once, weekly)
    assert "In every week" not in told(attrs.evolve(legs, required=False))


@pytest.mark.parametrize("kind", ["html", "md"])
def test_a_session_that_does_not_say_how_often_says_that(program: Program, kind: str):
    main, walk = program.sessions
    unsaid = attrs.evolve(program, sessions=(main, attrs.evolve(walk, per_week=None)))
    page = handout.render(unsaid)[f"small-handout.{kind}"]
    cell = "<td>not said</td>" if kind == "html" else "| Daily walk | not said |"
    assert page.count(cell) == 1
    assert page.count("not said") == 1
    assert "not said" not in handout.render(program)[f"small-handout.{kind}"]
