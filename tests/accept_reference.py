"""Writes the page of all findings anew: `python -m tests.accept_reference`. Read the difference before it is kept."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from setwright.compiler.checks import FAMILIES, names
from setwright.compiler.checks.reference import reference
from setwright.compiler.pipeline import compile_texts
from setwright.grammar.diagnostic import Diagnostic
from setwright.grammar.problems import CHECKS

PAGE = Path(__file__).parents[1] / "grammar" / "DIAGNOSTICS.md"


def page() -> str:
    """The page as it must be."""

    def compiled(texts: dict[str, str | bytes]) -> Sequence[Diagnostic]:
        return compile_texts(texts).diagnostics

    return reference((("The text itself", CHECKS), ("Names and words", names.CHECKS), *FAMILIES), compiled)


if __name__ == "__main__":
    PAGE.write_text(page(), "utf-8")
