"""The page of all findings: what each means, a source that gives it as a coach sees it, and one that does not."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from difflib import unified_diff
from itertools import islice

from ...grammar.diagnostic import Check, Diagnostic, Example
from ..pictures import read_picture
from ..render import render
from .examples import files

Compile = Callable[[dict[str, str | bytes]], Sequence[Diagnostic]]
Family = tuple[str, Sequence[Check]]

_INTRODUCTION = """# Every finding

Made from the checks themselves; do not edit. An **error** stops a build. A **warning** tells of something that is probably
not meant, **advice** of something that could be better; both can be silenced where they stand, in sight and with a reason:
`allow movement-without-cue because "The crew know it."`
"""


def reference(families: Iterable[Family], compile_texts: Compile) -> str:
    """The page as Markdown: a list of the codes by family, then a section for each."""
    told = tuple(families)
    contents = [
        f"- {title}: " + ", ".join(f"[{check.code}](#{check.code})" for check in checks) for title, checks in told
    ]
    sections = [
        part
        for title, checks in told
        for part in (f"## {title}", *(_section(check, compile_texts) for check in checks))
    ]
    return "\n\n".join([_INTRODUCTION.strip(), "\n".join(contents), *sections]) + "\n"


def _section(check: Check, compile_texts: Compile) -> str:
    seen = [found for found in compile_texts(files(check.wrong)) if found.code == check.code]
    return "\n\n".join(
        [
            f"### {check.code}",
            f"**{check.severity.capitalize()}.** {check.title}. {check.explain}",
            _fenced(_shown(check.wrong), "coach"),
            _fenced(render(seen, colour=False), "text"),
            "Without the finding:",
            _fenced(_changed(check), "diff"),
        ]
    )


def _shown(example: Example) -> str:
    """An example as text, one file after the other where there are several."""
    made = files(example)
    if len(made) == 1:
        return _readable(next(iter(made.values())))
    return "\n".join(f"# {name}\n{_readable(text)}" for name, text in made.items())


def _readable(text: str | bytes) -> str:
    """Text of which nothing unseen is lost on paper, cut where it is very long; of a spreadsheet, which is none, its rows."""
    if isinstance(text, bytes) and text.startswith(b"PK"):
        return _rows(text)
    if isinstance(text, bytes) and read_picture(text) is not None:
        return f"(a picture of {len(text):,} bytes)\n"
    decoded = text.decode("utf-8", "backslashreplace") if isinstance(text, bytes) else text
    shown = "".join(
        character if character in "\n" or character.isprintable() else character.encode("unicode_escape").decode()
        for character in decoded
    )
    lines = [line if len(line) <= 160 else f"{line[:120]} ... ({len(line)} characters)" for line in shown.splitlines()]
    if len(lines) > 40:
        lines = [*lines[:20], f"... ({len(lines) - 20} lines more)"]
    return "\n".join(lines) + "\n"


def _rows(spreadsheet: bytes) -> str:
    import io

    from python_calamine import load_workbook

    book = load_workbook(io.BytesIO(spreadsheet))
    sheets = ((name, book.get_sheet_by_name(name).to_python()) for name in book.sheet_names)
    return "".join(f"({name})\n" + "".join(f"{','.join(map(str, row))}\n" for row in rows) for name, rows in sheets)


def _changed(check: Check) -> str:
    """What differs in the right example, with a line around it."""
    lines = unified_diff(_shown(check.wrong).splitlines(), _shown(check.right).splitlines(), n=1, lineterm="")
    return "\n".join("..." if line.startswith("@@") else line for line in islice(lines, 3, None))


def _fenced(text: str, language: str) -> str:
    fence = "````" if "```" in text else "```"
    return f"{fence}{language}\n{text.rstrip()}\n{fence}"
