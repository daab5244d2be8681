"""Letterhead, accent and logo on the sheets, in Chromium as in the text of the page."""

import base64
import re
import shutil
import subprocess
from html.parser import HTMLParser
from pathlib import Path

import pytest
import vl_convert
from setwright.compiler.fitting import fit
from setwright.compiler.pipeline import compile_texts
from setwright.targets import sheets
from setwright.targets.pack import pack

PNG = vl_convert.svg_to_png(
    '<svg xmlns="http://www.w3.org/2000/svg" width="60" height="36"><rect width="60" height="36"/></svg>'
)
SOURCE = """use basics

program evening "Evening"
  letterhead "The hall <b>in</b> Larch Street", "Fridays & more"
  accent red
  logo "hall.png", showing "two \\"larches\\" <script>"
  session main "Main session", 2 a week
    short 6 min by sets
    block all
      must chair-stand 3 x 10
        advance reps by 1 to 15

athlete maren "Maren"
  has chair
  follows evening
""".replace('\\"', "'")


@pytest.fixture(scope="module")
def files() -> dict[str, str]:
    project = compile_texts({"a.coach": SOURCE, "hall.png": PNG}).project
    built = sheets.build(project, project.programs[0]) | pack(fit(project.programs[0], project.athletes[0]))
    return {name: text for name, text in built.items() if isinstance(text, str)}


class Images(HTMLParser):
    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[dict[str, str | None]] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        if tag == "img":
            self.found.append(dict(attributes))


def pages(files: dict[str, str]) -> dict[str, str]:
    """Those that are made of our templates: the log for a phone has a look of its own."""
    return {name: text for name, text in files.items() if name.endswith(".html") and "-log-week" not in name}


def test_every_page_has_the_accent(files: dict[str, str]):
    assert len(pages(files)) >= 6
    for text in pages(files).values():
        style = text[: text.index("</style>")]
        assert re.findall(r"--accent: (#[0-9a-f]{6});", style)[-1] == "#7d1f1a"


def test_every_page_but_the_log_has_the_letterhead_and_the_logo(files: dict[str, str]):
    for name, text in pages(files).items():
        images = Images(text).found
        if name.endswith("-log.html"):
            assert images == [] and "Larch Street" not in text
            continue
        (image,) = images
        assert image["alt"] == "two 'larches' <script>"
        kind, _, data = str(image["src"]).partition(",")
        assert (kind, base64.b64decode(data)) == ("data:image/png;base64", PNG)
        assert "The hall &lt;b&gt;in&lt;/b&gt; Larch Street" in text and "Fridays &amp; more" in text
        assert "img-src data:" in text and "script-src" not in text


def test_markdown_has_the_letterhead_above_the_title(files: dict[str, str]):
    told = [text for name, text in files.items() if name.endswith(".md")]
    assert len(told) >= 4
    for text in told:
        assert text.startswith("The hall \\<b\\>in\\</b\\> Larch Street · Fridays \\& more\n\n# ")


def test_without_a_look_pages_load_no_picture():
    project = compile_texts({"a.coach": re.sub(r"  (letterhead|accent|logo).*\n", "", SOURCE)}).project
    for name, text in sheets.build(project, project.programs[0]).items():
        if name.endswith(".html"):
            assert "<img" not in str(text) and "img-src" not in str(text) and 'class="letterhead"' not in str(text)


@pytest.mark.skipif(shutil.which("chromium") is None, reason="Chromium is not installed")
def test_chromium_shows_the_logo(files: dict[str, str], tmp_path: Path):
    """Its policy lets the picture in, which is as large as it is."""
    page = files["maren-evening-handout.html"].replace("</main>", "</main><p id=size></p>")
    page = page.replace("default-src 'none'", "default-src 'none'; script-src 'unsafe-inline'")
    tell = "<script>const i=document.images[0];document.getElementById('size').textContent="
    tell += "`${i.naturalWidth}x${i.naturalHeight} ${getComputedStyle(document.querySelector('h1')).color}`</script>"
    (tmp_path / "page.html").write_text(page.replace("</body>", f"{tell}</body>"), "utf-8")
    words = ["chromium", "--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={tmp_path / 'profile'}"]
    words = [*words, "--virtual-time-budget=2000", "--dump-dom", (tmp_path / "page.html").as_uri()]
    dump = subprocess.run(words, capture_output=True, timeout=120, check=True)
    assert b'<p id="size">60x36 rgb(125, 31, 26)</p>' in dump.stdout
