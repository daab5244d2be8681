"""What is typed on the phone is kept there, and comes back to the coach as the same log."""

import os
import signal
import subprocess
from collections.abc import Callable
from pathlib import Path
from time import sleep
from typing import Any

import pytest
from setwright.compiler.model import Log
from setwright.compiler.pipeline import Result
from setwright.targets import web_log

from .conftest import back, open_block, open_session, set_of

NOTE = '=SUM(A1;B2) and "quoted", with a comma\nשלום, </script> & <b>not bold</b>'


def fill_in(page: Any) -> None:
    """A session and a walk with figures of every kind, decimals with a comma among them."""
    open_session(page, "Main session, Monday", "Legs")
    page.get_by_label("Date").fill("2026-06-17")
    for number, figure in enumerate(("6", "6", "5"), start=1):
        set_of(page, number, "Split squat").fill(figure)
    page.get_by_label("Lowering, in seconds, Split squat").fill("2.5")
    page.get_by_role("button", name="All sets as asked: Goblet squat").click()
    page.get_by_label("Weight in kg, Goblet squat").fill("8,25")
    page.get_by_role("button", name="One set more: Goblet squat").click()
    set_of(page, 4, "Goblet squat").fill("3")
    open_block(page, "Push and pull")
    set_of(page, 1, "Push-up", what="Round").fill("11")
    page.get_by_label("Form, Push-up").select_option("toes")
    open_block(page, "Balance")
    set_of(page, 2, "Jerrycan carry", "metres").fill("17,5")
    page.get_by_label("Minutes it took").fill("58,5")
    page.get_by_label("How hard it was").fill("7.5")
    page.get_by_label("How it felt").fill(NOTE)
    page.get_by_role("button", name="I am done").click()
    open_session(page, "Daily walk, Tuesday")
    page.get_by_label("Date").fill("2026-06-18")
    page.get_by_label("How far, in km, Walk").fill("2,4")
    page.get_by_label("How long, minutes, Walk").fill("31")
    page.get_by_label("and seconds, Walk").fill("5")
    back(page)


TEXT = f"""use "crew.coach"
use "winter-store-room.coach"

log maren on winter-store-room, revision 3

2026-06-17 main, 58.5 min, rpe 7.5
  split-squat    lower 2.5 s  6 6 5
  goblet-squat   8.25 kg  6 6 6 3
  push-up        toes  11
  jerrycan-carry 15 kg  17.5 m
  | {NOTE.splitlines()[0]}
  | {NOTE.splitlines()[1]}
2026-06-18 walk
  walk 2.4 km 31:05
"""


def saved(page: Any) -> tuple[str, bytes]:
    with page.expect_download() as download:
        page.get_by_role("button", name="Save as a file").click()
    return download.value.suggested_filename, Path(download.value.path()).read_bytes()


def test_the_saved_file_reads_as_the_same_log(visit: Callable, log_page: Path, read: Callable[..., Log]):
    page = visit(log_page)
    fill_in(page)
    name, content = saved(page)
    assert name == "maren-winter-store-room-log-2026-06-17.csv"
    assert "saved as maren-winter-store-room-log-2026-06-17.csv" in page.locator(".told").inner_text()
    assert read(name, content) == read("text.coach", TEXT)


def test_the_text_to_copy_is_the_file(visit: Callable, log_page: Path):
    page = visit(log_page)
    fill_in(page)
    page.get_by_text("Show the log as text").first.click()
    assert page.get_by_label("Show the log as text").input_value() == saved(page)[1].decode("utf-8-sig").replace(
        "\r", ""
    )


def test_the_share_sheet_gets_the_file(visit: Callable, log_page: Path, read: Callable[..., Log]):
    """A stand-in for the phone's share sheet, which no browser without a screen has."""
    page = visit(log_page, before="""
        navigator.canShare = () => true;
        navigator.share = async ({ files }) => { window.shared = [files[0].name, files[0].type, await files[0].text()]; };
    """)  # fmt: skip
    fill_in(page)
    page.get_by_role("button", name="Send the log").click()
    page.get_by_text("The log was handed on.").wait_for()
    name, kind, text = page.evaluate("window.shared")
    assert (name, kind) == ("maren-winter-store-room-log-2026-06-17.csv", "text/csv")
    assert read(name, text) == read("text.coach", TEXT)


def test_a_share_sheet_that_fails_says_so(visit: Callable, log_page: Path):
    page = visit(log_page, before="""
        navigator.canShare = () => true;
        navigator.share = async () => { throw new DOMException("no", "NotAllowedError"); };
    """)  # fmt: skip
    fill_in(page)
    page.get_by_role("button", name="Send the log").click()
    page.get_by_text("Sending did not work.").wait_for()


