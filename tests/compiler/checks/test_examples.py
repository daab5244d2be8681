"""Every check has an example that gives it and nothing else, and one beside it that gives nothing."""

from __future__ import annotations

from importlib import import_module
from pkgutil import iter_modules

import pytest
from setwright.compiler import checks
from setwright.compiler.checks import ahead, fitting, logged, names, outgrown, undone
from setwright.compiler.checks.examples import files
from setwright.compiler.checks.registry import (
    ALL,
    ATHLETE_CHECKS,
    LOG_CHECKS,
    MOVEMENT_CHECKS,
    PROGRAM_CHECKS,
    PROJECT_CHECKS,
    RETURN_CHECKS,
    TRAINING_CHECKS,
)
from setwright.compiler.pipeline import compile_texts
from setwright.grammar.diagnostic import Check, Example
from setwright.grammar.problems import CHECKS as GRAMMAR

from ...accept_reference import PAGE, findings, page

AHEAD = ahead.CHECKS
EVERY = (*GRAMMAR, *names.CHECKS, *ALL, *AHEAD)


def codes(check: Check, example: Example) -> list[str]:
    told = findings if check in AHEAD else lambda sources: compile_texts(sources).diagnostics
    return [found.code for found in told(files(example))]


@pytest.mark.parametrize("check", EVERY, ids=lambda check: check.code)
def test_the_wrong_example_gives_its_code_and_no_other(check: Check) -> None:
    found = set(codes(check, check.wrong))
    if check.code == "too-many-problems":  # told after those that are too many
        found.discard("line-not-understood")
    assert found == {check.code}


@pytest.mark.parametrize("check", EVERY, ids=lambda check: check.code)
def test_the_right_example_gives_nothing(check: Check) -> None:
    assert codes(check, check.right) == []


def test_no_code_is_used_twice() -> None:
    assert len({check.code for check in EVERY}) == len(EVERY)


def test_every_check_and_every_function_is_in_its_tuple() -> None:
    found = {
        *ahead.AHEAD_CHECKS,
        *fitting.FITTING_CHECKS,
        outgrown.find_outgrown,
        undone.find_begins_undone,
        *logged.LOGBOOK_CHECKS,
        *PROGRAM_CHECKS,
        *MOVEMENT_CHECKS,
        *ATHLETE_CHECKS,
    }
    found |= {*LOG_CHECKS, *TRAINING_CHECKS, *PROJECT_CHECKS, *RETURN_CHECKS}
    for module in iter_modules(checks.__path__):
        if module.name == "registry":
            continue
        family = import_module(f"{checks.__name__}.{module.name}")
        for name, value in vars(family).items():
            assert not isinstance(value, Check) or value in EVERY, name
            assert not name.startswith("find_") or value in found, name


def test_the_page_of_all_findings_is_as_the_checks_are() -> None:
    assert PAGE.read_text("utf-8") == page(), "run `python -m tests.accept_reference`, and read the difference"
