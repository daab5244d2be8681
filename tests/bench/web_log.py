"""The log for the phone: how large it is, and how soon it can be used on a slow one.

Usable means: from the beginning of the navigation to the frame in which the first control has done what it does, in Chromium
with its processor slowed six times (Chrome DevTools Protocol, Emulation.setCPUThrottlingRate).
"""

import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from typing import Any

from setwright.compiler.fitting import fit
from setwright.compiler.pipeline import compile_path
from setwright.targets import web_log

from .trimming import Line

PROGRAMS = Path(__file__).resolve().parents[2] / "programs"
SLOWER, TURNS = 6, 9
# Opens the first session as soon as it can be pressed, and waits for the frame that shows it.
PRESS = """
const waiting = setInterval(() => {
  const link = document.querySelector(".sessions a");
  if (!link) return;
  clearInterval(waiting);
  window.addEventListener("hashchange", () => requestAnimationFrame(() => setTimeout(() => {
    if (document.querySelector(".block")) window.usable = performance.now();
  })));
  link.click();
}, 5);
"""
# What a browser takes for a page that does next to nothing.
BARE = """<!doctype html><title>Bare</title><ul class="sessions"><li><a href="#x">On</a></ul><script>
addEventListener("hashchange", () => { document.body.innerHTML = "<p class=block>On</p>"; })</script>"""


def lines() -> Iterator[Line]:
    """The largest log of the examples, in kB, and the milliseconds until it can be used."""
    folder = Path(tempfile.mkdtemp())
    try:
        pages = dict(_pages())
        largest = max(pages, key=lambda name: len(pages[name].encode()))
        size = len(pages[largest].encode())
        yield "the largest log for a phone of the examples, kB", size / 1000, 150, f"{largest}, of {len(pages)}"
        if shutil.which("chromium") is None:
            return
        path = folder / largest
        path.write_text(pages[largest], "utf-8")
        (folder / "bare.html").write_text(BARE, "utf-8")
        pairs = _times(path, folder / "bare.html")
        ours, bare = zip(*pairs, strict=True)
        behind = f"{min(ours):,.0f} to {max(ours):,.0f} ms, {len(pairs)} turns"
        yield f"it can be used in Chromium, processor slowed {SLOWER} times, after ms", median(ours), 1000, behind
        behind = f"{median(ours):,.0f} ms / {median(bare):,.0f} ms, {len(pairs)} turns"
        yield "the same / a page of one link", median(one / other for one, other in pairs), None, behind
    finally:
        shutil.rmtree(folder)


def _pages() -> Iterator[tuple[str, str]]:
    for name in ("tern-holm", "larch-street", "quay-pilots"):
        project = compile_path(PROGRAMS / name).project
        for program in project.programs:
            yield from web_log.render(program).items()
            for athlete in project.athletes:
                yield from web_log.render(fit(program, athlete).program).items()


def _times(*paths: Path) -> list[tuple[float, ...]]:
    from playwright.sync_api import sync_playwright

    chromium = shutil.which("chromium")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        times = [tuple(_time(browser, path) for path in paths) for _ in range(TURNS)]
        browser.close()
    return times


def _time(browser: Any, path: Path) -> float:
    """Milliseconds by the page's own clock, in a window of its own, in which nothing was kept before."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, is_mobile=True, has_touch=True)
    context.add_init_script(PRESS)
    page = context.new_page()
    context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.goto(path.as_uri())
    while not (took := page.evaluate("window.usable ?? 0")):
        page.wait_for_timeout(50)
    context.close()
    return float(took)