def test_a_blank_log_is_not_sent(visit: Callable, log_page: Path):
    page = visit(log_page)
    page.get_by_role("button", name="Save as a file").click()
    assert page.locator(".told").inner_text() == "Nothing is written down yet."


def test_what_cannot_be_read_is_told_before_it_is_sent(visit: Callable, log_page: Path):
    page = visit(log_page)
    open_session(page, "Main session, Monday", "Legs")
    field = set_of(page, 1, "Goblet squat")
    field.fill("many")
    field.press("Tab")
    assert field.get_attribute("aria-invalid") == "true"
    assert page.locator(f"#{field.get_attribute('aria-describedby')}").inner_text() == "Write a figure, such as 6."
    back(page)
    saved(page)  # it goes all the same: whatever was typed is kept
    assert (
        "look at this again before you send: Goblet squat in Main session · Monday."
        in page.locator(".told").inner_text()
    )


def test_a_reload_keeps_everything(visit: Callable, log_page: Path):
    page = visit(log_page)
    fill_in(page)
    before = saved(page)
    page.reload()
    page.wait_for_selector("#page .send")
    assert saved(page) == before
    open_session(page, "Main session, Monday", "Legs")
    assert set_of(page, 3, "Split squat").input_value() == "5"
    assert page.get_by_label("How it felt").input_value() == NOTE
    assert page.get_by_label("Date").input_value() == "2026-06-17"


def start(chromium: str, profile: Path) -> tuple[subprocess.Popen[bytes], str]:
    """A browser of its own process group, with its address for tools."""
    found = profile / "DevToolsActivePort"
    found.unlink(missing_ok=True)
    quiet = "--headless --no-sandbox --disable-gpu --no-first-run --remote-debugging-port=0"
    process = subprocess.Popen(
        [chromium, *quiet.split(), f"--user-data-dir={profile}"],
        start_new_session=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )  # fmt: skip
    for _ in range(300):
        if found.exists() and found.read_text().strip():
            return process, f"http://127.0.0.1:{found.read_text().split()[0]}"
        sleep(0.1)
    raise AssertionError("the browser did not start")


def kill(process: subprocess.Popen[bytes]) -> None:
    os.killpg(process.pid, signal.SIGKILL)
    process.wait()


def test_a_killed_browser_keeps_everything(chromium: str, playwright: Any, log_page: Path, tmp_path: Path):
    """Killed a tenth of a second after the last key, with no time left to tidy up."""

    def opened(address: str) -> Any:
        page = playwright.chromium.connect_over_cdp(address).contexts[0].new_page()
        page.goto(log_page.as_uri())
        open_session(page, "Main session, Monday", "Legs")
        return page

    process, address = start(chromium, tmp_path)
    try:
        page = opened(address)
        set_of(page, 1, "Goblet squat").press_sequentially("17")
        page.wait_for_timeout(100)
    finally:
        kill(process)
    process, address = start(chromium, tmp_path)
    try:
        assert set_of(opened(address), 1, "Goblet squat").input_value() == "17"
    finally:
        kill(process)


REFUSED = "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } });"
NO_DISK = "Object.defineProperty(window, 'indexedDB', { get() { throw new DOMException('no', 'SecurityError'); } });"


def test_a_browser_that_keeps_nothing_says_so(visit: Callable, log_page: Path, read: Callable[..., Log]):
    page = visit(log_page, before=REFUSED + NO_DISK)
    assert "does not let the page keep anything" in page.get_by_role("alert").inner_text()
    fill_in(page)
    assert read(*saved(page)) == read("text.coach", TEXT)


@pytest.mark.parametrize("refused", [REFUSED, NO_DISK])
def test_one_of_two_places_to_keep_is_enough(refused: str, visit: Callable, log_page: Path):
    page = visit(log_page, before=refused)
    open_session(page, "Main session, Monday", "Legs")
    set_of(page, 1, "Goblet squat").fill("17")
    page.wait_for_timeout(200)
    page.reload()
    page.locator(".block h2 button", has_text="Legs").click()
    assert set_of(page, 1, "Goblet squat").input_value() == "17"
    assert page.get_by_role("alert").inner_text() == ""


def test_a_device_that_is_full_says_so(visit: Callable, log_page: Path):
    page = visit(log_page, before=NO_DISK)
    page.evaluate("void (Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); })")
    open_session(page, "Main session, Monday", "Legs")
    set_of(page, 1, "Goblet squat").fill("17")
    page.get_by_text("does not let the page keep anything").wait_for()


