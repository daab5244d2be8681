"""One folder a case: sources in, and beside them what the coach is told and, where a folder asks for it, what is printed.

`python -m tests.cases` writes what comes out now over what is expected: read the difference before you commit it.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from setwright.compiler.pipeline import Result, compile_texts
from setwright.compiler.render import render
from setwright.targets.sheets import build

HERE = Path(__file__).parent
CASES = sorted(path for path in HERE.iterdir() if list(path.glob("*.coach")))


def compiled(case: Path) -> Result:
    return compile_texts({path.name: path.read_bytes() for path in sorted(case.glob("*.coach"))})


def told(case: Path) -> str:
    return render(compiled(case).diagnostics, colour=False)


def printed(case: Path) -> dict[str, str | bytes]:
    """The sheets of which an expected text lies beside the case."""
    project = compiled(case).project
    wanted = {path.name for path in (case / "printed").glob("*")}
    return {
        name: text
        for program in project.programs
        if wanted
        for name, text in build(project, program).items()
        if name in wanted
    }


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_what_is_told(case: Path):
    assert told(case) == (case / "told.txt").read_text("utf-8")


@pytest.mark.parametrize("case", [case for case in CASES if (case / "printed").exists()], ids=lambda case: case.name)
def test_what_is_printed(case: Path):
    texts = printed(case)
    assert texts
    for name, text in texts.items():
        assert text == (case / "printed" / name).read_text("utf-8"), name


def test_every_case_is_complete():
    assert len(CASES) >= 6
    for case in CASES:
        assert (case / "told.txt").is_file(), case
