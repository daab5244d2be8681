"""The demo scenarios, each compiled once."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest
from setwright.compiler.pipeline import Result, compile_path

PROGRAMS = Path(__file__).resolve().parents[2] / "programs"


@pytest.fixture(scope="session")
def scenario() -> Callable[[str], Result]:
    """The scenario of a folder."""
    return cache(lambda folder: compile_path(PROGRAMS / folder))
