"""Makes the picture of the README: a page of a handout beside the source that it was made from.

Run from the project's folder, with Chromium and poppler at hand: `python tests/readme_picture.py`
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
from html import escape
from pathlib import Path

EXAMPLE = Path("programs/tern-holm")
PICTURE = Path("tests/sheet-beside-source.png")
FIRST, PAST = '  session main "Main session"', "      may  step-up"  # the lines that the page is made from
WIDTH, HEIGHT = 1520, 790

PAGE = """<!doctype html><meta charset="utf-8"><style>
body {{ margin: 0; background: #e9e9e4; display: flex; gap: 28px; padding: 28px; box-sizing: border-box; height: {height}px; }}
div {{ background: #fff; border: 1px solid #bbb; overflow: hidden; }}
.source {{ flex: 1; }}
pre {{ margin: 0; padding: 40px 22px; font: 13px/2 "DejaVu Sans Mono", monospace; color: #222; }}
b {{ font-weight: 700; color: #000; }} i {{ font-style: normal; color: #707070; }}
.sheet {{ width: 664px; }}
img {{ display: block; width: 100%; }}
</style><div class="source"><pre>{source}</pre></div><div class="sheet"><img src="{page}"></div>"""


def browse(*arguments: str) -> None:
    """Runs Chromium with a profile that is thrown away, and without asking anything of the network."""
    with tempfile.TemporaryDirectory() as profile:
        quiet = "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking"
        quiet += f" --disable-component-update --disable-sync --hide-scrollbars --user-data-dir={profile}"
        subprocess.run(["chromium", "--headless", *quiet.split(), *arguments], check=True, capture_output=True)


def excerpt() -> str:
    """The lines of the source that stand on the page, as HTML: first words strong, comments pale."""
    text = (EXAMPLE / "winter-store-room.coach").read_text("utf-8")
    lines = text[text.index(FIRST) : text.index(PAST)].rstrip().splitlines()
    told = []
    for line in lines:
        html = escape(line[2:], quote=False)
        if not html.lstrip().startswith("|"):
            html = re.sub(r"^( *)([a-z]+)", r"\1<b>\2</b>", html)
            html = re.sub(r"(#.*)", r"<i>\1</i>", html)
        told.append(html)
    return "\n".join(told)


def session_page(sheets: Path) -> Path:
    """The page of the handout on which the session begins, as a picture."""
    pdf = sheets / "handout.pdf"
    browse("--no-pdf-header-footer", f"--print-to-pdf={pdf}", f"file://{sheets}/winter-store-room-handout.html")
    pages = subprocess.run(["pdftotext", "-layout", pdf, "-"], check=True, capture_output=True, text=True).stdout
    number = next(at for at, page in enumerate(pages.split("\f"), 1) if "Main session" in page and "Minute 0" in page)
    only = ["-f", str(number), "-l", str(number), "-singlefile"]
    subprocess.run(["pdftoppm", "-png", "-r", "156", *only, pdf, sheets / "page"], check=True)
    return sheets / "page.png"


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        sheets = Path(folder)
        build = "from setwright.targets.command_line import main; raise SystemExit(main())"
        subprocess.run([sys.executable, "-c", build, "build", EXAMPLE, "--to", sheets], check=True, capture_output=True)
        html = sheets / "picture.html"
        html.write_text(PAGE.format(height=HEIGHT, source=excerpt(), page=session_page(sheets)), "utf-8")
        browse(f"--screenshot={PICTURE.resolve()}", f"--window-size={WIDTH},{HEIGHT}", f"file://{html}")


if __name__ == "__main__":
    main()
