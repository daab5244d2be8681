"""Logs for the phone, and a real browser to open them in: Chromium through Playwright, off the network."""

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from setwright.compiler.fitting import Fitting, fit
from setwright.compiler.model import Log, Project
from setwright.compiler.pipeline import Result, compile_texts
from setwright.targets import web_log

PROGRAMS = Path(__file__).resolve().parents[3] / "programs"
STATION = {path.name: path.read_bytes() for path in (PROGRAMS / "tern-holm").glob("*.coach")}
CHROMIUM = shutil.which("chromium")
PHONE: dict[str, Any] = {"viewport": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True}


@pytest.fixture(scope="session")
def chromium() -> str:
    """The path of the browser; where it must be there and is not, that is a failure."""
    if CHROMIUM is None:
        (pytest.fail if os.environ.get("SETWRIGHT_BROWSER") == "needed" else pytest.skip)("there is no Chromium here")
    return CHROMIUM


@pytest.fixture(scope="session")
def playwright() -> Iterator[Any]:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as running:
        yield running


@pytest.fixture(scope="session")
def browser(chromium: str, playwright: Any) -> Iterator[Any]:
    running = playwright.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
    yield running
    running.close()


@pytest.fixture
def visit(browser: Any) -> Iterator[Callable[..., Any]]:
    """Opens a file on a phone without a network. Whatever goes wrong in the page, or is asked of anybody, fails the test."""
    contexts, wrong = [], []

    def visited(file: Path, **more: Any) -> Any:
        script = more.pop("before", None)
        context = browser.new_context(**{**PHONE, "locale": "en-GB", **more})
        contexts.append(context)
        context.set_offline(True)
        context.on("request", lambda request: wrong.append(request.url) if request.url != file.as_uri() else None)
        context.on("weberror", lambda error: wrong.append(str(error.error)))
        context.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
        if script is not None:
            context.add_init_script(script)
        page = context.new_page()
        page.set_default_timeout(30_000)
        page.goto(file.as_uri())
        page.wait_for_selector("#page .send")
        return page

    yield visited
    for context in contexts:
        context.close()
    assert wrong == []


@pytest.fixture(scope="session")
def station() -> Result:
    return compile_texts(dict(STATION))


def fitted(project: Project, name: str, program: str | None = None) -> Fitting:
    """An athlete's fitting to the newest revision of a program."""
    programs = [one for one in project.programs if program in (None, one.name)]
    return fit(max(programs, key=lambda one: one.revision), next(one for one in project.athletes if one.name == name))


@pytest.fixture(scope="session")
def maren(station: Result) -> Fitting:
    return fitted(station.project, "maren")


@pytest.fixture(scope="session")
def log_page(maren: Fitting, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Maren's log of her first week, as a file."""
    ((name, text),) = web_log.render(maren.program).items()
    path = tmp_path_factory.mktemp("log") / name
    path.write_text(text, "utf-8")
    return path


@pytest.fixture(scope="session")
def read() -> Callable[..., Log]:
    """Reads a log beside the station's sources; nothing may be wrong with it but the figures themselves."""

    def read_log(name: str, content: str | bytes) -> Log:
        result = compile_texts({**STATION, name: content})
        found = {one.code for one in result.diagnostics if one.span.source.name == name}
        assert found <= {"logged-far-ahead", "logged-load-not-makeable", "unfinished-text"}
        (log,) = result.project.logs
        return log

    return read_log


def set_of(page: Any, number: int, title: str, unit: str = "repetitions", what: str = "Set") -> Any:
    """The field of a set."""
    return page.get_by_label(f"{what} {number}, {unit}, {title}", exact=True)


def open_session(page: Any, name: str, block: str | None = None) -> None:
    page.get_by_role("link", name=name).click()
    if block is not None:
        open_block(page, block)


def open_block(page: Any, block: str) -> None:
    page.locator(".block h2 button", has_text=block).click()


def back(page: Any) -> None:
    page.get_by_role("link", name="Back to the week").click()
