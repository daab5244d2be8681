"""Writes the page of all findings anew: `python -m tests.accept_reference`. Read the difference before it is kept."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from setwright.compiler.checks import ahead, names
from setwright.compiler.checks.reference import reference
from setwright.compiler.checks.registry import FAMILIES
from setwright.compiler.horizon import outlook
from setwright.compiler.pipeline import compile_texts
from setwright.grammar.diagnostic import Diagnostic
from setwright.grammar.problems import CHECKS

PAGE = Path(__file__).parents[1] / "grammar" / "DIAGNOSTICS.md"


def page() -> str:
    """The page as it must be."""

    families = (("The text itself", CHECKS), ("Names and words", names.CHECKS), *FAMILIES)
    return reference((*families, ("The weeks to come", ahead.CHECKS)), findings)


def findings(texts: dict[str, str | bytes]) -> Sequence[Diagnostic]:
    """All findings in sources; where there are none, those of a look at the weeks to come, of each athlete."""
    result = compile_texts(texts)
    if result.diagnostics:
        return result.diagnostics
    athletes = result.project.athletes or (None,)
    looks = [outlook(program, athlete) for program in result.project.programs for athlete in athletes]
    return tuple(one for look in looks for one in ahead.ahead_findings(result.project, look))


if __name__ == "__main__":
    PAGE.write_text(page(), "utf-8")