def test_a_session_can_be_corrected_and_its_last_figures_are_shown(
    visit: Callable, log_page: Path, read: Callable[..., Log]
):
    page = visit(log_page)
    fill_in(page)
    assert "done" in page.get_by_role("link", name="Main session, Monday").inner_text()
    open_session(page, "Main session, Wednesday", "Legs")
    told = page.locator("article", has_text="Goblet squat").locator(".last").inner_text()
    assert told == "Last time (17 June): 6 6 6 3, with 8,25 kg"
    back(page)
    open_session(page, "Main session, Monday", "Legs")
    set_of(page, 3, "Split squat").fill("6")
    back(page)
    assert read(*saved(page)).sessions[0].entries[0].results == (6, 6, 6)


def test_emptying_asks_first(visit: Callable, log_page: Path):
    page = visit(log_page)
    fill_in(page)
    before = saved(page)
    page.get_by_role("button", name="Empty the log").click()
    assert page.evaluate("document.activeElement.textContent") == "No, keep it"
    page.keyboard.press("Escape")
    assert saved(page) == before
    page.get_by_role("button", name="Empty the log").click()
    page.get_by_role("button", name="Yes, empty it").click()
    page.get_by_role("button", name="Save as a file").click()
    assert page.locator(".told").inner_text() == "Nothing is written down yet."
    page.reload()
    page.wait_for_selector("#page .send")
    assert "not begun" in page.get_by_role("link", name="Main session, Monday").inner_text()


def test_one_session_can_be_emptied(visit: Callable, log_page: Path):
    page = visit(log_page)
    fill_in(page)
    open_session(page, "Main session, Monday")
    page.get_by_role("button", name="Empty this session").click()
    page.get_by_role("button", name="Yes, empty it").click()
    back(page)
    assert b"2026-06-17" not in saved(page)[1] and b"2026-06-18" in saved(page)[1]


def test_a_shorter_version(visit: Callable, log_page: Path, read: Callable[..., Log]):
    page = visit(log_page)
    open_session(page, "Main session, Friday", "Legs")
    set_of(page, 3, "Split squat").fill("6")
    page.get_by_label("Shorter: at most 25 minutes").check()
    page.get_by_label("Date").fill("2026-06-19")
    assert page.get_by_label("Shorter: at most 25 minutes").is_checked()
    assert set_of(page, 3, "Split squat").input_value() == "6"  # what was typed stays in sight, and counts
    back(page)
    (session,) = read(*saved(page)).sessions
    assert session.short is not None and session.short.base == 25 * 60
    assert [entry.movement for entry in session.entries] == ["split-squat"]


def test_two_windows_of_the_same_log_know_of_each_other(visit: Callable, log_page: Path):
    page = visit(log_page)
    other = page.context.new_page()
    other.goto(log_page.as_uri())
    other.wait_for_selector("#page .send")
    open_session(page, "Main session, Monday", "Legs")
    set_of(page, 1, "Goblet squat").fill("17")
    other.get_by_text("begun, ").first.wait_for()


def test_a_log_of_nobody_asks_for_the_name(visit: Callable, station: Result, read: Callable[..., Log], tmp_path: Path):
    program = max(station.project.programs, key=lambda one: one.revision)
    ((name, text),) = web_log.render(program).items()
    path = tmp_path / name
    path.write_text(text, "utf-8")
    page = visit(path)
    open_session(page, "Main session, First session", "Legs")
    page.get_by_label("Date").fill("2026-06-17")
    page.get_by_role("radio", name="Chair stand").check()
    set_of(page, 1, "Chair stand").fill("12")
    back(page)
    page.get_by_role("button", name="Save as a file").click()
    assert page.locator(".told").inner_text().startswith("Write your short name first.")
    page.get_by_label("Your short name").fill(" Maren; ")
    log = read(*saved(page))
    assert log.athlete == "maren"
    assert [(one.movement, one.results) for one in log.sessions[0].entries] == [("chair-stand", (12,))]


@pytest.mark.parametrize(
    "found", ["{", "null", '{"held": null}', '{"held": {"main/0": {}, "main/1": {"date": "2026-06-19"}}}']
)
def test_what_was_kept_and_is_damaged_stops_nothing(found: str, visit: Callable, log_page: Path):
    page = visit(log_page)
    page.evaluate("found => localStorage.setItem(plan.key, found)", found)
    page.reload()
    for day in ("Monday", "Wednesday"):
        open_session(page, f"Main session, {day}", "Legs")
        set_of(page, 1, "Goblet squat").fill("6")
        back(page)
    assert page.get_by_role("link", name="Main session, Wednesday").inner_text().count("begun") == 1


def test_where_no_script_runs_the_page_says_so(browser: Any, log_page: Path):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(log_page.as_uri())
    assert page.get_by_text("this page cannot run").is_visible() and page.get_by_text("Stop at once").first.is_visible()
    context.close()
