"""Every check has an example that gives it and nothing else, and one beside it that gives nothing."""

from __future__ import annotations

import pytest

from setwright.compiler.checks import ALL, names
from setwright.compiler.pipeline import compile_texts
from setwright.grammar.diagnostic import Check
from setwright.grammar.problems import CHECKS as GRAMMAR

EVERY = (*GRAMMAR, *names.CHECKS, *ALL)


def codes(example: str | dict[str, str | bytes]) -> list[str]:
    texts = example if isinstance(example, dict) else {"program.coach": example}
    return [found.code for found in compile_texts(texts).diagnostics]


@pytest.mark.parametrize("check", EVERY, ids=lambda check: check.code)
def test_the_wrong_example_gives_its_code_and_no_other(check: Check) -> None:
    found = set(codes(check.wrong))
    if check.code == "too-many-problems":  # told after those that are too many
        found.discard("line-not-understood")
    assert found == {check.code}


@pytest.mark.parametrize("check", EVERY, ids=lambda check: check.code)
def test_the_right_example_gives_nothing(check: Check) -> None:
    assert codes(check.right) == []


def test_no_code_is_used_twice() -> None:
    assert len({check.code for check in EVERY}) == len(EVERY)
