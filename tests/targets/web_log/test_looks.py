"""The page on small screens, in large letters, by keyboard and for a reader of the screen.

Accessibility is judged by axe-core (Deque; the rules of WCAG 2.2 A and AA and its best practices), which
axe-playwright-python carries.
"""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from setwright.compiler.fitting import fit
from setwright.compiler.pipeline import Result, compile_path
from setwright.targets import web_log

from .conftest import PROGRAMS, fitted, open_block, open_session, set_of

RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}


@pytest.fixture(scope="module")
def large_page(station: Result, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The log of somebody who prints large."""
    ((name, text),) = web_log.render(fitted(station.project, "otto").program).items()
    path = tmp_path_factory.mktemp("large") / name
    path.write_text(text, "utf-8")
    return path


@pytest.fixture(scope="module")
def pages(log_page: Path, large_page: Path) -> dict[str, Path]:
    return {"usual": log_page, "large": large_page}


def states(page: Any) -> Iterator[str]:
    """The page in all that it can show, one after another."""
    yield "week"
    page.clock.install(time="2026-06-17T18:00:00")
    open_session(page, "Main session, Monday")
    yield "session"
    page.get_by_role("button", name="Start the clock").click()
    yield "clock"
    for block in ("Legs", "Push and pull", "Hinge", "Balance", "Wind down"):
        open_block(page, block)
        yield block
    open_block(page, "Legs")
    set_of(page, 1, "Goblet squat").fill("many")
    set_of(page, 1, "Goblet squat").press("Tab")
    page.get_by_role("button", name="after a set: Goblet squat").click()
    yield "a figure that is none, and a rest"
    page.clock.fast_forward(55 * 60_000)
    page.clock.run_for(600)
    page.get_by_role("button", name="What to leave out").click()
    yield "late"
    page.get_by_label("Shorter: at most 25 minutes").check()
    yield "short"
    page.get_by_role("button", name="Empty this session").click()
    yield "a question"
    page.keyboard.press("Escape")
    page.get_by_role("button", name="I am done").click()
    yield "week with a session"


def sideways(page: Any) -> int:
    return page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")


@pytest.mark.parametrize(("whose", "scheme"), [("usual", "light"), ("usual", "dark"), ("large", "light")])
def test_axe_finds_nothing(whose: str, scheme: str, visit: Callable, pages: dict[str, Path]):
    from axe_playwright_python.sync_playwright import Axe

    page = visit(pages[whose], color_scheme=scheme)
    axe = Axe()
    for state in states(page):
        found = axe.run(page, options=RULES).response
        told = [(one["id"], [node["html"] for node in one["nodes"]]) for one in found["violations"]]
        assert (state, told) == (state, [])
        assert len(found["passes"]) > 15  # it did look


@pytest.mark.parametrize(("whose", "width"), [("usual", 320), ("usual", 412), ("large", 320)])
def test_no_scrolling_sideways(width: int, whose: str, visit: Callable, pages: dict[str, Path]):
    """WCAG 2.2, 1.4.10: at 320 pixels."""
    page = visit(pages[whose], viewport={"width": width, "height": 640})
    assert {state: sideways(page) for state in states(page)} == dict.fromkeys(EVERY, 0)


EVERY = ("week", "session", "clock", "Legs", "Push and pull", "Hinge", "Balance", "Wind down",
         "a figure that is none, and a rest", "late", "short", "a question", "week with a session")  # fmt: skip


def test_text_at_twice_its_size(visit: Callable, log_page: Path):
    """WCAG 2.2, 1.4.4: letters alone, as the setting of a phone makes them larger, at 320 pixels; and nothing is cut off."""
    page = visit(log_page, viewport={"width": 320, "height": 640})
    page.evaluate("document.documentElement.style.fontSize = '225%'")
    for _ in states(page):
        assert sideways(page) == 0
        assert (
            page.evaluate("""[...document.querySelectorAll("button, label, h1, h2, h3, p, a")]
          .filter((one) => one.offsetParent && one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).display !== "inline"
            && !one.classList.contains("sr") && one.id !== "said").map((one) => one.outerHTML)""")
            == []
        )


def test_zoom_to_twice_the_size(visit: Callable, log_page: Path):
    """A desktop window of 640 pixels at 200% has room for 320, each twice as fine."""
    page = visit(log_page, viewport={"width": 320, "height": 400}, device_scale_factor=2, is_mobile=False)
    assert {sideways(page) for _ in states(page)} == {0}


@pytest.mark.parametrize("whose", ["usual", "large"])
def test_controls_are_big(whose: str, visit: Callable, pages: dict[str, Path]):
    """48 pixels each way for all that is pressed; WCAG 2.2, 2.5.8 asks for 24."""
    page = visit(pages[whose], viewport={"width": 320, "height": 640})
    for _ in states(page):
        small = page.evaluate("""[...document.querySelectorAll(
            "button, .sessions a, input[type=text], select, summary, .choice, .back")]
          .filter((one) => one.offsetParent).map((one) => [one.getBoundingClientRect(), one.outerHTML])
          .filter(([box]) => box.width < 48 || box.height < 48).map(([box, html]) => [box.width, box.height, html])""")
        assert small == []


def test_large_print_is_18_point(visit: Callable, pages: dict[str, Path]):
    """American Printing House: 18 point and more, sans serif. A point is 4/3 of a pixel."""
    sizes = {}
    for whose, path in pages.items():
        page = visit(path)
        open_session(page, "Main session, Monday", "Legs")
        sizes[whose] = page.evaluate("""Math.min(...[...document.querySelectorAll("main *")]
          .filter((one) => one.offsetParent && [...one.childNodes].some((part) => part.nodeType === 3 && part.data.trim()))
          .map((one) => parseFloat(getComputedStyle(one).fontSize)))""")
    assert sizes["usual"] >= 16 and sizes["large"] >= 24


def test_nothing_moves_by_itself(visit: Callable, log_page: Path):
    """No animation, transition or smooth scrolling, with reduced motion or without."""
    for motion in ("reduce", "no-preference"):
        page = visit(log_page, reduced_motion=motion)
        open_session(page, "Main session, Monday", "Legs")
        moving = page.evaluate("""[...document.querySelectorAll("*")].map((one) => getComputedStyle(one))
          .filter((style) => style.animationName !== "none" || style.transitionDuration !== "0s"
            || style.scrollBehavior !== "auto").length""")
        assert moving == 0 and page.evaluate("document.getAnimations().length") == 0


def focused(page: Any) -> str:
    """The name of what has the focus."""
    return page.evaluate("""(() => { const one = document.activeElement;
      return one.getAttribute("aria-label") ?? (one.labels?.[0]?.textContent || one.textContent.trim()); })()""")


def tab_to(page: Any, name: str) -> None:
    for _ in range(120):
        page.keyboard.press("Tab")
        assert visible(page), focused(page)
        if name in focused(page):
            return
    raise AssertionError(f"{name} cannot be reached by keyboard")


def visible(page: Any) -> bool:
    """Whether what has the focus is in the window, and neither the clock nor the timer lies over it (WCAG 2.2, 2.4.11)."""
    return page.evaluate("""(() => { const one = document.activeElement; const box = one.getBoundingClientRect();
      const there = document.elementFromPoint(box.left + box.width / 2, box.top + Math.min(box.height / 2, 12));
      return box.top >= 0 && (one.contains(there) || there?.contains(one) || one === document.body); })()""")


def test_by_keyboard_alone(visit: Callable, log_page: Path):
    """From the week through a session to the file, with no finger on the screen; what has the focus is always in sight."""
    page = visit(log_page, has_touch=False, is_mobile=False)
    tab_to(page, "Monday")
    page.keyboard.press("Enter")
    page.wait_for_timeout(50)
    assert page.evaluate("document.activeElement.tagName") == "H1"
    tab_to(page, "Start the clock")
    page.keyboard.press("Enter")
    tab_to(page, "Go on: Legs")
    page.keyboard.press("Enter")
    tab_to(page, "Set 1, repetitions, Split squat")
    page.keyboard.type("6")
    tab_to(page, "More: Set 2, repetitions, Split squat")
    page.keyboard.press("Space")
    tab_to(page, "All sets as asked: Goblet squat")
    page.keyboard.press("Enter")
    tab_to(page, "Rest 1:00 after a set: Goblet squat")
    page.keyboard.press("Enter")
    tab_to(page, "Minutes it took")
    page.keyboard.type("50")
    tab_to(page, "I am done")
    page.keyboard.press("Enter")
    page.wait_for_timeout(50)
    tab_to(page, "Save as a file")
    with page.expect_download() as download:
        page.keyboard.press("Enter")
    text = Path(download.value.path()).read_text("utf-8-sig")
    assert ",reps,6,6," in text and "reps,6,6,6," in text


def test_a_reader_of_the_screen_has_names_for_everything(visit: Callable, log_page: Path):
    page = visit(log_page)
    for _ in states(page):
        named = page.evaluate("""[...document.querySelectorAll("main input, main select, main textarea")]
          .filter((one) => one.offsetParent).map((one) => one.getAttribute("aria-label") || one.labels[0]?.textContent || "")""")
        assert "" not in named
        numbers = [name for name in named if name.startswith(("Set", "Round"))]
        assert len(numbers) == len(set(numbers))
    open_session(page, "Main session, Wednesday", "Legs")
    card = page.get_by_role("article", name="Goblet squat")
    assert card.get_by_role("textbox", name="Set 2, repetitions, Goblet squat").count() == 1
    assert card.get_by_role("button", name="More: Set 2, repetitions, Goblet squat").count() == 1


def test_what_a_button_did_is_said(visit: Callable, log_page: Path):
    page = visit(log_page)
    open_session(page, "Main session, Monday", "Legs")
    page.get_by_role("button", name="More: Set 2, repetitions, Goblet squat").click()
    page.wait_for_timeout(120)
    assert page.get_by_role("status").first.inner_text() == "Set 2, repetitions, Goblet squat: 6"


@pytest.mark.parametrize(("folder", "name"), [("larch-street", "agnes"), ("quay-pilots", "ewa")])
def test_the_logs_of_others(folder: str, name: str, visit: Callable, tmp_path: Path):
    """Bands, a bar with plates, lighter sets: each session opens, fits, and is accessible."""
    from axe_playwright_python.sync_playwright import Axe

    project = compile_path(PROGRAMS / folder).project
    athlete = next(one for one in project.athletes if one.name == name)
    for program in project.programs:
        if program.name not in athlete.follows:
            continue
        ((file, text),) = web_log.render(fit(program, athlete).program).items()
        (tmp_path / file).write_text(text, "utf-8")
        page = visit(tmp_path / file, viewport={"width": 320, "height": 640})
        for link in range(page.locator(".sessions a").count()):
            page.locator(".sessions a").nth(link).click()
            for head in range(page.locator(".block h2 button[aria-expanded]").count()):
                if page.locator(".block h2 button[aria-expanded]").nth(head).get_attribute("aria-expanded") == "false":
                    page.locator(".block h2 button[aria-expanded]").nth(head).click()
                assert sideways(page) == 0
            assert Axe().run(page, options=RULES).violations_count == 0
            page.get_by_role("link", name="Back to the week").click()
